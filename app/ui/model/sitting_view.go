package model

import (
	"fmt"
	"slices"
	"strconv"
	"unicode/utf8"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/nlp"
)

// longName is how many letters of a name still fit on a button.
const longName = 14

// SittingView is all that the sitting's screen shows at one time.
type SittingView struct {
	Phase   SittingPhase
	Kind    record.SittingKind
	Step    exercises.StepKind
	StepNo  int
	Moment  int
	Level   exercises.PromptLevel
	Seat    string
	Learner string // nickname
	Title   string // of the story
	Part    string // "Part 3"

	Look       record.Look
	Text       string // of the story
	Sentences  []nlp.Span
	Paragraphs []nlp.Span
	Passage    nlp.Span // what of it is shown
	PointText  bool     // words can be chosen in the passage
	Chosen     []nlp.Span
	Lit        []nlp.Span // the sentence to look at, or where the worked answer lies

	Prompt  string
	Worked  string // the worked answer, or ""
	Own     bool   // only the learner's own, never marked: another ground
	OwnNote string

	Choices   []ChoiceView
	Places    []PlaceView // of a Body step
	Place     string      // the open place, or ""
	PlaceName string
	Before    []nlp.Span   // words chosen earlier in this moment, to choose again as the reason
	Standing  []ChoiceView // the answers that are always there
	CanSay    bool         // there is a box for words of one's own
	SayHint   string
	Said      string
	Whose     bool // ask "the story's body or yours?"
	AboutSelf bool
	StoryBody string // the name of the one choice, "Moss's body"
	CanKeep   bool   // what is told may go into the word book
	KeepWord  bool
	KeepText  string

	Feedback  string
	LookAgain bool

	Hint, Trouble              string
	CanBack, CanSkip, CanHelp  bool
	CanNext                    bool
	Helped, Steadied, HelpKeys bool
	Closing                    string
	Ignored                    int // repeated taps that were ignored so far
}

// ChoiceView is one thing to point at.
type ChoiceView struct {
	ID, Text string
	Chosen   bool
}

// PlaceView is one body place.
type PlaceView struct {
	ID, Name string
	Open     bool
}

// Line is the state as one short line for whoever waits for it.
func (v SittingView) Line() string {
	return fmt.Sprintf("sitting phase=%s step=%s moment=%d stepno=%d level=%d", v.Phase, v.Step, v.Moment, v.StepNo, v.Level)
}

// shown gives the choices as they are shown at the open prompt level. In a
// Body step they are those of the open place.
func (s *Sitting) shown() []exercises.Choice {
	st := s.now()
	all := st.Choices
	if s.level >= exercises.FewerChoices && len(st.Fewer) > 0 {
		all = st.Fewer
	}
	if st.Kind != exercises.Body {
		return all
	}
	var out []exercises.Choice
	for _, c := range all {
		if c.Place == s.draft.Place && c.ID != c.Place && c.Place != "" {
			out = append(out, c)
		}
	}
	return out
}

// allShown gives everything to point at that is shown now, in its order: of a
// Body step the places, then what the open one offers.
func (s *Sitting) allShown() []exercises.Choice {
	var out []exercises.Choice
	if s.now().Kind == exercises.Body {
		for _, p := range s.places() {
			out = append(out, exercises.Choice{ID: p, Key: "place." + p, Place: p})
		}
	}
	return append(out, s.shown()...)
}

// places gives the body places on offer: all shipped ones, or with fewer
// choices those that are left.
func (s *Sitting) places() []string {
	st := s.now()
	if s.level >= exercises.FewerChoices && len(st.Fewer) > 0 {
		var out []string
		for _, p := range nlp.Places {
			if slices.ContainsFunc(st.Fewer, func(c exercises.Choice) bool { return c.Place == p }) {
				out = append(out, p)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nlp.Places
}

// standings gives the answers that are always there, by step.
func (s *Sitting) standings() []string {
	switch s.now().Kind {
	case exercises.AndYou:
		return []string{exercises.StandYes, exercises.StandNothing, exercises.StandNotTelling}
	case exercises.CouldHelp:
		return []string{exercises.StandDontKnow, exercises.StandNotTelling}
	}
	return []string{exercises.StandNothing, exercises.StandCantTell, exercises.StandDontKnow}
}

// before gives the words of the passage chosen in earlier steps of this
// moment.
func (s *Sitting) before() []nlp.Span {
	var out []nlp.Span
	for n := 0; n < s.step; n++ {
		if i := s.standingAnswer(s.moment, n); i >= 0 {
			for _, x := range s.given[i].Answer.Answer.Spans {
				if !slices.ContainsFunc(out, x.Overlaps) {
					out = append(out, x)
				}
			}
		}
	}
	return out
}

// View gives what is to be shown now.
func (s *Sitting) View() SittingView {
	v := SittingView{
		Phase: s.phase, Kind: s.sit.Kind, Learner: s.plan.Learner.Nickname, Title: s.plan.Story.Title,
		Seat: s.sit.Seats[s.seat].ID, Text: s.plan.Story.Text, Ignored: s.ignored,
	}
	v.Look = s.plan.Learner.Look
	if a := s.plan.Analysis; a != nil && a.Doc != nil {
		v.Paragraphs = a.Doc.Paragraphs
		for _, x := range a.Doc.Sentences {
			v.Sentences = append(v.Sentences, x.Span)
		}
	}
	if s.trouble != "" {
		v.Trouble = say.T(s.trouble)
	}
	if s.phase == Ended {
		v.Closing, v.CanBack = s.closing(), s.CanGoBack()
		return v
	}
	st, m := s.now(), s.moments[s.moment]
	name := say.Name(m.CharacterName)
	v.Step, v.StepNo, v.Moment, v.Level = st.Kind, s.step, s.moment, s.level
	v.Part = say.T("sitting.part", say.S{"n": strconv.Itoa(s.moment + 1)})
	v.Passage, v.Chosen = m.Span, s.draft.Spans
	v.Own = !st.Kind.Marked()
	if v.Own {
		v.OwnNote = say.T("sitting.own")
	}
	v.Prompt = Sentence(st.Prompt)
	if s.level >= exercises.SaidAgain && st.Again.Code != "" {
		v.Prompt = Sentence(st.Again)
	}
	if s.level >= exercises.ShownWhere && st.Where.Len() > 0 {
		v.Lit = []nlp.Span{st.Where}
	}
	if s.level >= exercises.Together && st.Worked.Code != "" {
		v.Worked = Sentence(st.Worked)
		if len(st.WorkedAt) > 0 {
			v.Lit = st.WorkedAt
		}
	}
	v.CanBack = s.CanGoBack()
	v.CanNext = true
	v.HelpKeys = true
	v.Said, v.AboutSelf, v.KeepWord = s.draft.Said, s.draft.AboutSelf, s.draft.KeepWord
	v.Helped, v.Steadied = s.draft.GuideHelp, s.draft.Steadied
	if s.phase == Feedback {
		g := s.given[s.last]
		v.Helped = g.Helped
		v.Feedback, v.LookAgain = s.feedback(), s.CanLookAgain()
		return v
	}
	if s.hint != "" {
		v.Hint = say.T(s.hint)
	}
	v.CanSkip = true
	_, v.CanHelp = s.nextLevel()
	v.PointText = st.PointText
	for _, c := range s.shown() {
		v.Choices = append(v.Choices, ChoiceView{ID: c.ID, Text: choiceText(c), Chosen: slices.Contains(s.draft.ChoiceIDs, c.ID)})
	}
	for _, id := range s.standings() {
		v.Standing = append(v.Standing, ChoiceView{ID: id, Text: say.T("stand." + string(st.Kind) + "." + id), Chosen: s.draft.Standing == id})
	}
	v.CanSay = st.Kind != exercises.Find && s.sit.Kind != record.Short
	v.SayHint = say.T("sitting.say."+string(st.Kind), say.S{"name": v.Learner})
	switch st.Kind {
	case exercises.Body:
		for _, p := range s.places() {
			v.Places = append(v.Places, PlaceView{ID: p, Name: say.T("place." + p), Open: s.draft.Place == p})
		}
		v.Place, v.Whose = s.draft.Place, true
		if v.Place != "" {
			v.PlaceName = say.T("place." + v.Place)
		}
		v.StoryBody = say.T("sitting.whose.story-body")
		if utf8.RuneCountInString(name) <= longName {
			v.StoryBody = say.T("sitting.whose.story", say.S{"whose": exercises.Whose(name)})
		}
	case exercises.Reason:
		v.Before = s.before()
	case exercises.AndYou:
		if form := s.wordForm(); form != "" {
			v.CanKeep, v.KeepText = true, say.T("sitting.keep", say.S{"word": form})
		}
	}
	return v
}

// feedback is the one calm line about the answer just stored.
func (s *Sitting) feedback() string {
	if s.quietKind() {
		return say.T("sitting.thanks")
	}
	g := s.given[s.last]
	if g.Program == nil || g.Program.Why.Code == "" {
		return say.T("sitting.thanks")
	}
	return Sentence(g.Program.Why)
}

// closing says in one sentence what was read.
func (s *Sitting) closing() string {
	title := s.plan.Story.Title
	if len(s.given) == 0 {
		return say.T("sitting.end.none", say.S{"title": title})
	}
	var names []string
	for _, g := range s.given {
		if n := say.Name(g.Moment.CharacterName); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	switch len(names) {
	case 0:
		return say.T("sitting.end.part", say.S{"title": title})
	case 1:
		return say.T("sitting.end.one", say.S{"title": title, "name": names[0]})
	}
	return say.T("sitting.end.two", say.S{"title": title, "name": names[0], "other": names[len(names)-1]})
}

// choiceText is what stands on a choice: the learner's own form, else the
// catalogue's words for it.
func choiceText(c exercises.Choice) string {
	if c.Text == "" && c.Key != "" {
		return say.T(c.Key)
	}
	return c.Text
}

// Sentence says a reason in the learner's language. Slots that hold the id of
// a family, place or sign are named first.
func Sentence(r nlp.Reason) string { return say.R(r) }
