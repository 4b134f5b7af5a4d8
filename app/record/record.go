// Package record holds the plain things that the program keeps: people of the
// household, stories, sittings, answers, marks and words. The store writes and
// reads them; the view models show them. It imports neither SQL nor Fyne.
package record

import (
	"time"

	"feltpage/corpus"
	"feltpage/exercises"
)

// Meta stands on every row. ID is random and made on this device. At is UTC;
// Day and Offset are the local date ("2006-01-02") and offset ("+02:00") at
// the time of writing, kept because "which day was it" is a local matter.
type Meta struct {
	ID     string
	Device string
	At     time.Time
	Day    string
	Offset string
	Demo   bool // belongs to the invented demo household
}

// Look is how text is set for one learner.
type Look struct {
	SizePt  float64 // body size in points, 14 to 40
	Letter  float64 // extra letter spacing, in em, 0 to 0.3
	Word    float64 // extra word spacing, in em, 0 to 0.6
	Line    float64 // line height over size, 1.2 to 2.5
	Dark    bool
	Touches bool   // several taps in a row count as one
	Way     string // how words are chosen: a Way… constant, "" is WayWords
}

// Ways of choosing words in a passage.
const (
	WayWords    = "words"    // word by word, or by a drag
	WayEnds     = "ends"     // the first word, then the last
	WaySentence = "sentence" // a sentence, then its words shown large
)

// DefaultLook is what a new learner starts with.
var DefaultLook = Look{SizePt: 20, Letter: 0.02, Word: 0.08, Line: 1.6, Touches: true}

// Learner is a child or grown learner, known by a nickname.
type Learner struct {
	Meta
	Nickname string
	Mode     exercises.AnswerMode // how answers mostly come
	Look     Look
	Away     bool // put aside: kept, not offered
}

// Story is a story on this household's shelf.
type Story struct {
	Meta
	corpus.Story
	ReadOn string // day the guide ticked "I have read it", or ""
	Away   bool   // taken off the shelf; answers to it stay
}

// SittingKind says what a sitting is for.
type SittingKind string

// Sitting kinds.
const (
	Teaching SittingKind = "teaching"
	Short    SittingKind = "short" // one moment, pointing only
	Baseline SittingKind = "baseline"
	Probe    SittingKind = "probe"
)

// Sitting is one reading. It has seats, one for each learner at the table.
type Sitting struct {
	Meta
	Kind    SittingKind
	StoryID string
	Seats   []Seat
	Plan    []string // moment ids in order
	Seed    int64    // of the order of choices
	Engine  string   // version the plan was made by; its analysis is kept
	Ended   string   // "", "done" or "stopped"
}

// Seat is a learner's place in a sitting.
type Seat struct {
	ID      string
	Learner string
}

// Answer is one answer as it was given, with the step as it was shown. It is
// written once and never changed.
type Answer struct {
	Meta
	Sitting  string
	Seat     string
	Learner  string
	StoryID  string
	TextHash string
	Engine   string           // version the moment was made by
	Moment   exercises.Moment // with the key it was marked by
	StepNo   int              // place in the route, from 0
	Step     exercises.Step
	Answer   exercises.Answer
}

// Marker says whose mark it is.
type Marker string

// Markers.
const (
	ByProgram Marker = "program"
	ByGuide   Marker = "guide"
)

// Mark is a mark of one answer. The newest of the guide's marks counts, else
// the newest of the program's.
type Mark struct {
	Meta
	AnswerID string
	Learner  string
	By       Marker
	Mark     exercises.Mark
	Blind    bool // given before the program's mark was shown
}

// Withdrawal takes an answer back (Back in a sitting, or undo): a further
// fact, the answer stays.
type Withdrawal struct {
	Meta
	AnswerID string
	Learner  string
	Why      string
}

// Help is the guide's "I helped". With an AnswerID it is told of that answer;
// without one, of the last answer to its step before it or, where none was
// given yet, of those that come.
type Help struct {
	Meta
	Sitting, Seat, Learner string
	MomentID               string
	StepNo                 int
	AnswerID               string
}

// Word is one of the learner's own words.
type Word struct {
	Meta
	Learner  string
	Form     string // as the learner says it
	Family   string // feeling family or household family, or ""
	Sense    string // other sense, or ""
	Places   []string
	Shade    float64 // place on the shades line, 0 least to 1 most
	Language string  // level: wordbook.Plain, wordbook.Rich, or "" where nobody said
	Away     bool
}

// Experience is something that happened to the learner, noted under a word.
type Experience struct {
	Meta
	Learner, WordID string
	HappenedOn      string // local date, or ""
	What            string
	Place           string
	HowStrong       string // in the learner's words
	Helped          string
	WrittenBy       string // who wrote it down, in plain words
	Sitting         string // where it was told in And-you, or ""
}

// Marked is an answer with what counts for it, as growth and review read it.
type Marked struct {
	Answer
	Program, Guide *exercises.Mark
	Blind          *exercises.Mark // the guide's first mark given before the program's was shown, for agreement
	Helped         bool            // by the guide, from Answer or a Help
	Withdrawn      bool
	SittingKind    SittingKind
	SittingDay     string
}

// Effective gives the mark that counts: the guide's, else the program's.
func (m Marked) Effective() exercises.Mark {
	switch {
	case m.Guide != nil:
		return *m.Guide
	case m.Program != nil:
		return *m.Program
	}
	return exercises.Mark{Value: exercises.Unmarked}
}
