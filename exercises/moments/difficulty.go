package moments

import (
	"math"
	"slices"

	"feltpage/exercises"
)

// difficulty says how hard a moment is, 0 easy to 1 hard. It is a rule of our
// own, not a measurement:
//
//	0.60 × kind of cue, from named 0 to situation 1 in even steps
//	0.20 × ambiguity: entropy of the family weights over that of five equals
//	0.10 × distance in sentences from the character's nearest name, over 4
//	0.10 × words a sentence, from 8 to 28
func (c *chooser) difficulty(w window, m exercises.Moment) float64 {
	kind := float64(slices.Index(kindOrder, m.Kind)) / float64(len(kindOrder)-1)

	var sum, entropy float64
	for _, x := range m.Key.Weights {
		sum += x.Weight
	}
	for _, x := range m.Key.Weights {
		if p := x.Weight / sum; p > 0 {
			entropy -= p * math.Log(p)
		}
	}
	ambiguity := min(entropy/math.Log(5), 1)

	far := 4
	at := c.sentenceAt(m.Key.Evidence[0].Span.Start)
	for _, n := range c.names(m.Character) {
		if n <= at {
			far = min(far, at-n)
		}
	}

	perSentence := float64(c.count(w)) / float64(w.to-w.from)
	long := min(max((perSentence-8)/20, 0), 1)

	return 0.60*kind + 0.20*ambiguity + 0.10*float64(far)/4 + 0.10*long
}
