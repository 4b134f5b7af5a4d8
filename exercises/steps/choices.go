package steps

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// word is what a family is called for this learner: one of the learner's own
// words, by the strength of what the text shows; else a shipped one of the
// level, the plainest first.
func (b *builder) word(family string) exercises.Choice {
	c := exercises.Choice{ID: family, Text: family, Family: family}
	if ws := b.own(family); len(ws) > 0 {
		w := ws[0]
		switch b.best().Strength {
		case nlp.Strong:
			w = ws[len(ws)-1]
		case nlp.Plain:
			w = ws[(len(ws)-1)/2]
		}
		c.ID, c.Text = w.ID, w.Form
		return c
	}
	f, _ := b.t.Family(family)
	switch {
	case b.opt.Rich && len(f.Rich) > 0:
		c.Text = f.Rich[0]
	case len(f.Plain) > 0:
		c.Text = f.Plain[0]
	case len(f.Rich) > 0:
		c.Text = f.Rich[0]
	}
	return c
}

// own gives the learner's words for a family along their shades line: those
// that are tied to something, where any are.
func (b *builder) own(family string) []wordbook.Word {
	ws := b.book.For(family)
	tied := 0
	for tied < len(ws) && b.book.State(ws[tied].ID) != wordbook.New {
		tied++
	}
	if tied > 0 {
		return ws[:tied]
	}
	return ws
}

// feelings makes the feeling choices in shown order, and the two that are left
// at the level of fewer choices: one that fits and the farthest other.
func (b *builder) feelings() (all, fewer []exercises.Choice) {
	fit := b.word(b.m.Key.Fits[0])
	fit.Role = exercises.RoleFits
	all = []exercises.Choice{fit}
	for _, c := range b.distractors() {
		if len(all) == b.opt.choices() {
			break
		}
		if !b.clashes(c, all) {
			all = append(all, c)
		}
	}
	other := -1
	for i, c := range all[1:] {
		if other < 0 || b.apart(c.Family) > b.apart(all[other].Family) {
			other = i + 1
		}
	}
	fewer = []exercises.Choice{fit}
	if other > 0 {
		fewer = append(fewer, all[other])
	}
	if offer, ok := b.offer(all); ok {
		all = append(all, offer)
	}
	b.shuffle(all)
	b.shuffle(fewer)
	return all, fewer
}

// distractors lists choices that do not fit, in the order they should be taken:
// by distance as wished, families for which the learner has words first.
func (b *builder) distractors() []exercises.Choice {
	near := b.inOrder(b.m.Key.Near, exercises.RoleNear)
	far := b.inOrder(b.m.Key.Not, exercises.RoleFar)
	switch b.opt.Distance {
	case Wide:
		sort.SliceStable(far, func(i, j int) bool {
			if x, y := b.has(far[i].Family), b.has(far[j].Family); x != y {
				return x
			}
			return b.apart(far[i].Family) > b.apart(far[j].Family)
		})
		return append(far, near...)
	case Close:
		return append(near, far...)
	}
	one := min(len(near), 1)
	return slices.Concat(near[:one], far, near[one:])
}

// inOrder makes one choice for each family: families of the learner's own
// words first, chance among equals.
func (b *builder) inOrder(families []string, role exercises.ChoiceRole) []exercises.Choice {
	ids := slices.Clone(families)
	b.rng.Shuffle(len(ids), func(i, j int) { ids[i], ids[j] = ids[j], ids[i] })
	sort.SliceStable(ids, func(i, j int) bool { return b.has(ids[i]) && !b.has(ids[j]) })
	out := make([]exercises.Choice, len(ids))
	for i, id := range ids {
		out[i] = b.word(id)
		out[i].Role = role
	}
	return out
}

func (b *builder) has(family string) bool { return len(b.book.For(family)) > 0 }

// apart is how far a family lies from the nearest fitting one.
func (b *builder) apart(family string) float64 {
	least := b.t.Distance(b.m.Key.Fits[0], family)
	for _, f := range b.m.Key.Fits[1:] {
		least = min(least, b.t.Distance(f, family))
	}
	return least
}

// clashes reports whether a choice cannot stand beside the others: it reads the
// same, or its word can mean a fitting feeling as well.
func (b *builder) clashes(c exercises.Choice, others []exercises.Choice) bool {
	for _, o := range others {
		if strings.EqualFold(o.Text, c.Text) {
			return true
		}
	}
	if c.ID != c.Family {
		return false // the learner's own word means what the learner says
	}
	return slices.ContainsFunc(b.t.FamilyOf(c.Text), func(w nlp.Weight) bool { return slices.Contains(b.m.Key.Fits, w.Family) })
}

// offer is a new word for the fitting family, made only where the learner has
// a tied word for it already, and at most once a sitting. It comes beside the
// choices and never in place of one.
func (b *builder) offer(beside []exercises.Choice) (exercises.Choice, bool) {
	family := b.m.Key.Fits[0]
	ws := b.own(family)
	if b.opt.NoOffer || b.opt.Measure || b.opt.Short || len(ws) == 0 || b.book.State(ws[0].ID) == wordbook.New {
		return exercises.Choice{}, false
	}
	f, _ := b.t.Family(family)
	for _, w := range append(slices.Clone(f.Plain), f.Rich...) {
		c := exercises.Choice{ID: "offer:" + w, Text: w, Family: family, Role: exercises.RoleOffer}
		if len(b.book.Find(w)) == 0 && !slices.ContainsFunc(beside, func(o exercises.Choice) bool { return strings.EqualFold(o.Text, w) }) {
			return c, true
		}
	}
	return exercises.Choice{}, false
}

func (b *builder) shuffle(cs []exercises.Choice) {
	b.rng.Shuffle(len(cs), func(i, j int) { cs[i], cs[j] = cs[j], cs[i] })
}

// SpanID is the id of a choice that is a stretch of the text.
func SpanID(s nlp.Span) string { return fmt.Sprintf("span:%d-%d", s.Start, s.End) }

// stretches gives up to three stretches of the passage to choose from, in text
// order: the evidence, and whole sentences without any that lie nearest to it.
func (b *builder) stretches(e exercises.Evidence) []exercises.Choice {
	var others []nlp.Span
	for _, s := range b.a.Doc.Sentences {
		if !b.m.Span.Contains(s.Span) || s.Span == e.Sentence ||
			slices.ContainsFunc(slices.Concat(b.m.Key.Evidence, b.m.Key.Beside), func(x exercises.Evidence) bool { return x.Span.Overlaps(s.Span) }) {
			continue
		}
		others = append(others, s.Span)
	}
	gap := func(s nlp.Span) int { return max(e.Span.Start-s.End, s.Start-e.Span.End) }
	// Sentences about somebody else first: one about this character may show
	// something that was not found, and must not be called wrong.
	about := func(s nlp.Span) bool {
		return b.m.Character >= 0 && b.m.Character < len(b.a.Characters) &&
			slices.ContainsFunc(b.a.Characters[b.m.Character].Mentions, func(m nlp.Mention) bool { return m.Span.Overlaps(s) })
	}
	sort.SliceStable(others, func(i, j int) bool {
		if x, y := about(others[i]), about(others[j]); x != y {
			return y
		}
		return gap(others[i]) < gap(others[j])
	})
	spans := append([]nlp.Span{e.Span}, others[:min(len(others), 2)]...)
	sort.Slice(spans, func(i, j int) bool { return spans[i].Start < spans[j].Start })
	out := make([]exercises.Choice, 0, len(spans))
	for _, s := range spans {
		role := exercises.RoleFar
		if s == e.Span {
			role = exercises.RoleFits
		}
		out = append(out, exercises.Choice{ID: SpanID(s), Text: b.text(s), Role: role})
	}
	return out
}
