package parts

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Weight says how much a button stands out. A screen has at most one Main.
type Weight int

// Weights.
const (
	Plain Weight = iota // outlined
	Main                // filled with the hue: the next action
	Quiet               // words alone; outline only on hover and focus
)

// Button is a button of at least 44 by 44 units. It is pressed by tap, Space
// or Return, and shows a ring while it has the keyboard. Chosen shows it as
// chosen (filled with a wash and marked by a thick outline, not by colour
// alone).
type Button struct {
	widget.DisableableWidget
	Text     string
	Weight   Weight
	Chosen   bool
	Type     float32 // size of the type; 0 is look.Text
	MinW     float32 // least width; 0 is the width of the words
	MinH     float32 // least height; 0 is look.Target
	Leading  bool    // words at the left, not in the middle
	OnTapped func()

	focused, hovered bool
}

var (
	_ fyne.Widget        = (*Button)(nil)
	_ fyne.Tappable      = (*Button)(nil)
	_ fyne.Focusable     = (*Button)(nil)
	_ fyne.Disableable   = (*Button)(nil)
	_ desktop.Hoverable  = (*Button)(nil)
	_ desktop.Cursorable = (*Button)(nil)
)

// NewButton makes a button.
func NewButton(text string, w Weight, tapped func()) *Button {
	b := &Button{Text: text, Weight: w, OnTapped: tapped}
	b.ExtendBaseWidget(b)
	return b
}

// SetText changes the words.
func (b *Button) SetText(t string) { b.Text = t; b.Refresh() }

// SetChosen shows the button as chosen or not.
func (b *Button) SetChosen(on bool) { b.Chosen = on; b.Refresh() }

// Tapped presses the button.
func (b *Button) Tapped(*fyne.PointEvent) {
	if !b.Disabled() && b.OnTapped != nil {
		b.OnTapped()
	}
}

// FocusGained shows the ring.
func (b *Button) FocusGained() { b.focused = true; b.Refresh(); reveal(b) }

// FocusLost hides the ring.
func (b *Button) FocusLost() { b.focused = false; b.Refresh() }

// TypedRune does nothing; keys come by TypedKey.
func (b *Button) TypedRune(rune) {}

// TypedKey presses the button on Space and Return.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	}
}

// MouseIn shows that the button is under the mouse.
func (b *Button) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.Refresh() }

// MouseMoved does nothing.
func (b *Button) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends the hover.
func (b *Button) MouseOut() { b.hovered = false; b.Refresh() }

// Cursor is a hand over a live button.
func (b *Button) Cursor() desktop.Cursor {
	if b.Disabled() {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

// CreateRenderer draws the button.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	r := &buttonRenderer{b: b, box: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent), words: canvas.NewText("", color.Black)}
	r.Refresh()
	return r
}

type buttonRenderer struct {
	b         *Button
	ring, box *canvas.Rectangle
	words     *canvas.Text
}

func (r *buttonRenderer) size() float32 {
	if r.b.Type > 0 {
		return r.b.Type
	}
	return look.Text
}

func (r *buttonRenderer) style() fyne.TextStyle { return fyne.TextStyle{Bold: r.b.Weight == Main} }

func (r *buttonRenderer) MinSize() fyne.Size {
	s := measure(r.b.Text, r.size(), r.style())
	pad := look.L * 2
	if r.b.Weight == Quiet || r.b.Leading {
		pad = look.M * 2
	}
	return floor(fyne.NewSize(s.Width+pad, s.Height+look.S), max(r.b.MinW, look.Target), max(r.b.MinH, look.Target))
}

func (r *buttonRenderer) Layout(s fyne.Size) {
	r.box.Move(fyne.NewPos(0, 0))
	r.box.Resize(s)
	out := look.FocusGap + look.FocusRing
	r.ring.Move(fyne.NewPos(-out, -out))
	r.ring.Resize(s.AddWidthHeight(2*out, 2*out))
	r.words.Text = elide(r.b.Text, s.Width-2*look.S, func(t string) float32 { return measure(t, r.words.TextSize, r.words.TextStyle).Width })
	t := measure(r.words.Text, r.words.TextSize, r.words.TextStyle)
	x := (s.Width - t.Width) / 2
	if r.b.Leading {
		x = look.M
	}
	r.words.Move(fyne.NewPos(x, (s.Height-t.Height)/2-rise(r.words.TextSize)))
	r.words.Resize(t)
}

func (r *buttonRenderer) Refresh() {
	b, p := r.b, look.Now()
	fill, edge, ink, width := color.Color(p.Card), color.Color(p.Edge), color.Color(p.Ink), look.Border
	switch b.Weight {
	case Main:
		fill, edge, ink = p.Hue, p.Hue, p.OnHue
		if b.hovered {
			fill, edge = p.Deep, p.Deep
		}
	case Quiet:
		fill, edge, ink = color.Transparent, color.Transparent, p.Soft
	}
	if b.hovered && b.Weight != Main {
		fill, edge = p.Lit, p.Edge
	}
	if b.Chosen && b.Weight != Main {
		fill, edge, ink, width = p.Tint, p.Hue, p.Ink, look.FocusRing
	}
	if b.Disabled() {
		fill, edge, ink = color.Transparent, p.Rule, p.Soft
	}
	r.box.FillColor, r.box.StrokeColor, r.box.StrokeWidth, r.box.CornerRadius = fill, edge, width, look.Radius
	drawRing(r.ring, b.focused && !b.Disabled())
	r.words.Text, r.words.Color, r.words.TextSize, r.words.TextStyle = b.Text, ink, r.size(), r.style()
	r.Layout(b.Size())
	canvas.Refresh(b)
}

func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring, r.box, r.words}
}
func (r *buttonRenderer) Destroy() {}

// drawRing shows or hides a focus ring.
func drawRing(r *canvas.Rectangle, on bool) {
	r.FillColor, r.StrokeWidth, r.CornerRadius = color.Transparent, look.FocusRing, look.Radius+look.FocusGap+look.FocusRing
	r.StrokeColor = color.Transparent
	if on {
		r.StrokeColor = theme.Color(theme.ColorNameFocus)
	}
}

// elide shortens text that is wider than its room.
func elide(text string, room float32, wide func(string) float32) string {
	if room <= 0 || wide(text) <= room {
		return text
	}
	rs := []rune(text)
	for len(rs) > 1 {
		rs = rs[:len(rs)-1]
		if short := strings.TrimRight(string(rs), " ") + "…"; wide(short) <= room {
			return short
		}
	}
	return text
}
