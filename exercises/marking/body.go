package marking

import (
	"slices"
	"strings"

	"feltpage/exercises"
	"feltpage/nlp"
)

// told is what an answer says of a body: places and signs, and whether it says
// so of none.
type bodily struct {
	places, signs []string
	denied        bool
}

// body judges a body sign: one of the key fits, any other is left to the
// guide, because bodies differ. Only what the text says is not so is not yet.
func (j judge) body() exercises.Mark {
	b := j.bodily()
	for _, c := range j.m.Key.Contrary {
		if !b.tells(c) {
			continue
		}
		if b.denied { // "not shaking", and the text says the same
			return j.bodyMark(exercises.Fits, "mark.body.fits", b)
		}
		return j.bodyMark(exercises.NotYet, "mark.body.contrary", b, "quote", j.quoteOf(j.deniedAt(c)))
	}
	if b.denied {
		return j.bodyMark(exercises.ForGuide, "mark.body.guide", b)
	}
	for _, k := range j.m.Key.Body {
		if slices.Contains(b.places, k.Place) || len(b.places) == 0 && b.tells(k) {
			return j.bodyMark(exercises.Fits, "mark.body.fits", b)
		}
	}
	return j.bodyMark(exercises.ForGuide, "mark.body.guide", b)
}

// tells reports whether the answer tells of this sign, at this place or at
// none.
func (b bodily) tells(s exercises.BodySign) bool {
	return s.Sign != "" && slices.Contains(b.signs, s.Sign) && (len(b.places) == 0 || slices.Contains(b.places, s.Place))
}

// bodyMark says an answer by its ids where nothing was said in words, so that
// the sentence can use the catalogue's names of them.
func (j judge) bodyMark(v exercises.MarkValue, code string, b bodily, more ...string) exercises.Mark {
	if strings.TrimSpace(j.ans.Said) == "" && len(b.places) > 0 && !j.ownWords() {
		if len(b.signs) > 0 {
			return j.mark(v, code+".sign", append(more, "place", b.places[0], "sign", b.signs[0])...)
		}
		return j.mark(v, code+".place", append(more, "place", b.places[0])...)
	}
	return j.mark(v, code, more...)
}

// deniedAt finds the words in which the text says that a sign is not there.
func (j judge) deniedAt(s exercises.BodySign) exercises.Evidence {
	for _, e := range j.m.Key.Beside {
		if e.Denied && slices.Contains(e.Places, s.Place) {
			return e
		}
	}
	return j.best()
}

// ownWords reports whether a choice was one of the learner's own words.
func (j judge) ownWords() bool {
	return slices.ContainsFunc(j.ans.ChoiceIDs, func(id string) bool {
		c, ok := j.choice(id)
		return ok && c.Text != ""
	})
}

// bodily reads places and signs from the choices and from free words.
func (j judge) bodily() bodily {
	var b bodily
	for _, id := range j.ans.ChoiceIDs {
		place, sign, _ := strings.Cut(id, "/")
		if c, ok := j.choice(id); ok && c.Place != "" {
			place = c.Place
			if c.Text != "" {
				b.read(j, c.Text)
			}
		}
		if slices.Contains(nlp.Places, place) {
			b.add(place, sign)
		} else if w, ok := j.Book.Word(id); ok {
			for _, p := range w.Places {
				b.add(p, "")
			}
			b.read(j, w.Form)
		}
	}
	b.read(j, j.ans.Said)
	return b
}

func (b *bodily) add(place, sign string) {
	if place != "" && !slices.Contains(b.places, place) {
		b.places = append(b.places, place)
	}
	if sign != "" && !slices.Contains(b.signs, sign) {
		b.signs = append(b.signs, sign)
	}
}

// read takes places, the learner's own words for places, and signs from free
// words. A sign is told where all its words are.
func (b *bodily) read(j judge, said string) {
	if strings.TrimSpace(said) == "" {
		return
	}
	told := meanings(said)
	for _, p := range nlp.Places {
		if told[lead(p)] || strings.Contains(" "+strings.ToLower(said)+" ", " "+strings.ReplaceAll(p, "-", " ")+" ") {
			b.add(p, "")
		}
	}
	for _, w := range words(said, nlp.Span{End: len(said)}) {
		for _, x := range j.Book.Find(w.text) {
			for _, p := range x.Places {
				b.add(p, "")
			}
		}
	}
	for _, id := range j.Table.IDs() {
		f, _ := j.Table.Family(id)
		for _, s := range f.Signs {
			if tellsSign(told, s.Sign) {
				b.add("", s.Sign)
			}
		}
	}
	for _, s := range append(slices.Clone(j.m.Key.Contrary), j.m.Key.Body...) {
		if tellsSign(told, s.Sign) {
			b.add("", s.Sign)
		}
	}
	b.denied = b.denied || hasDenial(said)
}

// lead gives the word under which a place is found among meanings.
func lead(place string) string {
	for _, f := range forms(place) {
		if s, ok := synonyms()[f]; ok {
			return s
		}
	}
	return place
}

func tellsSign(told map[string]bool, sign string) bool {
	if sign == "" {
		return false
	}
	for _, part := range strings.Split(sign, "-") {
		if littleWords[part] {
			continue
		}
		if !slices.ContainsFunc(forms(part), func(f string) bool {
			s, ok := synonyms()[f]
			return told[f] || ok && told[s]
		}) {
			return false
		}
	}
	return true
}
