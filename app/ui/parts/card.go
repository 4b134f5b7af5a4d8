package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Sheet is a rounded surface with a padded content: a card on the ground, or
// with another ground.
type Sheet struct {
	widget.BaseWidget
	Fill    fyne.ThemeColorName // "" is the card colour
	Line    bool                // a thin rule around it
	Pad     float32             // 0 is look.L
	Content fyne.CanvasObject
}

// NewCard lays content on a card.
func NewCard(content fyne.CanvasObject) *Sheet {
	s := &Sheet{Content: content, Line: true}
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer draws the sheet.
func (s *Sheet) CreateRenderer() fyne.WidgetRenderer {
	pad := s.Pad
	if pad == 0 {
		pad = look.L
	}
	r := &sheetRenderer{s: s, box: canvas.NewRectangle(nil), in: container.New(layout.NewCustomPaddedLayout(pad, pad, pad, pad), s.Content)}
	r.paint()
	return r
}

type sheetRenderer struct {
	s   *Sheet
	box *canvas.Rectangle
	in  *fyne.Container
}

func (r *sheetRenderer) paint() {
	name := r.s.Fill
	if name == "" {
		name = look.ColourCard
	}
	r.box.FillColor, r.box.CornerRadius = theme.Color(name), look.Radius
	if r.s.Line {
		r.box.StrokeColor, r.box.StrokeWidth = theme.Color(theme.ColorNameSeparator), look.Border
	}
}

func (r *sheetRenderer) MinSize() fyne.Size { return r.in.MinSize() }
func (r *sheetRenderer) Layout(s fyne.Size) { r.box.Resize(s); r.in.Resize(s) }
func (r *sheetRenderer) Refresh() {
	r.paint()
	r.box.Refresh()
	r.in.Refresh()
}
func (r *sheetRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.box, r.in} }
func (r *sheetRenderer) Destroy()                     {}
