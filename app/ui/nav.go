package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// tab is one of the screens of the guide's side.
type tab string

// The screens of the guide's side, in the order of the list.
const (
	tabToday     tab = "today"
	tabShelf     tab = "shelf"
	tabWords     tab = "words"
	tabGrowth    tab = "growth"
	tabPrint     tab = "print"
	tabHousehold tab = "household"
)

var tabs = []tab{tabToday, tabShelf, tabWords, tabGrowth, tabPrint, tabHousehold}

// open shows one of the screens.
func (p *Program) open(t tab) {
	p.tab = t
	switch t {
	case tabShelf:
		p.showShelf()
	case tabWords:
		p.showWords()
	case tabGrowth:
		p.showGrowth()
	case tabPrint:
		p.showPrint()
	case tabHousehold:
		p.showHousehold()
	default:
		p.showToday()
	}
}

// keys sets Ctrl+1 to Ctrl+6 to open the screens of the guide's side.
func (p *Program) keys() {
	names := []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6}
	for i, t := range tabs {
		p.win.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: names[i], Modifier: fyne.KeyModifierShortcutDefault}, func(fyne.Shortcut) {
			if p.now.rail {
				p.open(t)
			}
		})
	}
}

const railWidth float32 = 208

// guide shows a screen of the guide's side: the rail at the left, the band of
// an invented household above where there is one, and the content.
func (p *Program) guide(v view) {
	if v.targets == nil {
		v.targets = map[string]fyne.CanvasObject{}
	}
	if v.facts == nil {
		v.facts = map[string]string{}
	}
	v.facts["learner"] = p.who().Nickname
	v.rail = true
	v.content = container.New(&railLayout{}, p.rail(v.targets), p.under(v.content, v.targets))
	p.show(v)
}

// under puts the band over the content where what is shown is invented.
func (p *Program) under(content fyne.CanvasObject, targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	if !p.demo {
		return content
	}
	remove := parts.NewButton(say.T("demo.remove"), parts.Plain, p.askRemoveDemo)
	targets["remove-demo"] = remove
	text := parts.NewWords(say.T("demo.band"), look.Text)
	band := &parts.Sheet{Fill: look.ColourTint, Pad: look.S, Content: container.New(layout.NewCustomPaddedLayout(0, 0, look.L, look.S),
		parts.Line(look.M, []float32{1, 0}, text, remove))}
	band.ExtendBaseWidget(band)
	return container.New(&bandLayout{}, band, content)
}

// rail is the list of screens and of learners.
func (p *Program) rail(targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	name := parts.NewWords(say.T("name.program"), look.Heading)
	name.Style = fyne.TextStyle{Bold: true}
	name.Colour = theme.ColorNamePrimary
	list := parts.Stack(look.Hair)
	for _, t := range tabs {
		r := parts.NewRow(say.T("nav."+string(t)), "", "", func() { p.open(t) })
		r.Chosen, r.Bare = t == p.tab, true
		targets["nav-"+string(t)] = r
		list.Add(r)
	}
	pad := func(o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(layout.NewCustomPaddedLayout(0, 0, look.M, look.M), o)
	}
	top := parts.Stack(look.L, pad(name), list)
	people := parts.Stack(look.Hair, pad(parts.NewSoft(say.T("nav.with"), look.Caption)))
	for i, l := range p.learners {
		r := parts.NewRow(l.Nickname, "", "", func() { p.choose(i) })
		r.Chosen, r.Bare = i == p.learner, true
		targets["learner-"+l.Nickname] = r
		people.Add(r)
	}
	ground := canvas.NewRectangle(theme.Color(look.ColourSunk))
	var foot fyne.CanvasObject = people
	if len(p.learners) > 4 {
		scroll := container.NewVScroll(people)
		scroll.SetMinSize(fyne.NewSize(0, 5*look.Target))
		foot = scroll
	}
	body := container.New(layout.NewCustomPaddedLayout(look.L, look.L, look.S, look.S), container.NewBorder(top, foot, nil, nil))
	return container.NewStack(ground, body)
}

// railLayout gives the rail its width and the rest to the content.
type railLayout struct{}

func (railLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(railWidth+o[1].MinSize().Width, 200)
}

func (railLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Resize(fyne.NewSize(railWidth, s.Height))
	o[1].Move(fyne.NewPos(railWidth, 0))
	o[1].Resize(fyne.NewSize(s.Width-railWidth, s.Height))
}

// bandLayout puts a band of its own height over the content.
type bandLayout struct{}

func (bandLayout) MinSize(o []fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 200) }

func (bandLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := s.Width - 2*look.XL
	h := parts.HeightOf(o[0], w)
	o[0].Move(fyne.NewPos(look.XL, look.M))
	o[0].Resize(fyne.NewSize(w, h))
	o[1].Move(fyne.NewPos(0, h+look.M))
	o[1].Resize(fyne.NewSize(s.Width, s.Height-h-look.M))
}

// title is the head of a screen, with a line under it.
func title(text, under string) fyne.CanvasObject {
	t := parts.NewWords(text, look.Display)
	t.Leading = 1.25
	t.Style = fyne.TextStyle{Bold: true}
	if under == "" {
		return t
	}
	return parts.Stack(look.XS, t, parts.NewSoft(under, look.Text))
}

// head is the head of a block.
func head(text string) *parts.Words {
	t := parts.NewWords(text, look.Lead)
	t.Style = fyne.TextStyle{Bold: true}
	return t
}

// card is a block of things under each other.
func card(gap float32, objects ...fyne.CanvasObject) *parts.Sheet {
	return parts.NewCard(parts.Stack(gap, objects...))
}

// askRemoveDemo asks once and removes the invented household.
func (p *Program) askRemoveDemo() {
	p.confirm(say.T("demo.ask"), say.T("demo.ask-more"), say.T("demo.remove"), func() {
		if err := p.deps.Store.RemoveDemo(); err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.forget()
		p.begin()
	})
}

// forget drops the view models that may show what is gone.
func (p *Program) forget() {
	p.shelf, p.adding, p.words, p.notes = nil, nil, map[string]*model.Words{}, map[string]string{}
}
