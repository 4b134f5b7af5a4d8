package chart

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

var words = Words{
	Value: "Answered alone and fitting", Alone: "alone", Helped: "with help", Skipped: "skipped",
	Items: "bottom row: answers", Nothing: "Nothing yet",
	Day:     func(t time.Time) string { return t.Format("2 Jan") },
	Percent: func(n int) string { return fmt.Sprintf("%d %%", n) },
}

func day(d int) time.Time { return time.Date(2026, 9, d, 0, 0, 0, 0, time.UTC) } // 7 September 2026 is a Monday

func at(d, fits, asked int, phase string) Point {
	return Point{Day: day(d), Fits: fits, Asked: asked, Low: 0, High: 1, Shown: asked, Phase: phase}
}

// Breaks of the line at a change of phase and across missing sittings: the
// customs of single-case graphs (common practice, see the package comment).
func TestLineBreaks(t *testing.T) {
	lengths := func(s Series) (out []int) {
		for _, g := range s.Segments() {
			out = append(out, len(g))
		}
		return
	}
	require.Equal(t, []int{3}, lengths(Series{at(7, 1, 2, "a"), at(10, 1, 2, "a"), at(17, 1, 2, "a")}), "weeks that follow each other")
	require.Equal(t, []int{1, 1}, lengths(Series{at(13, 1, 2, "a"), at(21, 1, 2, "a")}), "the week from 14 to 20 held no sitting")
	require.Equal(t, []int{2}, lengths(Series{at(7, 1, 2, "a"), at(20, 1, 2, "a")}), "Monday to the Sunday after next: every week has one")
	require.Equal(t, []int{2, 1}, lengths(Series{at(7, 1, 2, "a"), at(8, 1, 2, "a"), at(9, 1, 2, "b")}), "change of phase")
	require.Equal(t, []int{2}, lengths(Series{at(7, 1, 2, "a"), at(8, 0, 0, "a"), at(9, 1, 2, "a")}), "nothing asked carries no point")
	require.Empty(t, lengths(nil))
}

func TestSittingsOfOneDayStandSideBySide(t *testing.T) {
	s := Series{at(7, 1, 2, "a"), at(8, 1, 2, "a"), at(8, 2, 2, "a"), at(8, 0, 2, "a"), at(9, 1, 2, "a")}.spread()
	var days []float64
	for _, p := range s {
		days = append(days, p.at-x(day(7)))
	}
	require.InDeltaSlice(t, []float64{0, 0.7, 1, 1.3, 2}, days, 1e-9)
	require.Equal(t, []int{5}, func() (n []int) {
		for _, g := range s.Segments() {
			n = append(n, len(g))
		}
		return
	}())
}

func TestChangesStandBetweenThePhases(t *testing.T) {
	s := Series{at(7, 1, 2, "a"), at(8, 1, 2, "a"), at(10, 1, 2, "b")}
	require.Equal(t, []Change{{day(9), "a", "b"}}, s.Changes())
}

func TestFullScaleAndMondays(t *testing.T) {
	p, err := Growth(Series{at(7, 1, 4, "a"), at(28, 3, 4, "a")}, words, PaperInk)
	require.NoError(t, err)
	var labels []string
	for _, k := range p.Y.Tick.Marker.Ticks(p.Y.Min, p.Y.Max) {
		labels = append(labels, k.Label)
	}
	require.Equal(t, []string{"0 %", "25 %", "50 %", "75 %", "100 %"}, labels)
	labels = nil
	for _, k := range p.X.Tick.Marker.Ticks(p.X.Min, p.X.Max) {
		labels = append(labels, k.Label)
	}
	require.Equal(t, []string{"7 Sep", "14 Sep", "21 Sep", "28 Sep"}, labels)
	require.LessOrEqual(t, len(weeks(x(day(1)), x(day(800)), words.Day)), 10, "two years of sittings still have readable dates")
}

// The mark of a sitting is where the axes say it is: read off the picture.
func TestMarkLiesAtItsValue(t *testing.T) {
	for _, c := range []struct{ fits, asked int }{{0, 4}, {1, 4}, {1, 2}, {4, 4}} {
		s := at(14, c.fits, c.asked, "a")
		s.Low, s.High = float64(c.fits)/float64(c.asked), float64(c.fits)/float64(c.asked)
		p, err := Growth(Series{s}, words, PaperInk)
		require.NoError(t, err)
		const w, h = 600, 300
		img := Image(p, w, h, 72)
		require.Equal(t, w, img.Bounds().Dx())
		require.Equal(t, h, img.Bounds().Dy())
		cv := p.DataCanvas(draw.New(vgimg.New(w, h)))
		tx, ty := p.Transforms(&cv)
		px, py := int(tx(x(day(14)))), h-int(ty(float64(c.fits)/float64(c.asked)))
		r, g, b, _ := img.At(px, py).RGBA()
		hr, hg, hb, _ := PaperInk.Hue.RGBA()
		require.Equal(t, []uint32{hr, hg, hb}, []uint32{r, g, b}, "%d of %d", c.fits, c.asked)
	}
}

func TestRefusesWhatCannotBeDrawn(t *testing.T) {
	for name, s := range map[string]Series{
		"more than asked":   {at(7, 3, 2, "a")},
		"not in order":      {at(8, 1, 2, "a"), at(7, 1, 2, "a")},
		"no interval":       {{Day: day(7), Fits: 1, Asked: 2, Low: 0.9, High: 0.1}},
		"more than skipped": {{Day: day(7), High: 1, Skipped: 2, Shown: 1}},
	} {
		_, err := Growth(s, words, PaperInk)
		require.Error(t, err, name)
	}
}

func TestEmptyAndSingleSeriesDraw(t *testing.T) {
	for _, s := range []Series{nil, {at(7, 0, 0, "a")}, {at(7, 1, 1, "a")}} {
		p, err := Growth(s, words, PaperInk)
		require.NoError(t, err)
		require.NotNil(t, Image(p, 1, 1, 72))
		require.NotNil(t, Image(p, 900, 300, 144))
	}
}

func TestSavedFilesAreWhatTheySay(t *testing.T) {
	p, err := Growth(Series{at(7, 1, 4, "a"), at(9, 2, 4, "a")}, words, PaperInk)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, PNG(&b, p, 7*vg.Inch, 3*vg.Inch))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	require.Equal(t, 1400, img.Bounds().Dx())
	require.Equal(t, color.NRGBAModel.Convert(color.White), color.NRGBAModel.Convert(img.At(0, 0)))
	b.Reset()
	require.NoError(t, PDF(&b, p, 7*vg.Inch, 3*vg.Inch))
	require.True(t, bytes.HasPrefix(b.Bytes(), []byte("%PDF-")))
	require.Contains(t, b.String(), "Andika", "the font is inside")
}

func BenchmarkImage(b *testing.B) {
	var s Series
	for i := range 100 {
		s = append(s, at(1+i*3, i%8, 8, "a"))
	}
	p, err := Growth(s, words, PaperInk)
	require.NoError(b, err)
	for b.Loop() {
		Image(p, 1600, 700, 144)
	}
}
