package model

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"feltpage/app/record"
	"feltpage/corpus"
	"feltpage/corpus/level"
	"feltpage/corpus/notes"
	"feltpage/exercises"
	"feltpage/exercises/moments"
	"feltpage/nlp"
)

// Reading is what is known about one story: what the engine found, the guide's
// mends laid over it, and the moments that can be made from that.
type Reading struct {
	Story    record.Story
	Found    *nlp.Analysis // as the engine gave it
	Mended   *nlp.Analysis // with the mends; moments and steps go by this
	Mends    []record.Mend // that stand
	NeedsEye []record.Mend // whose words are no longer found
	Moments  []exercises.Moment
	WhyNone  nlp.Reason // where there is no moment
	Level    corpus.Level
	Notes    []corpus.Note
}

// Read gives the reading of a story: the kept analysis where there is one, else
// the engine is asked and its answer kept.
func (h *House) Read(ctx context.Context, s record.Story) (*Reading, error) {
	_, version := h.engine()
	a, err := h.Store.Analysis(s.Hash, version)
	if err != nil {
		if a, err = h.analyze(ctx, s.Text); err != nil {
			return nil, fmt.Errorf("reading %q: %w", s.Title, err)
		}
		// A story that is only being looked at is not kept yet; nor is its
		// analysis. Failing to keep one costs time later and nothing else.
		if s.Meta.ID != "" {
			_ = h.Store.PutAnalysis(s.Hash, a)
		}
	}
	mends, err := h.Store.Mends(s.Hash)
	if err != nil {
		return nil, fmt.Errorf("reading the mends of %q: %w", s.Title, err)
	}
	r := &Reading{Story: s, Found: a, Mends: mends, Level: level.Of(s.Text), Notes: notes.Find(s.Text)}
	var leftOut []nlp.Span
	r.Mended, leftOut, r.NeedsEye = mend(a, mends)
	all := moments.Choose(r.Mended, h.Table)
	for _, m := range all {
		if !slices.ContainsFunc(leftOut, func(s nlp.Span) bool { return touches(m, s) }) {
			r.Moments = append(r.Moments, m)
		}
	}
	if len(r.Moments) == 0 {
		r.WhyNone = moments.WhyNone(r.Mended)
		if len(all) > 0 {
			r.WhyNone = nlp.Reason{Code: "shelf.none-left-out"}
		}
	}
	return r, nil
}

// touches reports whether a moment rests on a span.
func touches(m exercises.Moment, s nlp.Span) bool {
	return slices.ContainsFunc(m.Key.Evidence, func(e exercises.Evidence) bool { return e.Span.Overlaps(s) })
}

// mend lays mends over an analysis and leaves the analysis as it was. It gives
// the spans from which no exercise is to be made, and the mends whose words it
// did not find.
func mend(a *nlp.Analysis, mends []record.Mend) (_ *nlp.Analysis, leftOut []nlp.Span, lost []record.Mend) {
	if len(mends) == 0 || a.Doc == nil {
		return a, nil, nil
	}
	out := *a
	out.Cues = slices.Clone(a.Cues)
	who := func(name string) int {
		return slices.IndexFunc(a.Characters, func(c nlp.Character) bool { return c.Name == name })
	}
	for _, m := range mends {
		at, ok := m.Anchor.In(a.Doc.Text)
		if !ok {
			lost = append(lost, m)
			continue
		}
		i := slices.IndexFunc(out.Cues, func(c nlp.Cue) bool {
			return c.Span == at && (m.Character == "" || c.Character == nlp.None || a.Characters[c.Character].Name == m.Character)
		})
		if m.What == record.MendLeaveOut {
			leftOut = append(leftOut, at)
			continue
		}
		if m.What == record.MendClue {
			out.Cues = append(out.Cues, nlp.Cue{Span: at, Kind: m.Kind, Character: who(m.Character), Feelings: m.Families, Places: m.Places,
				Strength: nlp.Plain, Rule: "guide", Reason: nlp.Reason{Code: "cue.guide", Slots: map[string]string{"words": m.Quote}}})
			continue
		}
		if i < 0 {
			lost = append(lost, m)
			continue
		}
		switch m.What {
		case record.MendNotAClue:
			out.Cues = slices.Delete(out.Cues, i, i+1)
		case record.MendOwner:
			if n := who(m.NewCharacter); n >= 0 {
				out.Cues[i].Character = n
			} else {
				lost = append(lost, m)
			}
		case record.MendFeelings:
			out.Cues[i].Feelings = m.Families
		case record.MendPlaces:
			out.Cues[i].Places = m.Places
		}
	}
	slices.SortStableFunc(out.Cues, func(x, y nlp.Cue) int { return x.Span.Start - y.Span.Start })
	return &out, leftOut, lost
}

// ErrNotReady says that a story cannot be read with a learner yet.
var ErrNotReady = errors.New("the story is not ready")
