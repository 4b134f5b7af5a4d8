package tag

import (
	"strings"

	"feltpage/nlp/lemma"
)

// back gives the place of the last token before i that is no adverb, nor "all"
// or "both" after an auxiliary, or -1. It looks at most eight tokens back.
func (m *mender) back(i int) int {
	n := 0
	for i--; i >= 0; i-- {
		t := &m.tokens[i]
		if n++; n > 8 {
			return -1
		}
		floats := i > 0 && (t.Lower == "all" || t.Lower == "both") && (is[m.tokens[i-1].Lower] || has[m.tokens[i-1].Lower])
		if t.Tag != "RB" && t.Tag != "RBR" && !floats {
			break
		}
	}
	return i
}

func (m *mender) in(i int) bool { return i >= 0 && i < len(m.tokens) }

func (m *mender) word(i int) string {
	if m.in(i) {
		return m.tokens[i].Lower
	}
	return ""
}

func (m *mender) tag(i int) string {
	if m.in(i) {
		return m.tokens[i].Tag
	}
	return ""
}

func (m *mender) noun(i int) bool { return strings.HasPrefix(m.tag(i), "NN") }

func (m *mender) verb(i int) bool {
	for n := 0; n < 8 && m.tag(i) == "RB"; n++ {
		i++
	}
	t := m.tag(i)
	return t == "MD" || t == "VBD" || t == "VBZ" || t == "VBP"
}

func (m *mender) nominative(i int) bool { return m.in(i) && nominatives[m.tokens[i].Lower] }

// opened reports a determiner, possessor or adjective right before i.
func (m *mender) opened(i int) bool {
	t := m.tag(i - 1)
	return t == "DT" || t == "PRP$" || t == "POS" || strings.HasPrefix(t, "JJ") || t == "CD"
}

// closedNoun reports that no noun and no adjective stands at i, so that what
// comes before ends its phrase.
func (m *mender) closedNoun(i int) bool {
	t := m.tag(i)
	return !strings.HasPrefix(t, "NN") && !strings.HasPrefix(t, "JJ") && t != "VBN" && t != "VBG" && t != "CD" && t != "POS"
}

// noAdjective reports a word taken for a comparative or superlative of what is
// no adjective.
func (m *mender) noAdjective(w, tag string) bool {
	base := lemma.Of(w, tag)
	if base == "good" || base == "bad" || base == "much" || base == "little" || base == "far" {
		return false
	}
	use, ok := lemma.UseOf(base)
	return (!ok || use.Adjective < 0) && (base == w || len(w) < 8)
}

func (m *mender) capital(i int) bool {
	c := m.d.Text[m.tokens[i].Span.Start]
	return c >= 'A' && c <= 'Z'
}

// clauseStart reports the first word of a sentence or quote.
func (m *mender) clauseStart(i int) bool {
	return i == 0 || m.tag(i-1) == "``" || i == 1 && m.tag(0) == "CC"
}

// inverted reports an auxiliary before the subject at p, and nothing before it
// that could be its subject: "Did he", "Why should she".
func (m *mender) inverted(p int) bool {
	q := p - 1
	if m.word(q) == "n't" || m.word(q) == "not" {
		q--
	}
	if q < 0 || !does[m.word(q)] && m.tag(q) != "MD" {
		return false
	}
	b := m.tag(q - 1)
	return b == "" || b == "``" || b == "," || b == "CC" || b == "WRB" || b == "WP" || b == "RB" || b == ":" || b == "UH" || b == "''"
}

// helpedBefore reports an auxiliary before the subject at p: "Had he wept".
func (m *mender) helpedBefore(p int) bool {
	return has[m.word(p-1)] || is[m.word(p-1)]
}

// causeBefore reports "saw", "made" and the like before a short phrase that
// ends at i.
func (m *mender) causeBefore(i int) bool {
	for j := i - 1; j >= 0 && j >= i-5; j-- {
		if causes[m.word(j)] {
			return true
		}
		if t := m.tag(j); !strings.HasPrefix(t, "NN") && !strings.HasPrefix(t, "JJ") && t != "DT" && t != "PRP$" && t != "CD" {
			return false
		}
	}
	return false
}

// askedBefore reports "did" at the start of a clause before a short phrase
// that ends at i, with others joined to it: "did the boy and the gull on the
// wall".
func (m *mender) askedBefore(i int) bool {
	for j := i - 1; j >= 0 && j >= i-9; j-- {
		if does[m.word(j)] || m.tag(j) == "MD" {
			b := m.tag(j - 1)
			return b == "" || b == "``" || b == "," || b == "WRB" || b == "WP" || b == "CC"
		}
		switch t := m.tag(j); t {
		case "DT", "PRP$", "CD", "CC", "IN", "POS":
		default:
			if !strings.HasPrefix(t, "NN") && !strings.HasPrefix(t, "JJ") {
				return false
			}
		}
	}
	return false
}

func isVerb(base string) bool {
	u, ok := lemma.UseOf(base)
	return ok && u.Verb >= 0
}

func lemmaIsCommon(base string) bool {
	u, ok := lemma.UseOf(base)
	return ok && u.Verb > 0
}

func stemIsVerb(w string) bool {
	base := lemma.Of(w, "VBG")
	return base != w && isVerb(base)
}
