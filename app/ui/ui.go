// Package ui is the window: it connects the view models of app/ui/model with
// the widgets of app/ui/parts in the look of app/ui/look. It never imports
// Fyne's app package; the command hands in the application, a test hands in
// its own.
package ui

import (
	"context"
	"math/rand/v2"
	"time"

	"fyne.io/fyne/v2"

	"feltpage/app/say"
	"feltpage/app/ui/model"
	"feltpage/corpus"
	"feltpage/nlp"
)

// Engine reads a text; pipeline.Engine is one.
type Engine interface {
	Analyze(ctx context.Context, text string) (*nlp.Analysis, error)
}

// Deps is what the window stands on.
type Deps struct {
	Store    any // *store.Store
	Engine   Engine
	Shelf    []corpus.Story // the starter stories
	Now      func() time.Time
	Rand     *rand.Rand
	Observer model.Observer // or nil
}

// Program is the one window and where in it we are.
type Program struct {
	app  fyne.App
	win  fyne.Window
	deps Deps
}

// New makes the window and shows the first screen in it; it is not on the
// desktop until Show or ShowAndRun of the window is called.
func New(a fyne.App, d Deps) *Program {
	p := &Program{app: a, deps: d}
	p.win = a.NewWindow(say.T("name.program"))
	p.win.Resize(fyne.NewSize(1280, 800))
	return p
}

// Window gives the one window.
func (p *Program) Window() fyne.Window { return p.win }

// ShowAndRun shows the window and runs until it is closed.
func (p *Program) ShowAndRun() { p.win.ShowAndRun() }
