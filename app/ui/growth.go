package ui

import (
	"image"
	"io"

	"fyne.io/fyne/v2"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"

	"feltpage/app/chart"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// screenInk is the ink of the growth chart in the look that is on.
func screenInk(size vg.Length) chart.Ink {
	p := look.Now()
	return chart.Ink{Ground: p.Card, Text: p.Ink, Soft: p.Soft, Faint: p.Rule, Hue: p.Hue, Size: size}
}

// showGrowth shows what the answers of one learner say, and how surely.
func (p *Program) showGrowth() {
	p.tab = tabGrowth
	g := model.NewGrowth(p.house, p.who(), p.families)
	targets := map[string]fyne.CanvasObject{}
	facts := map[string]string{"sentence": g.Sentence(), "waiting": model.Number(g.Waiting()), "sittings": model.Number(len(g.Series())), "trouble": g.Trouble}

	sentence := parts.NewWords(g.Sentence(), look.Lead)
	top := parts.Stack(look.S, sentence)
	for _, more := range []string{g.Doubt(), g.Agreement(), g.Blind()} {
		if more != "" {
			top.Add(parts.NewSoft(more, look.Text))
		}
	}
	png := parts.NewButton(say.T("growth.save-png"), parts.Plain, func() {
		p.saveChart(g, ".png", func(w io.Writer, c *plot.Plot) error { return chart.PNG(w, c, model.ChartWide, model.ChartHigh) })
	})
	pdf := parts.NewButton(say.T("growth.save-pdf"), parts.Plain, func() {
		p.saveChart(g, ".pdf", func(w io.Writer, c *plot.Plot) error { return chart.PDF(w, c, model.ChartWide, model.ChartHigh) })
	})
	answers := parts.NewButton(say.T("growth.answers"), parts.Plain, func() { p.showAnswers(false) })
	targets["save-png"], targets["save-pdf"], targets["answers"] = png, pdf, answers
	row := parts.Flow(look.M, answers, png, pdf)
	if n := g.Waiting(); n > 0 {
		wait := parts.NewButton(say.T("growth.waiting", say.S{"n": model.Number(n)}), parts.Plain, func() { p.showAnswers(true) })
		targets["waiting"] = wait
		row.Objects = append([]fyne.CanvasObject{wait}, row.Objects...)
	}
	if g.Empty() {
		png.Disable()
		pdf.Disable()
	}
	page := parts.NewPage(1400, look.L,
		title(say.T("growth.title", say.S{"name": p.who().Nickname}), ""),
		top,
		parts.NewCard(growthChart(g)),
		row,
	)
	shares := []fyne.CanvasObject{
		sharesCard(say.T("growth.by-step"), g.ByStep()),
		sharesCard(say.T("growth.by-kind"), g.ByKind()),
	}
	if !g.Empty() {
		page.Add(p.phaseLines(g, targets))
		page.Add(parts.Columns(look.L, []float32{1, 1}, shares...))
		page.Add(parts.Columns(look.L, []float32{1, 1}, sharesCard(say.T("growth.by-feeling"), g.ByFeeling()), wordsCard(g)))
		page.Add(parts.NewSoft(say.T("growth.how-counted"), look.Caption))
	}
	p.guide(view{name: "growth", facts: facts, targets: targets, content: page})
}

// phaseLines lets the guide part the weeks before from the weeks after, under a
// name, and take such a line off again.
func (p *Program) phaseLines(g *model.Growth, targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	do := func(err error) {
		if err != nil {
			p.trouble(say.Error(err))
			return
		}
		p.open(tabGrowth)
	}
	name := parts.NewField(say.T("growth.line"), say.T("growth.line-more"), "")
	add := parts.NewButton(say.T("growth.line-draw"), parts.Plain, func() { do(g.DrawLine(name.Text())) })
	name.Entry.OnSubmitted = func(string) { add.Tapped(nil) }
	targets["line"], targets["line-draw"] = name.Entry, add
	block := parts.Stack(look.S, parts.Columns(look.S, []float32{1, 0}, name, parts.Bottom(add)))
	for _, l := range g.Lines() {
		off := parts.NewButton(say.T("growth.line-off"), parts.Quiet, func() { do(g.TakeLine(l.ID)) })
		block.Add(parts.Line(look.S, []float32{1, 0}, parts.NewSoft(say.T("growth.line-at", say.S{"day": model.DayName(l.On), "name": l.Label}), look.Text), off))
		block.Add(parts.NewSoft(g.Across(l), look.Caption))
	}
	return parts.NewCard(block)
}

// growthChart draws the chart anew for every size, at the pixels of the screen.
func growthChart(g *model.Growth) fyne.CanvasObject {
	return parts.NewDrawn(360, func(w, h int, scale float32) image.Image {
		// The type on the chart is as large as captions are: pixels of the
		// screen over 96 to the inch, times its scale.
		c, err := chart.Growth(g.Series(), g.Words(), screenInk(vg.Length(look.Caption)*72/96))
		if err != nil {
			return image.NewRGBA(image.Rect(0, 0, w, h))
		}
		return chart.Image(c, w, h, float64(96*scale))
	})
}

func sharesCard(name string, shares []model.Share) fyne.CanvasObject {
	block := parts.Stack(look.M, head(name))
	if len(shares) == 0 {
		block.Add(parts.NewSoft(say.T("growth.share-none"), look.Text))
	}
	for _, s := range shares {
		r := parts.NewRange(0, s.Low, s.Hi)
		if s.N > 0 {
			r.At = float64(s.X) / float64(s.N)
		} else {
			r.None = true
		}
		text := s.Text
		if s.Standing > 0 {
			text = say.T("growth.share-skips", say.S{"share": s.Text, "skips": model.Count("count.skip", s.Standing)})
		}
		block.Add(parts.Stack(0, parts.Columns(look.M, []float32{1, 1}, parts.NewWords(s.Name, look.Text), r), parts.NewSoft(text, look.Caption)))
	}
	return parts.NewCard(block)
}

func wordsCard(g *model.Growth) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("growth.words-title")), parts.NewWords(g.WordsText(), look.Text))
	if free := g.FreeWords(); len(free) > 0 {
		block.Add(parts.NewSoft(say.T("growth.words-free", say.S{"words": model.And(free)}), look.Text))
	}
	return parts.NewCard(block)
}

// saveChart asks where to and writes the chart there.
func (p *Program) saveChart(g *model.Growth, ext string, write func(io.Writer, *plot.Plot) error) {
	p.saveFile(fileName(say.T("growth.file", say.S{"name": p.who().Nickname}))+ext, func(w io.Writer) error {
		words := g.Words()
		words.Title = say.T("growth.chart-title", say.S{"name": p.who().Nickname})
		c, err := chart.Growth(g.Series(), words, chart.PaperInk)
		if err != nil {
			return err
		}
		return write(w, c)
	})
}
