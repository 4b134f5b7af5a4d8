package look

import (
	"fmt"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
)

// The formula is that of WCAG 2.2 ("contrast ratio", "relative luminance").
// Outside values: #767676 is the lightest grey that reaches 4.5:1 on white, at
// 4.54:1, and red on white is 4.00:1 (both widely published); 21:1 is the
// greatest ratio by definition.
func TestContrastAgreesWithPublishedValues(t *testing.T) {
	white := rgb(0xffffff)
	for _, c := range []struct {
		a, b uint32
		want float64
	}{
		{0x777777, 0xffffff, 4.478},
		{0x767676, 0xffffff, 4.542},
		{0x595959, 0xffffff, 7.005},
		{0xff0000, 0xffffff, 3.998},
		{0x000000, 0xffffff, 21},
		{0x333333, 0xfff8e7, 11.93},
	} {
		require.InDelta(t, c.want, Contrast(rgb(c.a), rgb(c.b)), 0.006, "%06x on %06x", c.a, c.b)
		require.Equal(t, Contrast(rgb(c.a), rgb(c.b)), Contrast(rgb(c.b), rgb(c.a)))
	}
	require.Equal(t, 1.0, Contrast(white, white))
}

// Text at 7:1 (WCAG 1.4.6, AAA), controls, chosen marks and the focus ring at
// 3:1 (1.4.11, 2.4.13).
func TestPalettesHoldContrast(t *testing.T) {
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		grounds := map[string]color.Color{"ground": p.Ground, "card": p.Card, "sunk": p.Sunk, "aside": p.Aside, "tint": p.Tint, "lit": p.Lit}
		for g, ground := range grounds {
			require.GreaterOrEqual(t, Contrast(p.Ink, ground), 7.0, "%s: ink on %s", name, g)
			require.GreaterOrEqual(t, Contrast(p.Hue, ground), 3.0, "%s: hue on %s", name, g)
			if g != "tint" {
				require.GreaterOrEqual(t, Contrast(p.Soft, ground), 7.0, "%s: soft on %s", name, g)
				require.GreaterOrEqual(t, Contrast(p.Edge, ground), 3.0, "%s: edge on %s", name, g)
			}
		}
		require.GreaterOrEqual(t, Contrast(p.OnHue, p.Hue), 7.0, name)
		require.GreaterOrEqual(t, Contrast(p.OnHue, p.Deep), 7.0, name)
	}
}

func hueOf(c color.NRGBA) (degrees, chroma float64) {
	r, g, b := float64(c.R), float64(c.G), float64(c.B)
	hi, lo := max(r, g, b), min(r, g, b)
	d := hi - lo
	if d == 0 {
		return 0, 0
	}
	switch hi {
	case r:
		degrees = 60 * (g - b) / d
	case g:
		degrees = 60 * (2 + (b-r)/d)
	default:
		degrees = 60 * (4 + (r-g)/d)
	}
	if degrees < 0 {
		degrees += 360
	}
	return degrees, d / 255
}

// One hue and neutrals: any colour with more than a breath of chroma lies
// within a narrow arc of the hue.
func TestOneHueAndNeutrals(t *testing.T) {
	for name, p := range map[string]Palette{"light": Light, "dark": Dark} {
		home, _ := hueOf(p.Hue)
		for _, c := range []color.NRGBA{p.Ground, p.Card, p.Sunk, p.Aside, p.Ink, p.Soft, p.Edge, p.Rule, p.OnHue, p.Deep, p.Tint, p.Lit} {
			h, chroma := hueOf(c)
			if chroma > 0.11 {
				require.InDelta(t, home, h, 12, "%s: %v", name, c)
			}
		}
	}
}

func TestThemeAnswersEveryNameOfFyne(t *testing.T) {
	for _, m := range []Mode{AsSystem, AlwaysLight, AlwaysDark} {
		th := New(m)
		for _, v := range []fyne.ThemeVariant{theme.VariantLight, theme.VariantDark} {
			p := th.Palette(v)
			require.Equal(t, p.Ground, th.Color(theme.ColorNameBackground, v))
			require.Equal(t, p.Ink, th.Color(theme.ColorNameForeground, v))
			require.Equal(t, p.Ink, th.Color(theme.ColorNameError, v), "no colour says wrong")
			require.Equal(t, p.Hue, th.Color(theme.ColorNameFocus, v))
		}
	}
	require.Equal(t, Light, New(AlwaysLight).Palette(theme.VariantDark))
	require.Equal(t, Dark, New(AsSystem).Palette(theme.VariantDark))
	for _, s := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}} {
		require.Contains(t, New(AsSystem).Font(s).Name(), "Andika", fmt.Sprint(s))
	}
	require.Equal(t, Text, New(AsSystem).Size(theme.SizeNameText))
}

func TestMeasuresKeepTheGrid(t *testing.T) {
	for _, v := range []float32{XS, S, M, L, XL, XXL} {
		require.Zero(t, int(v)%4)
	}
	// WCAG 2.2, 2.5.5: 44 by 44 CSS pixels.
	require.GreaterOrEqual(t, Target, float32(44))
	require.GreaterOrEqual(t, Answer, float32(96))
	require.GreaterOrEqual(t, FocusRing, float32(2), "WCAG 2.4.13")
	require.InDelta(t, 26.667, PointsToUnits(20), 0.001)
}
