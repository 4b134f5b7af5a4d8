package parts

import (
	"sort"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// MarkOf is one marked stretch of a text: bytes [Start, End) and the shape of
// its line. A stretch that is put aside is drawn thin and grey.
type MarkOf struct {
	Start, End int
	Stroke     Stroke
	Aside      bool
}

// MarkedText shows a whole text with marked stretches. One mark can be chosen:
// by tap, by moving the mouse over it, or by the arrow keys while the text has
// the keyboard. Only the lines in sight are drawn, so a book costs no more
// than a page.
type MarkedText struct {
	widget.BaseWidget
	OnChosen func(i int)        // index of the mark
	OnKey    func(fyne.KeyName) // any key that does not move from mark to mark

	text    string
	marks   []MarkOf
	passage [2]int // a stretch washed behind the letters, empty if none
	size    float32
	chosen  int
	focused bool
	lines   []markedLine
	width   float32
	wide    map[string]float32
	scroll  *container.Scroll
	inner   *markedInner
}

// markedLine is one line of the set text: bytes [start, end) at height y.
type markedLine struct {
	start, end int
	y          float32
}

var (
	_ fyne.Tappable     = (*markedInner)(nil)
	_ fyne.Focusable    = (*markedInner)(nil)
	_ desktop.Hoverable = (*markedInner)(nil)
)

// NewMarkedText makes the view in the given type size.
func NewMarkedText(size float32) *MarkedText {
	m := &MarkedText{size: size, chosen: -1, wide: map[string]float32{}}
	m.inner = &markedInner{m: m}
	m.inner.ExtendBaseWidget(m.inner)
	m.scroll = container.NewVScroll(m.inner)
	m.scroll.OnScrolled = func(fyne.Position) { m.inner.Refresh() }
	m.ExtendBaseWidget(m)
	return m
}

// SetText shows a text with its marks, in order of Start.
func (m *MarkedText) SetText(text string, marks []MarkOf) {
	m.text, m.marks, m.chosen, m.passage = text, marks, -1, [2]int{}
	m.wrap(m.width)
	m.scroll.ScrollToOffset(fyne.NewPos(0, 0))
	m.inner.Refresh()
}

// Text gives the text that is shown.
func (m *MarkedText) Text() string { return m.text }

// SetMarks changes the marks and keeps the place.
func (m *MarkedText) SetMarks(marks []MarkOf) {
	m.marks = marks
	m.inner.Refresh()
}

// Chosen gives the chosen mark, or -1.
func (m *MarkedText) Chosen() int { return m.chosen }

// Choose shows a mark as chosen and brings it in sight, without telling.
func (m *MarkedText) Choose(i int) {
	m.chosen = i
	if i >= 0 && i < len(m.marks) {
		m.bringInSight(m.marks[i].Start)
	}
	m.inner.Refresh()
}

// ShowPassage washes a stretch and brings its start in sight.
func (m *MarkedText) ShowPassage(start, end int) {
	m.passage = [2]int{start, end}
	m.bringInSight(start)
	m.inner.Refresh()
}

// Focus object: the part that takes the keyboard.
func (m *MarkedText) Focus() fyne.Focusable { return m.inner }

// MarkAt gives where the first line of a mark lies in the window's own
// coordinates of this widget, and whether it is in sight.
func (m *MarkedText) MarkAt(i int) (fyne.Position, fyne.Size, bool) {
	if i < 0 || i >= len(m.marks) {
		return fyne.Position{}, fyne.Size{}, false
	}
	for _, s := range m.stretches(m.marks[i].Start, m.marks[i].End) {
		y := s.y - m.scroll.Offset.Y
		return fyne.NewPos(s.x, y), fyne.NewSize(s.w, m.line()), y >= 0 && y+m.line() <= m.Size().Height
	}
	return fyne.Position{}, fyne.Size{}, false
}

func (m *MarkedText) line() float32 { return m.size * 1.75 }

func (m *MarkedText) measureWord(s string) float32 {
	w, ok := m.wide[s]
	if !ok {
		w = measure(s, m.size, fyne.TextStyle{}).Width
		m.wide[s] = w
	}
	return w
}

// wrap sets the text to a width: words by their own widths, a line break in
// the text ends a line, an empty line parts paragraphs.
func (m *MarkedText) wrap(width float32) {
	m.width, m.lines = width, nil
	if width <= 0 {
		return
	}
	space := m.measureWord("n n") - 2*m.measureWord("n")
	y := look.M
	text := m.text
	for at := 0; at <= len(text); {
		end := strings.IndexByte(text[at:], '\n')
		if end < 0 {
			end = len(text)
		} else {
			end += at
		}
		para := text[at:end]
		if strings.TrimSpace(para) == "" {
			if len(m.lines) > 0 {
				y += m.size * 0.5
			}
			at = end + 1
			continue
		}
		start, x, last := -1, float32(0), at
		for i := at; i < end; {
			for i < end && isBlank(text[i]) {
				i++
			}
			j := i
			for j < end && !isBlank(text[j]) {
				j++
			}
			if j == i {
				break
			}
			w := m.measureWord(text[i:j])
			switch {
			case start < 0:
				start, x = i, w
			case x+space+w > width:
				m.lines = append(m.lines, markedLine{start, last, y})
				y += m.line()
				start, x = i, w
			default:
				x += space + w
			}
			last, i = j, j
		}
		if start >= 0 {
			m.lines = append(m.lines, markedLine{start, last, y})
			y += m.line()
		}
		at = end + 1
	}
}

func isBlank(b byte) bool { return b == ' ' || b == '\t' || b == '\r' }

func (m *MarkedText) height() float32 {
	if len(m.lines) == 0 {
		return 0
	}
	return m.lines[len(m.lines)-1].y + m.line() + look.M
}

type stretch struct{ x, y, w float32 }

// stretches gives the pieces, one a line, that bytes [start, end) cover.
func (m *MarkedText) stretches(start, end int) []stretch {
	var out []stretch
	i := sort.Search(len(m.lines), func(i int) bool { return m.lines[i].end > start })
	for ; i < len(m.lines) && m.lines[i].start < end; i++ {
		l := m.lines[i]
		a, b := max(start, l.start), min(end, l.end)
		x := m.prefix(l, a)
		out = append(out, stretch{x, l.y, m.prefix(l, b) - x})
	}
	return out
}

// prefix gives the width of a line up to byte at.
func (m *MarkedText) prefix(l markedLine, at int) float32 {
	if at <= l.start {
		return 0
	}
	return measure(m.text[l.start:at], m.size, fyne.TextStyle{}).Width
}

func (m *MarkedText) bringInSight(at int) {
	for _, s := range m.stretches(at, at+1) {
		top, h := m.scroll.Offset.Y, m.Size().Height
		if s.y < top+look.M || s.y+m.line() > top+h-look.M {
			m.scroll.ScrollToOffset(fyne.NewPos(0, max(0, min(s.y-h/3, m.height()-h))))
		}
	}
}

// markUnder gives the mark at a point of the text, the shortest where several
// lie over each other, or -1.
func (m *MarkedText) markUnder(p fyne.Position) int {
	n := sort.Search(len(m.lines), func(i int) bool { return m.lines[i].y+m.line() > p.Y })
	if n == len(m.lines) || p.Y < m.lines[n].y {
		return -1
	}
	l, best := m.lines[n], -1
	for i, k := range m.marks {
		if k.End <= l.start || k.Start >= l.end {
			continue
		}
		from, to := m.prefix(l, max(k.Start, l.start)), m.prefix(l, min(k.End, l.end))
		if p.X >= from-2 && p.X <= to+2 && (best < 0 || k.End-k.Start < m.marks[best].End-m.marks[best].Start) {
			best = i
		}
	}
	return best
}

func (m *MarkedText) choose(i int) {
	if i < 0 || i >= len(m.marks) || i == m.chosen {
		return
	}
	m.Choose(i)
	if m.OnChosen != nil {
		m.OnChosen(i)
	}
}

// Resize sets the text to the new width.
func (m *MarkedText) Resize(s fyne.Size) {
	if w := s.Width - 2*look.M; w != m.width {
		m.wrap(w)
	}
	m.BaseWidget.Resize(s)
	m.inner.Refresh()
}

// MinSize lets the text be as small as it has to; it scrolls.
func (m *MarkedText) MinSize() fyne.Size { return fyne.NewSize(200, 120) }

// CreateRenderer shows the scrolled text.
func (m *MarkedText) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(m.scroll) }

// markedInner is the scrolled part.
type markedInner struct {
	widget.BaseWidget
	m *MarkedText
}

func (n *markedInner) MinSize() fyne.Size { return fyne.NewSize(0, n.m.height()) }

func (n *markedInner) at(p fyne.Position) fyne.Position { return p.SubtractXY(look.M, 0) }

// Tapped chooses the mark under the finger.
func (n *markedInner) Tapped(e *fyne.PointEvent) { n.m.choose(n.m.markUnder(n.at(e.Position))) }

// MouseIn does nothing; MouseMoved chooses.
func (n *markedInner) MouseIn(*desktop.MouseEvent) {}

// MouseMoved chooses the mark under the mouse.
func (n *markedInner) MouseMoved(e *desktop.MouseEvent) { n.m.choose(n.m.markUnder(n.at(e.Position))) }

// MouseOut leaves the last one chosen, so that its finding can be read.
func (n *markedInner) MouseOut() {}

// FocusGained shows the ring.
func (n *markedInner) FocusGained() {
	n.m.focused = true
	if n.m.chosen < 0 {
		n.m.choose(0)
	}
	n.Refresh()
}

// FocusLost hides the ring.
func (n *markedInner) FocusLost() { n.m.focused = false; n.Refresh() }

// TypedRune does nothing; keys come by TypedKey.
func (n *markedInner) TypedRune(rune) {}

// TypedKey goes from mark to mark.
func (n *markedInner) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyRight, fyne.KeyDown:
		n.m.choose(min(n.m.chosen+1, len(n.m.marks)-1))
	case fyne.KeyLeft, fyne.KeyUp:
		n.m.choose(max(n.m.chosen-1, 0))
	case fyne.KeyHome:
		n.m.choose(0)
	case fyne.KeyEnd:
		n.m.choose(len(n.m.marks) - 1)
	default:
		if n.m.OnKey != nil {
			n.m.OnKey(e.Name)
		}
	}
}

// CreateRenderer draws the lines in sight.
func (n *markedInner) CreateRenderer() fyne.WidgetRenderer { return &markedRenderer{n: n} }

type markedRenderer struct {
	n       *markedInner
	objects []fyne.CanvasObject
}

func (r *markedRenderer) Layout(fyne.Size)   { r.build() }
func (r *markedRenderer) MinSize() fyne.Size { return r.n.MinSize() }
func (r *markedRenderer) Refresh() {
	r.build()
	canvas.Refresh(r.n)
}
func (r *markedRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *markedRenderer) Destroy()                     {}

func (r *markedRenderer) build() {
	m, p := r.n.m, look.Now()
	r.objects = r.objects[:0]
	top := m.scroll.Offset.Y - m.line()
	bottom := m.scroll.Offset.Y + m.Size().Height + m.line()
	from := sort.Search(len(m.lines), func(i int) bool { return m.lines[i].y >= top })
	to := sort.Search(len(m.lines), func(i int) bool { return m.lines[i].y > bottom })
	if from >= to {
		return
	}
	first, last := m.lines[from].start, m.lines[to-1].end
	wash := func(start, end int, chosen bool) {
		if start >= end || end <= first || start >= last {
			return
		}
		for _, s := range m.stretches(max(start, first), min(end, last)) {
			box := canvas.NewRectangle(p.Lit)
			pad := float32(1)
			if chosen {
				box.FillColor = p.Tint
				box.CornerRadius = 4
				if m.focused {
					box.StrokeColor, box.StrokeWidth = p.Hue, look.Hair
				}
				pad = 2
			}
			box.Move(fyne.NewPos(look.M+s.x-pad, s.y))
			box.Resize(fyne.NewSize(s.w+2*pad, m.line()))
			r.objects = append(r.objects, box)
		}
	}
	wash(m.passage[0], m.passage[1], false)
	if m.chosen >= 0 && m.chosen < len(m.marks) {
		wash(m.marks[m.chosen].Start, m.marks[m.chosen].End, true)
	}
	for _, l := range m.lines[from:to] {
		t := canvas.NewText(m.text[l.start:l.end], p.Ink)
		t.TextSize = m.size
		h := measure("x", m.size, fyne.TextStyle{}).Height
		t.Move(fyne.NewPos(look.M, l.y+(m.line()-h)/2-rise(m.size)-2))
		t.Resize(fyne.NewSize(m.width, h))
		r.objects = append(r.objects, t)
	}
	for _, k := range m.marks {
		if k.End <= first || k.Start >= last {
			continue
		}
		ink := p.Hue
		if k.Aside {
			ink = p.Edge
		}
		for _, s := range m.stretches(k.Start, k.End) {
			if s.y >= top && s.y <= bottom {
				stroke := k.Stroke
				r.objects = append(r.objects, strokeObjects(stroke, look.M+s.x, s.y+m.line()*0.79, s.w, ink)...)
			}
		}
	}
}
