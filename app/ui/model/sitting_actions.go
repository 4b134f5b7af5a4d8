package model

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"
	"time"

	"feltpage/app/record"
	"feltpage/exercises"
	"feltpage/nlp"
)

// RepeatWindow is how long after an action the same action counts as a
// repeated tap and is ignored, for a learner whose taps repeat.
const RepeatWindow = 350 * time.Millisecond

// Repeated reports whether a tap comes too soon after the same one, and is to
// be ignored. The key names what was tapped.
func (s *Sitting) Repeated(key string) bool { return s.repeated(key) }

// repeated reports whether an action comes too soon after the same one.
func (s *Sitting) repeated(key string) bool {
	if !s.plan.Learner.Look.Touches || s.plan.Now == nil {
		return false
	}
	at := s.plan.Now()
	if key == s.lastKey && at.Sub(s.lastAt) < RepeatWindow && !at.Before(s.lastAt) {
		s.ignored++
		s.lastAt = at
		return true
	}
	s.lastKey, s.lastAt = key, at
	return false
}

func (s *Sitting) tap() exercises.AnswerMode {
	if s.plan.Learner.Mode == exercises.ByPoint {
		return exercises.ByPoint
	}
	return exercises.ByTap
}

// edit starts a change of the draft; false when none is being made.
func (s *Sitting) edit(key string) bool {
	if s.phase != Asking || s.repeated(key) {
		return false
	}
	s.trouble, s.hint = "", ""
	return true
}

// ToggleSpan chooses words of the passage, or takes them off: chosen words
// that overlap the span are taken off, and the span is chosen when it was not
// itself chosen.
func (s *Sitting) ToggleSpan(sp nlp.Span) {
	if sp.Len() <= 0 || !s.now().PointText || !s.moments[s.moment].Span.Contains(sp) || !s.edit(fmt.Sprint("span ", sp)) {
		return
	}
	had := slices.Contains(s.draft.Spans, sp)
	s.draft.Spans = slices.DeleteFunc(s.draft.Spans, func(x nlp.Span) bool { return x.Overlaps(sp) })
	if !had {
		s.draft.Spans = append(s.draft.Spans, sp)
	}
	s.pointed()
}

// SetSpans replaces what is chosen in the passage, as the reading view reports
// it.
func (s *Sitting) SetSpans(spans []nlp.Span) {
	if s.phase != Asking || !s.now().PointText {
		return
	}
	var keep []nlp.Span
	for _, x := range spans {
		if x.Len() > 0 && s.moments[s.moment].Span.Contains(x) && !slices.ContainsFunc(keep, x.Overlaps) {
			keep = append(keep, x)
		}
	}
	if slices.Equal(keep, s.draft.Spans) {
		return
	}
	s.trouble, s.hint = "", ""
	s.draft.Spans = keep
	s.pointed()
}

func (s *Sitting) pointed() {
	sort.Slice(s.draft.Spans, func(i, j int) bool { return s.draft.Spans[i].Start < s.draft.Spans[j].Start })
	s.draft.Standing, s.draft.mode = "", s.tap()
	s.changed()
}

// Choose takes a choice that is shown, or takes it off again. Feeling, Body
// and And-you have one choice at a time.
func (s *Sitting) Choose(id string) {
	i := slices.IndexFunc(s.shown(), func(c exercises.Choice) bool { return c.ID == id })
	if i < 0 || !s.edit("choose "+id) {
		return
	}
	if slices.Contains(s.draft.ChoiceIDs, id) {
		s.draft.ChoiceIDs = nil
	} else {
		s.draft.ChoiceIDs = []string{id}
		if c := s.shown()[i]; c.Place != "" && s.now().Kind == exercises.Body {
			s.draft.Place = c.Place
		}
	}
	s.draft.Standing, s.draft.mode = "", s.tap()
	s.changed()
}

// OpenPlace opens a body place, to choose what it may be like there; the open
// one is closed again.
func (s *Sitting) OpenPlace(place string) {
	if s.now().Kind != exercises.Body || !s.edit("place "+place) {
		return
	}
	if s.draft.Place == place {
		place = ""
	}
	s.draft.Place, s.draft.ChoiceIDs, s.draft.Standing, s.draft.mode = place, nil, "", s.tap()
	s.changed()
}

// Say sets what the learner said, exactly as typed.
func (s *Sitting) Say(text string) {
	if s.phase != Asking || text == s.draft.Said {
		return
	}
	s.draft.Said, s.trouble, s.hint = text, "", ""
	if strings.TrimSpace(text) != "" {
		s.draft.Standing = ""
		s.draft.mode = exercises.BySpeak
		if s.plan.Learner.Mode == exercises.ByType {
			s.draft.mode = exercises.ByType
		}
	}
	s.changed()
}

// Stand takes one of the answers that are always there: nothing, can't tell,
// don't know, not telling; or takes it off again. It stands alone: what was
// chosen beside it is let go.
func (s *Sitting) Stand(id string) {
	if !slices.Contains(s.standings(), id) || !s.edit("stand "+id) {
		return
	}
	d := Draft{AboutSelf: s.draft.AboutSelf, GuideHelp: s.draft.GuideHelp, Steadied: s.draft.Steadied, mode: s.tap()}
	if s.draft.Standing != id {
		d.Standing = id
		d.Place = s.draft.Place
	}
	s.draft = d
	s.changed()
}

// SetAboutSelf says that the answer is about the learner's own body; it is
// then never marked.
func (s *Sitting) SetAboutSelf(yes bool) {
	if s.now().Kind != exercises.Body || s.draft.AboutSelf == yes || s.phase != Asking {
		return
	}
	s.draft.AboutSelf = yes
	s.changed()
}

// SetKeepWord says whether what is told in And-you goes into the word book.
func (s *Sitting) SetKeepWord(yes bool) {
	if s.phase != Asking || s.now().Kind != exercises.AndYou || s.draft.KeepWord == yes {
		return
	}
	s.draft.KeepWord = yes
	s.changed()
}

// LittleHelp goes one prompt level further, to the next level that this step
// has something for. Baseline and probe have none.
func (s *Sitting) LittleHelp() {
	next, ok := s.nextLevel()
	if !ok || s.phase != Asking || s.repeated("help") {
		return
	}
	s.level, s.trouble, s.hint = next, "", ""
	s.levels[[2]int{s.moment, s.step}] = next
	s.savePosition()
	if s.draft.ChoiceIDs != nil && !slices.ContainsFunc(s.shown(), func(c exercises.Choice) bool { return c.ID == s.draft.ChoiceIDs[0] }) {
		s.draft.ChoiceIDs = nil
	}
	s.changed()
}

func (s *Sitting) nextLevel() (exercises.PromptLevel, bool) {
	if s.quietKind() || s.phase != Asking || !s.now().Kind.Marked() {
		return 0, false
	}
	st := s.now()
	for l := s.level + 1; l <= exercises.Together; l++ {
		switch {
		case l == exercises.SaidAgain && st.Again.Code != "",
			l == exercises.ShownWhere && st.Where.Len() > 0,
			l == exercises.FewerChoices && len(st.Fewer) > 0,
			l == exercises.Together && st.Worked.Code != "":
			return l, true
		}
	}
	return 0, false
}

// IHelped is the guide's key. Before Next it belongs to the answer being made
// and can be taken back; after Next it is told of the answer just given.
func (s *Sitting) IHelped() {
	if s.phase == Ended || s.repeated("helped") {
		return
	}
	if s.phase == Asking {
		s.draft.GuideHelp = !s.draft.GuideHelp
		s.changed()
		return
	}
	g := s.given[s.last]
	if g.Helped {
		return
	}
	_, err := s.store.RecordHelp(record.Help{AnswerID: g.ID, Sitting: s.sit.ID, Seat: g.Seat, Learner: g.Learner, MomentID: g.Moment.ID, StepNo: g.StepNo})
	if err != nil {
		s.trouble = "sitting.trouble.not-saved"
	} else {
		g.Helped, s.trouble = true, ""
	}
	s.changed()
}

// Steadied says that a grown-up steadied hand, arm or page for the answer
// being made, or takes it back.
func (s *Sitting) Steadied() {
	if s.phase != Asking || s.repeated("steadied") {
		return
	}
	s.draft.Steadied = !s.draft.Steadied
	s.changed()
}

// Next stores the answer being made, or goes on from feedback.
func (s *Sitting) Next() {
	if s.repeated("next") {
		return
	}
	switch s.phase {
	case Asking:
		d := s.draft
		if strings.TrimSpace(d.Said) == "" {
			d.Said = ""
		}
		if d.empty() {
			s.hint = "sitting.hint.choose"
			s.changed()
			return
		}
		s.give(d)
	case Feedback:
		s.advance()
	}
	s.changed()
}

// Skip goes past the step. The skip is kept and never marked; past a second
// try it is only going on, since the first answer stands.
func (s *Sitting) Skip() {
	if s.phase != Asking || s.repeated("skip") {
		return
	}
	if s.standingAnswer(s.moment, s.step) >= 0 {
		s.advance()
		s.changed()
		return
	}
	s.give(Draft{Standing: exercises.StandSkip, GuideHelp: s.draft.GuideHelp, mode: s.tap()})
	s.changed()
}

// give stores an answer and its mark, then shows what follows.
func (s *Sitting) give(d Draft) {
	st, m := s.now(), s.moments[s.moment]
	a := exercises.Answer{
		Step: st.Kind, Spans: slices.Clone(d.Spans), ChoiceIDs: slices.Clone(d.ChoiceIDs), Said: d.Said,
		Standing: d.Standing, Mode: cmp.Or(d.mode, s.tap()), Prompt: s.level, Entry: exercises.Alone,
		Shown: s.allShown(), Try: s.try(), Repeat: s.repeatOf(m),
		GuideHelp: d.GuideHelp, Steadied: d.Steadied, AboutSelf: d.AboutSelf,
	}
	if d.Place != "" && len(a.ChoiceIDs) == 0 {
		a.ChoiceIDs = []string{d.Place}
	}
	rec, err := s.store.AppendAnswer(record.Answer{
		Sitting: s.sit.ID, Seat: s.sit.Seats[s.seat].ID, Learner: s.plan.Learner.ID,
		StoryID: s.sit.StoryID, TextHash: s.plan.Story.Hash, Engine: cmp.Or(s.sit.Engine, engineOf(s.plan)),
		Moment: m, StepNo: s.step, Step: st, Answer: a,
	})
	if err != nil {
		s.trouble = "sitting.trouble.not-saved"
		return
	}
	g := &record.Marked{Answer: rec, Helped: a.GuideHelp, SittingKind: s.sit.Kind}
	s.given = append(s.given, g)
	s.last, s.trouble, s.hint = len(s.given)-1, "", ""
	if a.Standing == exercises.StandSkip {
		s.advance()
		return
	}
	mark := s.judge(m, st, a)
	g.Program = &mark
	s.pending = append(s.pending, record.Mark{AnswerID: rec.ID, Learner: s.plan.Learner.ID, By: record.ByProgram, Mark: mark})
	s.writePending()
	if st.Kind == exercises.AndYou && d.KeepWord && a.Said != "" {
		s.keepExperience(rec)
	}
	s.draft, s.phase = d, Feedback
}

// writePending writes marks that could not be written at once. The answers
// they belong to are safe; a mark that stays unwritten is made again when the
// sitting is next opened.
func (s *Sitting) writePending() {
	for len(s.pending) > 0 {
		if _, err := s.store.AppendMark(s.pending[0]); err != nil {
			return
		}
		s.pending = s.pending[1:]
	}
}

func engineOf(p SittingPlan) string {
	if p.Analysis != nil {
		return p.Analysis.Engine
	}
	return ""
}

// repeatOf reports whether the learner has met the place of the story before,
// even where an older engine had cut it into another passage.
func (s *Sitting) repeatOf(m exercises.Moment) bool { return slices.ContainsFunc(s.met, m.SamePlace) }

// judge marks an answer. What is about the learner, what is never marked and
// the answers that are always there stay unmarked, whatever else they hold.
func (s *Sitting) judge(m exercises.Moment, st exercises.Step, a exercises.Answer) exercises.Mark {
	switch {
	case a.Standing == exercises.StandNothing:
		return unmarked("mark.standing.nothing")
	case a.Standing == exercises.StandCantTell, a.Standing == exercises.StandDontKnow:
		return unmarked("mark.standing.cant-tell")
	case a.Standing == exercises.StandNotTelling:
		return unmarked("sitting.said.not-telling")
	case !st.Kind.Marked():
		return unmarked("sitting.said.yours")
	case a.AboutSelf:
		return unmarked("mark.body.self")
	}
	return s.plan.Judge(m, st, a)
}

func unmarked(code string) exercises.Mark {
	return exercises.Mark{Value: exercises.Unmarked, Why: nlp.Reason{Code: code}}
}

// CanLookAgain reports whether the feedback invites another look: a first
// answer that did not fit yet, in a sitting that teaches.
func (s *Sitting) CanLookAgain() bool {
	if s.phase != Feedback || s.quietKind() {
		return false
	}
	g := s.given[s.last]
	return g.Answer.Answer.Try == 1 && g.Program != nil &&
		(g.Program.Value == exercises.NotYet || g.Program.Value == exercises.Near)
}

// LookAgain opens the step for a second try. The first answer stands.
func (s *Sitting) LookAgain() {
	if !s.CanLookAgain() || s.repeated("again") {
		return
	}
	s.ask(s.moment, s.step)
	s.changed()
}

// advance goes to the next step, the next moment, or the end.
func (s *Sitting) advance() {
	s.writePending()
	switch {
	case s.step+1 < len(s.steps[s.moment]):
		s.ask(s.moment, s.step+1)
	case s.moment+1 < len(s.moments):
		s.ask(s.moment+1, 0)
	default:
		s.finish("done")
	}
}

func (s *Sitting) finish(how string) {
	if err := s.store.EndSitting(s.sit.ID, how); err != nil {
		s.trouble = "sitting.trouble.not-ended"
	}
	s.phase, s.how = Ended, how
	s.draft, s.hint = Draft{}, ""
}

// Stop ends the sitting for today. It costs nothing; what was given is kept.
// The end is written by Close, so that a tap beside the mark can be taken back.
func (s *Sitting) Stop() {
	if s.phase == Ended || s.repeated("stop") {
		return
	}
	s.writePending()
	s.resting, s.phase, s.how = s.phase, Ended, "stopped"
	s.hint, s.trouble = "", ""
	s.changed()
}

// Close writes the end of a sitting that was stopped. A sitting that is left
// without it can be gone on with.
func (s *Sitting) Close() {
	if s.phase == Ended && s.resting != "" {
		s.resting = ""
		s.finish(s.how)
	}
}

// CanGoBack reports whether Back has something to undo.
func (s *Sitting) CanGoBack() bool {
	switch s.phase {
	case Ended:
		return s.resting != ""
	case Feedback:
		return true
	}
	return s.step > 0 || s.moment > 0 || s.standingAnswer(s.moment, s.step) >= 0
}

// Back undoes. From feedback, and from a step to the one before it, it takes
// the last answer back, as a further fact, and opens that step with the answer
// as it was. From a second try that was not given yet it returns to the
// feedback.
func (s *Sitting) Back() {
	if !s.CanGoBack() || s.repeated("back") {
		return
	}
	if s.phase == Ended {
		s.phase, s.resting, s.how = s.resting, "", ""
		s.changed()
		return
	}
	if s.phase == Asking {
		if i := s.standingAnswer(s.moment, s.step); i >= 0 { // a second try was being made
			s.phase, s.last = Feedback, i
			s.draft, s.trouble, s.hint = draftOf(s.given[i].Answer), "", ""
			s.savePositionAt(s.given[i].Answer.Answer.Try)
			s.changed()
			return
		}
	}
	m, n := s.moment, s.step
	if s.phase == Asking {
		if n--; n < 0 {
			m--
			n = len(s.steps[m]) - 1
		}
	}
	if i := s.standingAnswer(m, n); i >= 0 {
		g := s.given[i]
		if _, err := s.store.Withdraw(record.Withdrawal{AnswerID: g.ID, Learner: g.Learner, Why: "back"}); err != nil {
			s.trouble = "sitting.trouble.not-saved"
			s.changed()
			return
		}
		g.Withdrawn = true
		s.forgetExperience(g.ID)
		s.ask(m, n)
		s.draft = draftOf(g.Answer)
	} else {
		s.ask(m, n)
	}
	s.changed()
}

// draftOf lays an answer out as a draft again; a skip leaves an empty one.
func draftOf(r record.Answer) Draft {
	a := r.Answer
	d := Draft{Spans: slices.Clone(a.Spans), ChoiceIDs: slices.Clone(a.ChoiceIDs), Said: a.Said, Standing: a.Standing,
		AboutSelf: a.AboutSelf, GuideHelp: a.GuideHelp, Steadied: a.Steadied, mode: a.Mode}
	if a.Standing == exercises.StandSkip {
		return Draft{GuideHelp: a.GuideHelp}
	}
	if a.Step == exercises.Body && len(d.ChoiceIDs) == 1 {
		d.Place = d.ChoiceIDs[0]
		for _, c := range a.Shown {
			if c.ID == d.ChoiceIDs[0] {
				d.Place = c.Place
			}
		}
		if d.Place == d.ChoiceIDs[0] {
			d.ChoiceIDs = nil
		}
	}
	return d
}

// SetLook changes how text is set for this learner, and keeps it.
func (s *Sitting) SetLook(l record.Look) {
	if l == s.plan.Learner.Look {
		return
	}
	s.plan.Learner.Look = l
	if _, err := s.store.SaveLearner(s.plan.Learner); err != nil {
		s.trouble = "sitting.trouble.look"
	}
	s.changed()
}
