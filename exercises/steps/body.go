package steps

import (
	"slices"
	"strings"

	"feltpage/exercises"
	"feltpage/nlp"
)

// signsAPlace is how many shipped signs a place opens beside the learner's own
// words.
const signsAPlace = 3

// mostGiven is how many places of the text a question tells; more is a list.
const mostGiven = 3

// body fills the Body step: every place, and under each the learner's own
// words for it, then a few signs. Bodies differ, so the order of places is
// fixed and tells nothing.
func (b *builder) body(s *exercises.Step) {
	given := b.given()
	code := "step.body"
	switch {
	case b.m.Route == exercises.RouteNamed:
		code = "step.body.named"
	case len(given) > 0:
		code = "step.body.given"
	}
	s.Prompt, s.Again = b.say(code), b.say("step.body.again")
	s.Prompt.Slots["places"] = strings.Join(given[:min(len(given), mostGiven)], ",")
	sign := b.usual()
	s.Worked = b.say("step.body.worked")
	s.Worked.Slots["place"], s.Worked.Slots["sign"] = sign.Place, sign.Sign
	for _, p := range nlp.Places {
		s.Choices = append(s.Choices, b.at(p)...)
	}
	for _, p := range nlp.Places {
		if p == sign.Place {
			s.Fewer = append(s.Fewer, b.at(p)...)
		} else if len(s.Fewer) == 0 || p == "whole-body" {
			s.Fewer = append(s.Fewer, b.at(p)[0])
		}
	}
}

// given lists the places that the text itself tells of.
func (b *builder) given() []string {
	var out []string
	for _, e := range b.m.Key.Evidence {
		for _, p := range e.Places {
			if p != "whole-body" && !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	return out
}

// usual is the sign to point to in the worked answer: the first that the text
// does not give, else the first.
func (b *builder) usual() exercises.BodySign {
	given := b.given()
	f, ok := b.t.Family(b.m.Key.Fits[0])
	if ok {
		for _, s := range f.Signs {
			if !slices.Contains(given, s.Place) && b.bodied(s.Place) {
				return exercises.BodySign{Place: s.Place, Sign: s.Sign}
			}
		}
	}
	for _, s := range b.m.Key.Body {
		if s.Sign != "" {
			return s
		}
	}
	return exercises.BodySign{Place: "whole-body", Sign: "still"}
}

// bodied reports whether the character can be thought to have the place: an
// animal has no hands and no arms.
func (b *builder) bodied(place string) bool {
	if b.m.Character < 0 || b.m.Character >= len(b.a.Characters) || b.a.Characters[b.m.Character].Kind != nlp.Animal {
		return true
	}
	return place != "hands" && place != "arms"
}

// at gives the choices of one place: the place itself, the learner's own words
// for it, then shipped signs, those of fitting families first.
func (b *builder) at(place string) []exercises.Choice {
	out := []exercises.Choice{{ID: place, Key: "place." + place, Place: place}}
	for _, w := range b.book.At(place) {
		out = append(out, exercises.Choice{ID: w.ID, Text: w.Form, Family: w.Family, Place: place})
	}
	var signs []string
	for _, id := range append(slices.Clone(b.m.Key.Fits), b.t.IDs()...) {
		f, _ := b.t.Family(id)
		for _, s := range f.Signs {
			if s.Place == place && len(signs) < signsAPlace && !slices.Contains(signs, s.Sign) {
				signs = append(signs, s.Sign)
			}
		}
	}
	slices.Sort(signs) // the order must not tell which one fits
	for _, s := range signs {
		out = append(out, exercises.Choice{ID: place + "/" + s, Key: "sign." + s, Place: place})
	}
	return out
}
