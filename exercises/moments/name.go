package moments

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// indefinite words stand for somebody whom the text does not tell apart.
var indefinite = set("someone somebody anyone anybody everyone everybody nobody one another others",
	"no one", "the others", "the other", "the rest", "the last", "the first", "the latter", "the former", "all", "both")

var (
	articles    = set("the a an such some")
	determiners = set("the this that these those his her its their my your our all both two three four five six seven eight nine ten twelve")
)

func set(words string, phrases ...string) map[string]bool {
	m := map[string]bool{}
	for _, w := range append(strings.Fields(words), phrases...) {
		m[w] = true
	}
	return m
}

// mentions is how often a thing or an animal that never speaks must be spoken of
// to count as somebody: more often than the oyster on a plate.
const mentions = 4

// somebody reports whether a character is one whom an exercise can be about: it
// has a name or a description that tells it apart, and if it is a thing or an
// animal, it speaks or the story keeps coming back to it.
func (c *chooser) somebody(id int) bool {
	x := c.a.Characters[id]
	name := strings.ToLower(x.Name)
	if name == "" || indefinite[name] {
		return false
	}
	if (x.Kind == nlp.Group || x.Kind == nlp.Thing) && bare(x.Name) {
		return false // "women", "dark room"
	}
	if x.Kind != nlp.Thing && x.Kind != nlp.Animal || len(x.Mentions) >= mentions {
		return true
	}
	return slices.ContainsFunc(c.a.Quotes, func(q nlp.Quote) bool { return q.Speaker == id })
}

// bare reports whether a name is a common noun without a determiner.
func bare(name string) bool {
	first, _, _ := strings.Cut(name, " ")
	if determiners[strings.ToLower(first)] || articles[strings.ToLower(first)] || strings.Contains(name, "'s ") || strings.Contains(name, "\u2019s ") {
		return false
	}
	return name == strings.ToLower(name)
}

// called gives what to call a character beside a passage: its name where the
// passage has it, else the best that the passage calls it, a proper name before
// "the girl" before "his daughter" before "a girl". Words that give a feeling
// away are left out: "the sad cousin" is "the cousin".
func (c *chooser) called(who int, passage nlp.Span) string {
	x := c.a.Characters[who]
	best, bestRank := x.Name, 9
	if x.Narrator && x.Name == "I" {
		return x.Name
	}
	for _, m := range x.Mentions {
		if m.Pronoun || !passage.Contains(m.Span) {
			continue
		}
		text := strings.Join(strings.Fields(m.Span.Of(c.a.Doc.Text)), " ")
		r := rank(text)
		if strings.EqualFold(text, x.Name) {
			text, r = x.Name, 0
		}
		if r < bestRank {
			best, bestRank = text, r
		}
	}
	return plainName(best, x.Kind, c.t)
}

func rank(name string) int {
	first, _, more := strings.Cut(name, " ")
	r, _ := utf8.DecodeRuneInString(name)
	switch f := strings.ToLower(first); {
	case !more && len(name) < 2:
		return 8
	case f == "my" || f == "your" || f == "our" || f == "that" || f == "this":
		return 7
	case f == "the":
		return 2
	case determiners[f]:
		return 3
	case articles[f]:
		return 4
	case unicode.IsUpper(r):
		return 1
	}
	return 5
}

// plainName makes a name fit to stand inside a sentence.
func plainName(name, kind string, t *feelings.Table) string {
	words := strings.Fields(name)
	if len(words) == 0 {
		return name
	}
	first := strings.ToLower(words[0])
	if first == "such" && len(words) > 1 && articles[strings.ToLower(words[1])] {
		words, first = words[1:], strings.ToLower(words[1])
	}
	switch {
	case articles[first]:
		words[0] = "the"
	case determiners[first]:
		words[0] = first
	case bare(name) && kind != nlp.Group && kind != nlp.Thing:
		words = append([]string{"the"}, words...)
	}
	if t != nil && words[0] == "the" {
		words = withoutFeelings(words, t)
	}
	return strings.Join(words, " ")
}

// withoutFeelings leaves out the describing words that tell a feeling, with the
// "and" that joins them: "the tired and old king" is "the old king". The first
// word and the last stay, and so does a name ("the Happy Prince").
func withoutFeelings(words []string, t *feelings.Table) []string {
	kept := words[:1:1]
	for i := 1; i < len(words); i++ {
		w := words[i]
		if r, _ := utf8.DecodeRuneInString(w); i == len(words)-1 || unicode.IsUpper(r) || !tellsFeeling(t, w) {
			kept = append(kept, w)
			continue
		}
		switch {
		case kept[len(kept)-1] == "and":
			kept = kept[:len(kept)-1]
		case i+2 < len(words) && words[i+1] == "and":
			i++
		}
	}
	return kept
}

// tellsFeeling reports whether a word of a description would give the answer
// away.
func tellsFeeling(t *feelings.Table, w string) bool {
	for _, x := range t.FamilyOf(strings.Trim(w, ",;")) {
		if x.Weight >= 0.5 {
			return true
		}
	}
	return false
}
