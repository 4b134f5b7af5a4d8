// Package moments chooses from an analysed story the passages that exercises
// are made from. A moment has one character whom the reader can name, enough
// context to infer from, words that show a state, and a key: the set of
// answers that make sense, with weights and reasons.
//
// The choice is deterministic: the same analysis gives the same moments.
package moments

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"feltpage/exercises"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// wordsAMoment is how much story there should be for each moment chosen.
const wordsAMoment = 110

// Choose gives the moments of a story in story order, spread over characters,
// feelings, kinds of cue and difficulty. It gives none where the story has no
// usable moment; WhyNone then says why.
func Choose(a *nlp.Analysis, t *feelings.Table) []exercises.Moment {
	if a == nil || a.Doc == nil || len(a.Doc.Sentences) == 0 {
		return nil
	}
	c := newChooser(a, t)
	c.hurtful = hurtful(a.Doc.Text)
	total := c.count(window{0, len(c.words)})
	return c.pick(c.candidates(), max(1, (total+wordsAMoment-1)/wordsAMoment))
}

// WhyNone says why a story has no moment, as a catalogue code: it is too
// short, no cue was found, no cue has an owner whom the text names, or none is
// clear enough.
func WhyNone(a *nlp.Analysis) nlp.Reason {
	return nlp.Reason{Code: whyNone(a), Slots: map[string]string{}}
}

func whyNone(a *nlp.Analysis) string {
	if a == nil || a.Doc == nil || len(a.Doc.Sentences) == 0 {
		return "moment.none.too-short"
	}
	c := newChooser(a, nil)
	if c.count(window{0, len(c.words)}) < leastWords {
		return "moment.none.too-short"
	}
	if len(a.Cues) == 0 {
		return "moment.none.no-cues"
	}
	for _, cue := range a.Cues {
		if len(c.names(cue.Character)) > 0 {
			return "moment.none.no-key"
		}
	}
	return "moment.none.no-name"
}

// chooser is one story with what choosing needs of it.
type chooser struct {
	*layout
	a     *nlp.Analysis
	t     *feelings.Table
	named map[int][]int // by character, the sentences that name or describe it
	most  int           // mentions of the character most spoken of

	hurtful []nlp.Span
}

func newChooser(a *nlp.Analysis, t *feelings.Table) *chooser {
	c := &chooser{layout: layOut(a), a: a, t: t, named: map[int][]int{}, most: 1}
	for _, x := range a.Characters {
		c.most = max(c.most, len(x.Mentions))
	}
	return c
}

// names lists the sentences that name or describe the character, in order;
// none where a reader could not say whom an exercise is about.
func (c *chooser) names(id int) []int {
	if id < 0 || id >= len(c.a.Characters) || !c.somebody(id) {
		return nil
	}
	out, ok := c.named[id]
	if !ok {
		for _, m := range c.a.Characters[id].Mentions {
			if !m.Pronoun || c.a.Characters[id].Narrator { // "I" names who tells the story
				out = append(out, c.sentenceAt(m.Span.Start))
			}
		}
		slices.Sort(out)
		out = slices.Compact(out)
		c.named[id] = out
	}
	return out
}

// candidates makes the moments around every cue, at a few lengths.
func (c *chooser) candidates() []exercises.Moment {
	var out []exercises.Moment
	type place struct{ from, to, who int }
	seen := map[place]bool{}
	for _, cue := range c.a.Cues {
		names := c.names(cue.Character)
		if cue.Denied || cue.Pretended || len(names) == 0 {
			continue
		}
		w := window{c.sentenceAt(cue.Span.Start), c.sentenceAt(max(cue.Span.Start, cue.Span.End-1)) + 1}
		if cue.Event != nil {
			w.from = min(w.from, c.sentenceAt(cue.Event.Start))
			w.to = max(w.to, c.sentenceAt(max(cue.Event.Start, cue.Event.End-1))+1)
		}
		for _, wish := range []int{goodWords, 70, 110} {
			v, ok := c.grow(w, names, wish)
			at := place{v.from, v.to, cue.Character}
			if !ok || seen[at] || c.count(v) < leastWords {
				continue
			}
			seen[at] = true
			if m, ok := c.build(v, cue.Character); ok {
				out = append(out, m)
			}
		}
	}
	return out
}

// build makes the moment of one character in one window.
func (c *chooser) build(w window, who int) (exercises.Moment, bool) {
	span := c.span(w)
	m := exercises.Moment{Span: span, Character: who, CharacterName: c.called(who, span)}
	first, _ := slices.BinarySearchFunc(c.a.Cues, span.Start, func(x nlp.Cue, at int) int { return x.Span.Start - at })
	for i := first; i < len(c.a.Cues) && c.a.Cues[i].Span.Start < span.End; i++ {
		if x := c.a.Cues[i]; x.Character == who && span.Contains(x.Span) {
			m.Cues = append(m.Cues, i)
		}
	}
	var ok bool
	if m.Key, ok = makeKey(c.a, c.layout, m.Cues, c.t); !ok {
		return m, false
	}
	m.Kind = easiest(c.a, m.Key)
	m.Route = routeOf(m.Kind)
	m.Difficulty = c.difficulty(w, m)
	m.NoAndYou = follows(span, c.hurtful)
	m.ID = id(c.a.Doc.Text, m)
	return m, true
}

var kindOrder = []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}

// easiest is the easiest kind among the cues that speak for what fits.
func easiest(a *nlp.Analysis, k exercises.Key) string {
	best := len(kindOrder) - 1
	for _, e := range k.Evidence {
		c := a.Cues[e.Cue]
		if at := slices.Index(kindOrder, c.Kind); at >= 0 && slices.ContainsFunc(c.Feelings, func(w nlp.Weight) bool {
			return slices.Contains(k.Fits, w.Family) && w.Weight >= halfSure
		}) {
			best = min(best, at)
		}
	}
	return kindOrder[best]
}

// halfSure is how much a cue must speak for a family to carry the moment.
const halfSure = 0.3

// routeOf follows what the text gives: a named feeling, something shown, or an
// event alone.
func routeOf(kind string) exercises.Route {
	switch kind {
	case nlp.Named:
		return exercises.RouteNamed
	case nlp.Situation:
		return exercises.RouteEvent
	}
	return exercises.RouteBody
}

// id is stable as long as passage, evidence and name are: the first 16 hex
// digits of their SHA-256.
func id(text string, m exercises.Moment) string {
	h := sha256.New()
	write := func(s string) { h.Write([]byte(s)); h.Write([]byte{0}) }
	write(m.Span.Of(text))
	for _, e := range m.Key.Evidence {
		write(e.Span.Of(text))
	}
	write(m.CharacterName)
	return hex.EncodeToString(h.Sum(nil))[:16]
}
