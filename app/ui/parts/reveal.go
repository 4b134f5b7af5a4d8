package parts

import "fyne.io/fyne/v2"

// revealer is told of each widget that gets the keyboard, so that a page can
// bring it in sight. It is one for the program, because the toolkit gives a
// widget no way to what it lies in.
var revealer func(fyne.CanvasObject)

// OnReveal sets who is told; nil is nobody.
func OnReveal(f func(fyne.CanvasObject)) { revealer = f }

func reveal(o fyne.CanvasObject) {
	if revealer != nil {
		revealer(o)
	}
}
