package parts

import (
	"image"
	"image/color"
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"feltpage/app/andika"
	"feltpage/app/ui/parts/typeset"
)

// quarters is how finely a letter is placed between two pixels.
const quarters = 4

// inker draws letters of the typeface into a picture. Each letter is drawn
// once for a size and a place between two pixels, and copied from then on.
type inker struct {
	mu    sync.Mutex
	face  font.Face
	px    float64
	masks map[inkKey]inkMask
}

type inkKey struct {
	r   rune
	sub int
}

type inkMask struct {
	alpha *image.Alpha // nil where nothing is seen
	at    image.Point  // of the mask's corner, from the whole pixel of the origin
}

// readFace measures the reading view's letters. It is used on the interface
// goroutine only.
var readFace = sync.OnceValue(func() *typeset.FontFace {
	f, err := typeset.NewFontFace(andika.Regular)
	if err != nil {
		panic(err) // the embedded file is read in every test of this package
	}
	return f
})

// size makes the inker ready for letters of px pixels.
func (k *inker) size(px float64) error {
	if k.face != nil && k.px == px {
		return nil
	}
	face, err := opentype.NewFace(readFace().Font(), &opentype.FaceOptions{Size: px, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return err
	}
	k.face, k.px, k.masks = face, px, map[inkKey]inkMask{}
	return nil
}

func (k *inker) mask(r rune, sub int) inkMask {
	key := inkKey{r, sub}
	m, ok := k.masks[key]
	if ok {
		return m
	}
	box, img, at, _, ok := k.face.Glyph(fixed.Point26_6{X: fixed.Int26_6(sub * 64 / quarters)}, r)
	if ok && !box.Empty() {
		m = inkMask{alpha: image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy())), at: box.Min}
		for y := range box.Dy() {
			for x := range box.Dx() {
				_, _, _, a := img.At(at.X+x, at.Y+y).RGBA()
				m.alpha.Pix[y*m.alpha.Stride+x] = uint8(a >> 8)
			}
		}
	}
	k.masks[key] = m
	return m
}

// page draws the letters of one page, w by h pixels, on nothing.
func (k *inker) page(s *typeset.Set, page int, w, h int, scale float64, ink color.NRGBA) *image.RGBA {
	k.mu.Lock()
	defer k.mu.Unlock()
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	if page >= len(s.Pages) || k.size(s.Style.Size*scale) != nil {
		return dst
	}
	p := s.Pages[page]
	for _, g := range s.Glyphs {
		if g.Line < p.First || g.Line >= p.End {
			continue
		}
		x := g.X*scale + 1.0/(2*quarters)
		whole := math.Floor(x)
		m := k.mask(g.Rune, int((x-whole)*quarters))
		if m.alpha == nil {
			continue
		}
		y := int(math.Round(s.Lines[g.Line].Baseline * scale))
		blot(dst, m, int(whole)+m.at.X, y+m.at.Y, ink)
	}
	return dst
}

// blot lays ink through a mask over what is there.
func blot(dst *image.RGBA, m inkMask, x0, y0 int, ink color.NRGBA) {
	b := m.alpha.Rect
	for y := range b.Dy() {
		dy := y0 + y
		if dy < 0 || dy >= dst.Rect.Dy() {
			continue
		}
		for x := range b.Dx() {
			dx := x0 + x
			a := uint32(m.alpha.Pix[y*m.alpha.Stride+x])
			if a == 0 || dx < 0 || dx >= dst.Rect.Dx() {
				continue
			}
			p := dst.Pix[dy*dst.Stride+dx*4:]
			p = p[:4:4]
			over := func(i int, c uint8) { p[i] = uint8((uint32(c)*a + uint32(p[i])*(255-a) + 127) / 255) }
			over(0, ink.R)
			over(1, ink.G)
			over(2, ink.B)
			over(3, 255)
		}
	}
}
