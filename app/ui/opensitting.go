package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/ui/model"
)

// OpenSitting gives the full-window sitting for what is asked; done is called
// once when it has ended or was stopped, with its id.
func OpenSitting(p *Program, r model.SittingRequest, done func(sittingID string)) fyne.CanvasObject {
	panic("the sitting screen takes this place")
}
