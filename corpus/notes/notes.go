// Package notes screens a story before a learner meets it: it finds words and
// phrases that tell of death, violence, self-harm, cruelty, being abandoned,
// frightening things or drink, or that speak of people in a dated way. It is
// a first look for the guide, who reads the story and decides; a story
// without notes may still hold what a family would spare.
package notes

import (
	"slices"

	"feltpage/corpus"
	"feltpage/nlp"
)

// Find gives the content notes of a text in text order: at most one of a kind
// at each place, the longest phrase first.
func Find(text string) []corpus.Note { return english().find(text) }

// Group is the places of one kind of note.
type Group struct {
	Code  string
	Spans []nlp.Span // in text order
}

// ByKind groups notes, in the order of Kinds; kinds that are not met are left
// out.
func ByKind(notes []corpus.Note) []Group {
	var out []Group
	for _, k := range Kinds {
		g := Group{Code: "note." + k}
		for _, n := range notes {
			if n.Code == g.Code {
				g.Spans = append(g.Spans, n.Span)
			}
		}
		if len(g.Spans) > 0 {
			out = append(out, g)
		}
	}
	return slices.Clip(out)
}
