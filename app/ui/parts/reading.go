package parts

import (
	"fmt"
	"image"
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
	"feltpage/app/ui/parts/typeset"
)

// Way is how words are chosen by pointing.
type Way int

// Ways. In each of them the nearest word takes the tap, the choice is made on
// release, and choosing again takes it off.
const (
	WordByWord    Way = iota // a tap is one word, a drag is a run of words
	FirstAndLast             // a tap on the first word, a tap on the last
	SentenceFirst            // a tap on a sentence; its words are then shown large
)

// ReadLook is how the reading view sets text.
type ReadLook struct {
	Size               float32 // units
	Letter, Word, Line float64 // em, em, line height over size
}

// Reading shows a passage, page by page, in its own glyph layout. Words can be
// chosen by mouse, touch and keyboard (arrows move, Space chooses, Shift
// extends, PageUp and PageDown turn). It never scrolls.
type Reading struct {
	widget.BaseWidget

	OnChosen   func([]typeset.Span)  // what is chosen now, in text order
	OnPage     func(page, of int)    // the page shown changed
	OnSentence func(first, end int)  // SentenceFirst: words [first, end) are to be shown large
	Ignore     func(key string) bool // reports a repeated tap; nil ignores none

	Soft bool // the letters step back

	text              string
	span              typeset.Span
	sentences, paras  []typeset.Span
	look              ReadLook
	way               Way
	pointing, focused bool
	chosen            map[int]bool
	lit               []typeset.Span
	set               *typeset.Set
	laid              fyne.Size
	page              int
	cursor, anchor    int // words; anchor is where Shift began, or -1
	pending           int // FirstAndLast: the first word, or -1
	from, to          int // words of a drag, or -1
	hover             int // word under the mouse, or -1
	dragAt            fyne.Position
	shift             bool
	ink               inker
}

var (
	_ fyne.Focusable    = (*Reading)(nil)
	_ fyne.Disableable  = (*Reading)(nil)
	_ fyne.Tappable     = (*Reading)(nil)
	_ fyne.Draggable    = (*Reading)(nil)
	_ desktop.Hoverable = (*Reading)(nil)
	_ desktop.Keyable   = (*Reading)(nil)
)

// readPad is the room around the text, for the focus ring and the tint.
const readPad = look.M

// charsALine is what the line is broken to, on average.
const charsALine = 66

// NewReading makes an empty reading view.
func NewReading(l ReadLook) *Reading {
	r := &Reading{look: l, chosen: map[int]bool{}, anchor: -1, pending: -1, from: -1, to: -1, hover: -1}
	r.ExtendBaseWidget(r)
	return r
}

// SetText shows the part of text in span, from its first page, nothing chosen.
func (r *Reading) SetText(text string, span typeset.Span, sentences, paragraphs []typeset.Span) {
	r.text, r.span, r.sentences, r.paras = text, span, sentences, paragraphs
	r.chosen, r.lit, r.page, r.cursor, r.hover = map[int]bool{}, nil, 0, 0, -1
	r.drop()
	r.relay()
}

// SetLook sets the text anew; the words at the top of the page stay in sight.
func (r *Reading) SetLook(l ReadLook) {
	if r.look != l {
		r.look = l
		r.relay()
	}
}

// SetWay changes how words are chosen.
func (r *Reading) SetWay(w Way) { r.way = w; r.drop(); r.Refresh() }

// SetPointing says whether words can be chosen now.
func (r *Reading) SetPointing(on bool) {
	if r.pointing != on {
		r.pointing = on
		r.drop()
		r.Refresh()
	}
}

// Enable lets words be chosen.
func (r *Reading) Enable() { r.SetPointing(true) }

// Disable makes the view one to read only; Tab passes it.
func (r *Reading) Disable() { r.SetPointing(false) }

// Disabled reports whether words cannot be chosen now.
func (r *Reading) Disabled() bool { return !r.pointing }

// SetChosen shows what is chosen, without telling it back.
func (r *Reading) SetChosen(spans []typeset.Span) {
	r.chosen = map[int]bool{}
	for _, sp := range spans {
		first, end := r.set.WordsIn(sp)
		for w := first; w < end; w++ {
			r.chosen[w] = true
		}
	}
	r.Refresh()
}

// SetLit shows sentences to look at, and turns to the page of the first.
func (r *Reading) SetLit(spans []typeset.Span) {
	if slices.Equal(spans, r.lit) {
		return
	}
	r.lit = slices.Clone(spans)
	if len(spans) > 0 {
		r.turn(r.set.PageOf(spans[0].Start))
	}
	r.Refresh()
}

// Pages gives how many pages there are.
func (r *Reading) Pages() int { return len(r.set.Pages) }

// Page gives the page shown, from 0.
func (r *Reading) Page() int { return r.page }

// Turn shows another page.
func (r *Reading) Turn(page int) {
	if r.turn(page) {
		r.Refresh()
	}
}

func (r *Reading) turn(page int) bool {
	page = max(0, min(page, len(r.set.Pages)-1))
	if page == r.page {
		return false
	}
	r.page, r.hover = page, -1
	if r.OnPage != nil {
		r.OnPage(r.page, len(r.set.Pages))
	}
	return true
}

// WordText gives the text of a word.
func (r *Reading) WordText(w int) string { return r.spanText(r.set.Words[w].Span) }

// Chosen reports whether a word is chosen.
func (r *Reading) Chosen(w int) bool { return r.chosen[w] }

func (r *Reading) spanText(s typeset.Span) string { return r.text[s.Start:s.End] }

// WordPlace is a word in sight, with its rectangle in the widget.
type WordPlace struct {
	Text string
	Pos  fyne.Position
	Size fyne.Size
}

// InSight gives the words of the page shown.
func (r *Reading) InSight() []WordPlace {
	var out []WordPlace
	for w := range r.set.Words {
		b := r.set.Words[w].Boxes[0]
		l := r.set.Lines[b.Line]
		if l.Page == r.page {
			out = append(out, WordPlace{Text: r.WordText(w),
				Pos:  fyne.NewPos(float32(b.X0)+readPad, float32(l.Top)+readPad),
				Size: fyne.NewSize(float32(b.X1-b.X0), float32(r.set.LineH))})
		}
	}
	return out
}

// Markup gives the page shown as text: one line each, chosen words in square
// brackets, the sentence to look at in angle brackets.
func (r *Reading) Markup() string {
	var b strings.Builder
	p := r.set.Pages[r.page]
	runs := r.runs()
	for i := p.First; i < p.End; i++ {
		l := r.set.Lines[i].Span
		for j := l.Start; j <= l.End; j++ {
			for _, s := range r.lit {
				if j == s.End || j == l.End && s.Start < j && s.End > j {
					b.WriteByte('>')
				}
			}
			for _, s := range runs {
				if j == s.End {
					b.WriteByte(']')
				}
			}
			if j == l.End {
				break
			}
			for _, s := range r.lit {
				if j == s.Start || j == l.Start && s.Start < j && s.End > j {
					b.WriteByte('<')
				}
			}
			for _, s := range runs {
				if j == s.Start {
					b.WriteByte('[')
				}
			}
			b.WriteByte(r.text[j])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func (r *Reading) style(s fyne.Size) typeset.Style {
	return typeset.Style{Size: float64(r.look.Size), Letter: r.look.Letter, Word: r.look.Word, Line: r.look.Line, Para: 0.5,
		Width: float64(max(s.Width-2*readPad, 40)), Height: float64(max(s.Height-2*readPad, 40)), Chars: charsALine}
}

// relay lays the text out for the size, and keeps the top of the page in
// sight.
func (r *Reading) relay() {
	top := r.span.Start
	if r.set != nil && r.page < len(r.set.Pages) {
		if s := r.set.Pages[r.page].Span; r.span.Start <= s.Start && s.Start < r.span.End {
			top = s.Start
		}
	}
	size := r.Size()
	if size.Width == 0 {
		size = r.MinSize()
	}
	r.set = typeset.Lay(r.text, r.span, r.sentences, r.paras, r.style(size), readFace())
	r.laid = r.Size()
	r.page, r.hover = r.set.PageOf(top), -1
	r.cursor = min(r.cursor, max(len(r.set.Words)-1, 0))
	if r.OnPage != nil {
		r.OnPage(r.page, len(r.set.Pages))
	}
	r.Refresh()
}

// Resize sets the text to the new size.
func (r *Reading) Resize(s fyne.Size) {
	r.BaseWidget.Resize(s)
	if s != r.laid {
		r.relay()
	}
}

// drop forgets what was begun and not finished.
func (r *Reading) drop() { r.pending, r.anchor, r.from, r.to = -1, -1, -1, -1 }

func (r *Reading) runs() []typeset.Span { return r.set.Runs(func(w int) bool { return r.chosen[w] }) }

func (r *Reading) tell() {
	r.Refresh()
	if r.OnChosen != nil {
		r.OnChosen(r.runs())
	}
}

func (r *Reading) at(p fyne.Position) int {
	return r.set.Nearest(r.page, float64(p.X-readPad), float64(p.Y-readPad))
}

func (r *Reading) repeat(key string) bool { return r.Ignore != nil && r.Ignore(key) }

// Toggle chooses a word or takes it off.
func (r *Reading) Toggle(w int) {
	if w < 0 || w >= len(r.set.Words) || !r.pointing || r.repeat(fmt.Sprint("word ", w)) {
		return
	}
	if r.chosen[w] {
		delete(r.chosen, w)
	} else {
		r.chosen[w] = true
	}
	r.tell()
}

// choose takes a run of words; a run that is chosen already is taken off.
func (r *Reading) choose(a, b int) {
	a, b = min(a, b), max(a, b)
	all := true
	for w := a; w <= b; w++ {
		all = all && r.chosen[w]
	}
	for w := a; w <= b; w++ {
		if all {
			delete(r.chosen, w)
		} else {
			r.chosen[w] = true
		}
	}
	r.tell()
}

func (r *Reading) point(w int) {
	if w < 0 || !r.pointing {
		return
	}
	r.cursor = w
	switch r.way {
	case FirstAndLast:
		r.ends(w)
	case SentenceFirst:
		r.openSentence(w)
	default:
		r.Toggle(w)
	}
}

func (r *Reading) ends(w int) {
	if r.repeat(fmt.Sprint("end ", w)) {
		return
	}
	switch {
	case r.pending == w: // first and last are one word
		r.pending = -1
		r.choose(w, w)
	case r.pending >= 0:
		a := r.pending
		r.pending = -1
		r.choose(a, w)
	case r.chosen[w]:
		a, b := w, w
		for r.chosen[a-1] {
			a--
		}
		for r.chosen[b+1] {
			b++
		}
		r.choose(a, b)
	default:
		r.pending = w
		r.Refresh()
	}
}

func (r *Reading) openSentence(w int) {
	if r.OnSentence == nil || r.repeat("sentence") {
		return
	}
	first, end := w, w+1
	if s := r.set.Words[w].Sentence; s >= 0 {
		first, end = r.set.SentenceWords(s)
	}
	r.OnSentence(first, end)
}

// Tapped chooses on release.
func (r *Reading) Tapped(e *fyne.PointEvent) { r.point(r.at(e.Position)) }

// Dragged follows a drag; nothing is chosen before it ends.
func (r *Reading) Dragged(e *fyne.DragEvent) {
	if !r.pointing {
		return
	}
	if r.from < 0 {
		r.from = r.at(e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY))
	}
	r.dragAt, r.to = e.Position, r.at(e.Position)
	r.Refresh()
}

// DragEnd chooses the words that were dragged over. A drag that ends on the
// word it began on is a tap; so is every drag of the other ways, on the word
// where it ends.
func (r *Reading) DragEnd() {
	a, b := r.from, r.to
	r.from, r.to = -1, -1
	switch {
	case a < 0 || b < 0:
	case r.way != WordByWord || a == b:
		r.point(b)
	default:
		r.cursor = b
		r.choose(a, b)
	}
}

// MouseIn follows the mouse.
func (r *Reading) MouseIn(e *desktop.MouseEvent) { r.MouseMoved(e) }

// MouseMoved shows which word is the nearest.
func (r *Reading) MouseMoved(e *desktop.MouseEvent) {
	w := -1
	if r.pointing {
		w = r.at(e.Position)
	}
	if w != r.hover {
		r.hover = w
		r.Refresh()
	}
}

// MouseOut ends it.
func (r *Reading) MouseOut() {
	if r.hover >= 0 {
		r.hover = -1
		r.Refresh()
	}
}

// FocusGained shows the word cursor, on the page in sight.
func (r *Reading) FocusGained() {
	r.focused = true
	if len(r.set.Words) > 0 && r.set.WordPage(r.cursor) != r.page {
		r.cursor = r.firstWord()
	}
	r.Refresh()
}

// FocusLost hides it.
func (r *Reading) FocusLost() { r.focused, r.shift, r.anchor = false, false, -1; r.Refresh() }

func (r *Reading) firstWord() int {
	for w := range r.set.Words {
		if r.set.WordPage(w) >= r.page {
			return w
		}
	}
	return 0
}

// KeyDown notices Shift.
func (r *Reading) KeyDown(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		r.shift = true
	}
}

// KeyUp ends it: what was extended over is chosen.
func (r *Reading) KeyUp(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		r.shift = false
		if r.anchor >= 0 {
			a := r.anchor
			r.anchor = -1
			if a != r.cursor {
				r.choose(a, r.cursor)
			}
		}
	}
}

// TypedRune does nothing.
func (r *Reading) TypedRune(rune) {}

// TypedKey moves the word cursor, chooses, and turns pages.
func (r *Reading) TypedKey(e *fyne.KeyEvent) {
	if len(r.set.Words) == 0 {
		return
	}
	at := r.cursor
	switch e.Name {
	case fyne.KeyLeft:
		at--
	case fyne.KeyRight:
		at++
	case fyne.KeyUp:
		at = r.set.Above(at)
	case fyne.KeyDown:
		at = r.set.Below(at)
	case fyne.KeyHome:
		at = r.firstWord()
	case fyne.KeyEnd:
		at = r.lastWord()
	case fyne.KeyPageDown:
		r.turn(r.page + 1)
		r.cursor = r.firstWord()
		r.Refresh()
		return
	case fyne.KeyPageUp:
		r.turn(r.page - 1)
		r.cursor = r.firstWord()
		r.Refresh()
		return
	case fyne.KeySpace:
		if r.anchor >= 0 {
			a := r.anchor
			r.anchor = -1
			r.choose(a, r.cursor)
		} else if r.way == FirstAndLast && r.pointing {
			r.ends(r.cursor)
		} else {
			r.Toggle(r.cursor)
		}
		return
	case fyne.KeyReturn, fyne.KeyEnter:
		r.point(r.cursor)
		return
	case fyne.KeyEscape:
		r.drop()
		r.Refresh()
		return
	default:
		return
	}
	at = max(0, min(at, len(r.set.Words)-1))
	if r.shift && r.pointing && r.anchor < 0 {
		r.anchor = r.cursor
	}
	r.cursor = at
	r.turn(r.set.WordPage(at))
	r.Refresh()
}

func (r *Reading) lastWord() int {
	last := r.cursor
	for w := range r.set.Words {
		if r.set.WordPage(w) == r.page {
			last = w
		}
	}
	return last
}

// MinSize leaves room for a few words.
func (r *Reading) MinSize() fyne.Size {
	r.ExtendBaseWidget(r)
	return fyne.NewSize(320, 200)
}

// CreateRenderer draws the page.
func (r *Reading) CreateRenderer() fyne.WidgetRenderer {
	if r.set == nil {
		r.relay()
	}
	x := &readingRenderer{r: r}
	x.letters = canvas.NewRaster(x.draw)
	x.ring = canvas.NewRectangle(color.Transparent)
	x.rebuild()
	return x
}

type readingRenderer struct {
	r       *Reading
	letters *canvas.Raster
	ring    *canvas.Rectangle
	objects []fyne.CanvasObject
	drawn   drawnPage
}

func (r *Reading) colour() color.NRGBA {
	if r.Soft {
		return look.Now().Soft
	}
	return look.Now().Ink
}

// drawnPage tells whether the letters have to be drawn anew.
type drawnPage struct {
	set  *typeset.Set
	page int
	ink  color.NRGBA
}

func (x *readingRenderer) draw(w, h int) image.Image {
	size := x.letters.Size()
	scale := 1.0
	if size.Width > 0 {
		scale = float64(w) / float64(size.Width)
	}
	return x.r.ink.page(x.r.set, x.r.page, w, h, scale, x.r.colour())
}

func (x *readingRenderer) box(b typeset.Box, fill color.Color, grow float32) *canvas.Rectangle {
	s, l := x.r.set, x.r.set.Lines[b.Line]
	c := canvas.NewRectangle(fill)
	h := min(float32(s.LineH), x.r.look.Size*1.35)
	mid := float32(l.Top + s.LineH/2)
	c.Move(fyne.NewPos(float32(b.X0)+readPad-grow, mid+readPad-h/2))
	c.Resize(fyne.NewSize(float32(b.X1-b.X0)+2*grow, h))
	c.CornerRadius = look.XS
	return c
}

func (x *readingRenderer) rebuild() {
	r, p := x.r, look.Now()
	x.objects = x.objects[:0]
	onPage := func(boxes []typeset.Box, f func(typeset.Box)) {
		for _, b := range boxes {
			if r.set.Lines[b.Line].Page == r.page {
				f(b)
			}
		}
	}
	for _, s := range r.lit {
		onPage(r.set.Cover(s), func(b typeset.Box) {
			wash := x.box(b, p.Lit, look.XS)
			edge := canvas.NewRectangle(p.Hue) // says the same without colour
			edge.Move(fyne.NewPos(0, wash.Position().Y))
			edge.Resize(fyne.NewSize(look.FocusRing, wash.Size().Height))
			x.objects = append(x.objects, wash, edge)
		})
	}
	if r.hover >= 0 && r.hover < len(r.set.Words) && !r.chosen[r.hover] {
		onPage(r.set.Words[r.hover].Boxes, func(b typeset.Box) { x.objects = append(x.objects, x.box(b, p.Sunk, look.XS)) })
	}
	under := func(b typeset.Box) {
		l := r.set.Lines[b.Line]
		u := canvas.NewRectangle(p.Hue)
		u.Move(fyne.NewPos(float32(b.X0)+readPad, float32(l.Baseline)+readPad+r.look.Size*0.2))
		u.Resize(fyne.NewSize(float32(b.X1-b.X0), max(2, r.look.Size*0.08)))
		x.objects = append(x.objects, u)
	}
	mark := func(s typeset.Span) {
		onPage(r.set.Cover(s), func(b typeset.Box) {
			x.objects = append(x.objects, x.box(b, p.Tint, look.XS))
			under(b)
		})
	}
	for _, s := range r.runs() {
		mark(s)
	}
	if a, b := r.begun(); a >= 0 {
		mark(typeset.Span{Start: r.set.Words[a].Span.Start, End: r.set.Words[b].Span.End})
	}
	x.objects = append(x.objects, x.letters)
	if r.focused && r.cursor < len(r.set.Words) {
		onPage(r.set.Words[r.cursor].Boxes, func(b typeset.Box) {
			c := x.box(b, color.Transparent, look.XS+look.FocusGap)
			c.StrokeColor, c.StrokeWidth = p.Hue, look.FocusRing
			x.objects = append(x.objects, c)
		})
	}
	drawRing(x.ring, r.focused)
	x.ring.CornerRadius = look.Radius
	x.objects = append(x.objects, x.ring)
}

// begun gives the words of a choice that is being made, or -1.
func (r *Reading) begun() (a, b int) {
	switch {
	case r.from >= 0 && r.to >= 0 && r.way == WordByWord:
		return min(r.from, r.to), max(r.from, r.to)
	case r.to >= 0:
		return r.to, r.to
	case r.anchor >= 0:
		return min(r.anchor, r.cursor), max(r.anchor, r.cursor)
	case r.pending >= 0:
		return r.pending, r.pending
	}
	return -1, -1
}

func (x *readingRenderer) Layout(s fyne.Size) {
	x.letters.Move(fyne.NewPos(readPad, readPad))
	x.letters.Resize(s.SubtractWidthHeight(2*readPad, 2*readPad))
	x.ring.Resize(s)
}

func (x *readingRenderer) MinSize() fyne.Size { return x.r.MinSize() }

func (x *readingRenderer) Refresh() {
	x.rebuild()
	now := drawnPage{x.r.set, x.r.page, x.r.colour()}
	if now != x.drawn {
		x.drawn = now
		x.letters.Refresh()
	}
	canvas.Refresh(x.r)
}

func (x *readingRenderer) Objects() []fyne.CanvasObject { return x.objects }
func (x *readingRenderer) Destroy()                     {}
