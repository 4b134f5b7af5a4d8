package model

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"feltpage/app/record"
	"feltpage/exercises"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// SittingStore is what a sitting needs of the store. Every method returns only
// when the fact is on disk. A record goes in without its Meta and comes back
// with it.
type SittingStore interface {
	StartSitting(record.Sitting) (record.Sitting, error)
	EndSitting(id, how string) error
	AppendAnswer(record.Answer) (record.Answer, error)
	AppendMark(record.Mark) (record.Mark, error)
	Withdraw(record.Withdrawal) (record.Withdrawal, error)
	RecordHelp(record.Help) (record.Help, error)
	SaveWord(record.Word) (record.Word, error)
	AddExperience(record.Experience) (record.Experience, error)
	RemoveExperience(id string) error
	SavePosition(record.Position) (record.Position, error)
	Unfinished(learner string) ([]record.Resume, error)
	SaveLearner(record.Learner) (record.Learner, error)
	// Marked gives all answers of a learner, withdrawn ones too, in the order
	// they were written.
	Marked(learner string) ([]record.Marked, error)
}

// SittingPlan is what a sitting stands on. The three functions are pure and
// give the same for the same arguments, so that a sitting that was closed or
// killed can be laid out again from what was stored.
type SittingPlan struct {
	SittingRequest
	// Steps gives the steps of the n-th moment of the plan.
	Steps func(m exercises.Moment, n int, seed int64) []exercises.Step
	// Judge marks an answer.
	Judge func(m exercises.Moment, s exercises.Step, a exercises.Answer) exercises.Mark
	// Words is the learner's word book, to tie an experience to a word.
	Words []record.Word
	Table *feelings.Table // tells the level of a word that is put there; may be nil
	Seed  int64
	Now   func() time.Time
}

// SittingPhase says what the screen shows.
type SittingPhase string

// Phases of a sitting.
const (
	Asking   SittingPhase = "asking"   // one question, an answer being made
	Feedback SittingPhase = "feedback" // the answer is stored; one calm line about it
	Ended    SittingPhase = "ended"    // all steps are done, or it was stopped
)

// Draft is an answer being made. Nothing of it is kept before Next.
type Draft struct {
	Spans     []nlp.Span // in story bytes, in text order, none overlapping
	ChoiceIDs []string
	Place     string // the body place that is open, or ""
	Said      string
	Standing  string
	AboutSelf bool
	GuideHelp bool
	Steadied  bool
	KeepWord  bool // And-you: keep what is told in the word book
	mode      exercises.AnswerMode
}

func (d Draft) empty() bool {
	return len(d.Spans) == 0 && len(d.ChoiceIDs) == 0 && d.Place == "" && d.Said == "" && d.Standing == ""
}

// Sitting is one reading: a state machine that a screen shows and drives. Its
// methods are not safe for use by several goroutines at once.
//
// Each action that changes something calls the change callback. An answer and
// the program's mark of it are stored before anything else is shown.
type Sitting struct {
	store SittingStore
	plan  SittingPlan
	sit   record.Sitting
	seat  int // index into sit.Seats

	moments []exercises.Moment
	planNo  []int // place of each moment in sit.Plan
	steps   [][]exercises.Step
	given   []*record.Marked                 // every answer of this sitting, in order
	met     []exercises.Moment               // moments of this text answered in an earlier sitting
	levels  map[[2]int]exercises.PromptLevel // deepest prompt shown, by moment and step

	phase   SittingPhase
	moment  int
	step    int
	level   exercises.PromptLevel
	draft   Draft
	last    int // index into given of the answer that Feedback is about
	how     string
	trouble string // catalogue key, or ""
	hint    string // catalogue key, or ""
	pending []record.Mark
	noted   map[string]string // experience noted with an answer, by answer id
	resting SittingPhase      // what was shown when it was stopped; "" once the end is written

	lastKey string
	lastAt  time.Time
	ignored int

	changed func()
}

// ErrNothingToRead says that no moment is left to ask about.
var ErrNothingToRead = errors.New("the sitting has no moment to ask about")

// NewSitting starts a sitting, or goes on with the one named by Resume: the
// stored answers are replayed and it stands at the first step without one.
func NewSitting(st SittingStore, p SittingPlan) (*Sitting, error) {
	s := &Sitting{store: st, plan: p, changed: func() {}, phase: Asking, last: -1,
		levels: map[[2]int]exercises.PromptLevel{}, noted: map[string]string{}}
	if p.Resume != nil {
		s.sit = *p.Resume
	} else {
		s.sit = record.Sitting{
			Kind:    cmp.Or(p.Kind, record.Teaching),
			StoryID: p.Story.Meta.ID,
			Engine:  engineOf(p),
			Seats:   []record.Seat{{ID: "1", Learner: p.Learner.ID}},
			Seed:    p.Seed,
		}
		for _, m := range p.Moments {
			s.sit.Plan = append(s.sit.Plan, m.ID)
		}
	}
	s.seat = max(0, slices.IndexFunc(s.sit.Seats, func(x record.Seat) bool { return x.Learner == p.Learner.ID }))

	all, err := st.Marked(p.Learner.ID)
	if err != nil {
		return nil, fmt.Errorf("reading the answers of before: %w", err)
	}
	for i := range all {
		switch {
		case p.Resume != nil && all[i].Sitting == s.sit.ID:
			s.given = append(s.given, &all[i])
		case all[i].StoryID == s.sit.StoryID || all[i].TextHash == p.Story.Hash:
			s.met = append(s.met, all[i].Moment)
		}
	}
	s.layOut()
	if len(s.moments) == 0 {
		return nil, ErrNothingToRead
	}
	if p.Resume == nil {
		if s.sit, err = st.StartSitting(s.sit); err != nil {
			return nil, fmt.Errorf("starting the sitting: %w", err)
		}
		s.ask(0, 0)
		return s, nil
	}
	if err := s.mendMarks(); err != nil {
		return nil, err
	}
	open, err := st.Unfinished(p.Learner.ID)
	if err != nil {
		return nil, fmt.Errorf("reading where the sitting was left: %w", err)
	}
	for _, r := range open {
		if r.Sitting.ID == s.sit.ID && r.Position != nil && s.toPosition(*r.Position) {
			return s, nil
		}
	}
	s.toFirstOpen()
	return s, nil
}

// The state of a position: the prompt level and the number of the try that
// was being made.
const positionState = "asking level=%d try=%d"

// savePosition notes which step is open and how much help it had, which no
// answer tells yet. Where it cannot be written nothing is lost but that.
func (s *Sitting) savePosition() { s.savePositionAt(s.try()) }

func (s *Sitting) savePositionAt(try int) {
	_, _ = s.store.SavePosition(record.Position{Sitting: s.sit.ID, Seat: s.sit.Seats[s.seat].ID, Learner: s.plan.Learner.ID,
		MomentNo: s.planNo[s.moment], StepNo: s.step, State: fmt.Sprintf(positionState, s.level, try)})
}

// toPosition goes to a noted position: the step as it was being asked, or the
// feedback on its answer where it has been answered since.
func (s *Sitting) toPosition(p record.Position) bool {
	var level exercises.PromptLevel
	var try int
	if _, err := fmt.Sscanf(p.State, positionState, &level, &try); err != nil {
		return false
	}
	m := slices.Index(s.planNo, p.MomentNo)
	if m < 0 || p.StepNo < 0 || p.StepNo >= len(s.steps[m]) || level < exercises.Alone || level > exercises.Together {
		return false
	}
	k := [2]int{m, p.StepNo}
	s.levels[k] = max(s.levels[k], level)
	i := s.standingAnswer(m, p.StepNo)
	s.phase, s.moment, s.step, s.level = Asking, m, p.StepNo, s.levels[k]
	switch {
	case i < 0 || s.given[i].Answer.Answer.Try < try:
	case s.given[i].Answer.Answer.Standing == exercises.StandSkip:
		s.advance()
	default:
		s.phase, s.last = Feedback, i
		s.draft = draftOf(s.given[i].Answer)
	}
	return true
}

// layOut sets moments and steps. An answered step is laid out as it was shown
// then, whatever the engine or the word book would make of it today.
func (s *Sitting) layOut() {
	was := map[string]exercises.Moment{}
	for _, g := range s.given {
		was[g.Moment.ID] = g.Moment
	}
	for n, id := range s.sit.Plan {
		m, ok := was[id]
		if !ok {
			i := slices.IndexFunc(s.plan.Moments, func(m exercises.Moment) bool { return m.ID == id })
			if i < 0 {
				continue // the engine no longer finds it and nothing was answered yet
			}
			m = s.plan.Moments[i]
		}
		steps := s.fit(s.plan.Steps(m, n, s.sit.Seed))
		for _, g := range s.given {
			if g.Moment.ID != id {
				continue
			}
			for len(steps) <= g.StepNo {
				steps = append(steps, g.Step)
			}
			steps[g.StepNo] = g.Step
		}
		if len(steps) == 0 {
			continue
		}
		for _, g := range s.given {
			if g.Moment.ID == id {
				k := [2]int{len(s.moments), g.StepNo}
				s.levels[k] = max(s.levels[k], g.Answer.Answer.Prompt)
			}
		}
		s.moments, s.steps, s.planNo = append(s.moments, m), append(s.steps, steps), append(s.planNo, n)
		if s.sit.Kind == record.Short {
			break
		}
	}
}

// fit keeps the steps that the kind of sitting has. A short one is pointing
// only; baseline and probe ask what is marked and nothing else.
func (s *Sitting) fit(steps []exercises.Step) []exercises.Step {
	return slices.DeleteFunc(slices.Clone(steps), func(x exercises.Step) bool {
		switch s.sit.Kind {
		case record.Short:
			return x.Kind == exercises.Reason || !x.Kind.Marked()
		case record.Baseline, record.Probe:
			return !x.Kind.Marked()
		}
		return false
	})
}

// mendMarks writes the program's mark of answers that were stored when the
// program was ended before the mark was.
func (s *Sitting) mendMarks() error {
	for _, g := range s.given {
		if g.Program != nil || g.Withdrawn || g.Answer.Answer.Standing == exercises.StandSkip {
			continue
		}
		m := s.judge(g.Moment, g.Step, g.Answer.Answer)
		if _, err := s.store.AppendMark(record.Mark{AnswerID: g.ID, Learner: g.Learner, By: record.ByProgram, Mark: m}); err != nil {
			return fmt.Errorf("writing a mark that was missing: %w", err)
		}
		g.Program = &m
	}
	return nil
}

// toFirstOpen goes to the first step without a standing answer.
func (s *Sitting) toFirstOpen() {
	for m := range s.moments {
		for n := range s.steps[m] {
			if s.standingAnswer(m, n) < 0 {
				s.ask(m, n)
				return
			}
		}
	}
	s.finish("done")
}

// standingAnswer gives the index of the newest answer to a step that was not
// taken back, or -1.
func (s *Sitting) standingAnswer(m, n int) int {
	for i := len(s.given) - 1; i >= 0; i-- {
		g := s.given[i]
		if g.Moment.ID == s.moments[m].ID && g.StepNo == n && !g.Withdrawn {
			return i
		}
	}
	return -1
}

// OnChange sets what is called after each change; nil is allowed.
func (s *Sitting) OnChange(f func()) {
	if f == nil {
		f = func() {}
	}
	s.changed = f
}

// ID gives the sitting's id in the store.
func (s *Sitting) ID() string { return s.sit.ID }

// Kind gives what the sitting is for.
func (s *Sitting) Kind() record.SittingKind { return s.sit.Kind }

// quietKind reports whether the sitting gives neither prompts nor feedback.
func (s *Sitting) quietKind() bool {
	return s.sit.Kind == record.Baseline || s.sit.Kind == record.Probe
}

func (s *Sitting) now() exercises.Step { return s.steps[s.moment][s.step] }

// ask opens a step, at the deepest prompt level that was shown for it: what
// was seen is not unseen.
func (s *Sitting) ask(m, n int) {
	s.phase, s.moment, s.step, s.level = Asking, m, n, s.levels[[2]int{m, n}]
	s.draft, s.trouble, s.hint = Draft{}, "", ""
	s.savePosition()
}

// try gives the number of the next answer to the open step. An answer that
// stands counts, and so does one that was taken back after its feedback was
// shown: what comes after it is no longer a first answer.
func (s *Sitting) try() int {
	n := 1
	for _, g := range s.given {
		if g.Moment.ID != s.moments[s.moment].ID || g.StepNo != s.step {
			continue
		}
		told := !s.quietKind() && g.Step.Kind.Marked() && g.Answer.Answer.Standing == "" && !g.Answer.Answer.AboutSelf
		if told || !g.Withdrawn {
			n++
		}
	}
	return n
}
