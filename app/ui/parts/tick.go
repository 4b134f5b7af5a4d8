package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Tick is a box with words beside it that is on or off. It takes the tap on
// its whole length and the keys Space and Return.
type Tick struct {
	widget.DisableableWidget
	Text      string
	On        bool
	OnChanged func(bool)

	focused, hovered bool
}

var (
	_ fyne.Tappable      = (*Tick)(nil)
	_ fyne.Focusable     = (*Tick)(nil)
	_ desktop.Hoverable  = (*Tick)(nil)
	_ desktop.Cursorable = (*Tick)(nil)
)

// NewTick makes a tick.
func NewTick(text string, on bool, changed func(bool)) *Tick {
	t := &Tick{Text: text, On: on, OnChanged: changed}
	t.ExtendBaseWidget(t)
	return t
}

// SetOn shows the state without telling anyone.
func (t *Tick) SetOn(on bool) { t.On = on; t.Refresh() }

// Tapped turns it over.
func (t *Tick) Tapped(*fyne.PointEvent) {
	if t.Disabled() {
		return
	}
	t.On = !t.On
	t.Refresh()
	if t.OnChanged != nil {
		t.OnChanged(t.On)
	}
}

// FocusGained shows the ring.
func (t *Tick) FocusGained() { t.focused = true; t.Refresh(); reveal(t) }

// FocusLost hides the ring.
func (t *Tick) FocusLost() { t.focused = false; t.Refresh() }

// TypedRune does nothing; keys come by TypedKey.
func (t *Tick) TypedRune(rune) {}

// TypedKey turns it over on Space and Return.
func (t *Tick) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		t.Tapped(nil)
	}
}

// MouseIn shows that it is under the mouse.
func (t *Tick) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.Refresh() }

// MouseMoved does nothing.
func (t *Tick) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends the hover.
func (t *Tick) MouseOut() { t.hovered = false; t.Refresh() }

// Cursor is a hand.
func (t *Tick) Cursor() desktop.Cursor { return desktop.PointerCursor }

const tickBox = look.L

// HeightFor gives the height of the words beside the box.
func (t *Tick) HeightFor(width float32) float32 {
	n := len(wrapText(t.Text, width-tickBox-look.M, func(s string) float32 { return measure(s, look.Text, fyne.TextStyle{}).Width }))
	return max(look.Target, float32(n)*look.Text*1.45+look.S)
}

// CreateRenderer draws the tick.
func (t *Tick) CreateRenderer() fyne.WidgetRenderer {
	r := &tickRenderer{t: t, ring: canvas.NewRectangle(nil), box: canvas.NewRectangle(nil), a: canvas.NewLine(nil), b: canvas.NewLine(nil), words: NewWords(t.Text, look.Text)}
	r.Refresh()
	return r
}

type tickRenderer struct {
	t         *Tick
	ring, box *canvas.Rectangle
	a, b      *canvas.Line
	words     *Words
}

func (r *tickRenderer) MinSize() fyne.Size {
	w := measure(r.t.Text, look.Text, fyne.TextStyle{}).Width + tickBox + look.M + look.XS
	if r.t.Size().Width > 0 {
		w = min(w, r.t.Size().Width)
	}
	return fyne.NewSize(w, r.t.HeightFor(w))
}

func (r *tickRenderer) Layout(s fyne.Size) {
	y := (look.Target - tickBox) / 2
	r.box.Move(fyne.NewPos(0, y))
	r.box.Resize(fyne.NewSize(tickBox, tickBox))
	out := look.FocusGap + look.FocusRing
	r.ring.Move(fyne.NewPos(-out, y-out))
	r.ring.Resize(fyne.NewSize(tickBox+2*out, tickBox+2*out))
	r.a.Position1, r.a.Position2 = fyne.NewPos(6, y+12), fyne.NewPos(10.5, y+17)
	r.b.Position1, r.b.Position2 = fyne.NewPos(10.5, y+17), fyne.NewPos(18.5, y+7)
	h := r.words.HeightFor(s.Width - tickBox - look.M)
	r.words.Move(fyne.NewPos(tickBox+look.M, max((look.Target-look.Text*1.45)/2, (s.Height-h)/2)))
	r.words.Resize(fyne.NewSize(s.Width-tickBox-look.M, h))
}

func (r *tickRenderer) Refresh() {
	p := look.Now()
	r.box.CornerRadius, r.box.StrokeWidth = 6, look.Border
	r.box.FillColor, r.box.StrokeColor = p.Sunk, p.Edge
	if r.t.hovered {
		r.box.FillColor = p.Lit
	}
	var ink color.Color = color.Transparent
	if r.t.On {
		r.box.FillColor, r.box.StrokeColor, ink = p.Hue, p.Hue, p.OnHue
	}
	for _, l := range []*canvas.Line{r.a, r.b} {
		l.StrokeColor, l.StrokeWidth = ink, 2.5
	}
	drawRing(r.ring, r.t.focused)
	r.words.Text = r.t.Text
	r.Layout(r.t.Size())
	r.words.Refresh()
	canvas.Refresh(r.t)
}

func (r *tickRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring, r.box, r.a, r.b, r.words}
}
func (r *tickRenderer) Destroy() {}
