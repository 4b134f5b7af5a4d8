package typeset

import (
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// FontFace measures the letters of a TrueType or OpenType font, without
// hinting, so that a layout is the same at every scale. It remembers what it
// measured and is not safe for use by several goroutines at once.
type FontFace struct {
	font  *sfnt.Font
	buf   sfnt.Buffer
	units fixed.Int26_6
	wide  map[rune]float64
	index map[rune]sfnt.GlyphIndex
	kerns map[[2]rune]float64
}

// NewFontFace reads a font file.
func NewFontFace(ttf []byte) (*FontFace, error) {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, fmt.Errorf("reading the typeface: %w", err)
	}
	return &FontFace{font: f, units: fixed.Int26_6(f.UnitsPerEm()) << 6, wide: map[rune]float64{},
		index: map[rune]sfnt.GlyphIndex{}, kerns: map[[2]rune]float64{}}, nil
}

// Glyph gives the index of a letter's glyph, 0 where the font has none.
func (f *FontFace) Glyph(r rune) sfnt.GlyphIndex {
	i, ok := f.index[r]
	if !ok {
		i, _ = f.font.GlyphIndex(&f.buf, r)
		f.index[r] = i
	}
	return i
}

// Font gives the font itself, to draw with.
func (f *FontFace) Font() *sfnt.Font { return f.font }

// Advance gives the width of a letter in em.
func (f *FontFace) Advance(r rune) float64 {
	w, ok := f.wide[r]
	if !ok {
		if a, err := f.font.GlyphAdvance(&f.buf, f.Glyph(r), f.units, font.HintingNone); err == nil {
			w = float64(a) / float64(f.units)
		}
		f.wide[r] = w
	}
	return w
}

// Kern gives what is added between two letters, in em.
func (f *FontFace) Kern(a, b rune) float64 {
	if a == 0 || a == ' ' {
		return 0
	}
	k, ok := f.kerns[[2]rune{a, b}]
	if !ok {
		if v, err := f.font.Kern(&f.buf, f.Glyph(a), f.Glyph(b), f.units, font.HintingNone); err == nil {
			k = float64(v) / float64(f.units)
		}
		f.kerns[[2]rune{a, b}] = k
	}
	return k
}
