package steps

import (
	"fmt"
	"slices"
	"sort"

	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// feelings makes the feeling choices in shown order, and the two that are left
// at the level of fewer choices.
func (b *builder) feelings() (all, fewer []exercises.Choice) {
	fit := b.choice(b.m.Key.Fits[0], exercises.RoleFits)
	all = append(all, fit)
	n := b.opt.choices()
	near := b.distractors(b.m.Key.Near, exercises.RoleNear)
	far := b.distractors(b.m.Key.Not, exercises.RoleFar)
	all = append(all, near[:min(len(near), b.opt.near(), n-1)]...)
	all = append(all, far[:min(len(far), n-len(all))]...)
	if left := n - len(all); left > 0 { // few far ones: fill up with near ones
		taken := min(len(near), b.opt.near(), n-1)
		all = append(all, near[taken:min(len(near), taken+left)]...)
	}
	other := all[len(all)-1]
	if offer, ok := b.offer(); ok {
		all = append(all, offer)
	}
	b.shuffle(all)
	fewer = []exercises.Choice{fit, other}
	b.shuffle(fewer)
	return all, fewer
}

// distractors gives one choice for each family: those for which the learner
// has words come first, among equals chance decides. Families of which the
// fitting ones are near are never far.
func (b *builder) distractors(families []string, role exercises.ChoiceRole) []exercises.Choice {
	ids := slices.Clone(families)
	b.rng.Shuffle(len(ids), func(i, j int) { ids[i], ids[j] = ids[j], ids[i] })
	sort.SliceStable(ids, func(i, j int) bool {
		return b.has(ids[i]) && !b.has(ids[j])
	})
	var out []exercises.Choice
	for _, id := range ids {
		out = append(out, b.choice(id, role))
	}
	return out
}

func (b *builder) has(family string) bool { return len(b.book.For(family)) > 0 }

func (b *builder) choice(family string, role exercises.ChoiceRole) exercises.Choice {
	c := exercises.Choice{ID: family, Text: b.word(family), Family: family, Role: role}
	if ws := b.book.For(family); len(ws) > 0 {
		c.ID = ws[0].ID
	}
	return c
}

// offer is a new, richer word for the fitting family, made only where the
// learner already has a tied word for it, and at most once a sitting.
func (b *builder) offer() (exercises.Choice, bool) {
	family := b.m.Key.Fits[0]
	f, ok := b.t.Family(family)
	if !ok || b.opt.NoOffer || b.opt.Measure || b.opt.Short {
		return exercises.Choice{}, false
	}
	tied := false
	for _, w := range b.book.For(family) {
		tied = tied || b.book.State(w.ID) != wordbook.New
	}
	if !tied {
		return exercises.Choice{}, false
	}
	for _, w := range append(slices.Clone(f.Plain), f.Rich...) {
		if len(b.book.Find(w)) == 0 {
			return exercises.Choice{ID: "offer:" + w, Text: w, Family: family, Role: exercises.RoleOffer}, true
		}
	}
	return exercises.Choice{}, false
}

func (b *builder) shuffle(cs []exercises.Choice) {
	b.rng.Shuffle(len(cs), func(i, j int) { cs[i], cs[j] = cs[j], cs[i] })
}

// SpanID is the id of a choice that is a stretch of the text.
func SpanID(s nlp.Span) string { return fmt.Sprintf("span:%d-%d", s.Start, s.End) }

// places gives up to three stretches to choose from, in text order: the
// evidence and two sentences without any.
func (b *builder) places(e exercises.Evidence) []exercises.Choice {
	text := b.a.Doc.Text
	spans := []nlp.Span{e.Span}
	for _, s := range b.a.Doc.Sentences {
		if len(spans) == 3 || !b.m.Span.Contains(s.Span) {
			continue
		}
		if !slices.ContainsFunc(b.m.Key.Evidence, func(x exercises.Evidence) bool { return x.Span.Overlaps(s.Span) }) {
			spans = append(spans, s.Span)
		}
	}
	sort.Slice(spans, func(i, j int) bool { return spans[i].Start < spans[j].Start })
	var out []exercises.Choice
	for _, s := range spans {
		role := exercises.RoleFar
		if s == e.Span {
			role = exercises.RoleFits
		}
		out = append(out, exercises.Choice{ID: SpanID(s), Text: exercises.Quote(s.Of(text)), Role: role})
	}
	return out
}
