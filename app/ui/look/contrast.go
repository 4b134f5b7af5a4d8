package look

import (
	"image/color"
	"math"
)

// Luminance is the relative luminance of an opaque colour, 0 to 1, as WCAG 2.2
// defines it.
func Luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	lin := func(v uint32) float64 {
		x := float64(v) / 0xffff
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b)
}

// Contrast is the WCAG 2.2 contrast ratio of two opaque colours, 1 to 21; the
// order does not matter.
func Contrast(a, b color.Color) float64 {
	x, y := Luminance(a), Luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}
