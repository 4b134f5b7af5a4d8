package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Stroke is the shape of an underline. Kinds of things are told apart by shape
// and never by colour.
type Stroke int

// Strokes.
const (
	Single   Stroke = iota // one line
	Double                 // two thin lines
	Dashed                 // long dashes
	Dotted                 // dots
	Wavy                   // small waves
	Brackets               // a thin line with ends turned up
)

// strokeHeight is the room a stroke needs below the letters.
const strokeHeight float32 = 5

// strokeObjects draws a stroke from (x, y) over a width; y is its top. The
// figure is made of plain lines and boxes, so that it is sharp at any scale.
func strokeObjects(s Stroke, x, y, w float32, ink color.Color) []fyne.CanvasObject {
	bar := func(x, y, w, h float32) *canvas.Rectangle {
		r := canvas.NewRectangle(ink)
		r.Move(fyne.NewPos(x, y))
		r.Resize(fyne.NewSize(w, h))
		return r
	}
	var out []fyne.CanvasObject
	switch s {
	case Double:
		out = append(out, bar(x, y, w, 1.25), bar(x, y+3.25, w, 1.25))
	case Dashed:
		const dash, gap = 9, 5
		for at := float32(0); at < w; at += dash + gap {
			out = append(out, bar(x+at, y+1, min(dash, w-at), 2.25))
		}
	case Dotted:
		const dot, gap = 2.75, 3.5
		for at := float32(0); at+dot <= w; at += dot + gap {
			r := bar(x+at, y+1, dot, dot)
			r.CornerRadius = dot / 2
			out = append(out, r)
		}
	case Wavy:
		const half = 4
		up := true
		for at := float32(0); at < w; at += half {
			l := canvas.NewLine(ink)
			l.StrokeWidth = 1.5
			to := min(at+half, w)
			a, b := y+4, y+0.5
			if !up {
				a, b = b, a
			}
			l.Position1, l.Position2 = fyne.NewPos(x+at, a), fyne.NewPos(x+to, b)
			out = append(out, l)
			up = !up
		}
	case Brackets:
		out = append(out, bar(x, y+3, w, 1.25), bar(x, y-2, 1.5, 6), bar(x+w-1.5, y-2, 1.5, 6))
	default:
		out = append(out, bar(x, y+1, w, 2.25))
	}
	return out
}

// StrokeSample shows a stroke on its own, for a key.
type StrokeSample struct {
	widget.BaseWidget
	stroke Stroke
}

// NewStrokeSample makes a sample.
func NewStrokeSample(s Stroke) *StrokeSample {
	w := &StrokeSample{stroke: s}
	w.ExtendBaseWidget(w)
	return w
}

// CreateRenderer draws it.
func (w *StrokeSample) CreateRenderer() fyne.WidgetRenderer {
	return &strokeRenderer{w: w}
}

type strokeRenderer struct {
	w       *StrokeSample
	objects []fyne.CanvasObject
}

func (r *strokeRenderer) MinSize() fyne.Size { return fyne.NewSize(36, 14) }
func (r *strokeRenderer) Layout(s fyne.Size) {
	r.objects = strokeObjects(r.w.stroke, 0, (s.Height-strokeHeight)/2, s.Width, look.Now().Hue)
}
func (r *strokeRenderer) Refresh() {
	r.Layout(r.w.Size())
	canvas.Refresh(r.w)
}
func (r *strokeRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *strokeRenderer) Destroy()                     {}
