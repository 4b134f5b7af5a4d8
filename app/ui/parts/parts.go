// Package parts holds Feltpage's own widgets: buttons, cards, choices to point
// at, wrapped text, the reading view with its own glyph layout, the body
// outline. A widget holds state, shows it, and tells what was done through
// callbacks; it knows nothing of stories, steps or the store. What can be
// computed without a screen (line breaks, pages, what a tap means) lies in
// plain functions and types beside the widget that uses them.
package parts

import (
	"fyne.io/fyne/v2"

	"feltpage/app/ui/look"
)

// measure gives the width and height of one line of text in the program's
// typeface.
func measure(text string, size float32, style fyne.TextStyle) fyne.Size {
	return fyne.MeasureText(text, size, style)
}

// floor raises a size to at least w by h.
func floor(s fyne.Size, w, h float32) fyne.Size {
	return fyne.NewSize(max(s.Width, w), max(s.Height, h))
}

// rise is how far above its own line box Fyne sets text of this typeface;
// Andika has room for tall accents above, so that text centred by its box
// looks low.
func rise(size float32) float32 { return size * 0.06 }

// gap is a shorthand of the grid for layouts of this package.
const gap = look.S
