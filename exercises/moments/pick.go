package moments

import (
	"sort"

	"feltpage/exercises"
)

// What makes a moment good beside those already taken. Own judgement, in units
// of the weight of its best family, 0 to 1.
const (
	evidenceWorth  = 0.1  // each further piece of evidence, up to two
	shortCosts     = 0.3  // too short to infer much from
	contextWorth   = 0.1  // as much context as roomy, less in proportion
	sameCharacter  = 0.08 // each moment taken that has the same character
	sameFeeling    = 0.2  // the same first feeling
	sameKind       = 0.08 // the same kind of cue
	sameDifficulty = 0.05 // the same fifth of difficulty
)

// pick takes up to n candidates, best first, each next one for what it adds:
// another character, feeling, kind or difficulty. Two passages that share more
// than a third of the shorter one are not both taken. The result is in story
// order.
func pick(cands []exercises.Moment, n int) []exercises.Moment {
	var out []exercises.Moment
	gone := make([]bool, len(cands))
	who, family, kind, fifth := map[int]int{}, map[string]int{}, map[string]int{}, map[int]int{}
	for len(out) < n {
		best, bestScore := -1, 0.0
		for i, c := range cands {
			if gone[i] {
				continue
			}
			s := worth(c) - sameCharacter*float64(who[c.Character]) - sameFeeling*float64(family[c.Key.Fits[0]]) -
				sameKind*float64(kind[c.Kind]) - sameDifficulty*float64(fifth[int(5*c.Difficulty)])
			if best < 0 || s > bestScore {
				best, bestScore = i, s
			}
		}
		if best < 0 {
			break
		}
		m := cands[best]
		out = append(out, m)
		who[m.Character]++
		family[m.Key.Fits[0]]++
		kind[m.Kind]++
		fifth[int(5*m.Difficulty)]++
		for i := range cands {
			gone[i] = gone[i] || crowds(cands[i], m)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Span.Start != out[j].Span.Start {
			return out[i].Span.Start < out[j].Span.Start
		}
		return out[i].Span.End < out[j].Span.End
	})
	return out
}

func worth(c exercises.Moment) float64 {
	s := c.Key.Weights[0].Weight + evidenceWorth*float64(min(len(c.Key.Evidence), 3)-1)
	if c.Span.Len() < shortBytes {
		s -= shortCosts
	}
	return s + contextWorth*min(float64(c.Span.Len())/roomyBytes, 1)
}

// Lengths in bytes stand for words of English, at five letters and a blank.
const (
	shortBytes = 6 * 32
	roomyBytes = 6 * 80
)

func crowds(a, b exercises.Moment) bool {
	if a.ID == b.ID {
		return true
	}
	shared := min(a.Span.End, b.Span.End) - max(a.Span.Start, b.Span.Start)
	return 3*shared > min(a.Span.Len(), b.Span.Len())
}
