package marking

import (
	"slices"
	"strings"

	"feltpage/exercises"
	"feltpage/nlp"
)

// body judges a body sign: one of the key fits, any other is left to the
// guide, because bodies differ. Only what the text says is not so is not yet.
func (j judge) body() exercises.Mark {
	places, signs := j.bodyAnswer()
	for _, c := range j.m.Key.Contrary {
		if (len(places) == 0 || slices.Contains(places, c.Place)) && c.Sign != "" && slices.Contains(signs, c.Sign) {
			return j.mark(exercises.NotYet, "mark.body.contrary")
		}
	}
	for _, b := range j.m.Key.Body {
		if slices.Contains(places, b.Place) || len(places) == 0 && b.Sign != "" && slices.Contains(signs, b.Sign) {
			return j.mark(exercises.Fits, "mark.body.fits")
		}
	}
	return j.mark(exercises.ForGuide, "mark.body.guide")
}

// bodyAnswer gives the places and signs of an answer.
func (j judge) bodyAnswer() (places, signs []string) {
	for _, id := range j.ans.ChoiceIDs {
		if c, ok := j.choice(id); ok && c.Place != "" {
			places = append(places, c.Place)
			if _, sign, two := strings.Cut(id, "/"); two {
				signs = append(signs, sign)
			}
		} else if w, ok := j.Book.Word(id); ok {
			places = append(places, w.Places...)
		}
	}
	for _, w := range words(j.ans.Said, nlp.Span{End: len(j.ans.Said)}) {
		for _, p := range nlp.Places {
			if w.text == p || w.text+"s" == p {
				places = append(places, p)
			}
		}
		for _, x := range j.Book.Find(w.text) {
			places = append(places, x.Places...)
		}
	}
	said := strings.Join(strings.Fields(strings.ToLower(j.ans.Said)), "-")
	for _, id := range j.Table.IDs() {
		f, _ := j.Table.Family(id)
		for _, s := range f.Signs {
			if said != "" && strings.Contains(said, s.Sign) {
				signs = append(signs, s.Sign)
			}
		}
	}
	return places, signs
}
