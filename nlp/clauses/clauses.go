// Package clauses finds who does what in each sentence: base noun phrases, and
// verb groups with their subject, objects and predicative complement.
//
// It is a shallow, deterministic parser over tags and lemmas, made for stories:
// one pass from left to right with a small stack of open clauses and no
// backing up, so its time is linear in the length of the text. Words inside
// quotes are a world of their own; only the reporting clause looks across the
// quote's border. Where the words do not tell, a role is nlp.None: a missing
// subject does less harm than a wrong one.
//
// chunk.go finds noun phrases, group.go verb groups, walk.go joins them.
package clauses

import (
	"slices"

	"feltpage/nlp"
)

// Parse fills Phrases and Verbs of a tagged document.
//
// Phrases nest only by possession: "the king's daughter" is one phrase with
// the head "daughter", and "the king" another inside it; "his" in "his knees"
// has a phrase of its own too. Of two phrases that start together the longer
// comes first. "whose knees" has the noun meant by "whose" as its possessor.
func Parse(d *nlp.Document) {
	p := parser{d: d, kinds: make([]kind, len(d.Tokens)+2), starts: make([]int32, len(d.Tokens)+2)}
	d.Phrases = make([]nlp.NounPhrase, 0, len(d.Tokens)/4+4)
	d.Verbs = make([]nlp.VerbGroup, 0, len(d.Tokens)/6+4)
	for i := range d.Tokens {
		p.kinds[i] = kindOf(&d.Tokens[i])
	}
	for _, s := range d.Sentences {
		p.chunk(s.First, s.End)
		p.walk(s)
	}
	// The walk adds groups in the order in which they start; a question
	// ("Did he who wept see?") may put heads out of order.
	p.sortVerbs()
}

// parser is the state of one call.
type parser struct {
	d      *nlp.Document
	kinds  []kind  // of each token
	starts []int32 // phrase that starts at each token + 1, or 0; the longest
	spaces []space
}

// sortVerbs puts groups in order of their heads and mends the links between
// them.
func (p *parser) sortVerbs() {
	v := p.d.Verbs
	if slices.IsSortedFunc(v, byHead) {
		return
	}
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return v[a].Head - v[b].Head })
	to := make([]int, len(v))
	sorted := make([]nlp.VerbGroup, len(v))
	for n, o := range order {
		to[o] = n
		sorted[n] = v[o]
	}
	for i := range sorted {
		if g := sorted[i].Governor; g != nlp.None {
			sorted[i].Governor = to[g]
		}
	}
	p.d.Verbs = sorted
}

func byHead(a, b nlp.VerbGroup) int { return a.Head - b.Head }
