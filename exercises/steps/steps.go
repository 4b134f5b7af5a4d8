// Package steps makes the questions of a moment: their order by the route,
// their wording as catalogue codes, the choices to point at, and what each
// prompt level shows. Chance is passed in; it touches the order of choices and
// the pick among equal distractors, nothing else.
package steps

import (
	"math/rand/v2"

	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// Build makes the steps of a moment in the order of its route, then the
// unmarked ones. The analysis must be of the text the moment was made from. A
// moment without a key has no steps.
func Build(m exercises.Moment, a *nlp.Analysis, t *feelings.Table, book wordbook.Book, rng *rand.Rand, opt Options) []exercises.Step {
	if len(m.Key.Fits) == 0 || len(m.Key.Evidence) == 0 {
		return nil
	}
	b := &builder{m: m, a: a, t: t, book: book, rng: rng, opt: opt}
	var out []exercises.Step
	for _, k := range order(m.Route) {
		if opt.Short && k == exercises.Reason {
			continue
		}
		out = append(out, b.step(k))
	}
	if opt.Measure || opt.Short {
		return out
	}
	if !opt.NoAndYou && !m.NoAndYou {
		out = append(out, exercises.Step{Kind: exercises.AndYou, Prompt: b.say("step.and-you"), Again: b.say("step.and-you.again")})
	}
	if b.turns() {
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
		"quote": exercises.QuoteAround(b.a.Doc.Text, b.best().Span, b.best().Sentence), "word": b.word(b.m.Key.Fits[0]).Text,
	}}
}

// best is the evidence that speaks most for the first fitting feeling.
func (b *builder) best() exercises.Evidence { return b.m.Key.BestFor(b.m.Key.Fits[0]) }

// text is a stretch of the story, fit to be quoted.
func (b *builder) text(s nlp.Span) string {
	if s.Start < 0 || s.End > len(b.a.Doc.Text) || s.Start > s.End {
		return ""
	}
	return exercises.Quote(s.Of(b.a.Doc.Text))
}

// step makes one marked step with what its prompt levels show: the prompt in
// other words, the sentence to look at, fewer choices, a worked answer.
func (b *builder) step(k exercises.StepKind) exercises.Step {
	e := b.best()
	s := exercises.Step{Kind: k, Where: e.Sentence, WorkedAt: []nlp.Span{e.Span}}
	event := b.m.Route == exercises.RouteEvent
	switch k {
	case exercises.Find:
		s.PointText = true
		s.Prompt, s.Again, s.Worked = b.say(b.findCode()), b.say("step.find.again"), b.say("step.find.worked")
		s.Fewer = b.stretches(e)
	case exercises.Feeling:
		s.Prompt, s.Again, s.Worked = b.say("step.feeling"), b.say("step.feeling.again"), b.say("step.feeling.worked")
		if event {
			s.Prompt = b.say("step.feeling.event")
		}
		s.Choices, s.Fewer = b.feelings()
	case exercises.Reason:
		s.PointText = true
		s.Prompt, s.Again, s.Worked = b.say("step.reason"), b.say("step.reason.again"), b.say("step.reason.worked")
		if event {
			s.Prompt, s.Again, s.Worked = b.say("step.reason.event"), b.say("step.reason.event.again"), b.say("step.reason.event.worked")
		}
		s.Fewer = b.stretches(e)
	case exercises.Body:
		b.body(&s)
	}
	return s
}

func (b *builder) findCode() string {
	switch {
	case b.m.Route == exercises.RouteNamed:
		return "step.find.named"
	case b.m.Kind == nlp.Body:
		return "step.find.body"
	case b.m.Kind == nlp.FaceVoice:
		return "step.find.face-voice"
	}
	return "step.find"
}

// A state is clearly unpleasant or pleasant from this valence on.
const clearly = 0.3

// turns reports whether the story turns on what could help: the character is
// surely in an unpleasant state here, and the next thing that the story shows
// of how it is for the same character is clearly pleasant. Where that does not
// show, nothing is asked.
func (b *builder) turns() bool {
	f, ok := b.t.Family(b.m.Key.Fits[0])
	if !ok || f.Valence > -clearly || len(b.m.Key.Weights) == 0 || b.m.Key.Weights[0].Weight < 0.5 {
		return false
	}
	for _, c := range b.a.Cues {
		if c.Character != b.m.Character || c.Span.Start < b.m.Span.End || c.Denied || c.Pretended || len(c.Feelings) == 0 {
			continue
		}
		if g, ok := b.t.Family(c.Feelings[0].Family); ok && (g.Valence > clearly || g.Valence < -clearly) {
			return g.Valence > clearly
		}
	}
	return false
}
