package moments

import (
	"slices"
	"sort"

	"feltpage/exercises"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// What makes a moment good beside those already taken. Own judgement, in units
// of the weight of its best family, 0 to 1.
const (
	shownWorth     = 0.2  // the text shows it and does not name it: that is what reading on is for
	evidenceWorth  = 0.1  // each further piece of evidence, up to two
	shortCosts     = 0.3  // too short to infer much from
	contextWorth   = 0.1  // as much context as roomy, less in proportion
	leadWorth      = 0.15 // the character most spoken of, less in proportion
	mixedCosts     = 0.8  // all of what speaks, speaking for feelings far apart
	sameCharacter  = 0.08 // each moment taken that has the same character
	sameFeeling    = 0.2  // the same first feeling
	sameKind       = 0.08 // the same kind of cue
	sameDifficulty = 0.05 // the same fifth of difficulty
)

// pick takes up to n candidates, best first, each next one for what it adds:
// another character, feeling, kind or difficulty. Two passages that share more
// than a third of the shorter one, or rest on the same words, are not both
// taken. The result is in story order.
func (c *chooser) pick(cands []exercises.Moment, n int) []exercises.Moment {
	var out []exercises.Moment
	gone := make([]bool, len(cands))
	worths := make([]float64, len(cands))
	for i, m := range cands {
		worths[i] = c.worth(m)
	}
	who, family, kind, fifth := map[int]int{}, map[string]int{}, map[string]int{}, map[int]int{}
	for len(out) < n {
		best, bestScore := -1, 0.0
		for i, m := range cands {
			if gone[i] {
				continue
			}
			s := worths[i] - sameCharacter*float64(who[m.Character]) - sameFeeling*float64(family[m.Key.Fits[0]]) -
				sameKind*float64(kind[m.Kind]) - sameDifficulty*float64(fifth[int(5*m.Difficulty)])
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

func (c *chooser) worth(m exercises.Moment) float64 {
	s := m.Key.Weights[0].Weight + evidenceWorth*float64(min(len(m.Key.Evidence), 3)-1)
	if m.Span.Len() < shortBytes {
		s -= shortCosts
	}
	if m.Kind != nlp.Named {
		s += shownWorth
	}
	s += leadWorth * float64(len(c.a.Characters[m.Character].Mentions)) / float64(c.most)
	s -= mixedCosts * mixed(m.Key, c.t)
	return s + contextWorth*min(float64(m.Span.Len())/roomyBytes, 1)
}

// Lengths in bytes stand for words of English, at five letters and a blank.
const (
	shortBytes = 6 * 32
	roomyBytes = 6 * 60
)

func crowds(a, b exercises.Moment) bool {
	for _, e := range a.Key.Evidence {
		if a.Character == b.Character && slices.ContainsFunc(b.Key.Evidence, func(x exercises.Evidence) bool { return x.Span == e.Span }) {
			return true
		}
	}
	return a.SamePlace(b)
}

// mixed is the share, 0 to 1, of the weight that speaks for families which are
// neither the first one nor near it: in a passage where joy turns into pain
// there is no one answer to what is felt.
func mixed(k exercises.Key, t *feelings.Table) float64 {
	var all, far float64
	for _, w := range k.Weights {
		all += w.Weight
		if w.Family != k.Fits[0] && !t.Near(k.Fits[0], w.Family) {
			far += w.Weight
		}
	}
	return far / all
}
