package moments

import (
	"slices"
	"strings"

	"feltpage/corpus/notes"
	"feltpage/nlp"
)

// hurtfulKinds are the content notes after which the question "has something
// like it happened to you?" is off by default. It comes back only by the
// guide's choice.
var hurtfulKinds = []string{"note.cruelty", "note.abandonment", "note.self-harm", "note.death"}

// hurtful lists the places of a story that may touch something a learner has
// suffered: cruelty and beating, abandonment, harm to oneself, death.
func hurtful(text string) []nlp.Span {
	var out []nlp.Span
	for _, n := range notes.Find(text) {
		if slices.Contains(hurtfulKinds, n.Code) || n.Code == "note.violence" && beating(n.Span.Of(text)) {
			out = append(out, n.Span)
		}
	}
	return out
}

// beating reports whether a note of violence is about somebody who is beaten,
// not about swords and battles, of which tales are full.
func beating(words string) bool {
	first, _, _ := strings.Cut(strings.ToLower(words), " ")
	for _, b := range []string{"beat", "struck", "whip", "flog"} {
		if strings.HasPrefix(first, b) {
			return true
		}
	}
	return false
}

// follows reports whether a passage holds one of the places or comes so close
// after it, within its scene or not, that the reader still has it in mind.
func follows(passage nlp.Span, places []nlp.Span) bool {
	return slices.ContainsFunc(places, func(p nlp.Span) bool {
		return p.Start < passage.End && p.End > passage.Start-stillInMind
	})
}

// stillInMind is about two sentences, in bytes.
const stillInMind = 200
