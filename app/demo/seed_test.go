package demo

import (
	"bytes"
	"context"
	"encoding/json"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/store"
	"feltpage/app/ui/model"
	"feltpage/corpus"
	"feltpage/corpus/shelf"
	"feltpage/exercises"
	"feltpage/exercises/growth"
	"feltpage/exercises/moments"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
)

var noon = time.Date(2024, 5, 17, 12, 0, 0, 0, time.FixedZone("seaside", 2*60*60))

func newStore(t *testing.T) *store.Store {
	t.Helper()
	st, err := store.Open(filepath.Join(t.TempDir(), "data"), store.Options{
		Now: func() time.Time { return noon }, Rand: rand.NewChaCha8([32]byte{9})})
	require.NoError(t, err)
	t.Cleanup(func() { st.Close() })
	return st
}

func tales(t *testing.T) []corpus.Story {
	t.Helper()
	stories, err := shelf.Stories()
	require.NoError(t, err)
	return stories
}

// reader is the reading engine, which reads each text once for all tests.
type reader struct {
	*pipeline.Engine
	read map[string]*nlp.Analysis
}

func (r *reader) Analyze(ctx context.Context, text string) (*nlp.Analysis, error) {
	if a, ok := r.read[text]; ok && ctx.Err() == nil {
		return a, nil
	}
	a, err := r.Engine.Analyze(ctx, text)
	if err == nil {
		r.read[text] = a
	}
	return a, err
}

var theReader *reader

func engine(t *testing.T) *reader {
	t.Helper()
	if theReader == nil {
		e, err := pipeline.New()
		require.NoError(t, err)
		theReader = &reader{e, map[string]*nlp.Analysis{}}
	}
	return theReader
}

func seeded(t *testing.T, st *store.Store) {
	t.Helper()
	require.NoError(t, Seed(context.Background(), st, engine(t), tales(t), noon, 1))
}

func export(t *testing.T, st *store.Store) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, st.Export(&out))
	return out.Bytes()
}

func marked(t *testing.T, st *store.Store, learner string) []record.Marked {
	t.Helper()
	all, err := st.Marked(learner)
	require.NoError(t, err)
	return all
}

func TestSeedIsTheSameForTheSameSeed(t *testing.T) {
	one, two, other := newStore(t), newStore(t), newStore(t)
	seeded(t, one)
	seeded(t, two)
	require.Equal(t, export(t, one), export(t, two))
	require.NoError(t, Seed(context.Background(), other, engine(t), tales(t), noon, 2))
	require.NotEqual(t, export(t, one), export(t, other))
	require.ErrorIs(t, Seed(context.Background(), one, engine(t), tales(t), noon, 1), ErrHere)
}

func TestEveryRowIsMarkedAsDemoAndGoesInOneAction(t *testing.T) {
	st := newStore(t)
	// A real household first, which shares a story with the demo one.
	l, err := st.SaveLearner(record.Learner{Nickname: "Reed"})
	require.NoError(t, err)
	s, err := st.AddStory(record.Story{Story: tales(t)[0]})
	require.NoError(t, err)
	_, err = st.StartSitting(record.Sitting{Kind: record.Teaching, StoryID: s.Meta.ID, Seats: []record.Seat{{Learner: l.ID}}})
	require.NoError(t, err)
	before := export(t, st)
	was := map[string]bool{}
	for _, line := range bytes.Split(before, []byte("\n")) {
		was[string(line)] = true
	}

	seeded(t, st)
	rows := 0
	for _, line := range bytes.Split(bytes.TrimSpace(export(t, st)), []byte("\n")) {
		if was[string(line)] {
			continue
		}
		var row struct {
			Table string
			Demo  int
			Day   string
		}
		require.NoError(t, json.Unmarshal(line, &row))
		require.Equal(t, 1, row.Demo, "%s", line)
		require.Less(t, row.Day, noon.Format(time.DateOnly), "%s", line)
		require.GreaterOrEqual(t, row.Day, noon.AddDate(0, 0, -length).Format(time.DateOnly), "%s", line)
		rows++
	}
	require.Greater(t, rows, 500)
	real, err := st.Story(s.Meta.ID)
	require.NoError(t, err)
	require.Empty(t, real.ReadOn, "the invented guide ticked a story of the real household")

	require.NoError(t, st.RemoveDemo())
	require.Equal(t, string(before), string(export(t, st)))
	seeded(t, st) // and it can come again
}

func TestAStoppedSeedLeavesNothing(t *testing.T) {
	st := newStore(t)
	before := export(t, st)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	require.ErrorIs(t, Seed(ctx, st, engine(t), tales(t), noon, 1), context.Canceled)
	require.Equal(t, string(before), string(export(t, st)))
	require.NoError(t, Seed(context.Background(), st, engine(t), nil, noon, 1), "an empty shelf gives people without sittings")
}

func TestTheHouseholdOnceMade(t *testing.T) {
	st := newStore(t)
	seeded(t, st)
	t.Run("answers real moments", func(t *testing.T) { answersRealMoments(t, st) })
	t.Run("gives the screens something to show", func(t *testing.T) { hasSomethingToShow(t, st) })
	t.Run("has variety", func(t *testing.T) { hasVariety(t, st) })
}

// What is asked in the demo household is what the engine makes of the starter
// stories, not something written for show.
func answersRealMoments(t *testing.T, st *store.Store) {
	table, err := feelings.Load()
	require.NoError(t, err)
	e := engine(t)
	made := map[string]exercises.Moment{}
	for _, s := range tales(t) {
		a, err := e.Analyze(context.Background(), s.Text)
		require.NoError(t, err)
		for _, m := range moments.Choose(a, table) {
			made[s.Hash+m.ID] = m
		}
	}
	learners, err := st.Learners()
	require.NoError(t, err)
	for _, l := range learners {
		for _, m := range marked(t, st, l.ID) {
			want, err := json.Marshal(made[m.TextHash+m.Moment.ID])
			require.NoError(t, err)
			got, err := json.Marshal(m.Moment)
			require.NoError(t, err)
			require.JSONEq(t, string(want), string(got))
			if m.Answer.Answer.Standing != exercises.StandSkip {
				require.NotNil(t, m.Program, "an answer without the program's mark")
			}
		}
	}
}

// The household shows what the screens can show. What is common happens to each
// of the two whatever the seed; what is rare, to somebody.
func hasVariety(t *testing.T, st *store.Store) {
	other := newStore(t)
	require.NoError(t, Seed(context.Background(), other, engine(t), tales(t), noon, 2))
	everybody := map[string]int{}
	for seed, st := range map[int]*store.Store{1: st, 2: other} {
		learners, err := st.Learners()
		require.NoError(t, err)
		require.Len(t, learners, 2)
		for _, l := range learners {
			seen := map[string]int{}
			for _, m := range marked(t, st, l.ID) {
				for _, what := range happened(m) {
					seen[what]++
					everybody[what]++
				}
			}
			for _, want := range []string{"step find", "step body", "step feeling", "step reason", "step and-you",
				"kind named", "kind body", "standing skip", "sitting teaching", "sitting short", "sitting baseline",
				"sitting probe", "alone and fits", "helped on", "the guide's mark"} {
				require.Positive(t, seen[want], "seed %d, %s: no %s in %v", seed, l.Nickname, want, seen)
			}
		}
	}
	for _, want := range []string{"kind face-voice", "standing nothing", "standing cant-tell", "standing dont-know",
		"said again", "second try", "a blind mark", "about oneself", "taken back", "the guide helped", "steadied"} {
		require.Positive(t, everybody[want], "no %s in %v", want, everybody)
	}
}

func happened(m record.Marked) []string {
	a := m.Answer.Answer
	out := []string{"step " + string(m.Step.Kind), "kind " + m.Moment.Kind, "standing " + a.Standing,
		"sitting " + string(m.SittingKind)}
	for what, is := range map[string]bool{
		"alone and fits":   a.Prompt == exercises.Alone && m.Effective().Value == exercises.Fits && a.Try == 1,
		"said again":       a.Prompt == exercises.SaidAgain,
		"helped on":        a.Prompt > exercises.Alone,
		"second try":       a.Try > 1,
		"the guide's mark": m.Guide != nil,
		"a blind mark":     m.Blind != nil,
		"about oneself":    a.AboutSelf,
		"taken back":       m.Withdrawn,
		"the guide helped": m.Helped,
		"steadied":         a.Steadied,
	} {
		if is {
			out = append(out, what)
		}
	}
	return out
}

func hasSomethingToShow(t *testing.T, st *store.Store) {
	learners, err := st.Learners()
	require.NoError(t, err)
	met := map[string]bool{}
	for _, l := range learners {
		given := marked(t, st, l.ID)
		require.GreaterOrEqual(t, len(growth.BySitting(model.Items(given))), 15, "sittings on the chart")
		for _, m := range given {
			met[m.TextHash] = true
		}
		open, err := st.Unfinished(l.ID)
		require.NoError(t, err)
		require.Empty(t, open)
		notes, err := st.BodyNotes(l.ID)
		require.NoError(t, err)
		require.NotEmpty(t, notes)
		lines, err := st.PhaseLines(l.ID)
		require.NoError(t, err)
		require.Len(t, lines, 1)
	}
	stories, err := st.Stories()
	require.NoError(t, err)
	require.Len(t, stories, len(tales(t)))
	require.LessOrEqual(t, len(met), len(stories)-keptUnread, "stories are left for whoever looks around")

	words, err := st.Words(learners[0].ID)
	require.NoError(t, err)
	told, err := st.Experiences(learners[0].ID)
	require.NoError(t, err)
	daily, err := st.WordUses(learners[0].ID)
	require.NoError(t, err)
	book := model.BookOf(words, told, daily, marked(t, st, learners[0].ID))
	var line []string
	for _, w := range book.Line("cold") {
		line = append(line, w.Form)
	}
	require.Equal(t, []string{"cool", "chilly", "freezing"}, line)
	states := map[wordbook.State]int{}
	for _, w := range words {
		states[book.State(w.ID)]++
	}
	require.Positive(t, states[wordbook.Tied])
	require.Positive(t, states[wordbook.Free])
}
