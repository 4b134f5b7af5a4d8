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
	"sort"

	"feltpage/exercises"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// wordsAMoment is how much story there should be for each moment chosen.
const wordsAMoment = 90

// Choose gives the moments of a story in story order, spread over characters,
// feelings, kinds of cue and difficulty. It gives none where the story has no
// usable moment; WhyNone then says why.
func Choose(a *nlp.Analysis, t *feelings.Table) []exercises.Moment {
	if a == nil || a.Doc == nil || len(a.Doc.Sentences) == 0 {
		return nil
	}
	l := layOut(a)
	cands := candidates(a, l, t)
	total := l.count(window{0, len(l.words)})
	return pick(cands, max(1, (total+wordsAMoment-1)/wordsAMoment))
}

// WhyNone says why a story has no moment: too-short, no-cues, no-name or
// no-key, as a catalogue code.
func WhyNone(a *nlp.Analysis) nlp.Reason {
	code := "moment.none.no-key"
	switch {
	case a == nil || a.Doc == nil || len(a.Doc.Sentences) == 0:
		code = "moment.none.too-short"
	default:
		l := layOut(a)
		owned := false
		for _, c := range a.Cues {
			if c.Character != nlp.None && len(names(a, l, c.Character)) > 0 {
				owned = true
			}
		}
		switch {
		case l.count(window{0, len(l.words)}) < leastWords:
			code = "moment.none.too-short"
		case len(a.Cues) == 0:
			code = "moment.none.no-cues"
		case !owned:
			code = "moment.none.no-name"
		}
	}
	return nlp.Reason{Code: code, Slots: map[string]string{}}
}

// names lists the sentences that name or describe the character.
func names(a *nlp.Analysis, l *layout, id int) []int {
	if id < 0 || id >= len(a.Characters) {
		return nil
	}
	var out []int
	for _, m := range a.Characters[id].Mentions {
		if !m.Pronoun {
			out = append(out, l.sentenceAt(m.Span.Start))
		}
	}
	return slices.Compact(out)
}

func candidates(a *nlp.Analysis, l *layout, t *feelings.Table) []exercises.Moment {
	var out []exercises.Moment
	seen := map[[3]int]bool{}
	for i, c := range a.Cues {
		if c.Denied || c.Pretended || c.Character == nlp.None {
			continue
		}
		ns := names(a, l, c.Character)
		from, to := l.sentenceAt(c.Span.Start), l.sentenceAt(max(c.Span.Start, c.Span.End-1))+1
		if c.Event != nil {
			from = min(from, l.sentenceAt(c.Event.Start))
			to = max(to, l.sentenceAt(max(c.Event.Start, c.Event.End-1))+1)
		}
		for _, wish := range []int{goodWords, 70, 110} {
			w, ok := l.grow(window{from, to}, ns, wish)
			if !ok || l.count(w) < leastWords || seen[[3]int{w.from, w.to, c.Character}] {
				continue
			}
			seen[[3]int{w.from, w.to, c.Character}] = true
			if m, ok := build(a, l, t, w, c.Character); ok {
				out = append(out, m)
			}
		}
		_ = i
	}
	return out
}

// build makes the moment of one character in one window.
func build(a *nlp.Analysis, l *layout, t *feelings.Table, w window, who int) (exercises.Moment, bool) {
	span := l.span(w)
	m := exercises.Moment{Span: span, Character: who, CharacterName: a.Characters[who].Name}
	if m.CharacterName == "" {
		return m, false
	}
	for i, c := range a.Cues {
		if c.Character == who && span.Contains(c.Span) {
			m.Cues = append(m.Cues, i)
		}
	}
	var ok bool
	if m.Key, ok = makeKey(a, l, m.Cues, t); !ok {
		return m, false
	}
	m.Kind = easiest(a, m.Cues)
	m.Route = routeOf(m.Kind)
	m.Difficulty = difficulty(a, l, w, m)
	m.NoAndYou = hurtful(span.Of(a.Doc.Text))
	m.ID = id(a.Doc.Text, m)
	return m, true
}

var kindOrder = []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}

// easiest is the easiest kind among the cues that count.
func easiest(a *nlp.Analysis, cues []int) string {
	best := len(kindOrder) - 1
	for _, i := range cues {
		if c := a.Cues[i]; !c.Denied && !c.Pretended {
			if k := slices.Index(kindOrder, c.Kind); k >= 0 {
				best = min(best, k)
			}
		}
	}
	return kindOrder[best]
}

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

// pick takes up to n candidates, best first, each next one for what it adds:
// another character, feeling, kind or difficulty. Passages that share more
// than a third of their length are not both taken.
func pick(cands []exercises.Moment, n int) []exercises.Moment {
	var out []exercises.Moment
	used := make([]bool, len(cands))
	for len(out) < n {
		best, bestScore := -1, 0.0
		for i, c := range cands {
			if used[i] || crowds(c, out) {
				continue
			}
			if s := score(c, out); best < 0 || s > bestScore {
				best, bestScore = i, s
			}
		}
		if best < 0 {
			break
		}
		used[best] = true
		out = append(out, cands[best])
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Span.Start != out[j].Span.Start {
			return out[i].Span.Start < out[j].Span.Start
		}
		return out[i].Span.End < out[j].Span.End
	})
	return out
}

func crowds(c exercises.Moment, taken []exercises.Moment) bool {
	for _, m := range taken {
		if m.ID == c.ID {
			return true
		}
		shared := min(m.Span.End, c.Span.End) - max(m.Span.Start, c.Span.Start)
		if 3*shared > min(m.Span.Len(), c.Span.Len()) {
			return true
		}
	}
	return false
}

// score is how good a candidate is beside those taken: weight of its best
// family, evidence, and what is new in it.
func score(c exercises.Moment, taken []exercises.Moment) float64 {
	s := c.Key.Weights[0].Weight + 0.1*float64(min(len(c.Key.Evidence), 3))
	for _, m := range taken {
		if m.Character == c.Character {
			s -= 0.1
		}
		if m.Key.Fits[0] == c.Key.Fits[0] {
			s -= 0.25
		}
		if m.Kind == c.Kind {
			s -= 0.1
		}
	}
	return s
}
