package marking

import (
	"feltpage/exercises"
	"feltpage/nlp"
)

// How much may be chosen around the keyed words, as shares of words. A choice
// of more than mostPassage of the passage shows nothing, whatever it holds.
const (
	leastKeyed  = 0.25 // keyed words among those chosen, to fit
	mostPassage = 0.5
)

// find judges words chosen in the passage: keyed words fit, their sentence is
// near.
func (j judge) find() exercises.Mark {
	spans := j.spans()
	if len(spans) == 0 {
		return j.pointedBySaying("mark.find.")
	}
	v := j.pointed(spans)
	switch {
	case v == exercises.Fits:
		return j.mark(v, "mark.find.fits")
	case j.much(spans):
		return j.mark(v, "mark.find.many")
	case v == exercises.Near:
		return j.mark(v, "mark.find.near")
	}
	return j.mark(v, "mark.find.not-yet")
}

// pointed gives the value of a choice of words.
func (j judge) pointed(spans []nlp.Span) exercises.MarkValue {
	var chosen, keyed int
	near := false
	for _, w := range words(j.Text, j.m.Span) {
		if !touched(w.span, spans) {
			continue
		}
		chosen++
		for _, e := range j.m.Key.Evidence {
			if e.Span.Overlaps(w.span) {
				keyed++
				break
			}
		}
		for _, e := range j.m.Key.Evidence {
			near = near || e.Sentence.Overlaps(w.span)
		}
	}
	content := j.touchesContent(spans)
	switch {
	case chosen == 0:
		return exercises.NotYet
	case j.much(spans):
		return exercises.NotYet
	case content && float64(keyed) >= leastKeyed*float64(chosen):
		return exercises.Fits
	case near:
		return exercises.Near
	}
	return exercises.NotYet
}

// touchesContent reports whether a keyed word that carries meaning was chosen;
// of evidence made of little words alone, any.
func (j judge) touchesContent(spans []nlp.Span) bool {
	for _, e := range j.m.Key.Evidence {
		ws := words(j.Text, e.Span)
		content, touchedAny, hasContent := false, false, false
		for _, w := range ws {
			little := littleWords[w.text]
			hasContent = hasContent || !little
			if touched(w.span, spans) {
				touchedAny = true
				content = content || !little
			}
		}
		if content || touchedAny && !hasContent {
			return true
		}
	}
	return false
}

// much reports whether so much of the passage was chosen that the choice says
// nothing: more than half of it, and more than twice the keyed words.
func (j judge) much(spans []nlp.Span) bool {
	all, chosen, keyed := 0, 0, 0
	for _, w := range words(j.Text, j.m.Span) {
		all++
		if touched(w.span, spans) {
			chosen++
		}
		for _, e := range j.m.Key.Evidence {
			if e.Span.Overlaps(w.span) {
				keyed++
				break
			}
		}
	}
	return float64(chosen) > mostPassage*float64(all) && chosen > 2*keyed
}

func touched(w nlp.Span, spans []nlp.Span) bool {
	for _, s := range spans {
		if s.Overlaps(w) {
			return true
		}
	}
	return false
}

// reason judges what was pointed at as Find does, and what was said by the
// words it shares with the evidence or its sentence.
func (j judge) reason() exercises.Mark {
	if spans := j.spans(); len(spans) > 0 {
		v := j.pointed(spans)
		if v == exercises.NotYet && !j.much(spans) {
			// A reason may lie elsewhere than the keyed words.
			return j.mark(exercises.ForGuide, "mark.reason.guide")
		}
		code := map[exercises.MarkValue]string{exercises.Fits: "mark.reason.fits", exercises.Near: "mark.reason.near"}[v]
		if code == "" {
			code = "mark.find.many"
		}
		return j.mark(v, code)
	}
	return j.pointedBySaying("mark.reason.")
}

// pointedBySaying judges spoken or typed words that tell a place in the text.
func (j judge) pointedBySaying(prefix string) exercises.Mark {
	said := contentLemmas(j.ans.Said)
	best, bestV := exercises.Evidence{}, exercises.ForGuide
	for _, e := range j.m.Key.Evidence {
		if shares(said, contentLemmas(e.Span.Of(j.Text))) {
			best, bestV = e, exercises.Fits
			break
		}
		if bestV == exercises.ForGuide && shares(said, contentLemmas(e.Sentence.Of(j.Text))) {
			best, bestV = e, exercises.Near
		}
	}
	switch bestV {
	case exercises.Fits:
		return j.mark(bestV, "mark.reason.fits", "quote", j.quote(best.Span))
	case exercises.Near:
		return j.mark(bestV, "mark.reason.near", "quote", j.quote(best.Span))
	}
	return j.mark(exercises.ForGuide, "mark.reason.guide")
}
