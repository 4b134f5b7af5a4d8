package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Tall is an object whose height follows from its width: wrapped text, and
// everything made of it.
type Tall interface {
	HeightFor(width float32) float32
}

// tallLayout is a layout that can tell a height for a width.
type tallLayout interface {
	fyne.Layout
	heightFor(objects []fyne.CanvasObject, width float32) float32
}

// HeightOf gives the height an object wants at a width. Where it cannot tell,
// its least height serves.
func HeightOf(o fyne.CanvasObject, width float32) float32 {
	switch o := o.(type) {
	case Tall:
		return o.HeightFor(width)
	case *Sheet:
		pad := o.Pad
		if pad == 0 {
			pad = look.L
		}
		return HeightOf(o.Content, width-2*pad) + 2*pad
	case *fyne.Container:
		if l, ok := o.Layout.(tallLayout); ok {
			return l.heightFor(o.Objects, width)
		}
	}
	return o.MinSize().Height
}

func visible(objects []fyne.CanvasObject) []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, 0, len(objects))
	for _, o := range objects {
		if o.Visible() {
			out = append(out, o)
		}
	}
	return out
}

// stack puts things under each other at full width, each as tall as it wants.
type stack struct {
	gap   float32
	width float32 // of the last layout, so that the least size tells a true height
}

// Stack lays things under each other.
func Stack(gap float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&stack{gap: gap}, objects...)
}

func (l *stack) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	h := float32(0)
	for i, o := range visible(objects) {
		if i > 0 {
			h += l.gap
		}
		h += HeightOf(o, width)
	}
	return h
}

func (l *stack) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	y := float32(0)
	for _, o := range visible(objects) {
		h := HeightOf(o, size.Width)
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h + l.gap
	}
}

func (l *stack) MinSize(objects []fyne.CanvasObject) fyne.Size {
	w := float32(0)
	for _, o := range visible(objects) {
		w = max(w, o.MinSize().Width)
	}
	return fyne.NewSize(w, l.heightFor(objects, max(w, l.width)))
}

// flow puts things beside each other and goes on in a new row when one is full.
type flow struct {
	gap, width float32
}

// Flow lays things in rows, each as wide as it wants.
func Flow(gap float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flow{gap: gap}, objects...)
}

func (l *flow) place(objects []fyne.CanvasObject, width float32, put func(o fyne.CanvasObject, x, y, w, h float32)) float32 {
	var row []fyne.CanvasObject
	x, y, high := float32(0), float32(0), float32(0)
	flush := func() {
		at := float32(0)
		for _, o := range row {
			s := o.MinSize()
			w := min(s.Width, width)
			if put != nil {
				put(o, at, y+(high-s.Height)/2, w, s.Height)
			}
			at += w + l.gap
		}
	}
	for _, o := range visible(objects) {
		s := o.MinSize()
		if len(row) > 0 && x+s.Width > width {
			flush()
			y += high + l.gap
			row, x, high = nil, 0, 0
		}
		row = append(row, o)
		x += s.Width + l.gap
		high = max(high, s.Height)
	}
	flush()
	return y + high
}

func (l *flow) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	return l.place(objects, width, nil)
}

func (l *flow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(objects, size.Width, func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	})
}

func (l *flow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	w := float32(0)
	for _, o := range visible(objects) {
		w = max(w, o.MinSize().Width)
	}
	return fyne.NewSize(w, l.heightFor(objects, max(w, l.width)))
}

// columns shares the width among its things by weight. A weight of 0 takes
// what the thing asks for.
type columns struct {
	gap     float32
	weights []float32
	middle  bool // things stand in the middle of the row's height
	width   float32
}

// Columns lays things beside each other; all are as tall as the tallest.
func Columns(gap float32, weights []float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&columns{gap: gap, weights: weights}, objects...)
}

// Line is Columns for a row of small things that stand around one line.
func Line(gap float32, weights []float32, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&columns{gap: gap, weights: weights, middle: true}, objects...)
}

func (l *columns) weight(i int) float32 {
	if i < len(l.weights) {
		return l.weights[i]
	}
	return 0
}

func (l *columns) widths(objects []fyne.CanvasObject, width float32) []float32 {
	out := make([]float32, len(objects))
	left, total := width, float32(0)
	for i, o := range objects {
		if i > 0 {
			left -= l.gap
		}
		if w := l.weight(i); w > 0 {
			total += w
		} else {
			out[i] = o.MinSize().Width
			left -= out[i]
		}
	}
	for i := range objects {
		if w := l.weight(i); w > 0 {
			out[i] = max(left, 0) * w / total
		}
	}
	return out
}

func (l *columns) heightFor(objects []fyne.CanvasObject, width float32) float32 {
	h := float32(0)
	for i, w := range l.widths(objects, width) {
		h = max(h, HeightOf(objects[i], w))
	}
	return h
}

func (l *columns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	x := float32(0)
	for i, w := range l.widths(objects, size.Width) {
		h, y := size.Height, float32(0)
		if l.middle {
			h = HeightOf(objects[i], w)
			y = (size.Height - h) / 2
		}
		objects[i].Move(fyne.NewPos(x, y))
		objects[i].Resize(fyne.NewSize(w, h))
		x += w + l.gap
	}
}

func (l *columns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	w := float32(0)
	for i, o := range objects {
		if i > 0 {
			w += l.gap
		}
		w += o.MinSize().Width
	}
	return fyne.NewSize(w, l.heightFor(objects, max(w, l.width)))
}

// AtLeft keeps a thing at its least width, at the left.
func AtLeft(o fyne.CanvasObject) *fyne.Container { return Flow(0, o) }

// Space is an empty thing that takes room in a row with a weight.
func Space() fyne.CanvasObject { return container.NewWithoutLayout() }

// Page is a scrolled column with a margin: a screen of the guide's side. The
// column is never wider than Wide, so that lines stay readable.
type Page struct {
	widget.BaseWidget
	Wide   float32 // 0 is no limit
	Margin float32 // 0 is look.XL
	scroll *container.Scroll
	column *pageColumn
}

// NewPage makes a page of things under each other.
func NewPage(wide float32, gap float32, objects ...fyne.CanvasObject) *Page {
	p := &Page{Wide: wide}
	p.column = &pageColumn{page: p, body: Stack(gap, objects...)}
	p.column.ExtendBaseWidget(p.column)
	p.scroll = container.NewVScroll(p.column)
	p.scroll.OnScrolled = func(fyne.Position) {
		if scrolled != nil {
			scrolled()
		}
	}
	p.ExtendBaseWidget(p)
	return p
}

// Resize sets the page; the column learns its width first.
func (p *Page) Resize(s fyne.Size) {
	p.column.width = s.Width
	p.BaseWidget.Resize(s)
}

// Relayout measures the column again after something in it grew or shrank.
func (p *Page) Relayout() {
	p.column.Refresh()
	p.scroll.Refresh()
}

// ScrollTo brings a height of the column to the top of the page.
func (p *Page) ScrollTo(y float32) {
	p.scroll.ScrollToOffset(fyne.NewPos(0, y))
}

// Reveal scrolls as little as is needed to bring an object of the page in
// sight.
func (p *Page) Reveal(o fyne.CanvasObject) {
	d := fyne.CurrentApp().Driver()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(p.column).Y
	bottom := top + o.Size().Height
	view, high := p.scroll.Offset.Y, p.scroll.Size().Height
	switch {
	case top-look.L < view:
		p.ScrollTo(max(0, top-look.L))
	case bottom+look.L > view+high:
		p.ScrollTo(min(bottom+look.L-high, p.column.MinSize().Height-high))
	}
}

// Offset tells how far the page is scrolled.
func (p *Page) Offset() float32 { return p.scroll.Offset.Y }

// CreateRenderer shows the scrolled column.
func (p *Page) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.scroll) }

// MinSize lets a page be as small as it has to.
func (p *Page) MinSize() fyne.Size { return fyne.NewSize(240, 160) }

// pageColumn is the inside of a page; its least height is that of its width.
type pageColumn struct {
	widget.BaseWidget
	page  *Page
	body  *fyne.Container
	width float32
}

func (c *pageColumn) margin() float32 {
	if c.page.Margin > 0 {
		return c.page.Margin
	}
	return look.XL
}

func (c *pageColumn) inner(width float32) float32 {
	w := width - 2*c.margin()
	if c.page.Wide > 0 {
		w = min(w, c.page.Wide)
	}
	return max(w, 0)
}

func (c *pageColumn) MinSize() fyne.Size {
	return fyne.NewSize(0, HeightOf(c.body, c.inner(c.width))+2*c.margin())
}

func (c *pageColumn) CreateRenderer() fyne.WidgetRenderer { return &pageRenderer{c: c} }

type pageRenderer struct{ c *pageColumn }

func (r *pageRenderer) Layout(s fyne.Size) {
	m := r.c.margin()
	r.c.body.Move(fyne.NewPos(m, m))
	r.c.body.Resize(fyne.NewSize(r.c.inner(s.Width), max(s.Height-2*m, 0)))
}
func (r *pageRenderer) MinSize() fyne.Size { return r.c.MinSize() }
func (r *pageRenderer) Refresh() {
	r.Layout(r.c.Size())
	r.c.body.Refresh()
}
func (r *pageRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.c.body} }
func (r *pageRenderer) Destroy()                     {}

// snug asks for the width of a text on one line.
type snug struct{}

// Snug keeps words on one line, as wide as they are.
func Snug(w *Words) *fyne.Container {
	return &fyne.Container{Layout: snug{}, Objects: []fyne.CanvasObject{w}}
}

func (snug) MinSize(o []fyne.CanvasObject) fyne.Size {
	w := o[0].(*Words)
	return fyne.NewSize(measure(w.Text, w.size(), w.Style).Width+1, w.line())
}

func (l snug) Layout(o []fyne.CanvasObject, s fyne.Size) {
	h := l.MinSize(o).Height
	o[0].Move(fyne.NewPos(0, (s.Height-h)/2))
	o[0].Resize(fyne.NewSize(s.Width, h))
}

// tight lays a reading text into a margin at the left.
type tight struct{}

// Tight gives a text a margin at its left.
func Tight(o fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: tight{}, Objects: []fyne.CanvasObject{o}}
}

func (tight) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }
func (tight) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Move(fyne.NewPos(look.M, 0))
	o[0].Resize(fyne.NewSize(s.Width-look.M, s.Height))
}

// Gap is an empty thing of a height, for a wider distance in a stack.
func Gap(h float32) fyne.CanvasObject { return AtLeast(0, h, container.NewWithoutLayout()) }

// Add puts one thing more at the end of the page.
func (p *Page) Add(o fyne.CanvasObject) { p.column.body.Add(o) }

// inset moves a thing from the left.
type inset struct{ left float32 }

// Inset moves a thing from the left by a distance.
func Inset(left float32, o fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: inset{left}, Objects: []fyne.CanvasObject{o}}
}

func (l inset) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(l.left, 0)
}
func (l inset) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Move(fyne.NewPos(l.left, 0))
	o[0].Resize(fyne.NewSize(s.Width-l.left, s.Height))
}
func (l inset) heightFor(o []fyne.CanvasObject, w float32) float32 { return HeightOf(o[0], w-l.left) }
