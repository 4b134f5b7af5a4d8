// Package steps makes the questions of a moment: their order by the route,
// their wording as catalogue codes, the choices to point at, and what each
// prompt level shows. Chance is passed in and touches the order of choices
// and the pick among equal distractors, nothing else.
package steps

import (
	"math/rand/v2"

	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// Build makes the steps of a moment in the order of its route, then the
// unmarked ones.
func Build(m exercises.Moment, a *nlp.Analysis, t *feelings.Table, book wordbook.Book, rng *rand.Rand, opt Options) []exercises.Step {
	b := &builder{m: m, a: a, t: t, book: book, rng: rng, opt: opt}
	var out []exercises.Step
	for _, k := range order(m.Route) {
		if opt.Short && k == exercises.Reason {
			continue
		}
		out = append(out, b.step(k))
	}
	if opt.Measure {
		return out
	}
	if !opt.NoAndYou && !m.NoAndYou && !opt.Short {
		out = append(out, exercises.Step{Kind: exercises.AndYou, Prompt: b.say("step.and-you"), Again: b.say("step.and-you.again")})
	}
	if !opt.Short && b.turns() {
		out = append(out, exercises.Step{Kind: exercises.CouldHelp, Prompt: b.say("step.could-help"), Again: b.say("step.could-help.again")})
	}
	return out
}

// order gives the marked steps of a route.
func order(r exercises.Route) []exercises.StepKind {
	switch r {
	case exercises.RouteNamed:
		return []exercises.StepKind{exercises.Body, exercises.Find}
	case exercises.RouteEvent:
		return []exercises.StepKind{exercises.Reason, exercises.Feeling, exercises.Body}
	}
	return []exercises.StepKind{exercises.Find, exercises.Feeling, exercises.Reason, exercises.Body}
}

type builder struct {
	m    exercises.Moment
	a    *nlp.Analysis
	t    *feelings.Table
	book wordbook.Book
	rng  *rand.Rand
	opt  Options
}

// say makes a reason with the slots that every sentence of a moment may use.
func (b *builder) say(code string) nlp.Reason {
	return nlp.Reason{Code: code, Slots: map[string]string{
		"name": b.m.CharacterName, "whose": exercises.Whose(b.m.CharacterName),
		"quote": b.quote(), "word": b.word(b.m.Key.Fits[0]),
	}}
}

// best is the evidence that weighs most; the first of equals.
func (b *builder) best() exercises.Evidence {
	e := b.m.Key.Evidence[0]
	for _, x := range b.m.Key.Evidence[1:] {
		if x.Weight > e.Weight {
			e = x
		}
	}
	return e
}

func (b *builder) quote() string { return exercises.Quote(b.best().Span.Of(b.a.Doc.Text)) }

// word is what a family is called for this learner: the learner's own word,
// else the plainest shipped one.
func (b *builder) word(family string) string {
	if ws := b.book.For(family); len(ws) > 0 {
		return ws[0].Form
	}
	f, ok := b.t.Family(family)
	switch {
	case ok && b.opt.Rich && len(f.Rich) > 0:
		return f.Rich[0]
	case ok && len(f.Plain) > 0:
		return f.Plain[0]
	}
	return family
}

func (b *builder) step(k exercises.StepKind) exercises.Step {
	e := b.best()
	s := exercises.Step{Kind: k, Where: e.Sentence, WorkedAt: []nlp.Span{e.Span}}
	switch k {
	case exercises.Find:
		s.PointText = true
		code := "step.find"
		switch {
		case b.m.Route == exercises.RouteNamed:
			code = "step.find.named"
		case b.m.Kind == nlp.Body:
			code = "step.find.body"
		}
		s.Prompt, s.Again, s.Worked = b.say(code), b.say("step.find.again"), b.say("step.find.worked")
		s.Fewer = b.places(e)
	case exercises.Feeling:
		code := "step.feeling"
		if b.m.Route == exercises.RouteEvent {
			code = "step.feeling.event"
		}
		s.Prompt, s.Again, s.Worked = b.say(code), b.say("step.feeling.again"), b.say("step.feeling.worked")
		s.Choices, s.Fewer = b.feelings()
	case exercises.Reason:
		s.PointText = true
		code := "step.reason"
		if b.m.Route == exercises.RouteEvent {
			code = "step.reason.event"
		}
		s.Prompt, s.Again, s.Worked = b.say(code), b.say(code+".again"), b.say("step.reason.worked")
		s.Fewer = b.places(e)
	case exercises.Body:
		b.body(&s)
	}
	return s
}

// turns reports whether the story turns on what could help: the character is
// in a clearly unpleasant state here, and later in the story a cue shows the
// same character in a pleasant one.
func (b *builder) turns() bool {
	f, ok := b.t.Family(b.m.Key.Fits[0])
	if !ok || f.Valence > -0.3 || len(b.m.Key.Weights) == 0 || b.m.Key.Weights[0].Weight < 0.5 {
		return false
	}
	for _, c := range b.a.Cues {
		if c.Character != b.m.Character || c.Span.Start < b.m.Span.End || c.Denied || c.Pretended || len(c.Feelings) == 0 {
			continue
		}
		if g, ok := b.t.Family(c.Feelings[0].Family); ok && g.Valence > 0.3 {
			return true
		}
	}
	return false
}
