package characters

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// addNominal adds a name or a described somebody; what stands for nobody is
// added too where a pronoun might else be taken for it, and dropped later.
func (r *reading) addNominal(first, end, head, phrase, owner int) {
	m := r.blank(first, end, head)
	m.phrase, m.kind = phrase, nominal
	tok := &r.d.Tokens[head]
	m.lemma = lemmaOf(tok)
	if k := r.nameOnly(first, head); k != nlp.None {
		// "Nilo bent" read as one phrase: the name is meant.
		m.end, m.head, head = k+1, k, k
		tok = &r.d.Tokens[head]
		m.lemma, m.place = lemmaOf(tok), roleSubject
	}
	m.plural = strings.HasSuffix(tok.Tag, "S") && strings.HasPrefix(tok.Tag, "NN")
	if owner != nlp.None {
		m.place, m.verb = rolePossessor, r.roleVerb[owner]
	}
	r.place(&m)
	m.noun, m.known = r.lex.noun(m.lemma)
	if !m.known && m.plural {
		if n, ok := r.lex.nouns[tok.Lower]; ok { // "people", "parents"
			m.noun, m.known, m.lemma = n, true, tok.Lower
		}
	}
	from := r.readBefore(&m)
	r.readName(&m, from)
	if m.gender == "" {
		m.gender = m.noun.gender
	}
	if m.gender == "" && m.kind == nominal {
		for _, w := range m.mods { // "a woman servant"
			if n := r.lex.nouns[w]; n.does == age && n.gender != "" {
				m.gender = n.gender
			}
		}
	}
	if m.noun.kind == nlp.Group && m.kind == nominal {
		m.plural = true
	}
	if m.kind == nominal && strings.HasPrefix(tok.Tag, "JJ") {
		m.lemma = tok.Lower
	}
	r.push(m)
}

// nameOnly gives the last token of the name that a phrase without determiner
// begins with, where its head is a small word that names nobody.
func (r *reading) nameOnly(first, head int) int {
	t := first
	for t < head && strings.HasPrefix(r.d.Tokens[t].Tag, "NNP") && r.capital(t) {
		t++
	}
	if t == first || t < head || r.capital(head) {
		return nlp.None
	}
	if n := r.lex.nouns[lemmaOf(&r.d.Tokens[head])]; n.kind != "" {
		return nlp.None
	}
	return t - 1
}

func lemmaOf(t *nlp.Token) string {
	if t.Lemma != "" {
		return strings.ToLower(t.Lemma)
	}
	return t.Lower
}

var determiners = map[string]determiner{
	"the": definite, "this": definite, "that": definite, "these": definite, "those": definite, "both": definite, "yon": definite, "yonder": definite,
	"a": indefinite, "an": indefinite, "some": indefinite, "any": indefinite, "no": indefinite, "one": indefinite, "every": indefinite, "each": indefinite,
	"many": many, "several": many, "few": many, "two": many, "three": many, "four": many, "five": many, "six": many, "seven": many,
	"eight": many, "nine": many, "ten": many, "eleven": many, "twelve": many, "all": many, "such": indefinite,
	"another": another, "other": bare, "what": indefinite, "which": definite, "either": definite, "neither": definite,
}

// readBefore reads the words before the head: determiner, numbers and
// adjectives. It gives the first token that is not a determiner.
func (r *reading) readBefore(m *mention) int {
	from := m.first
	for t := m.first; t < m.head; t++ {
		tok := &r.d.Tokens[t]
		w := tok.Lower
		if _, ok := pronounForms[w]; ok || tok.Tag == "POS" || w == "'s" || w == "'" {
			m.det = possessed
			m.mods = m.mods[:0]
			from = t + 1
			continue
		}
		if det, ok := determiners[w]; ok {
			if t == m.first || m.det == bare && t == from {
				m.nobody = w == "no"
				m.det = det
				from = t + 1
			} else if det == many && m.det != indefinite || det == many {
				m.mods = append(m.mods, w)
				from = t + 1
			}
			if w == "other" {
				m.mods = append(m.mods, w)
			}
			if det == many && w != "one" {
				m.plural = m.plural || strings.HasPrefix(r.d.Tokens[m.head].Tag, "CD")
			}
			continue
		}
		if strings.HasPrefix(tok.Tag, "NN") && word(w) {
			m.compound = append(m.compound, w)
		}
		if word(w) {
			m.mods = append(m.mods, w)
		}
	}
	for _, w := range m.mods {
		if w == "other" && m.det == definite {
			m.det = theOther
		}
	}
	return from
}

func word(w string) bool {
	c, _ := utf8.DecodeRuneInString(w)
	return unicode.IsLetter(c)
}

func (r *reading) capital(t int) bool {
	c, _ := utf8.DecodeRuneInString(r.d.Text[r.d.Tokens[t].Span.Start:])
	return unicode.IsUpper(c)
}

// readName makes the mention a name where its head is one: title and parts.
// A capital alone does not make a name: "the Queen", "Mother" stay nouns.
func (r *reading) readName(m *mention, from int) {
	if !r.capital(m.head) || !strings.HasPrefix(r.d.Tokens[m.head].Tag, "NN") && r.d.Tokens[m.head].Tag != "" {
		return
	}
	if noName[r.d.Tokens[m.head].Lower] {
		return
	}
	start := m.head
	for start > from && r.capital(start-1) && !r.notName(start-1) {
		start--
	}
	if _, det := determiners[r.d.Tokens[m.first].Lower]; start > m.first && !det && r.notName(start-1) && r.capital(start-1) && start-1 == m.first {
		m.first, from = start, start // "Thereupon Moss"
	}
	headTitle := m.known && (start == m.head || m.det == definite)
	if headTitle && !r.isFirstName(r.d.Tokens[m.head].Lower) && (m.noun.title || m.noun.kind != "") {
		// "the Queen", "Grandmother", "the Black Sheep"
		if m.noun.title || m.det == definite || m.noun.does == kin || !strings.HasPrefix(r.d.Tokens[m.head].Tag, "NNP") {
			return
		}
	}
	if !strings.HasPrefix(r.d.Tokens[m.head].Tag, "NNP") && !r.isFirstName(r.d.Tokens[m.head].Lower) && !r.maybeName(m, start) {
		return
	}
	if start == m.first && start > 0 && r.capital(start-1) && r.byToken[start-1] == nlp.None {
		// "King Harald" with the title read as another word
		if n := r.lex.nouns[strings.TrimSuffix(r.d.Tokens[start-1].Lower, ".")]; n.title && r.d.Tokens[start-1].Sentence == m.sentence {
			start--
			m.first = start
		}
	}
	m.kind, m.nameFirst = proper, start
	for t := start; t <= m.head; t++ {
		w := strings.TrimSuffix(r.d.Tokens[t].Lower, ".")
		if n, ok := r.lex.nouns[w]; ok && n.title && t < m.head && len(m.names) == 0 {
			m.title, m.gender = w, n.tgen
			if n.kind != "" {
				m.noun, m.known = n, true
			}
			continue
		}
		if word(w) {
			m.names = append(m.names, w)
		}
	}
	// "her cousin Juniper", "the giant Grumble", "young Moss"
	if m.title == "" && start > from {
		w := &r.d.Tokens[start-1]
		if strings.HasPrefix(w.Tag, "NN") && r.lex.nouns[lemmaOf(w)].kind == "" {
			m.first, m.det, m.mods = start, bare, nil // two phrases read as one: "to the wood Moss ran"
			m.noun, m.known = noun{}, false
		} else if n, ok := r.lex.nouns[lemmaOf(w)]; ok && strings.HasPrefix(w.Tag, "NN") {
			m.noun, m.known, m.title = n, true, lemmaOf(w)
			if m.gender == "" {
				m.gender = n.gender
			}
		} else {
			m.noun, m.known = noun{}, false
		}
	} else if m.title == "" {
		m.noun, m.known = noun{}, false
	}
	if strings.HasSuffix(r.d.Tokens[m.head].Tag, "PS") && !r.isFirstName(m.names[len(m.names)-1]) {
		m.plural = true
	} else {
		m.plural = m.det == definite && m.title == "" && len(m.names) == 1 && strings.HasSuffix(m.names[0], "s")
	}
	if m.gender == "" && len(m.names) > 0 {
		if g := r.lex.first[m.names[0]]; g == nlp.Female || g == nlp.Male {
			m.gender = g
		}
	}
}

// notName reports whether the word at t has a capital but is no part of a
// name: it opens the sentence, or is said to somebody ("Dear Moss").
func (r *reading) notName(t int) bool {
	w := r.d.Tokens[t].Lower
	return noName[w] || r.opens(t) && adverbs[w]
}

var noName = set(`thereupon then now so but and or yet when while as after before if though although however meanwhile suddenly presently soon once
	here there where why how what which who dear dearest poor oh ah o well yes no good nay aye hush hulloa hullo hello halloa hallo alas hail poor sweet thou thy our my his her your their this that
	the a an all both every each some any mad wise honest go come let look see must may can will shall did do does is was were are have had has says said quoth cried replied
	round around about above below behind before after under over into from with without upon through across along away off down up out on in at to of by
	nobody somebody anybody everybody someone anyone everyone something anything everything ow ugh eh
	never ever always often quick quickly slowly softly nothing none one two three four five six seven eight nine ten first second third last next another other more most many few much such same own only just even still also too very quite right left`)

// maybeName reports whether a capital noun that opens its sentence can be a
// name all the same ("Moss ran"): it is one elsewhere, owns something, or
// does what somebody does.
func (r *reading) maybeName(m *mention, start int) bool {
	if m.det != bare || start != m.head || m.first != m.head || m.known && m.noun.kind != "" || r.d.Tokens[m.head].Tag != "NN" {
		return false
	}
	if r.capitals[r.d.Tokens[m.head].Lower] || m.place == rolePossessor {
		return true
	}
	if m.place != roleSubject || m.verb == nlp.None {
		return false
	}
	v := lemmaOf(&r.d.Tokens[r.d.Verbs[m.verb].Head])
	return minds[v] || deeds[v]
}

func (r *reading) isFirstName(w string) bool { return r.lex.first[w] != "" }
