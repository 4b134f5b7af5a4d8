package chart

import (
	"strconv"
	"time"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// The data area reaches below 0 for the row of item numbers and above 100 for
// the key and the names of the phases; the axis itself shows 0 to 100.
const (
	yFloor = -0.13
	yCeil  = 1.29
	yItems = -0.075
	yPhase = 1.07
	yKey   = 1.155
	// yKeyUpper is the upper row of a key that takes two.
	yKeyUpper = 1.245
)

// growth draws the marks of the growth chart.
type growth struct {
	series Series
	words  Words
	ink    Ink
}

var _ plot.Plotter = (*growth)(nil)

// x gives a day as days since 1970, the unit of the x axis.
func x(t time.Time) float64 { return float64(t.Unix()) / 86400 }

// span gives the x range: the sittings with a little air, at least a week.
func (g *growth) span() (lo, hi float64) {
	if len(g.series) == 0 {
		return 0, 7
	}
	lo, hi = x(g.series[0].Day), x(g.series[len(g.series)-1].Day)
	air := max((hi-lo)*0.04, 1)
	if hi-lo < 7 {
		air = (9 - (hi - lo)) / 2
	}
	return lo - air, hi + air
}

// weeks gives ticks on Mondays, thinned so that at most nine are labelled.
func weeks(lo, hi float64, label func(time.Time) string) []plot.Tick {
	first := monday(time.Unix(int64(lo*86400), 0).UTC().Truncate(24 * time.Hour))
	n := int((hi-lo)/7) + 1
	step := (n + 8) / 9
	var out []plot.Tick
	for i := 0; ; i += step {
		d := first.AddDate(0, 0, 7*i)
		if x(d) > hi {
			return out
		}
		if x(d) >= lo {
			out = append(out, plot.Tick{Value: x(d), Label: label(d)})
		}
	}
}

// Plot draws onto the canvas.
func (g *growth) Plot(c draw.Canvas, p *plot.Plot) {
	k := g.ink
	tx, ty := p.Transforms(&c)
	unit := k.Size // every size hangs on the type size
	rule := func(y float64, col bool) {
		w := unit * 0.06
		ink := k.Faint
		if col {
			ink, w = k.Soft, unit*0.09
		}
		c.StrokeLine2(draw.LineStyle{Color: ink, Width: w}, c.Min.X, ty(y), c.Max.X, ty(y))
	}
	for _, y := range []float64{0.25, 0.5, 0.75, 1} {
		rule(y, false)
	}
	rule(0, true)

	if len(g.series) == 0 {
		var t text.Style
		style(&t, k.Soft, unit*1.2, false)
		t.XAlign, t.YAlign = text.XCenter, free
		c.FillText(t, vg.Point{X: (c.Min.X + c.Max.X) / 2, Y: ty(0.625)}, g.words.Nothing)
		return
	}

	for _, ch := range g.series.Changes() {
		at := tx(x(ch.Day))
		c.StrokeLine2(draw.LineStyle{Color: k.Soft, Width: unit * 0.08, Dashes: []vg.Length{unit * 0.4, unit * 0.35}},
			at, ty(0), at, ty(yPhase+0.03))
	}
	g.phases(c, tx, ty)

	bar := unit * 0.55
	for _, s := range g.series {
		if s.Skipped > 0 {
			at, top := tx(s.at), ty(float64(s.Skipped)/float64(s.Shown))
			c.FillPolygon(k.Faint, []vg.Point{{X: at - bar, Y: ty(0)}, {X: at - bar, Y: top}, {X: at + bar, Y: top}, {X: at + bar, Y: ty(0)}})
		}
	}
	for _, seg := range g.series.Segments() {
		pts := make([]vg.Point, len(seg))
		for i, s := range seg {
			pts[i] = vg.Point{X: tx(s.at), Y: ty(float64(s.Fits) / float64(s.Asked))}
			c.StrokeLine2(draw.LineStyle{Color: k.Hue, Width: unit * 0.1}, pts[i].X, ty(s.Low), pts[i].X, ty(s.High))
			for _, e := range []float64{s.Low, s.High} {
				c.StrokeLine2(draw.LineStyle{Color: k.Hue, Width: unit * 0.1}, pts[i].X-unit*0.25, ty(e), pts[i].X+unit*0.25, ty(e))
			}
		}
		c.StrokeLines(draw.LineStyle{Color: k.Hue, Width: unit * 0.16}, pts)
	}
	for _, s := range g.series {
		if s.Helped > 0 {
			g.ring(c, vg.Point{X: tx(s.at), Y: ty(float64(s.HelpedFits) / float64(s.Helped))})
		}
	}
	for _, s := range g.series {
		if s.Asked > 0 {
			g.dot(c, vg.Point{X: tx(s.at), Y: ty(float64(s.Fits) / float64(s.Asked))})
		}
	}
	g.items(c, tx, ty)
	g.key(c, ty)
}

func (g *growth) dot(c draw.Canvas, at vg.Point) {
	c.DrawGlyph(draw.GlyphStyle{Color: g.ink.Hue, Radius: g.ink.Size * 0.42, Shape: draw.CircleGlyph{}}, at)
}

func (g *growth) ring(c draw.Canvas, at vg.Point) {
	c.DrawGlyph(draw.GlyphStyle{Color: g.ink.Ground, Radius: g.ink.Size * 0.34, Shape: draw.CircleGlyph{}}, at)
	c.DrawGlyph(draw.GlyphStyle{Color: g.ink.Soft, Radius: g.ink.Size * 0.36, Shape: draw.RingGlyph{}}, at)
}

// phases writes each phase's name over its own stretch, if there is more than
// one.
func (g *growth) phases(c draw.Canvas, tx, ty func(float64) vg.Length) {
	changes := g.series.Changes()
	if len(changes) == 0 {
		return
	}
	var t text.Style
	style(&t, g.ink.Soft, g.ink.Size*0.95, false)
	t.YAlign = free
	from := c.Min.X
	for i := 0; i <= len(changes); i++ {
		name, to := "", c.Max.X
		if i < len(changes) {
			name, to = changes[i].From, tx(x(changes[i].Day))
		} else {
			name = changes[i-1].To
		}
		t.XAlign = text.XCenter
		if t.Width(name) < to-from {
			c.FillText(t, vg.Point{X: (from + to) / 2, Y: ty(yPhase)}, name)
		}
		from = to
	}
}

// items writes the number of items under each sitting; where two would touch
// the later one is left out.
func (g *growth) items(c draw.Canvas, tx, ty func(float64) vg.Length) {
	var t text.Style
	style(&t, g.ink.Soft, g.ink.Size*0.85, false)
	t.YAlign = free
	t.XAlign = text.XCenter
	taken := c.Min.X - 1000
	for _, s := range g.series {
		word := strconv.Itoa(s.Asked)
		at, half := tx(s.at), t.Width(word)/2+g.ink.Size*0.15
		if at-half < taken {
			continue
		}
		c.FillText(t, vg.Point{X: at, Y: ty(yItems)}, word)
		taken = at + half
	}
}

// key writes what the marks mean over the chart: in one row where the width
// allows, else in two.
func (g *growth) key(c draw.Canvas, ty func(float64) vg.Length) {
	u := g.ink.Size
	var t text.Style
	style(&t, g.ink.Soft, u*0.95, false)
	t.YAlign = free
	type entry struct {
		words string
		mark  func(at vg.Point)
	}
	entries := []entry{{g.words.Alone, func(at vg.Point) {
		g.dot(c, at)
		c.StrokeLine2(draw.LineStyle{Color: g.ink.Hue, Width: u * 0.1}, at.X, at.Y-u*0.7, at.X, at.Y+u*0.7)
	}}}
	if any(g.series, func(p Point) bool { return p.Helped > 0 }) {
		entries = append(entries, entry{g.words.Helped, func(at vg.Point) { g.ring(c, at) }})
	}
	if any(g.series, func(p Point) bool { return p.Skipped > 0 }) {
		entries = append(entries, entry{g.words.Skipped, func(at vg.Point) {
			h := u * 0.45
			c.FillPolygon(g.ink.Faint, []vg.Point{{X: at.X - h, Y: at.Y - h}, {X: at.X - h, Y: at.Y + h}, {X: at.X + h, Y: at.Y + h}, {X: at.X + h, Y: at.Y - h}})
		}})
	}
	entries = append(entries, entry{g.words.Items, nil})
	wide := func(e entry) vg.Length {
		w := t.Width(e.words) + u*1.8
		if e.mark != nil {
			w += u * 0.9
		}
		return w
	}
	total := vg.Length(0)
	for _, e := range entries {
		total += wide(e)
	}
	row := yKey
	if total > c.Max.X-c.Min.X {
		row = yKeyUpper
	}
	at, left := c.Min.X+u*0.5, c.Min.X+u*0.5
	for _, e := range entries {
		if at > left && at+wide(e)-u*1.8 > c.Max.X && row == yKeyUpper {
			at, row = left, yKey
		}
		y := ty(row)
		x := at
		if e.mark != nil {
			e.mark(vg.Point{X: at, Y: y})
			x += u * 0.9
		}
		c.FillText(t, vg.Point{X: x, Y: y}, e.words)
		at += wide(e)
	}
}

func any(s Series, f func(Point) bool) bool {
	for _, p := range s {
		if f(p) {
			return true
		}
	}
	return false
}
