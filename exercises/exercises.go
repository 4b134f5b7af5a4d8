// Package exercises holds what one exercise is: a Moment with its Key, the
// Steps made from it, the Answer a learner gives and the Mark it gets. The
// packages below do the work: moments chooses, steps builds, marking judges,
// wordbook keeps the rules of the learner's own words, growth counts and
// estimates. Everything here is pure: no screen, no database; time and chance
// are passed in.
//
// The types that are kept with an answer leave their zero fields out of JSON:
// every answer is kept with its moment and its step as they were shown.
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
	Span     nlp.Span     `json:",omitzero"`
	Sentence nlp.Span     `json:",omitzero"`
	Cue      int          `json:",omitzero"` // index into the analysis' cues
	Weight   float64      `json:",omitzero"`
	Feelings []nlp.Weight `json:",omitzero"` // what the words speak for, heaviest first
	Places   []string     `json:",omitzero"` // body places the words tell of
	Strength string       `json:",omitzero"` // of the cue: slight, plain, strong
	Denied   bool         `json:",omitzero"` // the text says it is not so; only in Key.Beside
	Reason   nlp.Reason   `json:",omitzero"`
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
	Fits, Near, Not []string     `json:",omitzero"` // feeling families
	Weights         []nlp.Weight `json:",omitzero"`
	Body            []BodySign   `json:",omitzero"` // given by the text, then usual for the fitting families
	Contrary        []BodySign   `json:",omitzero"` // the text says it is not so
	Evidence        []Evidence   `json:",omitzero"`
	Beside          []Evidence   `json:",omitzero"` // words that tell of the character without carrying the key: denied, or shown and not felt
}

// Moment is a passage around one or more cues of one character.
type Moment struct {
	ID            string   `json:",omitzero"` // stable: from text hash, quote of the evidence and character name
	Span          nlp.Span `json:",omitzero"` // the passage, whole sentences
	Character     int      `json:",omitzero"`
	CharacterName string   `json:",omitzero"` // as the story gives it
	Cues          []int    `json:",omitzero"`
	Kind          string   `json:",omitzero"` // easiest cue kind it rests on
	Route         Route    `json:",omitzero"`
	Difficulty    float64  `json:",omitzero"` // 0 easy to 1 hard
	Key           Key      `json:",omitzero"`
	NoAndYou      bool     `json:",omitzero"` // content after which And-you is off by default
}

// SamePlace reports whether two moments of one text share more than a third of
// the shorter passage. Whoever answered one has met
// the other, even where a newer engine has cut it differently.
func (m Moment) SamePlace(o Moment) bool {
	if m.ID == o.ID {
		return true
	}
	shared := min(m.Span.End, o.Span.End) - max(m.Span.Start, o.Span.Start)
	return 3*shared > min(m.Span.Len(), o.Span.Len())
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
	ID     string     `json:",omitzero"` // family, place or place/sign id, or the word's id
	Text   string     `json:",omitzero"` // the learner's own form where there is one
	Key    string     `json:",omitzero"` // catalogue key of what to show where Text is ""
	Family string     `json:",omitzero"`
	Place  string     `json:",omitzero"`
	Role   ChoiceRole `json:",omitzero"`
}

// Standing choices are always there and cost nothing.
const (
	StandNothing    = "nothing"
	StandCantTell   = "cant-tell"
	StandDontKnow   = "dont-know"
	StandSkip       = "skip"
	StandStop       = "stop"
	StandNotTelling = "not-telling" // to And-you
	StandYes        = "yes"         // to And-you: it has happened, and no more is told
)

// Step is one question as it can be shown.
type Step struct {
	Kind      StepKind   `json:",omitzero"`
	Prompt    nlp.Reason `json:",omitzero"` // catalogue code with slots
	Again     nlp.Reason `json:",omitzero"` // the prompt in other words
	Where     nlp.Span   `json:",omitzero"` // the sentence to look at, for ShownWhere
	Choices   []Choice   `json:",omitzero"` // in shown order; empty for Find and free Reason
	Fewer     []Choice   `json:",omitzero"` // for FewerChoices
	Worked    nlp.Reason `json:",omitzero"` // the worked answer, for Together
	WorkedAt  []nlp.Span `json:",omitzero"`
	PointText bool       `json:",omitzero"` // answered by choosing words in the passage
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
	Step      StepKind    `json:",omitzero"`
	Spans     []nlp.Span  `json:",omitzero"` // words chosen in the passage
	ChoiceIDs []string    `json:",omitzero"`
	Said      string      `json:",omitzero"` // the words exactly as said or typed
	Standing  string      `json:",omitzero"` // one of the Stand… ids, or ""
	Mode      AnswerMode  `json:",omitzero"`
	Prompt    PromptLevel `json:",omitzero"`
	Entry     PromptLevel `json:",omitzero"` // level the step was opened at
	Shown     []Choice    `json:",omitzero"` // choices in the order shown
	Try       int         `json:",omitzero"` // 1 is the answer; later tries are kept and never count as alone
	Repeat    bool        `json:",omitzero"` // the moment was met before
	Overheard bool        `json:",omitzero"` // another's answer was heard
	GuideHelp bool        `json:",omitzero"` // the guide recorded help
	Steadied  bool        `json:",omitzero"` // a grown-up steadied hand, arm or page: never counts as the learner's
	AboutSelf bool        `json:",omitzero"` // "yours": about the learner's own body, never marked
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
