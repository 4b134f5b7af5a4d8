package ui

import (
	"time"

	"fyne.io/fyne/v2"
)

// drawn reports whether the window has drawn the objects: only then does it
// know where they lie.
func drawn(d fyne.Driver, objects ...fyne.CanvasObject) bool {
	for _, o := range objects {
		if d.CanvasForObject(o) == nil {
			return false
		}
	}
	return true
}

// nextFrame calls f on the screen's goroutine after about one frame.
func nextFrame(f func()) { time.AfterFunc(16*time.Millisecond, func() { fyne.Do(f) }) }
