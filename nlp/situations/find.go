package situations

import (
	"math"
	"sort"

	"feltpage/nlp"
)

// A situation is told as a guess, never as a sign: its families weigh less
// than those of anything shown.
const (
	heaviest = 0.45 // weight of a family the model is sure of
	keep     = 0.12 // a family with a smaller share is left out
	sure     = 0.30 // the first family's share for a cue to be given at all
)

// Find gives the situation cues of a text: for each sentence and character the
// one event that would most plainly make one feel something, unless the text
// shows that character's feeling there. Events inside quotes are told, not
// happening, and are left out. Time is linear in the text.
func (m *Model) Find(d *nlp.Document, cast []nlp.Character, q []nlp.Quote, shown []nlp.Cue) []nlp.Cue {
	who := owners(d, cast)
	quoted := inQuotes(d, q)
	taken := map[[2]int]bool{}
	for _, c := range shown {
		if c.Character != nlp.None {
			s := sentenceOf(d, c.Span.Start)
			taken[[2]int{s, c.Character}] = true
		}
	}
	best := map[[2]int]nlp.Cue{}
	for v, g := range d.Verbs {
		if quoted[g.Head] {
			continue
		}
		end := reach(d, v)
		var k []string
		for _, p := range parts(g, who) {
			at := [2]int{d.Tokens[g.Head].Sentence, p.character}
			if taken[at] {
				continue
			}
			if k == nil {
				k = keys(d, v, end)
			}
			feelings := m.judge(k, p.role)
			if len(feelings) == 0 {
				continue
			}
			if old, ok := best[at]; ok && old.Feelings[0].Weight >= feelings[0].Weight {
				continue
			}
			event := nlp.Span{Start: d.Tokens[g.First].Span.Start, End: d.Tokens[max(end, g.End)-1].Span.End}
			code := "situation-actor"
			if p.role == Other {
				code = "situation-other"
			}
			best[at] = nlp.Cue{Span: event, Kind: nlp.Situation, Character: p.character, Feelings: feelings,
				Places: nil, Strength: nlp.Plain, Event: &event, Rule: "event:" + d.Tokens[g.Head].Lemma,
				Reason: nlp.Reason{Code: code, Slots: map[string]string{
					"event": event.Of(d.Text), "family": feelings[0].Family}}}
		}
	}
	out := make([]nlp.Cue, 0, len(best))
	for _, c := range best {
		out = append(out, c)
	}
	sort.Slice(out, func(a, b int) bool {
		if out[a].Span != out[b].Span {
			return out[a].Span.Start < out[b].Span.Start || out[a].Span.Start == out[b].Span.Start && out[a].Span.End < out[b].Span.End
		}
		return out[a].Character < out[b].Character
	})
	return out
}

// judge gives the families of an event, heaviest first, or none where it would
// move nobody in particular.
func (m *Model) judge(keys []string, role Role) []nlp.Weight {
	known := false
	for _, k := range keys {
		if _, ok := m.rows[k]; ok {
			known = true
			break
		}
	}
	if !known {
		return nil
	}
	p := m.shares(keys, role)
	top := 0.0
	for _, x := range p[:len(p)-1] {
		top = math.Max(top, x)
	}
	if top < sure {
		return nil
	}
	var out []nlp.Weight
	for i, x := range p[:len(p)-1] {
		if x >= keep {
			out = append(out, nlp.Weight{Family: classes[i], Weight: heaviest * x})
		}
	}
	sort.SliceStable(out, func(a, b int) bool {
		if out[a].Weight != out[b].Weight {
			return out[a].Weight > out[b].Weight
		}
		return out[a].Family < out[b].Family
	})
	return out
}

// part is a character's part in an event.
type part struct {
	character int
	role      Role
}

// parts lists who takes part in the event of a verb group, each once.
func parts(g nlp.VerbGroup, who map[int]int) []part {
	var out []part
	add := func(phrase int, r Role) {
		if phrase == nlp.None {
			return
		}
		c, ok := who[phrase]
		if !ok {
			return
		}
		for _, p := range out {
			if p.character == c {
				return
			}
		}
		out = append(out, part{c, r})
	}
	if g.Passive {
		add(g.Subject, Other)
		add(g.By, Actor)
		return out
	}
	add(g.Subject, Actor)
	add(g.Indirect, Other)
	add(g.Object, Other)
	return out
}

// owners gives the character of each noun phrase that is a mention.
func owners(d *nlp.Document, cast []nlp.Character) map[int]int {
	byHead := make(map[int]int)
	for _, c := range cast {
		for _, m := range c.Mentions {
			byHead[m.Head] = c.ID
		}
	}
	out := make(map[int]int)
	for i, p := range d.Phrases {
		if c, ok := byHead[p.Head]; ok {
			out[i] = c
		}
	}
	return out
}

// inQuotes marks the tokens inside direct speech.
func inQuotes(d *nlp.Document, q []nlp.Quote) []bool {
	in := make([]bool, len(d.Tokens))
	for _, x := range q {
		for i := x.First; i < x.End; i++ {
			in[i] = true
		}
	}
	return in
}

// sentenceOf gives the sentence that holds a byte.
func sentenceOf(d *nlp.Document, at int) int {
	i := sort.Search(len(d.Sentences), func(i int) bool { return d.Sentences[i].Span.End > at })
	return min(i, len(d.Sentences)-1)
}
