// Package chart turns series into plots. A chart is defined once, as a
// *plot.Plot made from numbers, and the same definition goes to the screen, to
// a PNG and to a PDF. It holds no sentence of its own: the words on a chart
// come in with it.
//
// The growth chart follows the customs of single-case graphs: time at equal
// intervals on x, the full 0 to 100 on y, every sitting a marker, the line
// broken at a change of phase and across weeks without a sitting, phases
// labelled, the number of items shown, prompted and unprompted answers apart.
package chart

import (
	"errors"
	"fmt"
	"image/color"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"feltpage/app/andika"

	"golang.org/x/image/font/opentype"
)

// Typeface is the name under which Andika is registered with the plots.
const Typeface = "Andika"

// fonts is our own cache, so that no global of the plotting library changes.
var fonts = func() *font.Cache {
	c := font.NewCache(nil)
	for _, f := range []struct {
		ttf    []byte
		weight int
	}{{andika.Regular, 0}, {andika.Bold, 1}} {
		face, err := opentype.Parse(f.ttf)
		if err != nil {
			panic(err) // an embedded file; its own package's test reads it
		}
		fnt := font.Font{Typeface: Typeface, Variant: "Sans"}
		if f.weight == 1 {
			fnt.Weight = 2 // bold
		}
		c.Add(font.Collection{{Font: fnt, Face: face}})
	}
	return c
}()

// Point is one sitting.
type Point struct {
	Day         time.Time // the local date, as midnight UTC
	Fits, Asked int       // fitting, of those answered alone and marked
	Low, High   float64   // 95 % interval of Fits/Asked, 0 to 1
	HelpedFits  int       // fitting, of those answered with a prompt
	Helped      int
	Skipped     int // skipped or stood aside, of Shown
	Shown       int
	Phase       string // name of the phase as it is to be written

	at float64 // on the x axis; set by spread
}

// Series is what the growth chart shows, in order of day.
type Series []Point

// Words are the words on the growth chart.
type Words struct {
	Title, Value   string // the title may be empty; Value stands beside the y axis
	Alone, Helped  string // the key
	Skipped, Items string
	Day            func(time.Time) string
	Percent        func(int) string
	Nothing        string // shown instead of the chart's marks when there is none
}

// Ink is the colours and the size: one hue and neutrals.
type Ink struct {
	Ground, Text, Soft, Faint, Hue color.Color
	Size                           vg.Length // of the axis numbers
}

// PaperInk is the ink of print: dark on white.
var PaperInk = Ink{
	Ground: color.White,
	Text:   color.Gray{0x22},
	Soft:   color.Gray{0x59}, // 7.005:1 on white
	Faint:  color.Gray{0xD0},
	Hue:    color.NRGBA{0x1F, 0x4E, 0x5F, 0xFF},
	Size:   10,
}

// Missing is the longest gap in days over which two sittings are joined. A
// gap that holds a whole week, Monday to Sunday, without a sitting breaks the
// line whatever its length.
const Missing = 13

// dayShare is how much of a day the sittings of that day are spread over, so
// that each can be seen.
const dayShare = 0.6

// spread gives the series with each sitting's place on the x axis: its day,
// and side by side where one day has several.
func (s Series) spread() Series {
	out := append(Series(nil), s...)
	for i := 0; i < len(out); {
		j := i
		for j < len(out) && out[j].Day.Equal(out[i].Day) {
			j++
		}
		for k := i; k < j; k++ {
			out[k].at = x(out[k].Day)
			if n := j - i; n > 1 {
				out[k].at += dayShare * (float64(k-i)/float64(n-1) - 0.5)
			}
		}
		i = j
	}
	return out
}

// Segments cuts the series where the line has to break: at a change of phase
// and across missing weeks. Sittings with nothing asked carry no point.
func (s Series) Segments() [][]Point {
	var out [][]Point
	var last *Point
	for i := range s {
		p := s[i]
		if p.Asked == 0 {
			continue
		}
		if last == nil || last.Phase != p.Phase || missed(last.Day, p.Day) {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], p)
		last = &s[i]
	}
	return out
}

// missed reports whether a whole calendar week lies between a and b.
func missed(a, b time.Time) bool {
	if b.Sub(a) > Missing*24*time.Hour {
		return true
	}
	return monday(b).Sub(monday(a)) > 7*24*time.Hour
}

// monday gives the Monday of the day's week.
func monday(t time.Time) time.Time {
	return t.AddDate(0, 0, -(int(t.Weekday())+6)%7)
}

// Change is a change of phase: the line stands at Day, half way between the
// last sitting of the one and the first of the other.
type Change struct {
	Day  time.Time
	From string
	To   string
}

// Changes lists the changes of phase.
func (s Series) Changes() []Change {
	var out []Change
	for i := 1; i < len(s); i++ {
		if s[i].Phase != s[i-1].Phase {
			mid := s[i-1].Day.Add(s[i].Day.Sub(s[i-1].Day) / 2)
			out = append(out, Change{mid, s[i-1].Phase, s[i].Phase})
		}
	}
	return out
}

// check refuses a series that cannot be drawn.
func (s Series) check() error {
	for i, p := range s {
		switch {
		case p.Fits > p.Asked || p.Fits < 0 || p.HelpedFits > p.Helped || p.Skipped > p.Shown:
			return fmt.Errorf("chart: sitting %d counts more than it asked", i)
		case p.Low > p.High || p.Low < 0 || p.High > 1:
			return fmt.Errorf("chart: sitting %d has no interval", i)
		case i > 0 && p.Day.Before(s[i-1].Day):
			return errors.New("chart: sittings are not in order of day")
		}
	}
	return nil
}

// Growth makes the growth chart. An empty series gives the empty axes with
// the words for it.
func Growth(s Series, w Words, k Ink) (*plot.Plot, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	p := plot.New()
	p.BackgroundColor = k.Ground
	p.TextHandler = text.Plain{Fonts: fonts}

	g := &growth{series: s.spread(), words: w, ink: k}
	style(&p.Title.TextStyle, k.Text, k.Size*1.3, true)
	p.Title.Text = w.Title
	p.Title.Padding = k.Size * 0.6
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		style(&a.Label.TextStyle, k.Soft, k.Size, false)
		style(&a.Tick.Label, k.Soft, k.Size, false)
		a.LineStyle.Width = 0
		a.Tick.LineStyle.Width = 0
		a.Tick.Length = 0
		a.Padding = k.Size * 0.5
	}
	p.Y.Tick.Label.YAlign = middle
	p.Y.Label.Text = w.Value
	p.Y.Min, p.Y.Max = yFloor, yCeil
	p.Y.Tick.Marker = plot.TickerFunc(func(_, _ float64) []plot.Tick {
		var out []plot.Tick
		for v := 0; v <= 100; v += 25 {
			out = append(out, plot.Tick{Value: float64(v) / 100, Label: w.Percent(v)})
		}
		return out
	})
	p.X.Min, p.X.Max = g.span()
	p.X.Tick.Marker = plot.TickerFunc(func(lo, hi float64) []plot.Tick {
		if len(s) == 0 {
			return nil // no sitting, no date
		}
		return weeks(lo, hi, w.Day)
	})
	p.Add(g)
	return p, nil
}

// style sets one text style in our face.
func style(t *text.Style, c color.Color, size vg.Length, bold bool) {
	t.Color = c
	t.Font = font.Font{Typeface: Typeface, Variant: "Sans", Size: size}
	if bold {
		t.Font.Weight = 2
	}
	t.Handler = text.Plain{Fonts: fonts}
}

// middle is the vertical alignment that sets small letters of this typeface,
// which has much room above them, around the line.
const middle = text.YAlignment(-0.3)

// free is the same for words written by ourselves, which the library places by
// their baseline.
const free = text.YAlignment(-0.1)
