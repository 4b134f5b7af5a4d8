// Package exercises holds what one exercise is: a Moment with its Key, the
// Steps made from it, the Answer a learner gives and the Mark it gets. The
// packages below do the work: moments chooses, steps builds, marking judges,
// wordbook keeps the rules of the learner's own words, growth counts and
// estimates. Everything here is pure: no screen, no database; time and chance
// are passed in.
package exercises

import "feltpage/nlp"

// StepKind is one question of a moment.
type StepKind string

// The steps. And-you and What-could-help are never marked.
const (
	Find      StepKind = "find"
	Body      StepKind = "body"
	Feeling   StepKind = "feeling"
	Reason    StepKind = "reason"
	AndYou    StepKind = "and-you"
	CouldHelp StepKind = "what-could-help"
)

// Marked reports whether answers to the step are ever marked.
func (k StepKind) Marked() bool { return k != AndYou && k != CouldHelp }

// Route is the order of the steps, set by what the text gives.
type Route string

// Routes.
const (
	RouteBody  Route = "body"  // the text shows the body: Find, Feeling, Reason, Body
	RouteNamed Route = "named" // the text names the feeling: Body, Find
	RouteEvent Route = "event" // only an event is told: Reason, Feeling, Body
)

// PromptLevel is how an answer came. One level at a time.
type PromptLevel int

// Prompt levels, from none to most.
const (
	Alone PromptLevel = iota
	SaidAgain
	ShownWhere
	FewerChoices
	Together
)

// Evidence is a span that carries the key, with why.
type Evidence struct {
	Span     nlp.Span
	Sentence nlp.Span
	Cue      int // index into the analysis' cues
	Weight   float64
	Feelings []nlp.Weight // what the words speak for, heaviest first
	Places   []string     // body places the words tell of
	Strength string       // of the cue: slight, plain, strong
	Reason   nlp.Reason
}

// BestFor gives the evidence that speaks most for a family, the weightier and
// then the first of equals; where none speaks for it, the weightiest of all. A
// key without evidence gives the zero value.
func (k Key) BestFor(family string) Evidence {
	var best Evidence
	bestFor, found := -1.0, false
	for _, e := range k.Evidence {
		w := 0.0
		for _, f := range e.Feelings {
			if f.Family == family {
				w = f.Weight
			}
		}
		if !found || w > bestFor || w == bestFor && e.Weight > best.Weight {
			best, bestFor, found = e, w, true
		}
	}
	return best
}

// BodySign is a body sign with its place: hands, "shaking".
type BodySign struct {
	Place string `json:"place"`
	Sign  string `json:"sign"`
}

// Key is the set of sensible answers to a moment, never one answer.
type Key struct {
	Fits, Near, Not []string // feeling families
	Weights         []nlp.Weight
	Body            []BodySign // given by the text, then usual for the fitting families
	Contrary        []BodySign // the text says it is not so
	Evidence        []Evidence
}

// Moment is a passage around one or more cues of one character.
type Moment struct {
	ID            string   // stable: from text hash, quote of the evidence and character name
	Span          nlp.Span // the passage, whole sentences
	Character     int
	CharacterName string // as the story gives it
	Cues          []int
	Kind          string // easiest cue kind it rests on
	Route         Route
	Difficulty    float64 // 0 easy to 1 hard
	Key           Key
	NoAndYou      bool // content after which And-you is off by default
}

// ChoiceRole says where a choice came from. It is never shown.
type ChoiceRole string

// Choice roles.
const (
	RoleFits  ChoiceRole = "fits"
	RoleNear  ChoiceRole = "near"
	RoleFar   ChoiceRole = "far"
	RoleOffer ChoiceRole = "offer" // a new word, at most one a sitting
)

// Choice is one thing to point at. Of a body step, a choice whose ID is its
// Place is the place alone; "hands/shaking" is a sign at it.
type Choice struct {
	ID     string // family, place or place/sign id, or the word's id
	Text   string // the learner's own form where there is one
	Key    string // catalogue key of what to show where Text is ""
	Family string
	Place  string
	Role   ChoiceRole
}

// Standing choices are always there and cost nothing.
const (
	StandNothing    = "nothing"
	StandCantTell   = "cant-tell"
	StandDontKnow   = "dont-know"
	StandSkip       = "skip"
	StandStop       = "stop"
	StandNotTelling = "not-telling" // to And-you
)

// Step is one question as it can be shown.
type Step struct {
	Kind      StepKind
	Prompt    nlp.Reason // catalogue code with slots
	Again     nlp.Reason // the prompt in other words
	Where     nlp.Span   // the sentence to look at, for ShownWhere
	Choices   []Choice   // in shown order; empty for Find and free Reason
	Fewer     []Choice   // for FewerChoices
	Worked    nlp.Reason // the worked answer, for Together
	WorkedAt  []nlp.Span
	PointText bool // answered by choosing words in the passage
}

// AnswerMode is how the answer was given.
type AnswerMode string

// Answer modes.
const (
	ByTap   AnswerMode = "tap"
	ByPoint AnswerMode = "point" // the learner points, the guide taps
	BySpeak AnswerMode = "speak" // the learner says, the guide types
	ByType  AnswerMode = "type"
)

// Answer is a fact that is only ever added.
type Answer struct {
	Step      StepKind
	Spans     []nlp.Span // words chosen in the passage
	ChoiceIDs []string
	Said      string // the words exactly as said or typed
	Standing  string // one of the Stand… ids, or ""
	Mode      AnswerMode
	Prompt    PromptLevel
	Entry     PromptLevel // level the step was opened at
	Shown     []Choice    // choices in the order shown
	Try       int         // 1 is the answer; later tries are kept and never count as alone
	Repeat    bool        // the moment was met before
	Overheard bool        // another's answer was heard
	GuideHelp bool        // the guide recorded help
	Steadied  bool        // a grown-up steadied hand, arm or page: never counts as the learner's
	AboutSelf bool        // "yours": about the learner's own body, never marked
}

// MarkValue is what an answer got.
type MarkValue string

// Mark values.
const (
	Fits     MarkValue = "fits"
	Near     MarkValue = "near"
	NotYet   MarkValue = "not-yet"
	Unmarked MarkValue = "unmarked"
	ForGuide MarkValue = "guide" // doubtful: left to the guide
)

// Mark is a judgement of one answer with its reason, which is also the
// feedback: it describes and never scolds.
type Mark struct {
	Value MarkValue
	Why   nlp.Reason
}
