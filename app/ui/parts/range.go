package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Range shows a share between 0 and 1 with the range it likely lies in: a dot
// on a line.
type Range struct {
	widget.BaseWidget
	At, Low, High float64
	None          bool // nothing to show
}

// NewRange makes it.
func NewRange(at, low, high float64) *Range {
	r := &Range{At: at, Low: low, High: high}
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer draws it.
func (r *Range) CreateRenderer() fyne.WidgetRenderer {
	x := &rangeRenderer{r: r, base: canvas.NewRectangle(nil), span: canvas.NewRectangle(nil), dot: canvas.NewCircle(color.Transparent)}
	x.Refresh()
	return x
}

type rangeRenderer struct {
	r          *Range
	base, span *canvas.Rectangle
	dot        *canvas.Circle
}

func (x *rangeRenderer) MinSize() fyne.Size { return fyne.NewSize(120, look.L) }
func (x *rangeRenderer) Layout(s fyne.Size) {
	const dot = 12
	w := s.Width - dot
	mid := s.Height / 2
	x.base.Move(fyne.NewPos(dot/2, mid-1))
	x.base.Resize(fyne.NewSize(w, 2))
	x.span.Move(fyne.NewPos(dot/2+w*float32(x.r.Low), mid-2.5))
	x.span.Resize(fyne.NewSize(w*float32(x.r.High-x.r.Low), 5))
	x.dot.Move(fyne.NewPos(w*float32(x.r.At), mid-dot/2))
	x.dot.Resize(fyne.NewSize(dot, dot))
}

func (x *rangeRenderer) Refresh() {
	p := look.Now()
	x.base.FillColor, x.span.FillColor, x.span.CornerRadius, x.dot.FillColor = p.Rule, p.Tint, 2.5, p.Hue
	if x.r.None {
		x.span.FillColor, x.dot.FillColor = color.Transparent, color.Transparent
	} else {
		x.span.StrokeColor, x.span.StrokeWidth = p.Hue, 1
	}
	x.Layout(x.r.Size())
	canvas.Refresh(x.r)
}
func (x *rangeRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{x.base, x.span, x.dot}
}
func (x *rangeRenderer) Destroy() {}
