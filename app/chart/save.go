package chart

import (
	"fmt"
	"image"
	"io"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
)

// Image draws the chart at exactly w by h device pixels; dpi is device pixels
// an inch and so sets how large the type comes out.
func Image(p *plot.Plot, w, h int, dpi float64) image.Image {
	c := vgimg.NewWith(
		vgimg.UseImage(image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))),
		vgimg.UseDPI(int(dpi)))
	p.Draw(draw.New(c))
	return c.Image()
}

// PNG writes the chart, w by h points, at 200 pixels an inch.
func PNG(out io.Writer, p *plot.Plot, w, h vg.Length) error {
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(200))}
	p.Draw(draw.New(c))
	if _, err := c.WriteTo(out); err != nil {
		return fmt.Errorf("writing the chart as PNG: %w", err)
	}
	return nil
}

// PDF writes the chart, w by h points, with its fonts inside.
func PDF(out io.Writer, p *plot.Plot, w, h vg.Length) error {
	c := vgpdf.New(w, h)
	c.EmbedFonts(true)
	p.Draw(draw.New(c))
	if _, err := c.WriteTo(out); err != nil {
		return fmt.Errorf("writing the chart as PDF: %w", err)
	}
	return nil
}
