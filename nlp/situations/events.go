package situations

import (
	"strings"

	"feltpage/nlp"
)

// maxWords bounds the words of one event: what stands further off is seldom
// part of it, and long sentences stay cheap.
const maxWords = 14

// Words that say nothing of what happens.
var idle = wordSet(`be have do get go come make take say tell ask answer reply
the a an this that these those some any all one two three very so too then
there here now as well also just only even still again up out down off over
of to in on at by for with from into and or but if when while not n't`)

func wordSet(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// reach gives the end of the token range of the event of verb group v: the
// verb, its particles, objects and the words beside them up to the end of its
// clause. Verbs that hang on it ("wanted to go") belong to it.
func reach(d *nlp.Document, v int) int {
	g := d.Verbs[v]
	stop := min(d.Sentences[d.Tokens[g.Head].Sentence].End, g.End+maxWords)
	next := v + 1
	for i := g.End; i < stop; i++ {
		if isBreak(d.Tokens[i].Lower) {
			return i
		}
		for next < len(d.Verbs) && d.Verbs[next].First < i {
			next++
		}
		if next < len(d.Verbs) && d.Verbs[next].First == i && d.Verbs[next].Governor != v && !d.Verbs[next].Infinitive {
			// A clause of its own: end before its subject, if that is ours.
			if s := d.Verbs[next].Subject; s != nlp.None && d.Phrases[s].First >= g.End && d.Phrases[s].First < i {
				return d.Phrases[s].First
			}
			return i
		}
	}
	return stop
}

func isBreak(lower string) bool {
	switch lower {
	case ".", "!", "?", ";", ":", "\"", "--", "—", "(", ")", ",":
		return true
	}
	return false
}

// Keys gives the keys of the event whose verb is the first verb group that
// begins in the token range [first, end): what Model knows words by.
func Keys(d *nlp.Document, first, end int) []string {
	for v, g := range d.Verbs {
		if g.First >= first && g.Head < end {
			return keys(d, v, end)
		}
	}
	return nil
}

// keys gives the keys of the event of verb group v up to token end.
func keys(d *nlp.Document, v, end int) []string {
	g := d.Verbs[v]
	verb := d.Tokens[g.Head].Lemma
	if g.Passive {
		verb += "+passive"
	}
	if g.Negated {
		verb = "not " + verb
	}
	out := []string{string(slotVerb) + verb}
	from := len(out)
	for i := g.End; i < end; i++ {
		t := &d.Tokens[i]
		if !isContent(t) {
			continue
		}
		k := string(slotRest) + t.Lemma
		if contains(out[from:], k) {
			continue
		}
		out = append(out, k, string(slotPair)+verb+" "+t.Lemma)
	}
	if c := g.Complement; c != nlp.None && c < g.End {
		if k := string(slotRest) + d.Tokens[c].Lemma; !contains(out[from:], k) {
			out = append(out, k, string(slotPair)+verb+" "+d.Tokens[c].Lemma)
		}
	}
	return out
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// isContent reports whether a token may say something of what happens. Names
// say nothing of it.
func isContent(t *nlp.Token) bool {
	if t.Lemma == "" || idle[t.Lemma] || strings.HasPrefix(t.Tag, "NNP") {
		return false
	}
	switch t.Tag[:min(2, len(t.Tag))] {
	case "NN", "JJ", "VB", "RB", "RP":
		return true
	}
	return t.Lower == "against" || t.Lower == "without" || t.Lower == "away"
}
