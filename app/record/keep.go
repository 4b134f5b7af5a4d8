package record

import "feltpage/nlp"

// Position tells how far a seat has come in a sitting beyond what its answers
// tell: that feedback is being shown, that a prompt was given. It is a fact
// that is only added; the newest counts.
type Position struct {
	Meta
	Sitting, Seat, Learner string
	MomentNo               int    // place in Sitting.Plan, from 0
	StepNo                 int    // place in the route, from 0
	State                  string // in the words of the sitting's view model
}

// Resume is a sitting that was begun and not ended, with all that is needed to
// find the place again.
type Resume struct {
	Sitting  Sitting
	Answers  []Marked  // in the order given, withdrawn ones too
	Position *Position // the newest, or nil
}

// BodyNote is how the learner's body is today, in the learner's words. It is
// never marked, corrected or averaged.
type BodyNote struct {
	Meta
	Learner string
	Sitting string   // where it was told, or ""
	Places  []string // may be empty
	Said    string
}

// WordUse is a word used unasked in daily life, noted by the guide.
type WordUse struct {
	Meta
	Learner, WordID string
	UsedOn          string // local date
	Note            string
}

// PhaseLine parts the weeks before from the weeks after on the growth chart.
type PhaseLine struct {
	Meta
	Learner string
	On      string // local date; the line stands before this day
	Label   string
}

// Family is a feeling family or sense that the household has added.
type Family struct {
	Meta
	FamilyID string // open string, as in nlp.Weight.Family
	Name     string
	Nearest  string // nearest shipped family, or ""
	Away     bool
}

// Expression is words by which this family says or shows a state; the reading
// engine looks for them beside its own.
type Expression struct {
	Meta
	Text     string // "gone all bakery-cold"
	Kind     string // nlp.Named, nlp.Body ...
	Families []nlp.Weight
	Places   []string
	Note     string
	Away     bool
}

// What a mend does.
const (
	MendNotAClue = "not-a-clue" // the words show nothing
	MendOwner    = "owner"      // they belong to NewCharacter
	MendFeelings = "feelings"   // they show Families instead
	MendPlaces   = "places"     // they are felt in Places instead
	MendClue     = "clue"       // the engine missed them
	MendLeaveOut = "leave-out"  // no exercise from here
)

// Mend is the guide's patch of what the engine found. It stands apart from the
// analysis and is found again in the text by its anchor.
type Mend struct {
	Meta
	Anchor
	What         string
	NewCharacter string
	Kind         string // of a clue that was missed
	Families     []nlp.Weight
	Places       []string
	Note         string
}
