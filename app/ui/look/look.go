// Package look is how Feltpage looks: one hue and warm neutrals in light and
// dark, one spacing grid, one set of type sizes, one typeface (SIL Andika, made
// for people who learn to read), and the sizes of targets. Everything that is
// drawn takes its measures and colours from here, so that the look can be
// changed in one place. No feeling has a colour, and no colour means right or
// wrong.
//
// Lengths are Fyne units: one unit is one pixel at scale 1.
package look

// The spacing grid. Gaps and paddings are one of these, never another number.
const (
	Hair float32 = 2
	XS   float32 = 4
	S    float32 = 8
	M    float32 = 16
	L    float32 = 24
	XL   float32 = 32
	XXL  float32 = 48
)

// The type sizes. Text of the story alone is set in the learner's own size.
const (
	Caption float32 = 14 // notes under a thing, never needed to go on
	Text    float32 = 17 // running text and buttons
	Lead    float32 = 20 // what a screen asks, a card's title
	Heading float32 = 25 // the title of a screen
	Display float32 = 34 // one word or sentence that stands alone
)

// Sizes of things to press (WCAG 2.2, success criterion 2.5.5, asks for 44).
const (
	Target float32 = 44 // least height and width of any control
	Answer float32 = 96 // least height and width of an answer to point at
)

// Shape.
const (
	Radius    float32 = 10 // of cards and buttons
	Border    float32 = 1.5
	FocusRing float32 = 3 // thickness of the ring around what has the keyboard
	FocusGap  float32 = 2 // between the ring and the thing
)

// PointsToUnits turns a type size in points into Fyne units (96 units to the
// inch, 72 points to the inch).
func PointsToUnits(pt float64) float32 { return float32(pt * 96 / 72) }
