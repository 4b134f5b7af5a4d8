// Package inspect is the machine interface: what the engine found in a text as
// one JSON object on one line. Spans are UTF-8 byte offsets [start, end) into
// the text exactly as given; ids are local to one object. Fields may be added,
// none changes its meaning.
package inspect

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"path/filepath"

	"feltpage/exercises"
	"feltpage/exercises/moments"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
)

// Version is the version of the format.
const Version = 1

// Span is [start, end) in bytes.
type Span [2]int

// Object is all that is printed for one text.
type Object struct {
	Version    int         `json:"version"`
	Engine     string      `json:"engine"`
	Source     string      `json:"source"`
	Words      int         `json:"words"`
	Sentences  []Span      `json:"sentences"`
	Characters []Character `json:"characters"`
	Quotes     []Quote     `json:"quotes"`
	Cues       []Cue       `json:"cues"`
	Moments    []Moment    `json:"moments"`
	NoMoment   *nlp.Reason `json:"no_moment,omitempty"` // why there is none
	Unread     []Unread    `json:"unread,omitempty"`
}

// Character is one of the cast.
type Character struct {
	ID       int      `json:"id"`
	Name     string   `json:"name"`
	Aliases  []string `json:"aliases,omitempty"`
	Kind     string   `json:"kind"`
	Gender   string   `json:"gender,omitempty"`
	Plural   bool     `json:"plural,omitempty"`
	Narrator bool     `json:"narrator,omitempty"`
	Mentions []Span   `json:"mentions"`
}

// Quote is one stretch of direct speech. Speaker and listener are -1 where the
// text does not tell.
type Quote struct {
	Span     Span `json:"span"`
	Speaker  int  `json:"speaker"`
	Listener int  `json:"listener"`
}

// Cue is words that show a state. Character is -1 where the text does not tell.
type Cue struct {
	Span      Span         `json:"span"`
	Text      string       `json:"text"`
	Kind      string       `json:"kind"`
	Character int          `json:"character"`
	Feelings  []nlp.Weight `json:"feelings"`
	Places    []string     `json:"places"`
	Strength  string       `json:"strength"`
	Denied    bool         `json:"denied"`
	Pretended bool         `json:"pretended"`
	Event     *Span        `json:"event"`
	Rule      string       `json:"rule"`
	Reason    nlp.Reason   `json:"reason"`
}

// Moment is a passage to make an exercise from.
type Moment struct {
	Span       Span         `json:"span"`
	Character  int          `json:"character"`
	Cues       []int        `json:"cues"`
	Route      string       `json:"route"`
	Difficulty float64      `json:"difficulty"`
	Feelings   []nlp.Weight `json:"feelings"`
	Evidence   []Span       `json:"evidence"`
	Key        Key          `json:"key"`
}

// Key is what fits, what is near and what does not fit.
type Key struct {
	Fits []string             `json:"fits"`
	Near []string             `json:"near"`
	Not  []string             `json:"not"`
	Body []exercises.BodySign `json:"body"`
}

// Unread is a stretch that could not be read, with why.
type Unread struct {
	Span Span   `json:"span"`
	Code string `json:"code"`
}

// Write analyses text and prints it as one line. Source is shown without its
// folder, so that the same text gives the same bytes on every machine.
func Write(ctx context.Context, w io.Writer, e *pipeline.Engine, t *feelings.Table, source, text string) error {
	a, err := e.Analyze(ctx, text)
	if err != nil {
		return fmt.Errorf("reading %s: %w", source, err)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(Describe(a, t, source)); err != nil {
		return fmt.Errorf("printing what was found in %s: %w", source, err)
	}
	return nil
}

// Describe gives the object for an analysis.
func Describe(a *nlp.Analysis, t *feelings.Table, source string) Object {
	o := Object{
		Version: Version, Engine: a.Engine, Source: filepath.Base(source), Words: a.Doc.WordCount(),
		Sentences: []Span{}, Characters: []Character{}, Quotes: []Quote{}, Cues: []Cue{}, Moments: []Moment{},
	}
	for _, s := range a.Doc.Sentences {
		o.Sentences = append(o.Sentences, span(s.Span))
	}
	for _, c := range a.Characters {
		out := Character{ID: c.ID, Name: c.Name, Aliases: c.Aliases, Kind: c.Kind, Gender: c.Gender,
			Plural: c.Plural, Narrator: c.Narrator, Mentions: []Span{}}
		for _, m := range c.Mentions {
			out.Mentions = append(out.Mentions, span(m.Span))
		}
		o.Characters = append(o.Characters, out)
	}
	for _, q := range a.Quotes {
		o.Quotes = append(o.Quotes, Quote{span(q.Span), q.Speaker, q.Listener})
	}
	for _, c := range a.Cues {
		out := Cue{Span: span(c.Span), Text: c.Span.Of(a.Doc.Text), Kind: c.Kind, Character: c.Character,
			Feelings: weights(c.Feelings), Places: some(c.Places), Strength: c.Strength, Denied: c.Denied,
			Pretended: c.Pretended, Rule: c.Rule, Reason: reason(c.Reason)}
		if c.Event != nil {
			e := span(*c.Event)
			out.Event = &e
		}
		o.Cues = append(o.Cues, out)
	}
	for _, m := range moments.Choose(a, t) {
		out := Moment{Span: span(m.Span), Character: m.Character, Cues: m.Cues, Route: string(m.Route),
			Difficulty: round(m.Difficulty), Feelings: weights(m.Key.Weights), Evidence: []Span{},
			Key: Key{some(m.Key.Fits), some(m.Key.Near), some(m.Key.Not), some(m.Key.Body)}}
		for _, ev := range m.Key.Evidence {
			out.Evidence = append(out.Evidence, span(ev.Span))
		}
		o.Moments = append(o.Moments, out)
	}
	if len(o.Moments) == 0 {
		why := reason(moments.WhyNone(a))
		o.NoMoment = &why
	}
	for _, u := range a.Unread {
		o.Unread = append(o.Unread, Unread{span(u.Span), u.Code})
	}
	return o
}

func span(s nlp.Span) Span { return Span{s.Start, s.End} }

// some turns nil into an empty list, so that JSON never shows null for one.
func some[T any](in []T) []T {
	if in == nil {
		return []T{}
	}
	return in
}

// reason gives a reason whose slots are never null.
func reason(r nlp.Reason) nlp.Reason {
	if r.Slots == nil {
		r.Slots = map[string]string{}
	}
	return r
}

// weights rounds to three decimals: more would be noise.
func weights(in []nlp.Weight) []nlp.Weight {
	out := make([]nlp.Weight, len(in))
	for i, w := range in {
		out[i] = nlp.Weight{Family: w.Family, Weight: round(w.Weight)}
	}
	return out
}

func round(x float64) float64 { return math.Round(x*1000) / 1000 }
