package store

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/app/record"
	"feltpage/exercises"
	"feltpage/nlp"
)

func markOf(v exercises.MarkValue) exercises.Mark {
	return exercises.Mark{Value: v, Why: nlp.Reason{Code: "why", Slots: map[string]string{"v": string(v)}}}
}

// eventTables are those with a place in the order of writing.
func eventTables(t *testing.T, s *Store) []string {
	t.Helper()
	tables, err := tablesWith(s.db(), "seq")
	require.NoError(t, err)
	return slices.DeleteFunc(tables, func(n string) bool { return n == "device" })
}

func TestEventsAreOnlyAdded(t *testing.T) {
	b := laid(t, openTest(t), false)
	a := b.answer("m1", 0, "cold")
	seat := b.sitting.Seats[0].ID
	must[record.Mark](t)(b.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByGuide, Mark: markOf(exercises.Fits)}))
	must[record.Withdrawal](t)(b.Withdraw(record.Withdrawal{AnswerID: a.ID}))
	must[record.Help](t)(b.RecordHelp(record.Help{Sitting: b.sitting.ID, Seat: seat, Learner: b.learner.ID, MomentID: "m1"}))
	must[record.Position](t)(b.SavePosition(record.Position{Sitting: b.sitting.ID, Seat: seat, Learner: b.learner.ID}))
	must[record.Mend](t)(b.SaveMend(record.Mend{Anchor: record.Anchor{TextHash: "h1", Quote: "knees"}}))
	require.NoError(t, b.EndSitting(b.sitting.ID, "done"))

	tables := eventTables(t, b.Store)
	require.Subset(t, tables, []string{"answer", "mark", "withdrawal", "help", "position", "mend", "sitting", "sitting_end"})
	for _, table := range tables {
		before := count(t, b.db(), "SELECT count(*) FROM "+table)
		require.Positive(t, before, table)
		for _, q := range []string{
			"UPDATE " + table + " SET day = 'never'",
			"DELETE FROM " + table,
			"INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table,
		} {
			_, err := b.db().Exec(q)
			require.ErrorContains(t, err, "only added", q)
		}
		require.Equal(t, before, count(t, b.db(), "SELECT count(*) FROM "+table))
	}
}

func TestEventsNeedSomethingToBeAbout(t *testing.T) {
	b := laid(t, openTest(t), false)
	_, err := b.AppendMark(record.Mark{AnswerID: "nobody's", By: record.ByGuide})
	require.ErrorIs(t, err, ErrNotFound)
	_, err = b.AppendAnswer(record.Answer{Learner: "nobody"})
	require.ErrorIs(t, err, ErrNotFound)
	_, err = b.AppendAnswer(record.Answer{Learner: b.learner.ID, Sitting: "none", Seat: "none", StoryID: "none"})
	require.ErrorContains(t, err, "FOREIGN KEY")
	_, err = b.StartSitting(record.Sitting{StoryID: b.story.Meta.ID})
	require.Error(t, err)
	require.ErrorIs(t, b.EndSitting("none", "done"), ErrNotFound)
	require.ErrorIs(t, b.TickRead("none", true), ErrNotFound)
	_, err = b.Learner("nobody")
	require.ErrorIs(t, err, ErrNotFound)
}

func TestUndoingAMendKeepsBoth(t *testing.T) {
	s := openTest(t)
	a := record.Anchor{TextHash: "h1", Quote: "knees", Before: "His ", Character: "Moss"}
	first := must[record.Mend](t)(s.SaveMend(record.Mend{Anchor: a, What: record.MendNotAClue}))
	second := must[record.Mend](t)(s.SaveMend(record.Mend{Anchor: a, What: record.MendOwner, NewCharacter: "the gull"}))
	require.NoError(t, s.UndoMend(first.ID))
	require.Equal(t, []record.Mend{second}, must[[]record.Mend](t)(s.Mends("h1")))
	require.Empty(t, must[[]record.Mend](t)(s.Mends("h2")))
	require.Equal(t, 3, count(t, s.db(), "SELECT count(*) FROM mend"))
	require.ErrorIs(t, s.UndoMend("none"), ErrNotFound)
}

// expected is a second, plain reading of the rules that Marked follows.
type expected struct {
	answers        []record.Answer
	program, guide map[string]exercises.Mark
	blind          map[string]exercises.Mark
	withdrawn      map[string]bool
	named          map[string]bool   // answers a help names
	before         map[string][]int  // step: answers given before each unnamed help
	step           map[string]string // answer: its step
}

func (e *expected) helped(a record.Answer) bool {
	if e.named[a.ID] {
		return true
	}
	var same []string // answers to the step, in order
	for _, o := range e.answers {
		if e.step[o.ID] == e.step[a.ID] {
			same = append(same, o.ID)
		}
	}
	for _, n := range e.before[e.step[a.ID]] { // n answers had been given to the step
		if n == 0 || same[n-1] == a.ID {
			return true
		}
	}
	return false
}

// In whatever order facts are added, Marked tells what a plain reading of them
// tells.
func TestMarkedAgreesWithAPlainReading(t *testing.T) {
	b := laid(t, openTest(t), false)
	_, err := b.db().Exec("PRAGMA synchronous = OFF") // it is the order that is looked at, not the disk
	require.NoError(t, err)
	values := []exercises.MarkValue{exercises.Fits, exercises.Near, exercises.NotYet, exercises.ForGuide}
	rapid.Check(t, func(r *rapid.T) {
		g, err := b.StartSitting(record.Sitting{Kind: record.Probe, StoryID: b.story.Meta.ID,
			Seats: []record.Seat{{Learner: b.learner.ID}}})
		require.NoError(r, err)
		b.sitting = g
		e := expected{program: map[string]exercises.Mark{}, guide: map[string]exercises.Mark{}, blind: map[string]exercises.Mark{},
			withdrawn: map[string]bool{}, named: map[string]bool{}, before: map[string][]int{}, step: map[string]string{}}
		for range rapid.IntRange(0, 25).Draw(r, "facts") {
			what := "answer"
			if len(e.answers) > 0 {
				what = rapid.SampledFrom([]string{"answer", "answer", "program", "guide", "withdraw", "help", "help that"}).Draw(r, "what")
			}
			step := rapid.IntRange(0, 2).Draw(r, "step")
			name := fmt.Sprint("m1/", step)
			var on record.Answer
			if len(e.answers) > 0 {
				on = rapid.SampledFrom(e.answers).Draw(r, "on")
			}
			mark := markOf(rapid.SampledFrom(values).Draw(r, "value"))
			help := record.Help{Sitting: g.ID, Seat: g.Seats[0].ID, Learner: b.learner.ID, MomentID: "m1", StepNo: step}
			var err error
			switch what {
			case "answer":
				a := b.answer("m1", step, "said")
				e.answers = append(e.answers, a)
				e.step[a.ID] = name
			case "program":
				_, err = b.AppendMark(record.Mark{AnswerID: on.ID, By: record.ByProgram, Mark: mark})
				e.program[on.ID] = mark
			case "guide":
				blind := rapid.Bool().Draw(r, "blind")
				_, err = b.AppendMark(record.Mark{AnswerID: on.ID, By: record.ByGuide, Mark: mark, Blind: blind})
				e.guide[on.ID] = mark
				if _, had := e.blind[on.ID]; blind && !had {
					e.blind[on.ID] = mark
				}
			case "withdraw":
				_, err = b.Withdraw(record.Withdrawal{AnswerID: on.ID})
				e.withdrawn[on.ID] = true
			case "help":
				n := 0
				for _, s := range e.step {
					if s == name {
						n++
					}
				}
				_, err = b.RecordHelp(help)
				e.before[name] = append(e.before[name], n)
			case "help that":
				help.AnswerID = on.ID
				_, err = b.RecordHelp(help)
				e.named[on.ID] = true
			}
			require.NoError(r, err)
		}
		got, err := b.MarkedIn(g.ID)
		require.NoError(r, err)
		require.Len(r, got, len(e.answers))
		for i, m := range got {
			a := e.answers[i]
			require.Equal(r, a, m.Answer)
			require.Equal(r, pointer(e.program, a.ID), m.Program)
			require.Equal(r, pointer(e.guide, a.ID), m.Guide)
			require.Equal(r, pointer(e.blind, a.ID), m.Blind)
			require.Equal(r, e.withdrawn[a.ID], m.Withdrawn)
			require.Equal(r, e.helped(a), m.Helped, "answer %d of %d", i, len(got))
			require.Equal(r, record.Probe, m.SittingKind)
		}
	})
}

func pointer(m map[string]exercises.Mark, id string) *exercises.Mark {
	if v, ok := m[id]; ok {
		return &v
	}
	return nil
}

// A clock set back does not make an older mark the newest.
func TestTheNewestMarkIsTheLastWritten(t *testing.T) {
	b := laid(t, openTest(t), false)
	a := b.answer("m1", 0, "cold")
	c := newClock()
	must[record.Mark](t)(b.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByGuide, Mark: markOf(exercises.NotYet)}))
	c.t = c.t.AddDate(-1, 0, 0)
	must[record.Mark](t)(b.With(Options{Now: c.now}).AppendMark(record.Mark{AnswerID: a.ID, By: record.ByGuide, Mark: markOf(exercises.Fits)}))
	got := must[[]record.Marked](t)(b.Marked(b.learner.ID))
	require.Equal(t, exercises.Fits, got[0].Effective().Value)
}

func TestManyAtOnceLoseNothing(t *testing.T) {
	b := laid(t, openTest(t), false)
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			for j := range 10 {
				b.answer(fmt.Sprint("m", i), j, "said")
			}
		})
	}
	all.Wait()
	require.Len(t, must[[]record.Answer](t)(b.Answers(b.learner.ID)), 80)
}

// Marked asks once, whatever the number of answers, and finds each answer's
// marks, helps and withdrawals by index.
func TestMarkedReadsByIndex(t *testing.T) {
	s := openTest(t)
	rows, err := s.db().Query("EXPLAIN QUERY PLAN "+markedQuery("answer.learner = ?"), "x")
	require.NoError(t, err)
	defer rows.Close()
	var plan []string
	for rows.Next() {
		var id, parent, unused int
		var detail string
		require.NoError(t, rows.Scan(&id, &parent, &unused, &detail))
		plan = append(plan, detail)
	}
	require.NotEmpty(t, plan)
	for _, p := range plan {
		require.False(t, strings.HasPrefix(p, "SCAN") && p != "SCAN CONSTANT ROW", "%s in\n%s", p, strings.Join(plan, "\n"))
	}
}

func BenchmarkMarked(b *testing.B) {
	s, err := Open(b.TempDir(), Options{Now: newClock().now, Rand: rand.NewChaCha8([32]byte{2})})
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	if _, err := s.db().Exec("PRAGMA synchronous = OFF"); err != nil { // of the filling only
		b.Fatal(err)
	}
	l, _ := s.SaveLearner(record.Learner{Nickname: "Moss"})
	r, _ := s.AddStory(tale)
	g, err := s.StartSitting(record.Sitting{StoryID: r.Meta.ID, Seats: []record.Seat{{Learner: l.ID}}})
	if err != nil {
		b.Fatal(err)
	}
	for i := range 5000 {
		a, err := s.AppendAnswer(record.Answer{Sitting: g.ID, Seat: g.Seats[0].ID, Learner: l.ID, StoryID: r.Meta.ID,
			Moment: exercises.Moment{ID: fmt.Sprint("m", i/4)}, StepNo: i % 4})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := s.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByProgram, Mark: markOf(exercises.Fits)}); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if got, err := s.Marked(l.ID); err != nil || len(got) != 5000 {
			b.Fatal(len(got), err)
		}
	}
}
