package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Row is one thing in a list: a name, a line under it, a note at its end. It
// is pressed like a button; the chosen one carries a bar at its left.
type Row struct {
	widget.BaseWidget
	Title, Under, End string
	Type              float32 // size of the title; 0 is look.Text
	Chosen            bool
	Bare              bool // no rule under it
	OnTapped          func()

	focused, hovered bool
}

var (
	_ fyne.Tappable      = (*Row)(nil)
	_ fyne.Focusable     = (*Row)(nil)
	_ desktop.Hoverable  = (*Row)(nil)
	_ desktop.Cursorable = (*Row)(nil)
)

// NewRow makes a row.
func NewRow(title, under, end string, tapped func()) *Row {
	r := &Row{Title: title, Under: under, End: end, OnTapped: tapped}
	r.ExtendBaseWidget(r)
	return r
}

// SetChosen shows the row as chosen or not.
func (r *Row) SetChosen(on bool) {
	if r.Chosen != on {
		r.Chosen = on
		r.Refresh()
	}
}

// Tapped presses the row.
func (r *Row) Tapped(*fyne.PointEvent) {
	if r.OnTapped != nil {
		r.OnTapped()
	}
}

// FocusGained shows the ring.
func (r *Row) FocusGained() { r.focused = true; r.Refresh(); reveal(r) }

// FocusLost hides the ring.
func (r *Row) FocusLost() { r.focused = false; r.Refresh() }

// TypedRune does nothing; keys come by TypedKey.
func (r *Row) TypedRune(rune) {}

// TypedKey presses the row on Space and Return.
func (r *Row) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		r.Tapped(nil)
	}
}

// MouseIn shows that it is under the mouse.
func (r *Row) MouseIn(*desktop.MouseEvent) { r.hovered = true; r.Refresh() }

// MouseMoved does nothing.
func (r *Row) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends the hover.
func (r *Row) MouseOut() { r.hovered = false; r.Refresh() }

// Cursor is a hand.
func (r *Row) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer draws the row.
func (r *Row) CreateRenderer() fyne.WidgetRenderer {
	x := &rowRenderer{
		r: r, ground: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil), rule: canvas.NewRectangle(nil), ring: canvas.NewRectangle(nil),
		title: NewWords("", 0), under: NewSoft("", look.Caption), end: canvas.NewText("", nil),
	}
	x.Refresh()
	return x
}

type rowRenderer struct {
	r                       *Row
	ground, bar, rule, ring *canvas.Rectangle
	title, under            *Words
	end                     *canvas.Text
}

func (x *rowRenderer) endWidth() float32 {
	if x.r.End == "" {
		return 0
	}
	return measure(x.r.End, look.Caption, fyne.TextStyle{}).Width + look.M
}

// HeightFor gives the height of the row's words.
func (r *Row) HeightFor(width float32) float32 {
	size := r.Type
	if size == 0 {
		size = look.Text
	}
	end := float32(0)
	if r.End != "" {
		end = measure(r.End, look.Caption, fyne.TextStyle{}).Width + look.M
	}
	in := width - 2*look.M - end
	lines := len(wrapText(r.Title, in, func(s string) float32 { return measure(s, size, fyne.TextStyle{Bold: r.Chosen}).Width }))
	h := float32(lines) * size * 1.35
	if r.Under != "" {
		n := len(wrapText(r.Under, in, func(s string) float32 { return measure(s, look.Caption, fyne.TextStyle{}).Width }))
		h += float32(n)*look.Caption*1.45 + look.Hair
	}
	return max(h+look.M+look.XS, look.Target)
}

func (x *rowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(120, x.r.HeightFor(max(120, x.r.Size().Width)))
}

func (x *rowRenderer) Layout(s fyne.Size) {
	x.ground.Resize(s)
	x.bar.Move(fyne.NewPos(0, look.XS))
	x.bar.Resize(fyne.NewSize(look.XS, s.Height-2*look.XS))
	x.rule.Move(fyne.NewPos(look.M, s.Height-1))
	x.rule.Resize(fyne.NewSize(s.Width-2*look.M, 1))
	x.ring.Move(fyne.NewPos(1, 1))
	x.ring.Resize(s.SubtractWidthHeight(2, 2))
	in := s.Width - 2*look.M - x.endWidth()
	th := x.title.HeightFor(in)
	uh := float32(0)
	if x.r.Under != "" {
		uh = x.under.HeightFor(in) + look.Hair
	}
	y := (s.Height - th - uh) / 2
	x.title.Move(fyne.NewPos(look.M, y))
	x.title.Resize(fyne.NewSize(in, th))
	x.under.Move(fyne.NewPos(look.M, y+th+look.Hair))
	x.under.Resize(fyne.NewSize(in, uh))
	m := measure(x.r.End, look.Caption, fyne.TextStyle{})
	x.end.Move(fyne.NewPos(s.Width-look.M-m.Width, (s.Height-m.Height)/2))
	x.end.Resize(m)
}

func (x *rowRenderer) Refresh() {
	p, r := look.Now(), x.r
	x.ground.CornerRadius, x.ground.FillColor = look.Radius, color.Transparent
	if r.hovered {
		x.ground.FillColor = p.Lit
	}
	x.bar.FillColor, x.bar.CornerRadius = color.Transparent, 2
	x.rule.FillColor = p.Rule
	if r.Bare {
		x.rule.FillColor = color.Transparent
	}
	if r.Chosen {
		x.ground.FillColor, x.bar.FillColor, x.rule.FillColor = p.Lit, p.Hue, color.Transparent
	}
	drawRing(x.ring, r.focused)
	x.title.Text, x.title.Type, x.title.Leading, x.title.Style = r.Title, r.Type, 1.35, fyne.TextStyle{Bold: r.Chosen}
	x.under.Text = r.Under
	x.end.Text, x.end.TextSize, x.end.Color = r.End, look.Caption, p.Soft
	if r.Under == "" {
		x.under.Hide()
	} else {
		x.under.Show()
	}
	x.Layout(r.Size())
	x.title.Refresh()
	x.under.Refresh()
	canvas.Refresh(r)
}

func (x *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{x.ground, x.rule, x.bar, x.title, x.under, x.end, x.ring}
}
func (x *rowRenderer) Destroy() {}
