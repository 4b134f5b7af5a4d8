package model

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/store"
	"feltpage/corpus"
	"feltpage/exercises"
	"feltpage/exercises/growth"
	"feltpage/exercises/steps"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
	"feltpage/nlp/segment"
)

var tuesday = time.Date(2026, 11, 3, 16, 0, 0, 0, time.UTC)

// plainReader cuts a text into sentences and finds nothing: enough where a
// test is about the way around the engine.
type plainReader struct{ before func(ctx context.Context) }

func (e plainReader) Analyze(ctx context.Context, text string) (*nlp.Analysis, error) {
	if e.before != nil {
		e.before(ctx)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return &nlp.Analysis{Engine: "plain", Doc: segment.Split(text)}, nil
}

func openHouse(t *testing.T) (*House, *store.Store) {
	t.Helper()
	st, err := store.Open(t.TempDir(), store.Options{Now: func() time.Time { return tuesday }})
	require.NoError(t, err)
	t.Cleanup(func() { st.Close() })
	table, err := feelings.Load()
	require.NoError(t, err)
	return &House{Store: st, Engine: plainReader{}, Version: "plain", Table: table, Now: func() time.Time { return tuesday }}, st
}

// The store that the program opens satisfies what the screens ask for.
var (
	_ HouseStore     = (*store.Store)(nil)
	_ HouseholdStore = (*store.Store)(nil)
	_ SittingStore   = (*store.Store)(nil)
)

func TestSetupKeepsTheLearnerAndPlacesKnownWords(t *testing.T) {
	h, st := openHouse(t)
	s := NewSetup()
	_, err := s.Keep(h)
	require.Error(t, err)
	require.Equal(t, say.T("start.no-name"), s.Trouble)
	all, err := st.Learners()
	require.NoError(t, err)
	require.Empty(t, all)

	s.Nickname, s.Words, s.Mode = "  Juniper ", "happy, afraid; squelchy\nhappy", exercises.BySpeak
	l, err := s.Keep(h)
	require.NoError(t, err)
	require.Equal(t, "Juniper", l.Nickname)
	require.Equal(t, exercises.BySpeak, l.Mode)
	words, err := st.Words(l.ID)
	require.NoError(t, err)
	family, level := map[string]string{}, map[string]string{}
	for _, w := range words {
		family[w.Form] = w.Family
		level[w.Form] = w.Language
	}
	require.Equal(t, map[string]string{"happy": "joy", "afraid": "fear", "squelchy": ""}, family)
	require.Equal(t, wordbook.Rich, LevelOf(h.Table, "fear", "Terrified"))
	require.Equal(t, map[string]string{"happy": wordbook.Plain, "afraid": wordbook.Plain, "squelchy": ""}, level)
}

func TestSplitWords(t *testing.T) {
	require.Equal(t, []string{"all wobbly", "mad", "sad"}, SplitWords(" all   wobbly,mad;\nsad ,, Mad "))
	require.Empty(t, SplitWords(" \n ,"))
}

const lamp = "Nilo climbed the steps. His legs felt like wet rope."

// Every bad input gets one sentence, nothing reaches the shelf, and what was
// written stays.
func TestBadInputIsSaidAndNothingIsLost(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		file []byte
		key  string
	}{
		"empty paste":    {text: " \n ", key: "errors.story-pasted-empty"},
		"one sentence":   {text: "Nilo climbed the steps.", key: "errors.story-pasted-short"},
		"binary file":    {file: append([]byte("PK\x03\x04"), bytes.Repeat([]byte{0, 1, 2}, 50)...), key: "errors.story-file-binary"},
		"50 MB":          {file: bytes.Repeat([]byte("Nilo climbed. "), 50<<20/14), key: "errors.story-file-large"},
		"empty file":     {file: []byte(""), key: "errors.story-file-empty"},
		"missing file":   {file: nil, key: "errors.story-file-read"},
		"UTF-32 file":    {file: []byte("\xff\xfe\x00\x00N\x00\x00\x00"), key: "errors.story-file-encoding"},
		"one-word paste": {text: "lamp", key: "errors.story-pasted-short"},
	} {
		t.Run(name, func(t *testing.T) {
			h, st := openHouse(t)
			a := NewAdding(h)
			a.Title, a.Source = "The Lamp", "a book"
			if c.text != "" {
				a.Text = c.text
				a.Add()
				require.Equal(t, c.text, a.Text)
			} else {
				a.Text = lamp
				path := filepath.Join(t.TempDir(), "x.txt")
				if c.file != nil {
					require.NoError(t, os.WriteFile(path, c.file, 0o600))
				}
				a.OpenFile(path)
				require.Equal(t, lamp, a.Text, "what was pasted before stays")
			}
			require.Equal(t, say.T(c.key, say.S{"file": "x.txt"}), a.Trouble)
			require.Empty(t, a.Busy)
			require.Nil(t, a.Done)
			require.Equal(t, "The Lamp", a.Title)
			all, err := st.Stories()
			require.NoError(t, err)
			require.Empty(t, all)

			a.Text = lamp
			a.Add()
			require.Empty(t, a.Trouble, "and then it goes on")
			require.NotNil(t, a.Done)
			require.Equal(t, "The Lamp", a.Done.Title)
			require.Equal(t, "a book", a.Done.Origin.Source)
		})
	}
}

// Hex 93 and 94 are the double quotation marks of Windows-1252 and no UTF-8
// (Encoding Standard, index windows-1252).
func TestAnOldEncodingIsReadAndRemarkedOn(t *testing.T) {
	h, _ := openHouse(t)
	a := NewAdding(h)
	path := filepath.Join(t.TempDir(), "old.txt")
	require.NoError(t, os.WriteFile(path, []byte("Nilo climbed. \x93Aunt?\x94 he called. Nobody answered."), 0o600))
	a.OpenFile(path)
	require.Empty(t, a.Trouble)
	require.Contains(t, a.Text, "“Aunt?” he called.")
	require.Equal(t, []string{say.T("ingest.remark.old-encoding")}, a.Remarks)
}

func TestAKeptStoryStillSaysWhatToLookAt(t *testing.T) {
	h, st := openHouse(t)
	a := NewAdding(h)
	a.Text = lampStory + " The \ufffd door was shut."
	a.Add()
	require.Empty(t, a.Trouble)
	kept, err := st.Story(a.Done.Meta.ID)
	require.NoError(t, err)
	page := NewStoryPage(h, kept, nil, func() {})
	require.Equal(t, []string{say.T("ingest.remark.lost")}, page.Remarks())
}

func TestAStoryWithoutAMomentIsKeptAndSaysWhy(t *testing.T) {
	h, _ := openHouse(t)
	e, err := pipeline.New()
	require.NoError(t, err)
	h.Engine, h.Version = e, pipeline.Version
	a := NewAdding(h)
	a.Text = "The box is on the table. The table is in the room. The room has a door."
	a.Add()
	require.Empty(t, a.Trouble)
	page := NewStoryPage(h, *a.Done, nil, func() {})
	require.NotEmpty(t, page.WhyNone())
	require.NotContains(t, page.WhyNone(), "[")
}

func TestHowFarApartTheChoicesLieIsKeptWithTheLearner(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	require.Equal(t, steps.Mixed, h.ApartFor(l.ID))
	require.NoError(t, h.SetApart(l.ID, steps.Wide))
	require.Equal(t, steps.Wide, h.ApartFor(l.ID))
	require.NoError(t, st.EraseLearner(l.ID))
	require.Equal(t, steps.Mixed, h.ApartFor(l.ID))
}

func TestWordsThatMayFadeAreNamed(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	x := must(st.SaveWord(record.Word{Learner: l.ID, Form: "fizzy", Family: "worry"}))
	must(st.SaveWord(record.Word{Learner: l.ID, Form: "cool", Family: "cold"}))
	fading := func() string {
		w := NewWords(h, l, nil)
		return w.Fading()
	}
	require.Empty(t, fading(), "a word never met does not fade")
	must(st.AddExperience(record.Experience{Learner: l.ID, WordID: x.ID, HappenedOn: "2026-09-01", What: "the oven alarm rang"}))
	require.Equal(t, say.T("words.fading", say.S{"words": "fizzy"}), fading())
}

func TestAPhaseLineSaysHowItsSidesLie(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	require.NoError(t, NewGrowth(h, l, nil).DrawLine("aloud"))
	g := NewGrowth(h, l, nil)
	require.Equal(t, say.T("growth.compare-few", say.S{"m": "0", "n": "0"}), g.Across(g.Lines()[0]))
}

func TestTheSameStoryTwiceIsSaid(t *testing.T) {
	h, st := openHouse(t)
	for i := range 2 {
		a := NewAdding(h)
		a.Text, a.Title = lamp, "The Lamp"
		a.Add()
		require.NotNil(t, a.Done)
		require.Equal(t, i == 1, a.Trouble == say.T("adding.have", say.S{"title": "The Lamp"}))
	}
	all, err := st.Stories()
	require.NoError(t, err)
	require.Len(t, all, 1)
}

// Cancelling stops the engine, keeps the text and puts nothing on the shelf,
// even where the engine answers all the same.
func TestReadingCanBeCancelled(t *testing.T) {
	for _, stubborn := range []bool{false, true} {
		h, st := openHouse(t)
		started, ended := make(chan bool), make(chan func())
		h.Engine = plainReader{before: func(ctx context.Context) {
			started <- true
			<-ctx.Done()
		}}
		if stubborn {
			h.Engine = stubbornReader{started}
		}
		h.Background = func(work, after func()) { go func() { work(); ended <- after }() }
		a := NewAdding(h)
		a.Text, a.Title = lamp, "The Lamp"
		a.Add()
		<-started
		require.NotEmpty(t, a.Busy)
		a.Add() // a second press does nothing
		a.Cancel()
		require.Empty(t, a.Busy)
		require.Equal(t, say.T("errors.cancelled"), a.Trouble)
		(<-ended)()
		require.Nil(t, a.Done)
		require.Equal(t, lamp, a.Text)
		all, err := st.Stories()
		require.NoError(t, err)
		require.Empty(t, all)
	}
}

type stubbornReader struct{ started chan bool }

func (e stubbornReader) Analyze(ctx context.Context, text string) (*nlp.Analysis, error) {
	e.started <- true
	<-ctx.Done()
	return &nlp.Analysis{Engine: "plain", Doc: segment.Split(text)}, nil
}

type brokenReader struct{}

func (brokenReader) Analyze(context.Context, string) (*nlp.Analysis, error) {
	panic("index out of range")
}

func TestAnEngineThatBreaksDownCostsTheTextAlone(t *testing.T) {
	h, _ := openHouse(t)
	h.Engine = brokenReader{}
	a := NewAdding(h)
	a.Text = lamp
	a.Add()
	require.Equal(t, say.T("errors.engine"), a.Trouble)
	require.Equal(t, lamp, a.Text)
	require.Nil(t, a.Done)
}

// lampStory is invented for these tests.
const lampStory = "Nilo climbed the last ten steps slowly. His knees shook. Below him the sea was black, and the lamp was out.\n\n" +
	"\"Aunt?\" he called. Nilo was afraid. Nobody answered, and the wind pulled at the door. He put his hand on the wall and felt that it was wet. Then he heard the dog below."

func TestTheDayIsPlannedFromWhatIsReadyAndNotMet(t *testing.T) {
	h, st := openHouse(t)
	e, err := pipeline.New()
	require.NoError(t, err)
	h.Engine, h.Version = e, pipeline.Version
	l := juniper(t, st)
	day := func() *Today { return NewToday(h, l, nil, func() {}) }
	require.Equal(t, say.T("today.none.unread"), day().None())

	dull, err := st.AddStory(record.Story{Story: corpus.Story{Title: "A List", Text: "The box is on the table. The table is in the room. The room has a door.", Hash: "dull"}})
	require.NoError(t, err)
	require.NoError(t, st.TickRead(dull.Meta.ID, true))
	require.Equal(t, say.T("today.none.no-moment"), day().None())
	_, err = day().Request(record.Teaching)
	require.ErrorIs(t, err, ErrNotReady)

	story, err := st.AddStory(record.Story{Story: corpus.Story{Title: "The Lamp", Text: lampStory, Hash: "lamp"}})
	require.NoError(t, err)
	require.Equal(t, say.T("today.none.no-moment"), day().None(), "nobody has read it yet")
	require.NoError(t, st.TickRead(story.Meta.ID, true))
	d := day()
	require.Equal(t, "The Lamp", d.Story())
	require.NotEmpty(t, d.Passages())
	require.LessOrEqual(t, len(d.Passages()), MostMoments)
	require.Equal(t, say.T("today.story.new"), d.Why())
	require.NotEmpty(t, d.Need(), "no word is tied yet")
	require.Equal(t, record.Baseline, d.Measure(), "nothing was taught yet")

	r, err := d.Request(record.Teaching)
	require.NoError(t, err)
	require.Equal(t, record.Teaching, r.Kind)
	require.Len(t, r.Moments, len(d.Passages()))
	short, err := d.Request(record.Short)
	require.NoError(t, err)
	require.Equal(t, record.Short, short.Kind)
	require.Len(t, short.Moments, 1)

	var ids []string
	for _, m := range r.Moments {
		ids = append(ids, m.ID)
	}
	g, err := st.StartSitting(record.Sitting{Kind: record.Teaching, StoryID: story.Meta.ID, Plan: ids, Seats: []record.Seat{{Learner: l.ID}}})
	require.NoError(t, err)
	d = day()
	require.True(t, d.GoesOn())
	require.Equal(t, say.T("today.story.open"), d.Why())
	r, err = d.Request(record.Teaching)
	require.NoError(t, err)
	require.Equal(t, g.ID, r.Resume.ID)

	for _, m := range r.Moments {
		_, err := st.AppendAnswer(record.Answer{Sitting: g.ID, Seat: g.Seats[0].ID, Learner: l.ID, StoryID: story.Meta.ID, TextHash: "lamp", Moment: m})
		require.NoError(t, err)
	}
	require.NoError(t, st.EndSitting(g.ID, "done"))
	d = day()
	require.Equal(t, say.T("today.none.all-met"), d.None())
	require.Equal(t, "The Lamp", d.Again())
	r, err = d.RequestAgain()
	require.NoError(t, err)
	require.Len(t, r.Moments, len(ids))
	require.Nil(t, r.Resume)

	// What is answered then is a repeat, and no growth is read from it.
	before := growth.BySitting(Items(must(st.Marked(l.ID))))
	s, err := NewSitting(st, SittingPlan{SittingRequest: r,
		Steps: func(exercises.Moment, int, int64) []exercises.Step {
			return []exercises.Step{{Kind: exercises.Feeling}}
		},
		Judge: func(exercises.Moment, exercises.Step, exercises.Answer) exercises.Mark {
			return exercises.Mark{Value: exercises.Fits}
		}})
	require.NoError(t, err)
	s.Say("afraid")
	s.Next()
	given := must(st.Marked(l.ID))
	require.True(t, given[len(given)-1].Answer.Answer.Repeat)
	after := growth.BySitting(Items(given))
	for i := range before {
		require.Equal(t, before[i].N, after[i].N)
	}
	for _, p := range after[len(before):] {
		require.Zero(t, p.N)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// A baseline is offered until there are three or teaching begins; a probe six
// weeks after the last look.
func TestMeasuringIsOfferedWhenItIsDue(t *testing.T) {
	at := func(kind record.SittingKind, sitting, day string) record.Marked {
		return record.Marked{Answer: record.Answer{Sitting: sitting}, SittingKind: kind, SittingDay: day}
	}
	for _, c := range []struct {
		name  string
		given []record.Marked
		want  record.SittingKind
	}{
		{"nothing yet", nil, record.Baseline},
		{"two baselines", []record.Marked{at(record.Baseline, "a", "2026-10-01"), at(record.Baseline, "b", "2026-10-02")}, record.Baseline},
		{"two answers of one baseline", []record.Marked{at(record.Baseline, "a", "2026-10-01"), at(record.Baseline, "a", "2026-10-01")}, record.Baseline},
		{"three baselines", []record.Marked{at(record.Baseline, "a", "2026-10-01"), at(record.Baseline, "b", "2026-10-02"), at(record.Baseline, "c", "2026-10-03")}, ""},
		{"taught a week", []record.Marked{at(record.Teaching, "a", "2026-10-27")}, ""},
		{"taught six weeks, never measured", []record.Marked{at(record.Teaching, "a", "2026-09-22"), at(record.Teaching, "b", "2026-11-02")}, record.Probe},
		{"41 days after the baseline", []record.Marked{at(record.Baseline, "a", "2026-09-23"), at(record.Teaching, "b", "2026-10-01")}, ""},
		{"42 days after the baseline", []record.Marked{at(record.Baseline, "a", "2026-09-22"), at(record.Teaching, "b", "2026-10-01")}, record.Probe},
		{"probed last week", []record.Marked{at(record.Baseline, "a", "2026-08-01"), at(record.Short, "b", "2026-08-03"), at(record.Probe, "c", "2026-10-27")}, ""},
	} {
		d := &Today{house: &House{Now: func() time.Time { return tuesday }}, story: &Reading{}, given: c.given}
		require.Equal(t, c.want, d.Measure(), c.name)
	}
}

func TestShelfFillsOnceAndRespectsWhatWasTakenOff(t *testing.T) {
	h, st := openHouse(t)
	starters := []corpus.Story{{ID: "a", Title: "A", Text: lamp, Hash: "ha"}, {ID: "b", Title: "B", Text: lamp + " More.", Hash: "hb"}}
	require.NoError(t, h.FillShelf(starters))
	all, err := st.Stories()
	require.NoError(t, err)
	require.Len(t, all, 2)
	require.NoError(t, st.PutAway(all[0].Meta.ID, true))
	require.NoError(t, h.FillShelf(starters))
	s := NewShelf(h)
	require.Len(t, s.Rows(), 1)
	require.Equal(t, 1, s.All())
	s.Search("nothing like it")
	require.Empty(t, s.Rows())
	require.Equal(t, 1, s.All())
	s.Search("climbed")
	require.Len(t, s.Rows(), 1)
}

func juniper(t *testing.T, st *store.Store) record.Learner {
	l, err := st.SaveLearner(record.Learner{Nickname: "Juniper", Look: record.DefaultLook})
	require.NoError(t, err)
	return l
}

func TestAWordBecomesTiedByWhatHappened(t *testing.T) {
	h, st := openHouse(t)
	w := NewWords(h, juniper(t, st), nil)
	w.OpenGroup("cold")
	require.False(t, w.Add("  "))
	require.Equal(t, say.T("words.no-form"), w.Trouble)
	require.True(t, w.Add(" bakery-cold "))
	require.True(t, w.Add("Bakery-Cold"), "the same word is opened, not added again")
	require.Len(t, w.Line(), 1)
	require.Equal(t, wordbook.New, w.Line()[0].State)

	w.Draft.HowStrong = "very"
	require.False(t, w.Keep(), "what happened is needed")
	require.Equal(t, "very", w.Draft.HowStrong, "what was written stays")
	w.Draft.What = "The oven went out at six."
	require.True(t, w.Keep())
	require.Empty(t, w.Draft.What)
	require.Equal(t, wordbook.Tied, w.Line()[0].State)
	d, ok := w.Word()
	require.True(t, ok)
	require.Equal(t, "2026-11-03", d.Told[0].HappenedOn)
	require.Equal(t, "very", d.Told[0].HowStrong)

	require.True(t, w.Add("cool"))
	require.Equal(t, "cool", w.mustWord(t).Form)
	w.Move(-1)
	w.Move(-1)
	require.Equal(t, "cool", w.Line()[0].Word.Form)
	w.Move(1)
	require.Equal(t, "cool", w.Line()[1].Word.Form)
}

func (w *Words) mustWord(t *testing.T) record.Word {
	d, ok := w.Word()
	require.True(t, ok)
	return d.Word
}

// failing is a store on a disk that is full.
type failing struct{ *store.Store }

var errDisk = errors.New("no space left on device")

func (failing) SaveWord(w record.Word) (record.Word, error) { return w, errDisk }
func (failing) AddExperience(e record.Experience) (record.Experience, error) {
	return e, errDisk
}
func (failing) AddBodyNote(n record.BodyNote) (record.BodyNote, error) { return n, errDisk }
func (failing) AddStory(s record.Story) (record.Story, error)          { return s, errDisk }

func TestWhatCannotBeKeptStaysWritten(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	h.Store = failing{st}
	w := NewWords(h, l, nil)
	w.OpenGroup("cold")
	w.NewForm = "chilly"
	require.False(t, w.Add(w.NewForm))
	require.Equal(t, "chilly", w.NewForm)
	require.Contains(t, w.Trouble, "no space left")
	w.Draft.What = "The oven went out."
	require.False(t, w.Keep())
	require.Equal(t, "The oven went out.", w.Draft.What)

	day := NewToday(h, l, nil, func() {})
	day.Note = "fizzy"
	day.KeepNote(nil)
	require.Equal(t, "fizzy", day.Note)
	require.False(t, day.Kept)

	a := NewAdding(h)
	a.Text, a.Title = lamp, "The Lamp"
	a.Add()
	require.Nil(t, a.Done)
	require.Equal(t, lamp, a.Text)
	require.Contains(t, a.Trouble, "no space left")
}

// given lays down answers of one sitting by hand.
func given(t *testing.T, st *store.Store, l record.Learner, kind record.SittingKind, marks []exercises.MarkValue, change func(i int, a *record.Answer)) []record.Answer {
	t.Helper()
	story, err := st.AddStory(record.Story{Story: corpus.Story{Title: "The Lamp", Text: lamp, Hash: "h1"}})
	require.NoError(t, err)
	g, err := st.StartSitting(record.Sitting{Kind: kind, StoryID: story.Meta.ID, Seats: []record.Seat{{Learner: l.ID}}})
	require.NoError(t, err)
	var out []record.Answer
	for i, v := range marks {
		a := record.Answer{Sitting: g.ID, Seat: g.Seats[0].ID, Learner: l.ID, StoryID: story.Meta.ID, TextHash: "h1",
			Moment: exercises.Moment{ID: "m" + Number(i), Kind: nlp.Body, Key: exercises.Key{Fits: []string{"fear"}}},
			Step:   exercises.Step{Kind: exercises.Feeling},
			Answer: exercises.Answer{Step: exercises.Feeling, Try: 1, Said: "scared", Mode: exercises.ByTap}}
		if change != nil {
			change(i, &a)
		}
		a, err = st.AppendAnswer(a)
		require.NoError(t, err)
		_, err = st.AppendMark(record.Mark{AnswerID: a.ID, Learner: l.ID, By: record.ByProgram, Mark: exercises.Mark{Value: v}})
		require.NoError(t, err)
		out = append(out, a)
	}
	require.NoError(t, st.EndSitting(g.ID, "done"))
	return out
}

func times(v exercises.MarkValue, n int) []exercises.MarkValue {
	out := make([]exercises.MarkValue, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// Wilson 1927 for 18 of 20: 0.69897 to 0.97213 (R package binom, as copied in
// the tests of statsmodels).
func TestGrowthSeriesIsWhatWasAnswered(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	g := NewGrowth(h, l, nil)
	require.True(t, g.Empty())
	require.Empty(t, g.Series())
	given(t, st, l, record.Teaching, append(times(exercises.Fits, 18), exercises.NotYet, exercises.Near), nil)
	g = NewGrowth(h, l, nil)
	s := g.Series()
	require.Len(t, s, 1)
	require.Equal(t, 18, s[0].Fits)
	require.Equal(t, 20, s[0].Asked)
	require.InDelta(t, 0.69897, s[0].Low, 5e-5)
	require.InDelta(t, 0.97213, s[0].High, 5e-5)
	require.Equal(t, "2026-11-03", s[0].Day.Format(time.DateOnly))
	require.Equal(t, say.T("growth.phase.teaching"), s[0].Phase)
	require.Equal(t, say.T("growth.share", say.S{"x": "18", "n": "20", "low": "70", "high": "97"}), g.ByStep()[0].Text)
	require.Equal(t, say.T("clue.kind.body"), g.ByKind()[0].Name)
}

func TestHelpSkipsAndTheSelfAreCountedApart(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	given(t, st, l, record.Baseline, times(exercises.Fits, 8), func(i int, a *record.Answer) {
		switch i {
		case 0:
			a.Answer.Prompt = exercises.FewerChoices
		case 1:
			a.Answer.GuideHelp = true
		case 2:
			a.Answer.Standing = exercises.StandSkip
		case 3:
			a.Answer.AboutSelf = true
		case 4:
			a.Answer.Steadied = true
		case 5:
			a.Answer.Try = 2
		}
	})
	g := NewGrowth(h, l, nil)
	p := g.Series()[0]
	require.Equal(t, 2, p.Fits, "6 and 7 alone came alone")
	require.Equal(t, 4, p.Asked, "0, 1, 6 and 7 count")
	require.Equal(t, 2, p.Helped)
	require.Equal(t, 2, p.HelpedFits)
	require.Equal(t, 1, p.Skipped)
	require.Equal(t, 5, p.Shown)
	require.Equal(t, say.T("growth.phase.baseline"), p.Phase)
	for _, a := range g.Answers() {
		require.False(t, a.Marked.Answer.Answer.AboutSelf, "what is about the learner's own body is not up for marking")
	}
}

func TestTheGuidesMarkCountsAndTheProgramsStays(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	all := given(t, st, l, record.Teaching, []exercises.MarkValue{exercises.ForGuide, exercises.NotYet}, nil)
	g := NewGrowth(h, l, nil)
	require.Equal(t, 1, g.Waiting())
	require.Len(t, g.WaitingAnswers(), 1)
	require.NoError(t, g.MarkAs(all[0].ID, exercises.Fits))
	require.Equal(t, 0, g.Waiting())
	require.Equal(t, 1, g.Series()[0].Fits)
	require.NoError(t, g.MarkAs(all[1].ID, exercises.Near))
	require.NoError(t, g.MarkAs(all[1].ID, exercises.Fits))
	require.Equal(t, 2, g.Series()[0].Fits, "the newest counts")
	require.NotEmpty(t, g.Agreement(), "and it is said that marks were changed")
	for _, a := range g.Answers() {
		require.Equal(t, exercises.Fits, a.Guide)
		require.False(t, a.Blind)
	}
	marks, err := st.Marks(all[1].ID)
	require.NoError(t, err)
	require.Len(t, marks, 3, "marks are only added")
}

// About one answer in five, the same every time: 2000 of 10000, and further
// off than four standard deviations (4·√(10000·0.2·0.8) = 160) is no chance.
func TestBlindSampleIsAboutOneInFive(t *testing.T) {
	n := 0
	for i := range 10000 {
		if blindOne("0a1b2c3d" + Number(i)) {
			n++
		}
	}
	require.InDelta(t, 2000, n, 160)
}

func TestReportHoldsNothingThatWasTold(t *testing.T) {
	h, st := openHouse(t)
	l := juniper(t, st)
	given(t, st, l, record.Teaching, times(exercises.Fits, 3), func(i int, a *record.Answer) {
		if i == 2 {
			a.Step.Kind, a.Answer.Step, a.Answer.Said = exercises.AndYou, exercises.AndYou, "a secret about the cellar"
		}
	})
	_, err := st.AddBodyNote(record.BodyNote{Learner: l.ID, Said: "a secret about the belly"})
	require.NoError(t, err)
	r, err := NewGrowth(h, l, nil).Report(tuesday)
	require.NoError(t, err)
	all := r.Title + r.Under + strings.Join(r.Lead, " ") + strings.Join(r.Notes, " ")
	for _, table := range r.Tables {
		for _, row := range table.Rows {
			all += row.Name + row.Text
			require.False(t, math.IsNaN(row.At))
		}
	}
	require.NotContains(t, all, "secret")
	require.NotEmpty(t, r.Chart)
	require.NoError(t, r.Write(io.Discard, "A4"))
}

// A clue that the guide drops is gone from what moments are made from, comes
// back when that is undone, and the engine's own finding stays.
func TestMendsAreLaidOverAndTakenBack(t *testing.T) {
	text := "Nilo climbed. His legs shook. His legs shook again."
	at := strings.Index(text, "legs shook again")
	a := &nlp.Analysis{Doc: segment.Split(text), Characters: []nlp.Character{{ID: 0, Name: "Nilo"}, {ID: 1, Name: "Aunt"}},
		Cues: []nlp.Cue{
			{Span: nlp.Span{Start: 18, End: 28}, Character: 0, Kind: nlp.Body},
			{Span: nlp.Span{Start: at, End: at + 10}, Character: 0, Kind: nlp.Body},
		}}
	anchor := func(i int) record.Anchor { return record.AnchorAt(text, "h", a.Cues[i].Span, "Nilo") }

	out, left, lost := mend(a, []record.Mend{{Anchor: anchor(1), What: record.MendNotAClue}})
	require.Len(t, out.Cues, 1)
	require.Equal(t, 18, out.Cues[0].Span.Start, "the second of two equal quotes is meant")
	require.Len(t, a.Cues, 2)
	require.Empty(t, left)
	require.Empty(t, lost)

	out, _, _ = mend(a, []record.Mend{{Anchor: anchor(0), What: record.MendOwner, NewCharacter: "Aunt"}})
	require.Equal(t, 1, out.Cues[0].Character)
	require.Equal(t, 0, a.Cues[0].Character)

	_, left, _ = mend(a, []record.Mend{{Anchor: anchor(0), What: record.MendLeaveOut}})
	require.Equal(t, []nlp.Span{a.Cues[0].Span}, left)

	gone := record.AnchorAt("Her hands were cold.", "h", nlp.Span{Start: 4, End: 14}, "Nilo")
	_, _, lost = mend(a, []record.Mend{{Anchor: gone, What: record.MendNotAClue}})
	require.Len(t, lost, 1, "it is listed, not dropped")
}

func TestListsAndDaysAreSaid(t *testing.T) {
	require.Equal(t, "fear", And([]string{"fear"}))
	require.Equal(t, "fear, cold and joy", And([]string{"fear", "cold", "joy"}))
	require.Equal(t, "fear or cold", Or([]string{"fear", "cold"}))
	require.Equal(t, "Tuesday 3 November", DayName("2026-11-03"))
	require.Equal(t, "today", Since("2026-11-03", tuesday))
	require.Equal(t, "yesterday", Since("2026-11-02", tuesday))
	require.Equal(t, "6 days ago", Since("2026-10-28", tuesday))
	require.Equal(t, "Tuesday 27 October", Since("2026-10-27", tuesday))
	require.Equal(t, "1\u2009234", thousands(1234))
	require.Equal(t, "999", thousands(999))
	require.Equal(t, "1\u2009234\u2009567", thousands(1234567))
}
