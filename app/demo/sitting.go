package demo

import (
	"math/rand/v2"
	"slices"

	"feltpage/app/record"
	"feltpage/app/ui/model"
	"feltpage/exercises"
	"feltpage/exercises/marking"
	"feltpage/exercises/steps"
	"feltpage/nlp"
)

// planned is one sitting to be held.
type planned struct {
	ago     int
	kind    record.SittingKind
	tale    *tale
	moments []exercises.Moment
	stops   bool // the learner stops after the first moment
}

// How the weeks are laid out. Each learner reads on about three days a week and
// not on the day of now, so that a plan for today is free.
const (
	probeAgo   = 14 // days ago, six weeks after the baseline
	keptUnread = 4  // stories that stay for whoever looks around
)

// plan lays the stories out over the weeks, easiest first. Two of them are kept
// apart, one for the baseline and one for the probe, so that both ask about
// moments that were never taught.
func (s *seeding) plan(who *person) []planned {
	var ready []*tale
	for _, t := range s.tales {
		if len(t.moments) > 0 {
			ready = append(ready, t)
		}
	}
	if len(ready) > keptUnread+3 {
		ready = ready[:len(ready)-keptUnread]
	}
	if len(ready) == 0 {
		return nil
	}
	base := ready[0]
	probe := ready[len(ready)/2]
	taught := slices.DeleteFunc(slices.Clone(ready), func(t *tale) bool { return len(ready) > 2 && (t == base || t == probe) })
	start := int(who.begins * float64(len(taught)))
	taught = append(slices.Clone(taught[start:]), taught[:start]...)

	var days []int
	for ago := length - 1; ago > 0; {
		days = append(days, ago)
		ago -= 2 + s.rng.IntN(2)
	}
	var out []planned
	t, m, probed := 0, 0, false
	for i, ago := range days {
		day := planned{ago: ago, kind: record.Teaching}
		switch {
		case i == 0:
			day.kind, day.tale, day.moments = record.Baseline, base, first(base.moments, 3)
		case ago <= probeAgo && !probed:
			probed = true
			day.kind, day.tale, day.moments = record.Probe, probe, first(probe.moments, 3)
		default:
			for t < len(taught) && m >= len(taught[t].moments) {
				t, m = t+1, 0
			}
			if t == len(taught) {
				return out
			}
			day.tale = taught[t]
			n := model.MostMoments
			if i%6 == 4 { // a hard day
				day.kind, n = record.Short, 1
			}
			day.stops = i%7 == 5
			day.moments = first(day.tale.moments[m:], n)
			m += len(day.moments)
		}
		out = append(out, day)
	}
	return out
}

func first[T any](all []T, n int) []T { return all[:min(n, len(all))] }

// sit holds one sitting through the view model that the sitting's screen
// stands on, then the guide looks over it.
func (s *seeding) sit(p *pupil, day planned) error {
	words, err := s.st.Words(p.ID)
	if err != nil {
		return err
	}
	told, err := s.st.Experiences(p.ID)
	if err != nil {
		return err
	}
	daily, err := s.st.WordUses(p.ID)
	if err != nil {
		return err
	}
	given, err := s.st.Marked(p.ID)
	if err != nil {
		return err
	}
	book := model.BookOf(words, told, daily, given)
	g, err := model.NewSitting(s.st, model.SittingPlan{
		SittingRequest: model.SittingRequest{Learner: p.Learner, Story: day.tale.row, Analysis: day.tale.analysis,
			Moments: day.moments, Kind: day.kind},
		Steps: func(m exercises.Moment, n int, seed int64) []exercises.Step {
			return steps.Build(m, day.tale.analysis, s.table, book, rand.New(rand.NewPCG(uint64(seed), uint64(n))), steps.Options{
				Short: day.kind == record.Short, NoOffer: n > 0,
				Measure: day.kind == record.Baseline || day.kind == record.Probe,
			})
		},
		Judge: func(m exercises.Moment, st exercises.Step, a exercises.Answer) exercises.Mark {
			return marking.Judge(marking.Context{Text: day.tale.Text, Table: s.table, Book: book}, m, st, a)
		},
		Words: words, Table: s.table, Seed: int64(s.rng.Uint32()), Now: s.clock.now,
	})
	if err != nil {
		return err
	}
	p.weeks = float64(length-day.ago) / 7
	if err := p.answerAll(g, day); err != nil {
		return err
	}
	return s.lookOver(g.ID(), day.ago)
}

// lookOver is the guide's part after a sitting: what was left to her is marked,
// about one answer in five is marked before the program's mark is shown, and
// now and then she thinks otherwise. The last days still wait for her.
func (s *seeding) lookOver(sitting string, ago int) error {
	if ago < 5 {
		return nil
	}
	all, err := s.st.MarkedIn(sitting)
	if err != nil {
		return err
	}
	for _, m := range all {
		if m.Withdrawn || m.Program == nil || m.Program.Value == exercises.Unmarked {
			continue
		}
		value, blind := m.Program.Value, s.rng.IntN(5) == 0
		roll := s.rng.IntN(100)
		switch {
		case value == exercises.ForGuide && roll < 55:
			value = exercises.Fits
		case value == exercises.ForGuide && roll < 75:
			value = exercises.Near
		case value == exercises.ForGuide && roll < 90:
			value = exercises.NotYet
		case value == exercises.ForGuide:
			continue // not looked at yet
		case blind && roll < 88: // she agrees
		case blind && value == exercises.Fits, !blind && roll < 4 && value == exercises.NotYet:
			value = exercises.Near
		case blind, !blind && roll < 4 && value == exercises.Near:
			value = exercises.Fits
		default:
			continue
		}
		if _, err := s.st.AppendMark(record.Mark{AnswerID: m.ID, By: record.ByGuide, Blind: blind,
			Mark: exercises.Mark{Value: value, Why: nlp.Reason{Code: "mark.by-guide"}}}); err != nil {
			return err
		}
	}
	return nil
}
