package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Field is a place to write in with what it asks above it and, where it helps,
// a line under that.
type Field struct {
	widget.BaseWidget
	Entry *Writing
	body  *fyne.Container
}

// Writing is a place to write in. Tab leaves it, also where it has several
// lines, and shortcuts of the window work from inside it.
type Writing struct{ widget.Entry }

func newWriting() *Writing {
	w := &Writing{}
	w.ExtendBaseWidget(w)
	return w
}

// AcceptsTab keeps the keyboard from being caught.
func (w *Writing) AcceptsTab() bool { return false }

// FocusGained brings the place in sight.
func (w *Writing) FocusGained() {
	w.Entry.FocusGained()
	reveal(w)
}

// TypedShortcut hands on what is not about writing.
func (w *Writing) TypedShortcut(s fyne.Shortcut) {
	if _, own := s.(*desktop.CustomShortcut); own {
		if c, ok := fyne.CurrentApp().Driver().CanvasForObject(w).(fyne.Shortcutable); ok {
			c.TypedShortcut(s)
			return
		}
	}
	w.Entry.TypedShortcut(s)
}

// NewField makes a field of one line.
func NewField(asks, under, hint string) *Field {
	return newField(asks, under, hint, newWriting(), 1)
}

// NewLongField makes a field of several lines.
func NewLongField(asks, under, hint string, lines int) *Field {
	e := newWriting()
	e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
	return newField(asks, under, hint, e, lines)
}

func newField(asks, under, hint string, e *Writing, lines int) *Field {
	f := &Field{Entry: e}
	e.SetPlaceHolder(hint)
	if lines > 1 {
		e.SetMinRowsVisible(lines)
	}
	f.body = Stack(look.XS)
	if asks != "" {
		w := NewWords(asks, look.Text)
		w.Style.Bold = true
		f.body.Add(w)
	}
	if under != "" {
		f.body.Add(NewSoft(under, look.Caption))
	}
	f.body.Add(AtLeast(0, look.Target, e))
	f.ExtendBaseWidget(f)
	return f
}

// Text gives what is written.
func (f *Field) Text() string { return f.Entry.Text }

// SetText writes into the field.
func (f *Field) SetText(s string) { f.Entry.SetText(s) }

// HeightFor gives the height of the field.
func (f *Field) HeightFor(width float32) float32 { return HeightOf(f.body, width) }

// CreateRenderer shows the field.
func (f *Field) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(f.body) }

// atLeast gives a thing a least size.
type atLeast struct{ w, h float32 }

// AtLeast gives one thing a least size.
func AtLeast(w, h float32, o fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: &atLeast{w, h}, Objects: []fyne.CanvasObject{o}}
}

func (l *atLeast) MinSize(o []fyne.CanvasObject) fyne.Size { return floor(o[0].MinSize(), l.w, l.h) }
func (l *atLeast) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(s)
}
func (l *atLeast) heightFor(o []fyne.CanvasObject, w float32) float32 {
	return max(HeightOf(o[0], max(w, l.w)), l.h)
}

// Pick is a small set of choices of which one is taken, shown side by side.
type Pick struct {
	widget.BaseWidget
	OnChanged func(i int)
	buttons   []*Button
	body      *fyne.Container
	at        int
}

// NewPick makes the choices; at is the one taken, -1 for none.
func NewPick(choices []string, at int, changed func(i int)) *Pick {
	p := &Pick{OnChanged: changed, at: at, body: Flow(look.S)}
	for i, c := range choices {
		b := NewButton(c, Plain, func() { p.Take(i) })
		b.Chosen = i == at
		p.buttons = append(p.buttons, b)
		p.body.Add(b)
	}
	p.ExtendBaseWidget(p)
	return p
}

// Take takes a choice and tells so.
func (p *Pick) Take(i int) {
	p.at = i
	for n, b := range p.buttons {
		b.SetChosen(n == i)
	}
	if p.OnChanged != nil {
		p.OnChanged(i)
	}
}

// At gives the choice taken, -1 for none.
func (p *Pick) At() int { return p.at }

// Button gives one of the choices.
func (p *Pick) Button(i int) *Button { return p.buttons[i] }

// HeightFor gives the height of the rows of choices.
func (p *Pick) HeightFor(width float32) float32 { return HeightOf(p.body, width) }

// CreateRenderer shows the choices.
func (p *Pick) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.body) }

// bottom sets a thing at the foot of the height it is given.
type bottom struct{}

// Bottom keeps a thing at the foot of its row.
func Bottom(o fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: bottom{}, Objects: []fyne.CanvasObject{o}}
}

func (bottom) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }
func (bottom) Layout(o []fyne.CanvasObject, s fyne.Size) {
	h := o[0].MinSize().Height
	o[0].Move(fyne.NewPos(0, s.Height-h))
	o[0].Resize(fyne.NewSize(s.Width, h))
}
func (bottom) heightFor(o []fyne.CanvasObject, w float32) float32 { return HeightOf(o[0], w) }
