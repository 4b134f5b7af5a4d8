// Package marking judges one answer against the key of its moment. It never
// guesses that an answer is wrong: what it cannot read is left to the guide.
// The mark's reason is also the feedback; it says what the text says and how
// the answer sits with it.
//
// Judge is a pure function: it does not depend on the order in which choices
// were shown or given, nor on anything judged before.
package marking

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// Context is what an answer is judged in.
type Context struct {
	Text  string // of the story; the moment's spans point into it
	Table *feelings.Table
	Book  wordbook.Book // the learner's own words
}

// Judge marks an answer to a step of a moment.
func Judge(c Context, m exercises.Moment, s exercises.Step, ans exercises.Answer) exercises.Mark {
	j := judge{c, m, s, ans}
	switch {
	case !s.Kind.Marked():
		return j.mark(exercises.Unmarked, "mark.none")
	case ans.Standing == exercises.StandNothing:
		return j.mark(exercises.Unmarked, "mark.standing.nothing")
	case ans.Standing == exercises.StandCantTell, ans.Standing == exercises.StandDontKnow:
		return j.mark(exercises.Unmarked, "mark.standing.cant-tell")
	case ans.Standing != "":
		return j.mark(exercises.Unmarked, "mark.none")
	case ans.AboutSelf:
		return j.mark(exercises.Unmarked, "mark.body.self")
	case len(ans.Spans) == 0 && len(ans.ChoiceIDs) == 0 && strings.TrimSpace(ans.Said) == "":
		return j.mark(exercises.Unmarked, "mark.none")
	case len(m.Key.Fits) == 0 || len(m.Key.Evidence) == 0:
		return j.mark(exercises.ForGuide, "mark.guide")
	}
	switch s.Kind {
	case exercises.Find:
		return j.find()
	case exercises.Feeling:
		return j.feeling()
	case exercises.Body:
		return j.body()
	case exercises.Reason:
		return j.reason()
	}
	return j.mark(exercises.Unmarked, "mark.none")
}

type judge struct {
	Context
	m   exercises.Moment
	s   exercises.Step
	ans exercises.Answer
}

// mark makes a mark whose reason may use the moment's own slots.
func (j judge) mark(v exercises.MarkValue, code string, more ...string) exercises.Mark {
	slots := map[string]string{"name": j.m.CharacterName, "whose": exercises.Whose(j.m.CharacterName)}
	if len(j.m.Key.Evidence) > 0 {
		slots["quote"] = j.quoteOf(j.best())
	}
	if said := strings.Join(strings.Fields(j.ans.Said), " "); said != "" {
		slots["said"] = said
	}
	for i := 0; i+1 < len(more); i += 2 {
		slots[more[i]] = more[i+1]
	}
	if slots["said"] == "" {
		slots["said"] = j.said()
	}
	return exercises.Mark{Value: v, Why: nlp.Reason{Code: code, Slots: slots}}
}

// best is the evidence that speaks most for the first fitting feeling.
func (j judge) best() exercises.Evidence {
	if len(j.m.Key.Fits) == 0 {
		return j.m.Key.BestFor("")
	}
	return j.m.Key.BestFor(j.m.Key.Fits[0])
}

// placesGiven lists the body places that the evidence is about, as ids.
func (j judge) placesGiven() string {
	var out []string
	for _, e := range j.m.Key.Evidence {
		for _, p := range e.Places {
			if p != "whole-body" && !slices.Contains(out, p) {
				out = append(out, p)
			}
		}
	}
	return strings.Join(out, ",")
}

// quoteOf quotes evidence with enough around it to be understood.
func (j judge) quoteOf(e exercises.Evidence) string {
	return exercises.QuoteAround(j.Text, e.Span, e.Sentence)
}

func (j judge) quote(s nlp.Span) string {
	if s.Start < 0 || s.End > len(j.Text) || s.Start > s.End {
		return ""
	}
	return exercises.Quote(s.Of(j.Text))
}

// said tells what was pointed at: the words in the text, or the choices in
// their own words.
func (j judge) said() string {
	var parts []string
	for _, s := range j.spans() {
		parts = append(parts, j.quote(s))
	}
	for _, id := range j.ans.ChoiceIDs {
		if _, ok := spanOf(id); ok {
			continue
		}
		if c, ok := j.choice(id); ok && c.Text != "" {
			parts = append(parts, c.Text)
		} else if w, ok := j.Book.Word(id); ok {
			parts = append(parts, w.Form)
		}
	}
	return strings.Join(parts, " … ")
}

// spans gives the stretches chosen in the passage, in text order, whether
// pointed at or chosen from a few.
func (j judge) spans() []nlp.Span {
	var out []nlp.Span
	add := func(s nlp.Span) {
		if s.Start >= 0 && s.End <= len(j.Text) && s.Start < s.End {
			out = append(out, s)
		}
	}
	for _, s := range j.ans.Spans {
		add(s)
	}
	for _, id := range j.ans.ChoiceIDs {
		if s, ok := spanOf(id); ok {
			add(s)
		}
	}
	sort.Slice(out, func(a, b int) bool {
		if out[a].Start != out[b].Start {
			return out[a].Start < out[b].Start
		}
		return out[a].End < out[b].End
	})
	return out
}

// spanOf reads the id of a choice that is a stretch of the text.
func spanOf(id string) (nlp.Span, bool) {
	rest, ok := strings.CutPrefix(id, "span:")
	if !ok {
		return nlp.Span{}, false
	}
	a, b, ok := strings.Cut(rest, "-")
	start, err1 := strconv.Atoi(a)
	end, err2 := strconv.Atoi(b)
	return nlp.Span{Start: start, End: end}, ok && err1 == nil && err2 == nil
}

// choice finds a choice by id among those shown and those of the step.
func (j judge) choice(id string) (exercises.Choice, bool) {
	for _, list := range [][]exercises.Choice{j.s.Choices, j.s.Fewer, j.ans.Shown} {
		for _, c := range list {
			if c.ID == id {
				return c, true
			}
		}
	}
	return exercises.Choice{}, false
}
