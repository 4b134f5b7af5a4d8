package store

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/corpus"
	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// clock is a clock that a test sets; it moves on by a second at each reading.
type clock struct{ t time.Time }

func (c *clock) now() time.Time {
	c.t = c.t.Add(time.Second)
	return c.t
}

// seaside is the time zone of the invented household.
var seaside = time.FixedZone("seaside", 2*60*60)

func newClock() *clock {
	return &clock{time.Date(2024, 5, 6, 23, 30, 0, 0, time.UTC).In(seaside)}
}

// chance gives the same ids in every run.
func chance() *rand.ChaCha8 { return rand.NewChaCha8([32]byte{1}) }

func openTest(t *testing.T) *Store {
	t.Helper()
	s, err := Open(filepath.Join(t.TempDir(), "data"), Options{Now: newClock().now, Rand: chance()})
	require.NoError(t, err)
	t.Cleanup(func() { s.Close() })
	return s
}

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		require.NoError(t, err)
		return v
	}
}

var tale = record.Story{Story: corpus.Story{ID: "x", Title: "The Loaf at Low Tide", Language: "en",
	Text: "Moss dropped the loaf. His knees shook.", Hash: "h1",
	Origin:   corpus.Origin{Source: "invented", Licence: "CC0-1.0", Invented: true},
	Sections: []corpus.Section{{Title: "one", Span: nlp.Span{Start: 0, End: 39}}}}}

// table is a household with one learner, one story and one open sitting.
type table struct {
	*Store
	t       *testing.T
	learner record.Learner
	story   record.Story
	sitting record.Sitting
}

func laid(t *testing.T, s *Store, demo bool) *table {
	t.Helper()
	b := &table{Store: s, t: t}
	b.learner = must[record.Learner](t)(s.SaveLearner(record.Learner{Meta: record.Meta{Demo: demo},
		Nickname: "Juniper", Mode: exercises.ByTap, Look: record.DefaultLook}))
	r := tale
	r.Demo = demo
	b.story = must[record.Story](t)(s.AddStory(r))
	b.sitting = must[record.Sitting](t)(s.StartSitting(record.Sitting{Kind: record.Teaching, StoryID: b.story.Meta.ID,
		Seats: []record.Seat{{Learner: b.learner.ID}}, Plan: []string{"m1", "m2"}, Seed: -7, Engine: "0.1"}))
	return b
}

func (b *table) answer(moment string, step int, said string) record.Answer {
	b.t.Helper()
	return must[record.Answer](b.t)(b.AppendAnswer(record.Answer{
		Sitting: b.sitting.ID, Seat: b.sitting.Seats[0].ID, Learner: b.learner.ID,
		StoryID: b.story.Meta.ID, TextHash: b.story.Hash, Engine: "0.1",
		Moment: exercises.Moment{ID: moment, CharacterName: "Moss", Kind: nlp.Body, Route: exercises.RouteBody,
			Key: exercises.Key{Fits: []string{"fear"}, Body: []exercises.BodySign{{Place: "legs", Sign: "shaking"}}}},
		StepNo: step, Step: exercises.Step{Kind: exercises.Feeling, Prompt: nlp.Reason{Code: "p", Slots: map[string]string{"name": "Moss"}}},
		Answer: exercises.Answer{Step: exercises.Feeling, Said: said, Mode: exercises.BySpeak, Try: 1},
	}))
}

func TestEverythingComesBackAsItWasKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	c := newClock()
	s := must[*Store](t)(Open(dir, Options{Now: c.now, Rand: chance()}))
	b := laid(t, s, false)
	a := b.answer("m1", 0, "wobbly “inside”")
	k := must[record.Mark](t)(s.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByProgram,
		Mark: exercises.Mark{Value: exercises.Fits, Why: nlp.Reason{Code: "body-sign", Slots: map[string]string{"sign": "shaking"}}}}))
	w := must[record.Word](t)(s.SaveWord(record.Word{Learner: b.learner.ID, Form: "fizzy", Family: "worry",
		Places: []string{"belly"}, Shade: 0.4, Language: wordbook.Plain}))
	e := must[record.Experience](t)(s.AddExperience(record.Experience{Learner: b.learner.ID, WordID: w.ID,
		HappenedOn: "2024-05-01", What: "the oven alarm rang", Place: "belly", HowStrong: "a lot",
		Helped: "sitting by the flour sacks", WrittenBy: "gran", Sitting: b.sitting.ID}))
	n := must[record.BodyNote](t)(s.AddBodyNote(record.BodyNote{Learner: b.learner.ID, Places: []string{"head"}, Said: "heavy"}))
	u := must[record.WordUse](t)(s.AddWordUse(record.WordUse{Learner: b.learner.ID, WordID: w.ID, UsedOn: "2024-05-02", Note: "at the quay"}))
	p := must[record.PhaseLine](t)(s.AddPhaseLine(record.PhaseLine{Learner: b.learner.ID, On: "2024-05-03", Label: "pointing to the clue first"}))
	f := must[record.Family](t)(s.SaveFamily(record.Family{FamilyID: "itch", Name: "itch", Nearest: "pain"}))
	x := must[record.Expression](t)(s.SaveExpression(record.Expression{Text: "gone all crust", Kind: nlp.Named,
		Families: []nlp.Weight{{Family: "anger", Weight: 0.5}}, Places: []string{"face"}, Note: "gran says it"}))
	m := must[record.Mend](t)(s.SaveMend(record.Mend{Anchor: record.AnchorAt(tale.Text, tale.Hash, nlp.Span{Start: 23, End: 38}, "Moss"),
		What: record.MendFeelings, Families: []nlp.Weight{{Family: "cold", Weight: 1}}, Note: "it is winter"}))
	require.NoError(t, s.SetSetting("safety", "call aunt Reed"))
	require.NoError(t, s.SetSetting("safety", "call aunt Reed first"))
	an := &nlp.Analysis{Engine: "0.1", Doc: &nlp.Document{Text: tale.Text}, Cues: []nlp.Cue{{Kind: nlp.Body, Character: nlp.None}}}
	require.NoError(t, s.PutAnalysis(tale.Hash, an))
	require.NoError(t, s.PutAnalysis(tale.Hash, an))
	require.NoError(t, s.TickRead(b.story.Meta.ID, true))
	require.NoError(t, s.Close())

	s = must[*Store](t)(Open(dir, Options{Now: c.now, Rand: chance()}))
	defer s.Close()
	require.Equal(t, []record.Learner{b.learner}, must[[]record.Learner](t)(s.Learners()))
	require.Equal(t, b.learner, must[record.Learner](t)(s.Learner(b.learner.ID)))
	b.story.ReadOn = "2024-05-07" // the seaside's day, not UTC's
	require.Equal(t, []record.Story{b.story}, must[[]record.Story](t)(s.Stories()))
	require.Equal(t, b.story, must[record.Story](t)(s.StoryByHash("h1")))
	require.Equal(t, []record.Sitting{b.sitting}, must[[]record.Sitting](t)(s.Sittings(b.learner.ID)))
	require.Equal(t, b.sitting, must[record.Sitting](t)(s.Sitting(b.sitting.ID)))
	require.Equal(t, []record.Answer{a}, must[[]record.Answer](t)(s.Answers(b.learner.ID)))
	require.Equal(t, []record.Mark{k}, must[[]record.Mark](t)(s.Marks(a.ID)))
	require.Equal(t, []record.Marked{{Answer: a, Program: &k.Mark, SittingKind: record.Teaching, SittingDay: "2024-05-07"}},
		must[[]record.Marked](t)(s.Marked(b.learner.ID)))
	require.Equal(t, []record.Word{w}, must[[]record.Word](t)(s.Words(b.learner.ID)))
	require.Equal(t, []record.Experience{e}, must[[]record.Experience](t)(s.Experiences(b.learner.ID)))
	require.Equal(t, []record.BodyNote{n}, must[[]record.BodyNote](t)(s.BodyNotes(b.learner.ID)))
	require.Equal(t, []record.WordUse{u}, must[[]record.WordUse](t)(s.WordUses(b.learner.ID)))
	require.Equal(t, []record.PhaseLine{p}, must[[]record.PhaseLine](t)(s.PhaseLines(b.learner.ID)))
	require.Equal(t, []record.Family{f}, must[[]record.Family](t)(s.Families()))
	require.Equal(t, []record.Expression{x}, must[[]record.Expression](t)(s.Expressions()))
	require.Equal(t, []record.Mend{m}, must[[]record.Mend](t)(s.Mends(tale.Hash)))
	require.Equal(t, "call aunt Reed first", must[string](t)(s.Setting("safety")))
	require.Equal(t, an, must[*nlp.Analysis](t)(s.Analysis(tale.Hash, "0.1")))
	_, err := s.Analysis(tale.Hash, "0.2")
	require.ErrorIs(t, err, ErrNotFound)
}

func TestRowsCarryDeviceTimeAndLocalDay(t *testing.T) {
	s := openTest(t)
	l := must[record.Learner](t)(s.SaveLearner(record.Learner{Nickname: "Moss"}))
	require.Len(t, l.ID, 26)
	require.Equal(t, s.device, l.Device)
	require.Equal(t, time.UTC, l.At.Location())
	require.Equal(t, "2024-05-06", l.At.Format(time.DateOnly))
	require.Equal(t, "2024-05-07", l.Day)
	require.Equal(t, "+02:00", l.Offset)
	_, err := os.Stat(filepath.Join(s.Dir(), FileName))
	require.NoError(t, err)
}

func TestUnfinishedGivesThePlaceBack(t *testing.T) {
	b := laid(t, openTest(t), false)
	a := b.answer("m1", 0, "fear")
	seat := b.sitting.Seats[0].ID
	for i := range 2 {
		must[record.Position](t)(b.SavePosition(record.Position{Sitting: b.sitting.ID, Seat: seat,
			Learner: b.learner.ID, MomentNo: 0, StepNo: i, State: "feedback"}))
	}
	got := must[[]record.Resume](t)(b.Unfinished(b.learner.ID))
	require.Len(t, got, 1)
	require.Equal(t, b.sitting, got[0].Sitting)
	require.Equal(t, a, got[0].Answers[0].Answer)
	require.Equal(t, 1, got[0].Position.StepNo)
	require.ErrorContains(t, b.EndSitting(b.sitting.ID, "lost"), "lost")
	require.NoError(t, b.EndSitting(b.sitting.ID, "stopped"))
	require.Empty(t, must[[]record.Resume](t)(b.Unfinished(b.learner.ID)))
	require.Equal(t, "stopped", must[record.Sitting](t)(b.Store.Sitting(b.sitting.ID)).Ended)
}

// A data folder may be called anything a file system allows.
func TestAnyFolderName(t *testing.T) {
	for _, name := range []string{"a b", "what?", "a#b", "100%25", "crème brûlée", "a&mode=memory", `it's "x"`, "file:x"} {
		dir := filepath.Join(t.TempDir(), name)
		s := must[*Store](t)(Open(dir, Options{}))
		laid(t, s, false).answer("m1", 0, "kept")
		require.FileExists(t, filepath.Join(dir, FileName))
		backup := filepath.Join(dir, "back up?.db")
		require.NoError(t, s.Backup(backup))
		require.NoError(t, s.Restore(backup))
		require.NoError(t, s.Close())
		s = must[*Store](t)(Open(dir, Options{}))
		require.Len(t, must[[]record.Learner](t)(s.Learners()), 1, name)
		require.NoError(t, s.Close())
	}
}

func TestAFolderNamedFromWhereTheProgramStands(t *testing.T) {
	t.Chdir(t.TempDir())
	s := must[*Store](t)(Open("data", Options{}))
	laid(t, s, false)
	require.FileExists(t, filepath.Join("data", FileName))
	require.NoError(t, s.Close())
}
