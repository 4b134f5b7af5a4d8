package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/ui/look"
	"feltpage/exercises"
)

func TestTheStorysLookIsChangedLiveAndKept(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	a.tap("aa")
	before := a.x.reading.Pages()
	for range 6 {
		a.tap("size:bigger")
	}
	a.tap("size:calmer")
	require.Greater(t, a.x.reading.Pages(), before)
	a.tap("size:dark")
	require.Equal(t, look.Dark, look.Now())
	a.shot("look-1-dark")
	a.tap("way:sentence")
	a.tap("next") // closes what was open; nothing is given
	require.Equal(t, "asking", a.fact("phase"))
	a.shot("look-2-large-dark")
	l, err := a.st.Learners()
	require.NoError(t, err)
	require.Equal(t, record.DefaultLook.SizePt+12, l[0].Look.SizePt)
	require.True(t, l[0].Look.Dark)
	require.Equal(t, record.WaySentence, l[0].Look.Way)
	a.tap("stop")
	a.tap("done")
	require.Equal(t, look.Light, look.Now(), "the household's own look comes back")
}

func TestASentenceThenItsWordsLarge(t *testing.T) {
	a := sit(t, record.Short, 1280, 800)
	a.tap("word:cakes") // any word of the sentence
	a.shot("sentence-1")
	a.tap("large:hands")
	a.tap("large:shook")
	require.Equal(t, "hands shook", a.fact("chosen"))
	a.shot("sentence-2")
	a.tap("close")
	a.shot("sentence-3")
	a.tap("next")
	a.tap("next")
	require.Equal(t, "feeling", a.fact("step"))
	a.shot("point-feeling")
}

func TestAClosedWindowGoesOnWhereItWas(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	a.tap("word:hands")
	a.tap("next")
	a.tap("next")
	a.tap("help")
	open, err := a.st.Unfinished(a.request.Learner.ID)
	require.NoError(t, err)
	require.Len(t, open, 1)
	a.request.Resume = &open[0].Sitting
	a.seen = nil
	a.open(1280, 800)
	require.Equal(t, "feeling", a.fact("step"))
	require.Equal(t, "1", a.fact("level"))
	a.tap("back")
	require.Equal(t, "hands", a.fact("chosen"), "what was given before the close can be taken back")
}

func TestBaselineSaysThankYou(t *testing.T) {
	a := sit(t, record.Baseline, 1280, 800)
	_, help := a.last().Targets["help"]
	require.False(t, help)
	a.tap("word:hands")
	a.tap("next")
	require.Equal(t, "Thank you.", a.x.s.View().Feedback)
	a.shot("baseline-thanks")
}

func TestTheOutlineIsTheListsEqual(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	for a.fact("step") != "body" {
		a.tap("skip")
	}
	a.tap("body:other")
	a.shot("outline-1")
	a.tap("whose:mine")
	require.True(t, a.x.s.View().AboutSelf)
	a.tap("body:other")
	a.tap("place:belly")
	a.tap("places")
	a.tap("place:chest")
	a.shot("outline-2-place")
	a.tap("next")
	kept, err := a.st.Marked(a.request.Learner.ID)
	require.NoError(t, err)
	last := kept[len(kept)-1]
	require.Equal(t, []string{"chest"}, last.Answer.Answer.ChoiceIDs)
	require.True(t, last.Answer.Answer.AboutSelf)
	require.Equal(t, exercises.Unmarked, last.Program.Value)
	a.shot("outline-3-feedback")
}

func TestLongNamesAndLongWordsStayInside(t *testing.T) {
	a := sit(t, record.Teaching, 900, 600)
	for i := range a.request.Moments {
		a.request.Moments[i].CharacterName = "the Granddaughter-of-the-Harbourmaster's-Eldest-Sister"
	}
	a.seen = nil
	a.open(900, 600)
	for n := 0; a.fact("phase") != "ended"; n++ {
		a.checkTargets(fyne.NewSize(900, 600))
		for range 4 {
			if _, ok := a.last().Targets["help"]; ok {
				a.tap("help")
				a.checkTargets(fyne.NewSize(900, 600))
			}
		}
		if _, both := a.last().Targets["else"]; both {
			require.Nil(t, a.x.box, "one place to say it")
		}
		a.shot("long-" + a.fact("step"))
		a.tap("skip")
	}
}

func TestNextWithoutAnAnswerSaysWhatToDo(t *testing.T) {
	a := sit(t, record.Teaching, 900, 600)
	a.tap("next")
	require.True(t, a.x.note.Visible())
	require.Equal(t, a.fact("hint"), a.x.note.Text)
	a.checkTargets(fyne.NewSize(900, 600))
	a.shot("hint")
	a.tap("word:hands")
	require.False(t, a.x.note.Visible())
	for a.fact("step") != "reason" {
		a.tap("skip")
	}
	a.tap("next")
	a.checkTargets(fyne.NewSize(900, 600))
	box := a.x.box
	a.p.win.Canvas().Focus(box.Entry)
	test.Type(box.Entry, "b")
	require.Equal(t, box.Entry, a.p.win.Canvas().Focused(), "the line goes and the box stays")
	require.False(t, a.x.note.Visible())
}

func TestTheStoryBeforeAPassageCanBeLookedAt(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	_, any := a.last().Targets["page-back"]
	require.False(t, any, "before the first words there is nothing")
	a.request.Moments[0].Span.Start = spanOf(t, "Then something").Start
	a.seen = nil
	a.open(1280, 800)
	a.tap("word:hands")
	a.tap("page-back")
	require.Equal(t, "before 1/1", a.fact("page"))
	_, any = a.last().Targets["word:Juniper"]
	require.False(t, any, "words of it are not chosen")
	a.shot("earlier")
	a.tap("page-on")
	require.Equal(t, "1/1", a.fact("page"))
	require.Equal(t, "hands", a.fact("chosen"))
	a.tap("page-back")
	a.tap("help")
	require.Equal(t, "1/1", a.fact("page"), "help leads back to the passage")
	a.control(fyne.KeyPageUp)
	a.control(fyne.KeyPageUp)
	require.Equal(t, "before 1/1", a.fact("page"))
	a.control(fyne.KeyPageDown)
	require.Equal(t, "1/1", a.fact("page"))
	a.shot("earlier-back")
}

func TestAStopIsTakenBack(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	a.tap("word:hands")
	a.tap("stop")
	a.shot("stop")
	a.tap("back")
	require.Equal(t, "asking", a.fact("phase"))
	require.Equal(t, "hands", a.fact("chosen"))
	a.checkTargets(fyne.NewSize(1280, 800))
	a.tap("next")
	require.Equal(t, "feedback", a.fact("phase"))
	a.tap("stop")
	a.tap("done")
	ended, err := a.st.Sitting(a.x.s.ID())
	require.NoError(t, err)
	require.Equal(t, "stopped", ended.Ended)
}

func TestWordsTakenBackAreShownAgain(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	a.tap("skip")
	a.tap("else")
	test.Type(a.x.box.Entry, "wobbly")
	a.tap("next")
	a.tap("back")
	require.NotNil(t, a.x.box)
	require.Equal(t, "wobbly", a.x.box.Entry.Text)
	a.tap("instead")
	require.Empty(t, a.x.s.View().Said)
	require.Nil(t, a.x.box)
}

// While words are typed the box stays where it is and keeps the keyboard.
func TestTypingKeepsTheBox(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	for a.fact("step") != "reason" {
		a.tap("skip")
	}
	box := a.x.box
	a.p.win.Canvas().Focus(box.Entry)
	test.Type(box.Entry, "because")
	require.Same(t, box, a.x.box)
	require.Equal(t, box.Entry, a.p.win.Canvas().Focused())
	a.shot("reason-typing")
	a.control(fyne.KeyReturn)
	require.Equal(t, "feedback", a.fact("phase"))
	kept, err := a.st.Marked(a.request.Learner.ID)
	require.NoError(t, err)
	require.Equal(t, "because", kept[len(kept)-1].Answer.Answer.Said)
	require.Equal(t, exercises.BySpeak, kept[len(kept)-1].Answer.Answer.Mode)
}
