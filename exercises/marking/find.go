package marking

import (
	"strings"

	"feltpage/exercises"
	"feltpage/nlp"
)

// How much may be chosen around the keyed words, as shares of words.
const (
	leastKeyed  = 0.25 // keyed words among those chosen, to fit
	mostPassage = 0.5  // of the passage; a choice of more says nothing
)

// pointed is how a choice of words sits with the evidence.
type pointed struct {
	value exercises.MarkValue
	among bool               // keyed words are in it, among many others
	much  bool               // so much of the passage that it says nothing
	best  exercises.Evidence // what it touches, or is nearest to
}

// point judges a choice of words: keyed words fit, their sentence is near.
func (j judge) point(spans []nlp.Span) pointed {
	var all, chosen, keyed, keyedChosen int
	for _, w := range words(j.Text, j.m.Span) {
		hit := touched(w.span, spans)
		_, key := j.evidenceAt(w.span)
		all++
		if hit {
			chosen++
		}
		if key {
			keyed++
		}
		if hit && key {
			keyedChosen++
		}
	}
	p := pointed{value: exercises.NotYet, best: j.best()}
	inSentence := false
	for _, s := range spans {
		for _, e := range j.m.Key.Evidence {
			if e.Sentence.Overlaps(s) && !inSentence {
				inSentence, p.best = true, e
			}
		}
	}
	content := false
	for _, e := range j.m.Key.Evidence {
		if !content && j.touchesMeaning(e.Span, spans) {
			content, p.best = true, e
		}
	}
	p.much = float64(chosen) > mostPassage*float64(all) && chosen > 2*keyed
	switch {
	case chosen == 0 || p.much:
	case content && float64(keyedChosen) >= leastKeyed*float64(chosen):
		p.value = exercises.Fits
	case inSentence:
		p.value, p.among = exercises.Near, content
	}
	return p
}

func (j judge) evidenceAt(w nlp.Span) (exercises.Evidence, bool) {
	for _, e := range j.m.Key.Evidence {
		if e.Span.Overlaps(w) {
			return e, true
		}
	}
	return exercises.Evidence{}, false
}

// touchesMeaning reports whether a keyed word that carries meaning was chosen;
// where the evidence is made of little words alone, any of them.
func (j judge) touchesMeaning(e nlp.Span, spans []nlp.Span) bool {
	any, meaning, has := false, false, false
	for _, w := range words(j.Text, e) {
		little := littleWords[w.text]
		has = has || !little
		if touched(w.span, spans) {
			any = true
			meaning = meaning || !little
		}
	}
	return meaning || any && !has
}

func touched(w nlp.Span, spans []nlp.Span) bool {
	for _, s := range spans {
		if s.Overlaps(w) {
			return true
		}
	}
	return false
}

// find judges the words chosen in the passage, or read out from it.
func (j judge) find() exercises.Mark {
	spans := j.spans()
	if len(spans) == 0 {
		if spans = j.quoted(); len(spans) == 0 {
			return j.told("mark.find.guide")
		}
	}
	p := j.point(spans)
	quote := []string{"quote", j.quoteOf(p.best)}
	switch {
	case p.value == exercises.Fits:
		return j.mark(p.value, "mark.find.fits", quote...)
	case p.much:
		return j.mark(p.value, "mark.find.many")
	case p.among:
		return j.mark(p.value, "mark.find.among", quote...)
	case p.value == exercises.Near:
		return j.mark(p.value, "mark.find.near", quote...)
	}
	if j.beside(spans) {
		return j.mark(exercises.ForGuide, "mark.find.guide")
	}
	return j.mark(p.value, "mark.find.not-yet")
}

// beside reports whether the choice touches words that tell of the character
// without carrying the key ("she was not afraid"): worth talking about.
func (j judge) beside(spans []nlp.Span) bool {
	for _, e := range j.m.Key.Beside {
		if touched(e.Span, spans) {
			return true
		}
	}
	return false
}

// reason judges what was pointed at as Find does, except that words elsewhere
// may well be a reason and are left to the guide; and what was said by the
// meaning it shares with the evidence.
func (j judge) reason() exercises.Mark {
	spans := j.spans()
	if len(spans) == 0 {
		return j.told("mark.reason.guide")
	}
	p := j.point(spans)
	quote := []string{"quote", j.quoteOf(p.best)}
	switch {
	case p.value == exercises.Fits:
		return j.mark(p.value, "mark.reason.fits", quote...)
	case p.much:
		return j.mark(p.value, "mark.find.many")
	case p.value == exercises.Near:
		return j.mark(p.value, "mark.reason.near", quote...)
	}
	return j.mark(exercises.ForGuide, "mark.reason.guide")
}

// told judges spoken or typed words that tell what the text says: what shares
// meaning with the evidence fits, with its sentence is near, and anything else
// is left to the guide, since a reason can be sound without sharing a word.
func (j judge) told(otherwise string) exercises.Mark {
	for _, e := range j.m.Key.Evidence {
		if shared(j.ans.Said, meanings(e.Span.Of(j.Text))) > 0 {
			if j.denies(e.Span) {
				break
			}
			return j.mark(exercises.Fits, "mark.reason.fits", "quote", j.quoteOf(e))
		}
	}
	for _, e := range j.m.Key.Evidence {
		if shared(j.ans.Said, meanings(e.Sentence.Of(j.Text))) > 0 && !j.denies(e.Sentence) {
			return j.mark(exercises.Near, "mark.reason.near", "quote", j.quoteOf(e))
		}
	}
	return j.mark(exercises.ForGuide, otherwise)
}

// denies reports whether the answer denies something where the text does not:
// "he did not shake" shares its words with "he shook" and says the contrary.
func (j judge) denies(s nlp.Span) bool {
	return hasDenial(j.ans.Said) && !hasDenial(s.Of(j.Text))
}

func hasDenial(text string) bool {
	for _, w := range words(text, nlp.Span{End: len(text)}) {
		if deniers[w.text] || strings.HasSuffix(w.text, "n't") {
			return true
		}
	}
	return false
}

// quoted finds the passage's own words where the answer reads out three of
// them or more in a row, or nothing but them.
func (j judge) quoted() []nlp.Span {
	said := words(j.ans.Said, nlp.Span{End: len(j.ans.Said)})
	text := words(j.Text, j.m.Span)
	var out []nlp.Span
	for i := 0; i < len(said); {
		best, at := 0, 0
		for k := range text {
			n := 0
			for i+n < len(said) && k+n < len(text) && said[i+n].text == text[k+n].text {
				n++
			}
			if n > best {
				best, at = n, k
			}
		}
		if best >= 3 || best == len(said) && best > 0 {
			out = append(out, nlp.Span{Start: text[at].span.Start, End: text[at+best-1].span.End})
		}
		i += max(best, 1)
	}
	return out
}
