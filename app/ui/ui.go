// Package ui is the window: it connects the view models of app/ui/model with
// the widgets of app/ui/parts in the look of app/ui/look. It never imports
// Fyne's app package; the command hands in the application, a test hands in
// its own.
package ui

import (
	"math/rand/v2"
	"time"

	"fyne.io/fyne/v2"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/corpus"
	"feltpage/nlp/feelings"
)

// Store is all that the window needs of the store.
type Store interface {
	model.HouseStore
	model.HouseholdStore
	model.SittingStore
}

// Deps is what the window stands on.
type Deps struct {
	Store    Store
	Engine   model.Engine
	Version  string // of the engine
	Table    *feelings.Table
	Shelf    []corpus.Story // the starter stories
	SeedDemo func() error   // makes the demo household; nil leaves the offer out
	Now      func() time.Time
	Rand     *rand.Rand
	Observer model.Observer // or nil
	// AtOnce runs all work on the calling goroutine instead of away from the
	// screen, so that a test need not wait.
	AtOnce bool
}

// Program is the one window and where in it we are.
type Program struct {
	app     fyne.App
	win     fyne.Window
	deps    Deps
	house   *model.House
	root    *ground
	now     view
	tab     tab  // the open screen of the guide's side
	waiting bool // for the window to be drawn, to tell where things lie

	learners []record.Learner
	learner  int // index into learners, or -1
	families []record.Family
	demo     bool // the demo household is here

	// View models live as long as the window, so that what is being written is
	// not lost by looking elsewhere.
	shelf      *model.Shelf
	adding     *model.Adding
	setup      *model.Setup
	words      map[string]*model.Words // by learner
	notes      map[string]string       // body notes being written, by learner
	expression string                  // of the household's own, being written
}

// New makes the window and shows the first screen in it; it is not on the
// desktop until Show or ShowAndRun of the window is called.
func New(a fyne.App, d Deps) *Program {
	if d.Now == nil {
		d.Now = time.Now
	}
	var broken error
	if d.Table == nil {
		d.Table, broken = feelings.Load()
	}
	p := &Program{app: a, deps: d, learner: -1, setup: model.NewSetup(), words: map[string]*model.Words{}, notes: map[string]string{}}
	p.house = &model.House{Store: d.Store, Engine: d.Engine, Version: d.Version, Table: d.Table, Now: d.Now, Rand: d.Rand}
	if !d.AtOnce {
		p.house.Post = fyne.Do
		p.house.Background = func(work, after func()) {
			go func() {
				work()
				fyne.Do(after)
			}()
		}
	}
	p.setLightness() // before anything is made: it takes its colours as it is made
	p.win = a.NewWindow(say.T("name.program"))
	p.win.SetPadded(false)
	p.root = newGround(p.Tell)
	p.win.SetContent(p.root)
	p.win.Resize(fyne.NewSize(1280, 800))
	p.keys()
	parts.OnReveal(p.reveal)
	parts.OnScrolled(p.tellSoon)
	p.begin()
	if broken != nil {
		p.trouble(say.Error(broken))
	}
	return p
}

// Window gives the one window.
func (p *Program) Window() fyne.Window { return p.win }

// ShowAndRun shows the window and runs until it is closed.
func (p *Program) ShowAndRun() { p.win.ShowAndRun() }

// setLightness sets the look that the household chose.
func (p *Program) setLightness() {
	mode := look.AlwaysLight // paper, until somebody asks for another
	switch v, _ := p.deps.Store.Setting(model.SettingLightness); v {
	case "system":
		mode = look.AsSystem
	case "dark":
		mode = look.AlwaysDark
	}
	p.app.Settings().SetTheme(look.New(mode))
}

// begin shows Start where nobody is set up yet, else Today.
func (p *Program) begin() {
	err := p.reload()
	if len(p.learners) == 0 {
		p.showStart()
	} else {
		p.Home()
	}
	if err != nil {
		p.trouble(say.Error(err))
	}
}

// reload reads who lives in the house.
func (p *Program) reload() error {
	all, err := p.deps.Store.Learners()
	if err != nil {
		return err
	}
	kept, err := p.deps.Store.Setting(model.SettingLearner)
	if err != nil {
		return err
	}
	p.learners, p.learner = nil, -1
	for _, l := range all {
		if l.Away {
			continue
		}
		if l.ID == kept {
			p.learner = len(p.learners)
		}
		p.learners = append(p.learners, l)
	}
	if p.learner < 0 && len(p.learners) > 0 {
		p.learner = 0
	}
	if p.families, err = p.deps.Store.Families(); err != nil {
		return err
	}
	if p.deps.Table != nil {
		if p.house.Table, err = model.TableOf(p.deps.Table, p.families); err != nil {
			return err
		}
	}
	own, err := p.deps.Store.Expressions()
	if err != nil {
		return err
	}
	p.house.SetExpressions(own)
	p.demo, err = p.deps.Store.HasDemo()
	return err
}

// Home shows Today: where a sitting leads back to.
func (p *Program) Home() { p.open(tabToday) }

// who gives the learner whose screens are open.
func (p *Program) who() record.Learner {
	if p.learner < 0 || p.learner >= len(p.learners) {
		return record.Learner{}
	}
	return p.learners[p.learner]
}

// choose opens the screens of another learner.
func (p *Program) choose(i int) {
	p.learner = i
	if err := p.deps.Store.SetSetting(model.SettingLearner, p.who().ID); err != nil {
		p.trouble(say.Error(err))
	}
	p.open(p.tab)
}

// sit opens a sitting in the whole window and comes back to Today after it.
func (p *Program) sit(r model.SittingRequest) {
	p.win.Canvas().SetOnTypedKey(nil)
	p.root.set(OpenSitting(p, r, func(string) {
		if err := p.reload(); err != nil {
			p.trouble(say.Error(err))
		}
		p.Home()
	}))
}
