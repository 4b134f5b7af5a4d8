package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Modal lays a sheet over the whole window. What is under it is dimmed and
// cannot be pressed.
type Modal struct {
	widget.BaseWidget
	Wide    float32 // width of the sheet; 0 is 520
	content *Page
	body    fyne.CanvasObject
	sheet   *Sheet
	canvas  fyne.Canvas
}

var _ fyne.Tappable = (*Modal)(nil)

// NewModal makes it; Show puts it on a canvas.
func NewModal(body fyne.CanvasObject) *Modal {
	m := &Modal{Wide: 520, body: body, content: NewPage(0, 0, body)}
	m.content.Margin = look.XL
	m.sheet = NewCard(m.content)
	m.sheet.Pad = 1
	m.ExtendBaseWidget(m)
	return m
}

// ShowOn shows it over a canvas.
func (m *Modal) ShowOn(c fyne.Canvas) {
	m.canvas = c
	m.Resize(c.Size())
	c.Overlays().Add(m)
}

// Close takes it away.
func (m *Modal) Close() {
	if m.canvas != nil {
		m.canvas.Overlays().Remove(m)
	}
}

// Tapped catches taps beside the sheet.
func (m *Modal) Tapped(*fyne.PointEvent) {}

// CreateRenderer draws the dimmed window and the sheet.
func (m *Modal) CreateRenderer() fyne.WidgetRenderer {
	return &modalRenderer{m: m, dim: canvas.NewRectangle(color.NRGBA{A: 0x4c})}
}

type modalRenderer struct {
	m   *Modal
	dim *canvas.Rectangle
}

func (r *modalRenderer) MinSize() fyne.Size { return fyne.NewSize(0, 0) }
func (r *modalRenderer) Layout(s fyne.Size) {
	r.dim.Resize(s)
	w := min(r.m.Wide, s.Width-look.XL)
	h := min(HeightOf(r.m.body, w-2*look.XL-2)+2*look.XL+2, s.Height-look.XL)
	r.m.sheet.Resize(fyne.NewSize(w, h))
	r.m.sheet.Move(fyne.NewPos((s.Width-w)/2, (s.Height-h)/2.4))
}
func (r *modalRenderer) Refresh() {
	r.Layout(r.m.Size())
	r.m.sheet.Refresh()
	canvas.Refresh(r.m)
}
func (r *modalRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.dim, r.m.sheet}
}
func (r *modalRenderer) Destroy() {}
