package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/corpus"
	"feltpage/exercises"
	"feltpage/nlp"
)

// shelf is a store in memory that keeps facts in order, as the real one does.
type shelf struct {
	sittings []record.Sitting
	answers  []record.Answer
	marks    []record.Mark
	gone     []record.Withdrawal
	helps    []record.Help
	words    []record.Word
	exps     []record.Experience
	ended    map[string]string
	broken   bool // the disk is full
	places   []record.Position
	learners []record.Learner
	n        int
}

var errFull = errors.New("disk full")

func (f *shelf) id() string { f.n++; return fmt.Sprint("id", f.n) }

func put[T any](f *shelf, list *[]T, v T, set func(*T, string)) (T, error) {
	if f.broken {
		return v, errFull
	}
	set(&v, f.id())
	*list = append(*list, v)
	return v, nil
}

func (f *shelf) StartSitting(v record.Sitting) (record.Sitting, error) {
	v.Seats = slices.Clone(v.Seats)
	for i := range v.Seats {
		v.Seats[i].ID = f.id()
	}
	return put(f, &f.sittings, v, func(v *record.Sitting, id string) { v.ID = id })
}
func (f *shelf) EndSitting(id, how string) error {
	if f.broken {
		return errFull
	}
	if f.ended == nil {
		f.ended = map[string]string{}
	}
	f.ended[id] = how
	return nil
}
func (f *shelf) AppendAnswer(v record.Answer) (record.Answer, error) {
	return put(f, &f.answers, v, func(v *record.Answer, id string) { v.ID = id })
}
func (f *shelf) AppendMark(v record.Mark) (record.Mark, error) {
	return put(f, &f.marks, v, func(v *record.Mark, id string) { v.ID = id })
}
func (f *shelf) Withdraw(v record.Withdrawal) (record.Withdrawal, error) {
	return put(f, &f.gone, v, func(v *record.Withdrawal, id string) { v.ID = id })
}
func (f *shelf) RecordHelp(v record.Help) (record.Help, error) {
	return put(f, &f.helps, v, func(v *record.Help, id string) { v.ID = id })
}
func (f *shelf) SavePosition(v record.Position) (record.Position, error) {
	return put(f, &f.places, v, func(v *record.Position, id string) { v.ID = id })
}
func (f *shelf) SaveLearner(v record.Learner) (record.Learner, error) {
	return put(f, &f.learners, v, func(v *record.Learner, id string) {})
}
func (f *shelf) Unfinished(learner string) ([]record.Resume, error) {
	var out []record.Resume
	for _, g := range f.sittings {
		if f.ended[g.ID] != "" {
			continue
		}
		r := record.Resume{Sitting: g}
		for i := range f.places {
			if f.places[i].Sitting == g.ID {
				r.Position = &f.places[i]
			}
		}
		out = append(out, r)
	}
	return out, nil
}
func (f *shelf) SaveWord(v record.Word) (record.Word, error) {
	return put(f, &f.words, v, func(v *record.Word, id string) { v.ID = id })
}
func (f *shelf) AddExperience(v record.Experience) (record.Experience, error) {
	return put(f, &f.exps, v, func(v *record.Experience, id string) { v.ID = id })
}
func (f *shelf) RemoveExperience(id string) error {
	f.exps = slices.DeleteFunc(f.exps, func(e record.Experience) bool { return e.ID == id })
	return nil
}
func (f *shelf) Marked(learner string) ([]record.Marked, error) {
	var out []record.Marked
	for _, a := range f.answers {
		if a.Learner != learner {
			continue
		}
		m := record.Marked{Answer: a, Helped: a.Answer.GuideHelp}
		for i := range f.marks {
			if f.marks[i].AnswerID == a.ID {
				m.Program = &f.marks[i].Mark
			}
		}
		for _, w := range f.gone {
			m.Withdrawn = m.Withdrawn || w.AnswerID == a.ID
		}
		for _, h := range f.helps {
			m.Helped = m.Helped || h.MomentID == a.Moment.ID && h.StepNo == a.StepNo && h.Sitting == a.Sitting
		}
		out = append(out, m)
	}
	return out, nil
}

const bakery = "Juniper carried the tray. Her hands shook. The oven was loud. Moss stood by the door. His face went white."

func spanOf(part string) nlp.Span {
	i := strings.Index(bakery, part)
	return nlp.Span{Start: i, End: i + len(part)}
}

func stepOf(k exercises.StepKind) exercises.Step {
	s := exercises.Step{Kind: k, Prompt: nlp.Reason{Code: "p." + string(k)}, Again: nlp.Reason{Code: "again"},
		Where: spanOf("Her hands shook."), Worked: nlp.Reason{Code: "worked"}}
	switch k {
	case exercises.Find:
		s.PointText = true
	case exercises.Feeling:
		s.Choices = []exercises.Choice{{ID: "fear", Text: "scared", Family: "fear"}, {ID: "joy", Text: "happy", Family: "joy"}, {ID: "cold", Text: "cold", Family: "cold"}}
		s.Fewer = s.Choices[:2]
	case exercises.Body:
		s.Choices = []exercises.Choice{{ID: "b1", Text: "shaking", Place: "hands"}, {ID: "b2", Text: "tight", Place: "chest"}}
		s.Where = nlp.Span{}
	case exercises.Reason:
		s.PointText = true
	}
	return s
}

var route = []exercises.StepKind{exercises.Find, exercises.Feeling, exercises.Reason, exercises.Body, exercises.AndYou}

func planOf(kind record.SittingKind) SittingPlan {
	return SittingPlan{
		SittingRequest: SittingRequest{
			Learner: record.Learner{Meta: record.Meta{ID: "moss"}, Nickname: "Moss", Mode: exercises.ByTap},
			Story:   record.Story{Meta: record.Meta{ID: "s1"}, Story: corpus.Story{Title: "The Tray", Text: bakery, Hash: "h"}},
			Moments: []exercises.Moment{
				{ID: "m1", Span: nlp.Span{Start: 0, End: 61}, CharacterName: "Juniper"},
				{ID: "m2", Span: nlp.Span{Start: 61, End: len(bakery)}, CharacterName: "Moss"},
			},
			Kind: kind,
		},
		Steps: func(exercises.Moment, int, int64) []exercises.Step {
			var out []exercises.Step
			for _, k := range route {
				out = append(out, stepOf(k))
			}
			return out
		},
		Judge: func(_ exercises.Moment, s exercises.Step, a exercises.Answer) exercises.Mark {
			v := exercises.NotYet
			if slices.Contains(a.ChoiceIDs, "fear") || slices.Contains(a.Spans, spanOf("hands shook")) || s.Kind == exercises.Body || s.Kind == exercises.Reason {
				v = exercises.Fits
			}
			return exercises.Mark{Value: v, Why: nlp.Reason{Code: "why"}}
		},
		Seed: 7,
	}
}

func begin(t *testing.T, f *shelf, p SittingPlan) *Sitting {
	t.Helper()
	s, err := NewSitting(f, p)
	require.NoError(t, err)
	return s
}

func at(t *testing.T, s *Sitting, phase SittingPhase, moment int, kind exercises.StepKind) {
	t.Helper()
	v := s.View()
	require.Equal(t, fmt.Sprint(phase, moment, kind), fmt.Sprint(v.Phase, v.Moment, v.Step))
}

func TestOneMomentThroughAllItsSteps(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	at(t, s, Asking, 0, exercises.Find)
	s.ToggleSpan(spanOf("hands shook"))
	require.Empty(t, f.answers, "nothing is kept before Next")
	s.Next()
	at(t, s, Feedback, 0, exercises.Find)
	require.Len(t, f.answers, 1)
	require.Len(t, f.marks, 1)
	require.Equal(t, exercises.Fits, f.marks[0].Mark.Value)
	require.Equal(t, f.answers[0].ID, f.marks[0].AnswerID)
	require.False(t, s.CanLookAgain())

	s.Next()
	at(t, s, Asking, 0, exercises.Feeling)
	s.Choose("fear")
	s.Next()
	s.Next()
	at(t, s, Asking, 0, exercises.Reason)
	require.Equal(t, []nlp.Span{spanOf("hands shook")}, s.View().Before, "what was chosen before can be chosen as the reason")
	s.Say("her hands")
	s.Next()
	require.Equal(t, exercises.BySpeak, f.answers[2].Answer.Mode)
	s.Next()
	at(t, s, Asking, 0, exercises.Body)
	s.OpenPlace("chest")
	require.Equal(t, []ChoiceView{{ID: "b2", Text: "tight"}}, s.View().Choices, "an open place offers its own words")
	s.Choose("b2")
	s.Next()
	require.Equal(t, []string{"b2"}, f.answers[3].Answer.ChoiceIDs)
	s.Next()
	at(t, s, Asking, 0, exercises.AndYou)
	require.True(t, s.View().Own)
	s.Stand(exercises.StandNotTelling)
	s.Next()
	require.Equal(t, exercises.Unmarked, f.marks[4].Mark.Value)
	s.Next()
	at(t, s, Asking, 1, exercises.Find)
	require.Empty(t, f.ended)
	s.Stop()
	s.Close()
	require.Equal(t, map[string]string{s.ID(): "stopped"}, f.ended)
	require.Equal(t, Ended, s.View().Phase)
	require.Contains(t, s.View().Closing, "The Tray")
}

func TestNothingChosenIsNotAnAnswer(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.Next()
	s.Say("   ")
	s.Next()
	require.Empty(t, f.answers)
	require.NotEmpty(t, s.View().Hint)
}

func TestChoosingAgainTakesItOff(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("hands"))
	s.ToggleSpan(spanOf("shook"))
	s.ToggleSpan(spanOf("hands"))
	require.Equal(t, []nlp.Span{spanOf("shook")}, s.View().Chosen)
	s.ToggleSpan(spanOf("face went white"))
	require.Equal(t, []nlp.Span{spanOf("shook")}, s.View().Chosen, "words outside the passage are not on offer")
	s.Stand(exercises.StandCantTell)
	require.Empty(t, s.View().Chosen, "a standing answer stands alone")
	s.ToggleSpan(spanOf("hands"))
	require.Empty(t, s.draft.Standing)
}

func TestSecondTryIsKeptAndTheFirstStands(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("tray"))
	s.Next()
	require.True(t, s.View().LookAgain)
	s.LookAgain()
	at(t, s, Asking, 0, exercises.Find)
	require.Empty(t, s.View().Chosen)
	s.ToggleSpan(spanOf("hands shook"))
	s.Next()
	require.False(t, s.View().LookAgain, "one second look")
	require.Equal(t, []int{1, 2}, []int{f.answers[0].Answer.Try, f.answers[1].Answer.Try})
	require.Empty(t, f.gone)

	// Back and back again: each answer is taken back by a further fact.
	s.Back()
	require.Equal(t, f.answers[1].ID, f.gone[0].AnswerID)
	require.Equal(t, []nlp.Span{spanOf("hands shook")}, s.View().Chosen)
	s.Back()
	at(t, s, Feedback, 0, exercises.Find)
	require.Len(t, f.gone, 1, "leaving a second try that was not given takes nothing back")
	s.Back()
	require.Equal(t, f.answers[0].ID, f.gone[1].AnswerID)
	require.Len(t, f.answers, 2, "facts stay")
	s.Next()
	require.Equal(t, 3, f.answers[2].Answer.Try, "after its feedback was seen, no answer is a first answer")
}

func TestLeavingASecondTryLeavesTheFirstAnswer(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("tray"))
	s.Next()
	s.LookAgain()
	s.Skip()
	at(t, s, Asking, 0, exercises.Feeling)
	require.Len(t, f.answers, 1)
}

func TestHelpGoesOneLevelAtATimeAndIsNotForgotten(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.Stand(exercises.StandDontKnow)
	s.Next()
	s.Next()
	var seen []exercises.PromptLevel
	for s.View().CanHelp {
		s.LittleHelp()
		seen = append(seen, s.View().Level)
	}
	require.Equal(t, []exercises.PromptLevel{exercises.SaidAgain, exercises.ShownWhere, exercises.FewerChoices, exercises.Together}, seen)
	s.LittleHelp()
	require.Equal(t, exercises.Together, s.View().Level)
	require.Len(t, s.View().Choices, 2, "fewer choices")
	require.NotEmpty(t, s.View().Worked)

	s.Back() // to Find and forward again: what was shown was shown
	s.Next()
	s.Next()
	require.Equal(t, exercises.Together, s.View().Level)
	s.Choose("fear")
	s.Next()
	a := f.answers[len(f.answers)-1].Answer
	require.Equal(t, exercises.Together, a.Prompt)
	require.Len(t, a.Shown, 2)
}

// A step without a sentence to look at or fewer choices goes past that level.
func TestHelpPassesLevelsThatHaveNothing(t *testing.T) {
	s := begin(t, &shelf{}, planOf(record.Teaching))
	for range 3 {
		s.Skip()
	}
	at(t, s, Asking, 0, exercises.Body)
	s.LittleHelp()
	s.LittleHelp()
	require.Equal(t, exercises.Together, s.View().Level)
}

func TestSkipIsKeptAndNeverMarked(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("tray"))
	s.Skip()
	at(t, s, Asking, 0, exercises.Feeling)
	require.Equal(t, exercises.StandSkip, f.answers[0].Answer.Standing)
	require.Empty(t, f.answers[0].Answer.Spans)
	require.Empty(t, f.marks)
	s.Back()
	at(t, s, Asking, 0, exercises.Find)
	require.Len(t, f.gone, 1)
	s.ToggleSpan(spanOf("tray"))
	s.Next()
	require.Equal(t, 1, f.answers[1].Answer.Try, "a skip tells nothing, so the answer after it is a first answer")
}

func TestYoursIsNeverMarked(t *testing.T) {
	f := &shelf{}
	p := planOf(record.Teaching)
	p.Judge = func(_ exercises.Moment, s exercises.Step, _ exercises.Answer) exercises.Mark {
		require.NotEqual(t, exercises.Body, s.Kind, "an answer about the learner's own body is not judged")
		return exercises.Mark{Value: exercises.Fits}
	}
	s := begin(t, f, p)
	for range 3 {
		s.Skip()
	}
	s.OpenPlace("belly")
	s.Say("fizzy")
	s.SetAboutSelf(true)
	s.Next()
	a := f.answers[3].Answer
	require.True(t, a.AboutSelf)
	require.Len(t, a.Shown, len(nlp.Places), "the places were shown")
	require.Equal(t, []string{"belly"}, a.ChoiceIDs)
	require.Equal(t, "fizzy", a.Said)
	require.Equal(t, exercises.Unmarked, f.marks[0].Mark.Value)
}

func TestGuideHelpedBeforeAndAfterNext(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("tray"))
	s.IHelped()
	s.IHelped() // taken back
	s.Steadied()
	s.Next()
	require.False(t, f.answers[0].Answer.GuideHelp)
	require.True(t, f.answers[0].Answer.Steadied)
	s.IHelped()
	s.IHelped()
	require.Len(t, f.helps, 1)
	require.Equal(t, "m1", f.helps[0].MomentID)
	s.Next()
	s.Choose("joy")
	s.IHelped()
	s.Next()
	require.True(t, f.answers[1].Answer.GuideHelp)
}

func TestBaselineAndProbeGiveNeitherPromptNorFeedback(t *testing.T) {
	for _, kind := range []record.SittingKind{record.Baseline, record.Probe} {
		f := &shelf{}
		s := begin(t, f, planOf(kind))
		require.False(t, s.View().CanHelp)
		s.LittleHelp()
		require.Equal(t, exercises.Alone, s.View().Level)
		s.ToggleSpan(spanOf("tray"))
		s.Next()
		require.Equal(t, "Thank you.", s.View().Feedback)
		require.False(t, s.View().LookAgain)
		s.Back()
		s.Next()
		require.Equal(t, 1, f.answers[1].Answer.Try, "nothing was told, so it is still a first answer")
		for _, st := range s.steps[0] {
			require.True(t, st.Kind.Marked())
		}
	}
}

func TestShortIsOneMomentPointingOnly(t *testing.T) {
	s := begin(t, &shelf{}, planOf(record.Short))
	require.Len(t, s.moments, 1)
	for !(s.View().Phase == Ended) {
		require.NotEqual(t, exercises.Reason, s.View().Step)
		require.False(t, s.View().CanSay)
		s.Skip()
	}
}

func TestRepeatedTapsAreIgnored(t *testing.T) {
	f := &shelf{}
	p := planOf(record.Teaching)
	now := time.Unix(0, 0)
	p.Now = func() time.Time { return now }
	p.Learner.Look.Touches = true
	s := begin(t, f, p)
	s.ToggleSpan(spanOf("tray"))
	now = now.Add(time.Second)
	s.Next()
	now = now.Add(200 * time.Millisecond)
	s.Next() // the same tap, repeated: the feedback stays
	at(t, s, Feedback, 0, exercises.Find)
	require.Equal(t, 1, s.View().Ignored)
	now = now.Add(RepeatWindow)
	s.Next()
	at(t, s, Asking, 0, exercises.Feeling)

	now = now.Add(time.Second)
	s.Choose("joy")
	now = now.Add(100 * time.Millisecond)
	s.Choose("joy")
	require.True(t, s.View().Choices[1].Chosen)
	s.Choose("fear") // another target is no repeat
	require.True(t, s.View().Choices[0].Chosen)
}

func TestAnExperienceGoesUnderTheWordThatWasChosen(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.Skip()
	s.Choose("fear")
	s.Next()
	s.Next()
	s.Skip()
	s.Skip()
	at(t, s, Asking, 0, exercises.AndYou)
	require.True(t, s.View().CanKeep)
	s.Say("the big wave at the pier")
	s.Next()
	require.Empty(t, f.exps, "it is kept only when asked for")
	s.Back()
	s.SetKeepWord(true)
	s.Next()
	require.Len(t, f.exps, 1)
	require.Equal(t, "scared", f.words[0].Form)
	require.Equal(t, f.words[0].ID, f.exps[0].WordID)
	require.Equal(t, s.ID(), f.exps[0].Sitting)
	require.Equal(t, say.T("words.by-guide"), f.exps[0].WrittenBy, "a learner who taps does not type")
	s.Back()
	require.Empty(t, f.exps, "what was told goes out of the book with its answer")
	s.Next()
	s.Next()
	require.Len(t, f.exps, 0, "taken back, it is kept only when asked for again")
}

func TestALearnerWhoTypesWritesItDown(t *testing.T) {
	f := &shelf{}
	p := planOf(record.Teaching)
	p.Learner.Mode = exercises.ByType
	s := begin(t, f, p)
	s.Skip()
	s.Choose("fear")
	s.Next()
	s.Next()
	s.Skip()
	s.Skip()
	at(t, s, Asking, 0, exercises.AndYou)
	s.Say("the big wave at the pier")
	s.SetKeepWord(true)
	s.Next()
	require.Equal(t, "Moss", f.exps[0].WrittenBy)
}

func TestAStopCanBeTakenBackUntilItIsClosed(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("tray"))
	s.Stop()
	require.Equal(t, Ended, s.View().Phase)
	require.True(t, s.View().CanBack)
	require.Empty(t, f.ended)
	s.Back()
	at(t, s, Asking, 0, exercises.Find)
	require.Equal(t, []nlp.Span{spanOf("tray")}, s.View().Chosen)
	s.Next()
	s.Stop()
	s.Back()
	at(t, s, Feedback, 0, exercises.Find)
	s.Stop()
	s.Close()
	s.Close()
	require.Equal(t, map[string]string{s.ID(): "stopped"}, f.ended)
	require.False(t, s.View().CanBack)
}

func TestWhenTheDiskRefusesNothingGoesOn(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.ToggleSpan(spanOf("tray"))
	f.broken = true
	s.Next()
	at(t, s, Asking, 0, exercises.Find)
	require.NotEmpty(t, s.View().Trouble)
	require.Equal(t, []nlp.Span{spanOf("tray")}, s.View().Chosen)
	f.broken = false
	s.Next()
	at(t, s, Feedback, 0, exercises.Find)
	require.Empty(t, s.View().Trouble)
	require.Len(t, f.answers, 1)
	f.broken = true
	s.Back()
	at(t, s, Feedback, 0, exercises.Find)
	require.NotEmpty(t, s.View().Trouble)
}

func TestResumeStandsWhereItWasLeft(t *testing.T) {
	f := &shelf{}
	p := planOf(record.Teaching)
	s := begin(t, f, p)
	again := func() *Sitting {
		p.Resume = &f.sittings[0]
		return begin(t, f, p)
	}
	s.LittleHelp()
	s.LittleHelp()
	s = again() // killed while a question had help
	at(t, s, Asking, 0, exercises.Find)
	require.Equal(t, exercises.ShownWhere, s.View().Level)
	s.ToggleSpan(spanOf("tray"))
	s.Next()
	s = again() // killed while feedback was shown
	at(t, s, Feedback, 0, exercises.Find)
	require.True(t, s.CanLookAgain())
	s.LookAgain()
	s = again() // killed in a second try
	at(t, s, Asking, 0, exercises.Find)
	require.Equal(t, 2, s.try())
	s.Skip()
	s.Skip()
	s = again() // killed after a skip
	at(t, s, Asking, 0, exercises.Reason)
	f.places[len(f.places)-1].State = "from another program"
	at(t, again(), Asking, 0, exercises.Reason)
	require.Len(t, f.sittings, 1)
}

func TestResumeStandsAtTheFirstOpenStep(t *testing.T) {
	f := &shelf{}
	p := planOf(record.Teaching)
	s := begin(t, f, p)
	s.ToggleSpan(spanOf("tray"))
	s.Next()
	s.Next()
	s.Choose("fear")
	s.Next()
	f.marks = f.marks[:1] // killed after the answer, before its mark
	f.places = nil        // from a store that keeps no positions

	p.Resume = &f.sittings[0]
	p.Moments = nil // an engine that no longer finds them
	again := begin(t, f, p)
	at(t, again, Asking, 0, exercises.Reason)
	require.Len(t, f.marks, 2, "the missing mark is made again")
	require.Len(t, f.sittings, 1)

	p.Moments = planOf(record.Teaching).Moments
	again = begin(t, f, p)
	require.Len(t, again.moments, 2)
	require.Equal(t, s.sit.Seats, again.sit.Seats)
}

func TestMetBeforeIsARepeat(t *testing.T) {
	f := &shelf{}
	s := begin(t, f, planOf(record.Teaching))
	s.Skip()
	s.Stop()
	s = begin(t, f, planOf(record.Teaching))
	s.Skip()
	require.False(t, f.answers[0].Answer.Repeat)
	require.True(t, f.answers[1].Answer.Repeat)
}

func TestNoMomentIsSaid(t *testing.T) {
	p := planOf(record.Teaching)
	p.Moments = nil
	_, err := NewSitting(&shelf{}, p)
	require.ErrorIs(t, err, ErrNothingToRead)
}

// Whatever is done, in whatever order: an answer that was given is never lost,
// a skip is never marked, every marked answer has one program mark, nobody's
// own body is judged, and a sitting laid out again stands where this one does.
func TestAnyOrderOfActions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &shelf{}
		kind := rapid.SampledFrom([]record.SittingKind{record.Teaching, record.Short, record.Baseline, record.Probe}).Draw(t, "kind")
		p := planOf(kind)
		s, err := NewSitting(f, p)
		require.NoError(t, err)
		var kept []record.Answer
		for range rapid.IntRange(1, 60).Draw(t, "n") {
			v, gone := s.View(), len(f.gone)
			act := rapid.SampledFrom([]string{"span", "choose", "say", "stand", "place", "self", "help", "helped", "next", "next", "skip", "back", "again", "stop"}).Draw(t, "act")
			switch act {
			case "span":
				s.ToggleSpan(spanOf(rapid.SampledFrom([]string{"hands shook", "tray", "oven", "shook", "white"}).Draw(t, "span")))
			case "choose":
				s.Choose(rapid.SampledFrom([]string{"fear", "joy", "b1", "b2"}).Draw(t, "id"))
			case "say":
				s.Say(rapid.SampledFrom([]string{"", "wobbly", " "}).Draw(t, "said"))
			case "stand":
				s.Stand(rapid.SampledFrom([]string{exercises.StandNothing, exercises.StandCantTell, exercises.StandNotTelling}).Draw(t, "stand"))
			case "place":
				s.OpenPlace("hands")
			case "self":
				s.SetAboutSelf(true)
			case "help":
				s.LittleHelp()
				require.LessOrEqual(t, s.View().Level, v.Level+3, "at most two levels of a step are empty")
			case "helped":
				s.IHelped()
			case "next":
				s.Next()
			case "skip":
				s.Skip()
			case "stop":
				s.Stop()
				s.Back() // a stop that is taken back changes nothing
				if v.Phase != Ended {
					w := s.View()
					require.Equal(t, v.Line()+fmt.Sprint(v.Chosen, v.Said), w.Line()+fmt.Sprint(w.Chosen, w.Said))
				}
			case "again":
				s.LookAgain()
			case "back":
				s.Back()
				require.LessOrEqual(t, len(f.gone), gone+1)
			}
			require.GreaterOrEqual(t, len(f.answers), len(kept))
			for i := range kept {
				require.Equal(t, kept[i], f.answers[i], "facts do not change")
			}
			kept = slices.Clone(f.answers)
		}
		marks := map[string]int{}
		for _, m := range f.marks {
			marks[m.AnswerID]++
			i := slices.IndexFunc(f.answers, func(a record.Answer) bool { return a.ID == m.AnswerID })
			a := f.answers[i].Answer
			if a.AboutSelf || a.Standing != "" || !a.Step.Marked() {
				require.Equal(t, exercises.Unmarked, m.Mark.Value)
			}
		}
		for _, a := range f.answers {
			want := 1
			if a.Answer.Standing == exercises.StandSkip {
				want = 0
			}
			require.Equal(t, want, marks[a.ID])
			if kind == record.Baseline || kind == record.Probe {
				require.Equal(t, exercises.Alone, a.Answer.Prompt)
			}
		}
		if s.View().Phase == Ended {
			require.Equal(t, "done", f.ended[s.ID()])
			return
		}
		open := func(s *Sitting) [2]int {
			for m := range s.moments {
				for n := range s.steps[m] {
					if s.standingAnswer(m, n) < 0 {
						return [2]int{m, n}
					}
				}
			}
			return [2]int{-1, -1}
		}
		want := open(s)
		p.Resume = &f.sittings[0]
		again, err := NewSitting(f, p)
		require.NoError(t, err)
		require.Equal(t, want, open(again))
		require.Equal(t, [2]int{s.moment, s.step}, [2]int{again.moment, again.step})
		require.Equal(t, s.phase, again.phase)
		require.Equal(t, s.level, again.level)
	})
}

// Every sentence that the screen of any step may ask for is in the catalogue,
// and none of the learner's sentences judges, praises or counts.
func TestTheLearnersSentences(t *testing.T) {
	for _, kind := range []exercises.StepKind{exercises.Find, exercises.Body, exercises.Feeling, exercises.Reason, exercises.AndYou, exercises.CouldHelp} {
		p := planOf(record.Teaching)
		p.Steps = func(exercises.Moment, int, int64) []exercises.Step { return []exercises.Step{stepOf(kind)} }
		s := begin(t, &shelf{}, p)
		v := s.View()
		for _, text := range append([]string{v.SayHint, v.Part}, v.Hint, v.OwnNote) {
			require.NotContains(t, text, "[", "%s", kind)
		}
		for _, c := range v.Standing {
			require.NotContains(t, c.Text, "[", "%s", kind)
			s.Stand(c.ID)
			s.Next()
			require.NotContains(t, s.View().Feedback, "[", "%s after %s", kind, c.ID)
			s.Back()
		}
	}
	for _, k := range say.English().Keys() {
		for _, mine := range []string{"sitting.", "stand.", "step.", "mark."} {
			if !strings.HasPrefix(k, mine) {
				continue
			}
			text := " " + strings.ToLower(say.T(k)) + " "
			for _, no := range []string{"wrong", "correct", "right!", "well done", "good job", "great", "score", "star", "points ", "mistake", "failed"} {
				require.NotContains(t, strings.ReplaceAll(text, "start", ""), no, k)
			}
		}
	}
}
