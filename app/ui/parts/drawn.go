package parts

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Drawn is a picture that is drawn anew for every size, at the true pixels of
// the screen, so that it is always sharp.
type Drawn struct {
	widget.BaseWidget
	// Draw gives the picture at w by h device pixels; scale is device pixels
	// for one unit.
	Draw   func(w, h int, scale float32) image.Image
	Height float32
	raster *canvas.Raster
}

// NewDrawn makes it with a height in units.
func NewDrawn(height float32, draw func(w, h int, scale float32) image.Image) *Drawn {
	d := &Drawn{Draw: draw, Height: height}
	d.raster = canvas.NewRaster(func(w, h int) image.Image {
		scale := float32(1)
		if d.raster.Size().Width > 0 && w > 0 {
			scale = float32(w) / d.raster.Size().Width
		}
		if w <= 0 || h <= 0 || d.Draw == nil {
			return image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
		return d.Draw(w, h, scale)
	})
	d.ExtendBaseWidget(d)
	return d
}

// HeightFor gives the height; it does not hang on the width.
func (d *Drawn) HeightFor(float32) float32 { return d.Height }

// MinSize gives a least width and the height.
func (d *Drawn) MinSize() fyne.Size { return fyne.NewSize(240, d.Height) }

// CreateRenderer shows the picture.
func (d *Drawn) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(d.raster) }
