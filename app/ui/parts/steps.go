package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Steps shows how far a work has come, as a line that fills. It stands still
// between steps; nothing moves for the sake of moving.
type Steps struct {
	widget.BaseWidget
	done, of int
}

// NewSteps makes an empty line.
func NewSteps() *Steps {
	s := &Steps{}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows that done of all steps are done.
func (s *Steps) Set(done, of int) { s.done, s.of = done, of; s.Refresh() }

// CreateRenderer draws the line.
func (s *Steps) CreateRenderer() fyne.WidgetRenderer {
	r := &stepsRenderer{s: s, base: canvas.NewRectangle(nil), full: canvas.NewRectangle(nil)}
	r.Refresh()
	return r
}

type stepsRenderer struct {
	s          *Steps
	base, full *canvas.Rectangle
}

func (r *stepsRenderer) MinSize() fyne.Size { return fyne.NewSize(120, look.S) }
func (r *stepsRenderer) Layout(z fyne.Size) {
	r.base.Resize(z)
	share := float32(0)
	if r.s.of > 0 {
		share = float32(r.s.done) / float32(r.s.of)
	}
	r.full.Resize(fyne.NewSize(z.Width*share, z.Height))
}
func (r *stepsRenderer) Refresh() {
	p := look.Now()
	r.base.FillColor, r.full.FillColor = p.Sunk, p.Hue
	r.base.CornerRadius, r.full.CornerRadius = look.XS, look.XS
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
}
func (r *stepsRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.base, r.full} }
func (r *stepsRenderer) Destroy()                     {}
