package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// view is what the window shows: its name and facts for whoever watches, the
// things in it that can be pressed, and the content.
type view struct {
	name    string
	facts   map[string]string
	targets map[string]fyne.CanvasObject
	content fyne.CanvasObject
	focus   fyne.Focusable // has the keyboard at first, or nil
	key     func(*fyne.KeyEvent)
	rail    bool // it is a screen of the guide's side
}

// show puts a view into the window.
func (p *Program) show(v view) {
	p.now = v
	p.root.set(v.content)
	p.win.Canvas().SetOnTypedKey(v.key)
	if v.focus != nil {
		p.win.Canvas().Focus(v.focus)
	}
	p.Tell()
}

// Tell sends what is on screen now to the observer. A screen calls it after it
// has changed what it shows without a new view.
func (p *Program) Tell() {
	if p.deps.Observer == nil || p.now.name == "" { // a sitting tells for itself
		return
	}
	c := p.win.Canvas()
	driver := fyne.CurrentApp().Driver()
	seen := model.Seen{Screen: p.now.name, Facts: p.now.facts, Targets: map[string]model.Rect{}}
	root := p.front()
	for name, o := range p.now.targets {
		if o == nil || !o.Visible() || !laidOut(o) || !parts.Holds(root, o) {
			continue
		}
		if !drawn(driver, o) {
			p.tellSoon()
			return
		}
		at, s := driver.AbsolutePositionForObject(o), o.Size()
		k := c.Scale()
		seen.Targets[name] = model.Rect{X: at.X * k, Y: at.Y * k, W: s.Width * k, H: s.Height * k}
	}
	p.deps.Observer(seen)
}

// tellSoon tells after the next frame, once however often it is asked before.
func (p *Program) tellSoon() {
	if p.deps.Observer == nil || p.waiting {
		return
	}
	p.waiting = true
	nextFrame(func() {
		p.waiting = false
		p.Tell()
	})
}

// front gives what can be pressed now: the sheet over the window where there is
// one, else the view.
func (p *Program) front() fyne.CanvasObject {
	if top := p.win.Canvas().Overlays().Top(); top != nil {
		return top
	}
	return p.root.content
}

// reveal scrolls the page that holds what has got the keyboard.
func (p *Program) reveal(o fyne.CanvasObject) {
	if page := parts.Find(p.front(), o); page != nil && laidOut(o) {
		page.Reveal(o)
	}
}

// laidOut reports whether an object has its place; one that was never shown
// has no size.
func laidOut(o fyne.CanvasObject) bool { return o.Size().Width > 0 && o.Size().Height > 0 }

// ground is the root of the window: paper, with one view on it. It tells when
// the window has changed its size, since then every target lies elsewhere.
type ground struct {
	widget.BaseWidget
	paper   *canvas.Rectangle
	content *fyne.Container
	resized func()
}

func newGround(resized func()) *ground {
	g := &ground{paper: canvas.NewRectangle(theme.Color(theme.ColorNameBackground)), content: container.NewStack(), resized: resized}
	g.ExtendBaseWidget(g)
	return g
}

func (g *ground) set(o fyne.CanvasObject) {
	g.content.Objects = []fyne.CanvasObject{o}
	g.content.Refresh()
}

// Relayout lays the view out again after something in it grew or shrank.
func (g *ground) Relayout() {
	relay(g.content)
	g.content.Refresh()
}

// relay lays containers out again, outer ones first.
func relay(o fyne.CanvasObject) {
	c, ok := o.(*fyne.Container)
	if !ok {
		return
	}
	if c.Layout != nil {
		c.Layout.Layout(c.Objects, c.Size())
	}
	for _, x := range c.Objects {
		relay(x)
	}
}

// Resize lays the view out anew.
func (g *ground) Resize(s fyne.Size) {
	old := g.Size()
	g.BaseWidget.Resize(s)
	if old != s && old.Width > 0 && g.resized != nil {
		g.resized()
	}
}

func (g *ground) MinSize() fyne.Size { return fyne.NewSize(look.XXL*8, look.XXL*6) }

func (g *ground) CreateRenderer() fyne.WidgetRenderer { return &groundRenderer{g} }

type groundRenderer struct{ g *ground }

func (r *groundRenderer) Layout(s fyne.Size) {
	r.g.paper.Resize(s)
	r.g.content.Resize(s)
}
func (r *groundRenderer) MinSize() fyne.Size { return r.g.MinSize() }
func (r *groundRenderer) Refresh() {
	r.g.paper.FillColor = theme.Color(theme.ColorNameBackground)
	r.g.paper.Refresh()
	r.g.content.Refresh()
}
func (r *groundRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.g.paper, r.g.content}
}
func (r *groundRenderer) Destroy() {}
