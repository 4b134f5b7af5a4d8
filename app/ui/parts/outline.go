package parts

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// The outline is drawn on a sheet of these measures.
const (
	outlineW = 200
	outlineH = 440
)

// contour is the left half of the one plain contour, from the top of the head
// to between the legs: cubic curves, two handles and an end point each. The
// right half mirrors it. Drawn for this program.
var contour = [][6]float64{
	{80, 10, 70, 26, 71, 47},
	{72, 62, 79, 73, 88, 79},
	{90, 86, 90, 92, 85, 96},
	{75, 102, 58, 102, 51, 113},
	{43, 127, 41, 152, 37, 182},
	{34, 207, 29, 222, 26, 239},
	{23, 253, 25, 264, 32, 264},
	{39, 264, 42, 254, 44, 243},
	{49, 219, 55, 196, 61, 163},
	{62, 156, 63, 151, 65, 148},
	{68, 172, 68, 190, 66, 210},
	{63, 231, 61, 246, 62, 268},
	{64, 312, 71, 352, 74, 398},
	{74, 408, 67, 414, 60, 420},
	{56, 427, 62, 430, 71, 430},
	{77, 430, 83, 430, 88, 430},
	{95, 430, 96, 424, 95, 415},
	{94, 382, 97, 322, 100, 280},
}

// spots are the places that can be pointed at on the outline. Places that
// have no spot of their own on a contour seen from the front (back, skin, the
// whole body) and those too small to point at are in the list beside it.
var spots = []struct {
	place string
	x, y  float64
}{
	{"head", 100, 24}, {"face", 100, 56}, {"throat", 100, 90}, {"chest", 100, 132}, {"belly", 100, 200},
	{"arms", 46, 165}, {"arms", 154, 165}, {"hands", 33, 248}, {"hands", 167, 248},
	{"legs", 82, 325}, {"legs", 118, 325}, {"feet", 78, 422}, {"feet", 122, 422},
}

// outlinePath gives the whole contour as an SVG path.
func outlinePath() string {
	var b strings.Builder
	b.WriteString("M100,10")
	for _, c := range contour {
		fmt.Fprintf(&b, " C%v,%v %v,%v %v,%v", c[0], c[1], c[2], c[3], c[4], c[5])
	}
	for i := len(contour) - 1; i >= 0; i-- {
		c := contour[i]
		ex, ey := 100.0, 10.0
		if i > 0 {
			ex, ey = contour[i-1][4], contour[i-1][5]
		}
		fmt.Fprintf(&b, " C%v,%v %v,%v %v,%v", outlineW-c[2], c[3], outlineW-c[0], c[1], outlineW-ex, ey)
	}
	b.WriteString(" Z")
	return b.String()
}

// BodyOutline is one plain contour of a body. A tap opens the nearest place; the
// open place has a small ring. It says no more than the list of places does.
type BodyOutline struct {
	widget.BaseWidget
	OnPlace func(place string)
	open    string
	allowed func(place string) bool
}

var (
	_ fyne.Tappable      = (*BodyOutline)(nil)
	_ desktop.Cursorable = (*BodyOutline)(nil)
)

// NewBodyOutline makes the outline; allowed says which places are on offer.
func NewBodyOutline(open string, allowed func(string) bool, tapped func(string)) *BodyOutline {
	o := &BodyOutline{OnPlace: tapped, open: open, allowed: allowed}
	o.ExtendBaseWidget(o)
	return o
}

// frame gives where the sheet lies in the widget and its scale.
func (o *BodyOutline) frame(s fyne.Size) (x, y, scale float32) {
	scale = min(s.Width/outlineW, s.Height/outlineH)
	return (s.Width - outlineW*scale) / 2, (s.Height - outlineH*scale) / 2, scale
}

// At gives the place nearest to a point of the widget.
func (o *BodyOutline) At(p fyne.Position) string {
	x0, y0, k := o.frame(o.Size())
	best, bestD := "", math.Inf(1)
	for _, s := range spots {
		if o.allowed != nil && !o.allowed(s.place) {
			continue
		}
		if d := math.Hypot(float64((p.X-x0)/k)-s.x, float64((p.Y-y0)/k)-s.y); d < bestD {
			best, bestD = s.place, d
		}
	}
	return best
}

// Tapped opens the nearest place.
func (o *BodyOutline) Tapped(e *fyne.PointEvent) {
	if p := o.At(e.Position); p != "" && o.OnPlace != nil {
		o.OnPlace(p)
	}
}

// Cursor is a hand.
func (o *BodyOutline) Cursor() desktop.Cursor { return desktop.PointerCursor }

// MinSize leaves room to point.
func (o *BodyOutline) MinSize() fyne.Size { return fyne.NewSize(2*look.Answer, 3*look.Answer) }

// CreateRenderer draws the contour.
func (o *BodyOutline) CreateRenderer() fyne.WidgetRenderer {
	r := &outlineRenderer{o: o}
	r.paint()
	return r
}

type outlineRenderer struct {
	o     *BodyOutline
	line  *canvas.Image
	rings []*canvas.Circle
	ink   color.NRGBA
}

func (r *outlineRenderer) paint() {
	p := look.Now()
	if r.line == nil || r.ink != p.Soft {
		r.ink = p.Soft
		svg := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d"><path d="%s" fill="none" stroke="#%02x%02x%02x" stroke-width="2.5" stroke-linejoin="round"/></svg>`,
			outlineW, outlineH, outlinePath(), r.ink.R, r.ink.G, r.ink.B)
		r.line = canvas.NewImageFromResource(fyne.NewStaticResource(fmt.Sprintf("outline-%02x%02x%02x.svg", r.ink.R, r.ink.G, r.ink.B), []byte(svg)))
		r.line.FillMode = canvas.ImageFillContain
	}
	r.rings = r.rings[:0]
	for _, s := range spots {
		if s.place == r.o.open {
			c := canvas.NewCircle(color.Transparent)
			c.StrokeColor, c.StrokeWidth = p.Hue, look.FocusRing
			r.rings = append(r.rings, c)
		}
	}
}

func (r *outlineRenderer) Layout(s fyne.Size) {
	x, y, k := r.o.frame(s)
	r.line.Move(fyne.NewPos(x, y))
	r.line.Resize(fyne.NewSize(outlineW*k, outlineH*k))
	i := 0
	for _, sp := range spots {
		if sp.place != r.o.open {
			continue
		}
		const radius = look.M
		r.rings[i].Move(fyne.NewPos(x+float32(sp.x)*k-radius, y+float32(sp.y)*k-radius))
		r.rings[i].Resize(fyne.NewSquareSize(2 * radius))
		i++
	}
}

func (r *outlineRenderer) MinSize() fyne.Size { return r.o.MinSize() }
func (r *outlineRenderer) Refresh() {
	r.paint()
	r.Layout(r.o.Size())
	canvas.Refresh(r.o)
}
func (r *outlineRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.line}
	for _, c := range r.rings {
		out = append(out, c)
	}
	return out
}
func (r *outlineRenderer) Destroy() {}
