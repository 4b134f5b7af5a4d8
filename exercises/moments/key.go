package moments

import (
	"math"
	"slices"

	"feltpage/exercises"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// Shares of the heaviest family from which a family fits, or is near.
const (
	fitShare  = 0.5
	mostFit   = 4 // more families than this fitting says nothing; the rest are near
	nearShare = 0.2
	leastFit  = 0.3 // below this weight nothing fits well enough to ask
	surely    = 0.4 // below this weight little can be said not to fit
)

// makeKey builds the set of sensible answers from the cues of one character in
// a passage. ok is false where nothing fits well enough.
func makeKey(a *nlp.Analysis, l *layout, at []int, t *feelings.Table) (exercises.Key, bool) {
	var k exercises.Key
	var cues []nlp.Cue
	denied := map[string]bool{}
	for _, i := range at {
		c := a.Cues[i]
		cues = append(cues, c)
		e := exercises.Evidence{
			Span: c.Span, Sentence: l.doc.Sentences[l.sentenceAt(c.Span.Start)].Span,
			Cue: i, Weight: heaviest(c.Feelings) * feelings.Trust(c.Kind), Feelings: slices.Clone(c.Feelings),
			Places: placesOf(c), Strength: c.Strength, Denied: c.Denied, Reason: c.Reason,
		}
		switch {
		case c.Denied:
			if c.Kind == nlp.Named {
				for _, f := range c.Feelings {
					denied[f.Family] = true
				}
			}
			for _, s := range signsOf(c) {
				k.Contrary = appendSign(k.Contrary, s)
			}
			k.Beside = append(k.Beside, e)
		case c.Pretended:
			k.Beside = append(k.Beside, e)
		default:
			for _, s := range signsOf(c) {
				k.Body = appendSign(k.Body, s)
			}
			k.Evidence = append(k.Evidence, e)
		}
	}
	k.Weights = feelings.Weigh(cues, middle(cues))
	if len(k.Weights) == 0 || len(k.Evidence) == 0 || k.Weights[0].Weight < leastFit {
		return k, false
	}
	top := k.Weights[0].Weight
	turned := map[string]bool{} // what the passage shows too, and the other way round
	for _, w := range k.Weights {
		if denied[w.Family] {
			continue
		}
		if len(k.Fits) > 0 && w.Weight >= nearShare*top && opposite(t, k.Fits, w.Family) {
			turned[w.Family] = true
			continue
		}
		if w.Weight >= fitShare*top && len(k.Fits) < mostFit {
			k.Fits = append(k.Fits, w.Family)
		} else if w.Weight >= nearShare*top {
			k.Near = append(k.Near, w.Family)
		}
	}
	if len(k.Fits) == 0 {
		return k, false
	}
	for _, id := range t.IDs() {
		switch {
		case slices.Contains(k.Fits, id) || slices.Contains(k.Near, id):
		case denied[id]:
			k.Not = append(k.Not, id)
		case turned[id]: // joy before the pain: somebody has to talk about it
		case slices.ContainsFunc(k.Fits[:min(2, len(k.Fits))], func(f string) bool { return t.Near(f, id) }):
			k.Near = append(k.Near, id)
		case top >= surely || opposite(t, k.Fits, id):
			k.Not = append(k.Not, id)
		}
		// What is left is in no list: nobody can say.
	}
	for _, id := range k.Fits {
		f, _ := t.Family(id)
		for _, s := range f.Signs {
			sign := exercises.BodySign{Place: s.Place, Sign: s.Sign}
			if !slices.Contains(k.Contrary, sign) {
				k.Body = appendSign(k.Body, sign)
			}
		}
	}
	return k, true
}

// middle is the span of the cue that says most, the first of equals: the middle
// of the matter.
func middle(cues []nlp.Cue) nlp.Span {
	var at nlp.Span
	most := -1.0
	for _, c := range cues {
		if w := heaviest(c.Feelings) * feelings.Trust(c.Kind); !c.Denied && !c.Pretended && w > most {
			at, most = c.Span, w
		}
	}
	return at
}

// faint is a valence so weak that it is neither pleasant nor unpleasant.
const faint = 0.2

// opposite reports whether a family is pleasant where the first fitting one is
// unpleasant, or the other way round.
func opposite(t *feelings.Table, fits []string, id string) bool {
	f, ok1 := t.Family(fits[0])
	g, ok2 := t.Family(id)
	return ok1 && ok2 && f.Valence*g.Valence < 0 && min(math.Abs(f.Valence), math.Abs(g.Valence)) > faint
}

// signsOf gives the body signs that a cue tells of.
func signsOf(c nlp.Cue) []exercises.BodySign {
	if c.Kind != nlp.Body && c.Kind != nlp.FaceVoice {
		return nil
	}
	var out []exercises.BodySign
	for _, p := range placesOf(c) {
		out = append(out, exercises.BodySign{Place: p, Sign: c.Reason.Slots["sign"]})
	}
	return out
}

// placesOf gives the body places that a cue tells of.
func placesOf(c nlp.Cue) []string {
	if p := c.Reason.Slots["place"]; len(c.Places) == 0 && p != "" {
		return []string{p}
	}
	return slices.Clone(c.Places)
}

func appendSign(list []exercises.BodySign, s exercises.BodySign) []exercises.BodySign {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

func heaviest(ws []nlp.Weight) float64 {
	var top float64
	for _, w := range ws {
		top = max(top, w.Weight)
	}
	return top
}
