package situations

import (
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// A situation is told as a guess, never as a sign: its families weigh less
// than those of anything shown.
const (
	heaviest = 0.45 // weight of a family the model is wholly sure of
	keep     = 0.10 // a family with a smaller share is left out
	sure     = 0.30 // the first family's share for a cue to be given at all
)

// Feelings turns the shares of the classes into weights, heaviest first; none
// where no family is likely enough to say so.
func Feelings(shares []float64) []nlp.Weight {
	var out []nlp.Weight
	top := 0.0
	for i, p := range shares[:len(shares)-1] {
		top = max(top, p)
		if p >= keep {
			out = append(out, nlp.Weight{Family: Classes[i], Weight: heaviest * p})
		}
	}
	if top < sure {
		return nil
	}
	feelings.SortWeights(out)
	return out
}
