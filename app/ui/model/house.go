package model

import (
	"context"
	"math/rand/v2"
	"time"

	"feltpage/app/record"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// Engine reads a text; the pipeline's engine is one.
type Engine interface {
	Analyze(ctx context.Context, text string) (*nlp.Analysis, error)
}

// AnalysisStore keeps what the engine said about a text.
type AnalysisStore interface {
	PutAnalysis(textHash string, a *nlp.Analysis) error
	Analysis(textHash, engine string) (*nlp.Analysis, error)
}

// MendStore keeps the guide's mends of findings.
type MendStore interface {
	Mends(textHash string) ([]record.Mend, error)
	SaveMend(record.Mend) (record.Mend, error)
	UndoMend(id string) error
}

// StoryStore keeps the shelf.
type StoryStore interface {
	AnalysisStore
	MendStore
	Stories() ([]record.Story, error)
	Story(id string) (record.Story, error)
	StoryByHash(hash string) (record.Story, error)
	AddStory(record.Story) (record.Story, error)
	TickRead(id string, read bool) error
	PutAway(id string, away bool) error
	Retitle(id, title string) error
	RemoveStory(id string) (erased bool, err error)
	SearchStories(words string) ([]record.Story, error)
}

// WordStore keeps the word books.
type WordStore interface {
	Words(learner string) ([]record.Word, error)
	SaveWord(record.Word) (record.Word, error)
	AddExperience(record.Experience) (record.Experience, error)
	Experiences(learner string) ([]record.Experience, error)
	RemoveExperience(id string) error
	AddWordUse(record.WordUse) (record.WordUse, error)
	WordUses(learner string) ([]record.WordUse, error)
}

// AnswerStore gives the answers with what counts for them, and takes the
// guide's marks.
type AnswerStore interface {
	Marked(learner string) ([]record.Marked, error)
	AppendMark(record.Mark) (record.Mark, error)
	Sittings(learner string) ([]record.Sitting, error)
	Unfinished(learner string) ([]record.Resume, error)
}

// LearnerStore keeps the people and what was noted of them.
type LearnerStore interface {
	Learners() ([]record.Learner, error)
	SaveLearner(record.Learner) (record.Learner, error)
	AddBodyNote(record.BodyNote) (record.BodyNote, error)
	BodyNotes(learner string) ([]record.BodyNote, error)
	PhaseLines(learner string) ([]record.PhaseLine, error)
	AddPhaseLine(record.PhaseLine) (record.PhaseLine, error)
	RemovePhaseLine(id string) error
}

// SettingStore keeps the household's settings.
type SettingStore interface {
	Setting(name string) (string, error)
	SetSetting(name, value string) error
}

// HouseStore is all that the guide's side needs of the store.
type HouseStore interface {
	StoryStore
	WordStore
	AnswerStore
	LearnerStore
	SettingStore
}

// House is what the screens of the guide's side stand on. Its functions of
// time and chance are passed in, so that a test gives the same twice.
type House struct {
	Store   HouseStore
	Engine  Engine
	Version string // of the engine; kept analyses are asked for by it
	Table   *feelings.Table
	Now     func() time.Time
	Rand    *rand.Rand
	// Background runs work away from the screen and then after on the screen's
	// own thread. Nil runs both at once.
	Background func(work, after func())
	// Post runs something on the screen's own thread, from any other. Nil runs
	// it at once.
	Post func(func())

	heard listening // the engine with the household's own expressions
}

// Today gives the local date.
func (h *House) Today() string { return h.Now().Format(time.DateOnly) }

func (h *House) background(work, after func()) {
	if h.Background == nil {
		work()
		after()
		return
	}
	h.Background(work, after)
}

func (h *House) post(f func()) {
	if h.Post == nil {
		f()
		return
	}
	h.Post(f)
}

// BackgroundOr runs work away from the screen and after on its thread, or both
// at once where no background is set.
func (h *House) BackgroundOr(work, after func()) { h.background(work, after) }
