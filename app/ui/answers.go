package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/exercises"
)

// marks are the marks that a guide can give.
var marks = []exercises.MarkValue{exercises.Fits, exercises.Near, exercises.NotYet, exercises.Unmarked}

// answersAtOnce is how many answers a page of the list holds.
const answersAtOnce = 40

// showAnswers lists the answers with their marks; waiting shows those alone
// that are left to the guide.
func (p *Program) showAnswers(waiting bool) {
	p.tab = tabGrowth
	g := model.NewGrowth(p.house, p.who(), p.families)
	targets := map[string]fyne.CanvasObject{}
	facts := map[string]string{}
	list := parts.Stack(look.M)
	under := parts.NewSoft("", look.Text)
	var page *parts.Page
	most := answersAtOnce
	var fill func()
	fill = func() {
		all := g.Answers()
		if waiting {
			all = g.WaitingAnswers()
		}
		list.Objects = nil
		for i, a := range all {
			if i == most {
				b := parts.NewButton(say.T("answers.more"), parts.Plain, func() { most += answersAtOnce; fill() })
				targets["more"] = b
				list.Add(parts.AtLeft(b))
				break
			}
			list.Add(p.answer(g, a, i, targets))
		}
		switch {
		case len(all) == 0 && waiting:
			under.SetText(say.T("answers.none-waiting"))
		case len(all) == 0:
			under.SetText(say.T("answers.none"))
		default:
			under.SetText(say.T("answers.under"))
		}
		facts["answers"] = model.Number(len(all))
		if page != nil {
			page.Relayout()
			p.Tell()
		}
	}
	g.Changed = fill
	fill()
	back := parts.NewButton(say.T("answers.back"), parts.Plain, func() { p.open(tabGrowth) })
	which := 0
	if waiting {
		which = 1
	}
	pick := parts.NewPick([]string{say.T("answers.all"), say.T("answers.waiting")}, which, func(i int) { p.showAnswers(i == 1) })
	targets["back"] = back
	page = parts.NewPage(960, look.L,
		parts.Line(look.M, []float32{1, 0}, title(say.T("answers.title", say.S{"name": p.who().Nickname}), ""), back),
		pick, under, list)
	p.guide(view{name: "answers", facts: facts, targets: targets, content: page})
}

// answer shows one answer with the marks to give.
func (p *Program) answer(g *model.Growth, a model.Given, n int, targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	meta := say.T("answers.meta", say.S{"day": model.DayName(a.Day), "story": a.Story, "step": say.T("step.name." + string(a.Marked.Step.Kind)), "how": a.How})
	block := parts.Stack(look.S, parts.NewSoft(meta, look.Caption), parts.NewWords(a.Asked, look.Text))
	said := parts.NewWords(a.Said, look.Lead)
	block.Add(said)
	switch {
	case a.Blind:
		block.Add(parts.NewSoft(say.T("answers.blind"), look.Caption))
	case a.Why != "":
		block.Add(parts.NewSoft(a.Why, look.Caption))
	}
	row := parts.Flow(look.S)
	for _, m := range marks {
		b := parts.NewButton(say.T("mark.value."+string(m)), parts.Plain, func() {
			if err := g.MarkAs(a.ID, m); err != nil {
				p.trouble(say.Error(err))
			}
		})
		b.Chosen = !a.Blind && a.Mark == m
		targets["mark-"+model.Number(n)+"-"+string(m)] = b
		row.Add(b)
	}
	block.Add(row)
	whose := ""
	switch {
	case a.Blind:
	case a.Guide != "" && a.Program != "" && a.Guide != a.Program:
		whose = say.T("answers.by-you-other", say.S{"program": say.T("mark.value." + string(a.Program))})
	case a.Guide != "":
		whose = say.T("answers.by-you")
	case a.Program == exercises.ForGuide:
		whose = say.T("answers.left-to-you")
	case a.Program != "":
		whose = say.T("answers.by-program")
	}
	if whose != "" {
		block.Add(parts.NewSoft(whose, look.Caption))
	}
	return parts.NewCard(block)
}
