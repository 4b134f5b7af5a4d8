package feelings

import "feltpage/nlp"

// How cues of one character are combined. Own judgement: a named feeling
// outweighs a guess, what is near counts more, and of the things that a sign
// can mean the one that the rest of the passage speaks for counts most.
const (
	halfAway  = 400 // bytes, about four sentences, at which a cue counts half
	openMind  = 0.4 // support that every family has before anything else is read
	denialCut = 0.8 // what a plainly denied feeling loses
)

// trust is how far a kind of cue is believed beside its own weights. Those of
// the lexicon carry most of it already: a shown feeling weighs less there than a
// named one. A situation is a guess of a model.
var trust = map[string]float64{
	nlp.Named: 1, nlp.Body: 0.9, nlp.FaceVoice: 0.85, nlp.Action: 0.85, nlp.Speech: 0.85, nlp.Situation: 0.6,
}

// Trust is how far a kind of cue is believed, above 0 to 1.
func Trust(kind string) float64 {
	if t, ok := trust[kind]; ok {
		return t
	}
	return 0.6
}

// Weigh combines the cues of one character in a passage into families, heaviest
// first and ties by id, each weight above 0 to 1. The middle of the matter lies
// at the span given: cues count less the farther they are from it.
//
// What speaks for a family adds up as independent evidence, 1 − Π(1 − weight).
// A sign that can mean several things leans to what the other cues speak for:
// shaking in the snow is cold before it is fear. Pretended cues are left out; a
// named feeling that is denied is taken away from.
func Weigh(cues []nlp.Cue, at nlp.Span) []nlp.Weight {
	type voice struct {
		cue     int
		weights map[string]float64
	}
	var voices []voice
	support := map[string]float64{} // sum over cues, before leaning
	var order []string              // families by first appearance, so that sums run in one order
	for i, c := range cues {
		if c.Denied || c.Pretended {
			continue
		}
		v := voice{i, map[string]float64{}}
		near := 1 / (1 + float64(gap(c.Span, at))/halfAway)
		for _, f := range c.Feelings {
			w := min(max(f.Weight, 0), 1) * Trust(c.Kind) * near
			if w <= 0 {
				continue
			}
			if _, ok := support[f.Family]; !ok {
				order = append(order, f.Family)
			}
			v.weights[f.Family] = max(v.weights[f.Family], w)
		}
		for f, w := range v.weights {
			support[f] += w // one addition a family and cue: the order of the map does not matter
		}
		voices = append(voices, v)
	}
	left := map[string]float64{}
	for _, v := range voices {
		most := 0.0
		for f, w := range v.weights {
			most = max(most, support[f]-w)
		}
		for f, w := range v.weights {
			lean := (openMind + support[f] - w) / (openMind + most)
			if _, ok := left[f]; !ok {
				left[f] = 1
			}
			left[f] *= 1 - w*lean
		}
	}
	for _, c := range cues {
		if c.Denied && c.Kind == nlp.Named {
			for _, f := range c.Feelings {
				if l, ok := left[f.Family]; ok {
					left[f.Family] = 1 - (1-l)*(1-denialCut*min(max(f.Weight, 0), 1))
				}
			}
		}
	}
	var out []nlp.Weight
	for _, f := range order {
		if w := min(1-left[f], 1); w > 0 { // rounding may leave it a hair above 1
			out = append(out, nlp.Weight{Family: f, Weight: w})
		}
	}
	SortWeights(out)
	return out
}

// gap is the distance in bytes between two spans, 0 where they touch.
func gap(a, b nlp.Span) int { return max(a.Start-b.End, b.Start-a.End, 0) }
