package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Outline is how heavy the line around a word is.
type Outline float32

// Outlines: a new word thin, a tied one full, a free one bold.
const (
	Thin Outline = 1
	Full Outline = 2.5
	Bold Outline = 4.5
)

// WordCard is one word to press, with an outline whose weight says how far the
// word has come.
type WordCard struct {
	widget.BaseWidget
	Text     string
	Outline  Outline
	Chosen   bool
	OnTapped func()

	focused, hovered bool
}

var (
	_ fyne.Tappable      = (*WordCard)(nil)
	_ fyne.Focusable     = (*WordCard)(nil)
	_ desktop.Hoverable  = (*WordCard)(nil)
	_ desktop.Cursorable = (*WordCard)(nil)
)

// NewWordCard makes it.
func NewWordCard(text string, o Outline, tapped func()) *WordCard {
	w := &WordCard{Text: text, Outline: o, OnTapped: tapped}
	w.ExtendBaseWidget(w)
	return w
}

// Tapped presses the word.
func (w *WordCard) Tapped(*fyne.PointEvent) {
	if w.OnTapped != nil {
		w.OnTapped()
	}
}

// FocusGained shows the ring.
func (w *WordCard) FocusGained() { w.focused = true; w.Refresh(); reveal(w) }

// FocusLost hides the ring.
func (w *WordCard) FocusLost() { w.focused = false; w.Refresh() }

// TypedRune does nothing; keys come by TypedKey.
func (w *WordCard) TypedRune(rune) {}

// TypedKey presses the word on Space and Return.
func (w *WordCard) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		w.Tapped(nil)
	}
}

// MouseIn shows that it is under the mouse.
func (w *WordCard) MouseIn(*desktop.MouseEvent) { w.hovered = true; w.Refresh() }

// MouseMoved does nothing.
func (w *WordCard) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends the hover.
func (w *WordCard) MouseOut() { w.hovered = false; w.Refresh() }

// Cursor is a hand.
func (w *WordCard) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer draws it.
func (w *WordCard) CreateRenderer() fyne.WidgetRenderer {
	r := &wordCardRenderer{w: w, ring: canvas.NewRectangle(nil), box: canvas.NewRectangle(nil), text: NewWords("", look.Lead)}
	r.text.Align = fyne.TextAlignCenter
	r.Refresh()
	return r
}

type wordCardRenderer struct {
	w         *WordCard
	ring, box *canvas.Rectangle
	text      *Words
}

const wordCardWide float32 = 320

func (r *wordCardRenderer) MinSize() fyne.Size {
	m := measure(r.w.Text, look.Lead, fyne.TextStyle{Bold: r.w.Outline == Bold}).Width + look.XL
	m = min(max(m, 72), wordCardWide)
	r.text.Text = r.w.Text
	return fyne.NewSize(m, max(look.Target, r.text.HeightFor(m-look.XL)+look.M))
}

func (r *wordCardRenderer) Layout(s fyne.Size) {
	r.box.Resize(s)
	out := look.FocusGap + look.FocusRing
	r.ring.Move(fyne.NewPos(-out, -out))
	r.ring.Resize(s.AddWidthHeight(2*out, 2*out))
	w := s.Width - look.XL + 2
	h := r.text.HeightFor(w)
	r.text.Move(fyne.NewPos((s.Width-w)/2, (s.Height-h)/2))
	r.text.Resize(fyne.NewSize(w, h))
}

func (r *wordCardRenderer) Refresh() {
	p, w := look.Now(), r.w
	r.box.CornerRadius, r.box.StrokeWidth, r.box.StrokeColor = look.Radius, float32(w.Outline), p.Ink
	if w.Outline == Thin {
		r.box.StrokeColor = p.Edge
	}
	r.box.FillColor = p.Card
	if w.hovered {
		r.box.FillColor = p.Lit
	}
	if w.Chosen {
		r.box.FillColor = p.Tint
	}
	drawRing(r.ring, w.focused)
	r.text.Text, r.text.Style = w.Text, fyne.TextStyle{Bold: w.Outline == Bold}
	r.Layout(w.Size())
	r.text.Refresh()
	canvas.Refresh(w)
}

func (r *wordCardRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring, r.box, r.text}
}
func (r *wordCardRenderer) Destroy() {}

// OutlineSample shows an outline on its own, for a key.
type OutlineSample struct {
	widget.BaseWidget
	outline Outline
}

// NewOutlineSample makes a sample.
func NewOutlineSample(o Outline) *OutlineSample {
	s := &OutlineSample{outline: o}
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer draws it.
func (s *OutlineSample) CreateRenderer() fyne.WidgetRenderer {
	p := look.Now()
	r := canvas.NewRectangle(p.Card)
	r.StrokeWidth, r.StrokeColor, r.CornerRadius = float32(s.outline), p.Ink, 6
	if s.outline == Thin {
		r.StrokeColor = p.Edge
	}
	return widget.NewSimpleRenderer(r)
}

// MinSize gives the size of a small word.
func (s *OutlineSample) MinSize() fyne.Size { return fyne.NewSize(30, 20) }
