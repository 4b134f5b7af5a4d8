package ui

import (
	"math"
	"strconv"

	"fyne.io/fyne/v2"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
)

// looks is the choice of how a learner's text is set, with a live sample.
type looks struct {
	object          fyne.CanvasObject
	smaller, larger *parts.Button
}

// lookPicker lets size and spacings be chosen; changed is called after each.
func (p *Program) lookPicker(l *record.Look, changed func()) looks {
	var out looks
	text := say.T("setup.sample")
	sample := newSample(text, *l)
	show := func() {
		sample.set(*l)
		changed()
	}
	step := func(name string, value *float64, by, low, high float64, write func(float64) string) (fyne.CanvasObject, *parts.Button, *parts.Button) {
		now := parts.NewWords(write(*value), look.Text)
		now.Align = fyne.TextAlignCenter
		move := func(by float64) {
			*value = math.Round(max(low, min(high, *value+by))*1000) / 1000
			now.SetText(write(*value))
			show()
		}
		less := parts.NewButton("−", parts.Plain, func() { move(-by) })
		more := parts.NewButton("+", parts.Plain, func() { move(by) })
		for _, b := range []*parts.Button{less, more} {
			b.Type = look.Heading
		}
		row := parts.Line(look.XS, []float32{0, 0, 0}, less, parts.AtLeast(52, look.Target, parts.Snug(now)), more)
		return parts.Stack(look.XS, parts.Snug(parts.NewSoft(name, look.Caption)), row), less, more
	}
	size, less, more := step(say.T("look.size"), &l.SizePt, 2, 14, 40, func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) })
	out.smaller, out.larger = less, more
	hundredths := func(v float64) string { return strconv.Itoa(int(math.Round(v * 100))) }
	letter, _, _ := step(say.T("look.letter"), &l.Letter, 0.02, 0, 0.3, hundredths)
	word, _, _ := step(say.T("look.word"), &l.Word, 0.04, 0, 0.6, hundredths)
	line, _, _ := step(say.T("look.line"), &l.Line, 0.1, 1.2, 2.5, hundredths)
	out.object = parts.Stack(look.M, parts.Flow(look.L, size, letter, word, line), sample.sheet)
	return out
}
