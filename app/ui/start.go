package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/exercises"
)

// showStart is the first run: set up my household, or look around.
func (p *Program) showStart() {
	set := parts.NewButton(say.T("start.set-up"), parts.Main, p.showSetup)
	set.Type = look.Lead
	targets := map[string]fyne.CanvasObject{"set-up": set}
	name := parts.NewWords(say.T("name.program"), look.Display)
	name.Style = fyne.TextStyle{Bold: true}
	name.Colour = theme.ColorNamePrimary
	lead := parts.NewWords(say.T("start.lead"), look.Lead)
	own := card(look.M, head(say.T("start.own")), parts.NewWords(say.T("start.own-more"), look.Text), parts.AtLeft(set))
	choices := parts.Columns(look.L, []float32{1, 1}, own)
	if p.deps.SeedDemo != nil {
		try := parts.NewButton(say.T("start.look-around"), parts.Plain, p.startDemo)
		try.Type = look.Lead
		targets["look-around"] = try
		choices.Add(card(look.M, head(say.T("start.demo")), parts.NewWords(say.T("start.demo-more"), look.Text), parts.AtLeft(try)))
	}
	page := parts.NewPage(900, look.L, name, lead, choices, parts.NewSoft(say.T("start.private"), look.Text), parts.NewSoft(say.T("cautions.short"), look.Text))
	page.Margin = look.XXL
	p.show(view{name: "start", targets: targets, content: page})
}

// startDemo seeds the invented household away from the screen.
func (p *Program) startDemo() {
	wait := parts.NewPage(640, look.L, head(say.T("start.demo-making")))
	wait.Margin = look.XXL
	p.show(view{name: "start-demo", content: wait})
	var err error
	p.house.BackgroundOr(func() { err = p.deps.SeedDemo() }, func() {
		p.forget()
		p.begin()
		if err != nil {
			p.trouble(say.Error(err))
		}
	})
}

// showSetup is the form for one learner. The sample shows the chosen size at
// once.
func (p *Program) showSetup() {
	s := p.setup
	nick := parts.NewField(say.T("setup.nickname"), say.T("setup.nickname-more"), "")
	nick.SetText(s.Nickname)
	nick.Entry.OnChanged = func(t string) { s.Nickname = t }

	modes := []exercises.AnswerMode{exercises.ByTap, exercises.BySpeak, exercises.ByPoint}
	at := 0
	labels := make([]string, len(modes))
	for i, m := range modes {
		labels[i] = say.T("setup.mode." + string(m))
		if m == s.Mode {
			at = i
		}
	}
	mode := parts.NewPick(labels, at, func(i int) { s.Mode = modes[i] })

	var page *parts.Page
	setting := p.lookPicker(&s.Look, func() { page.Relayout() })

	words := parts.NewLongField(say.T("setup.words"), say.T("setup.words-more"), say.T("setup.words-hint"), 3)
	words.SetText(s.Words)
	words.Entry.OnChanged = func(t string) { s.Words = t }

	problem := parts.NewWords("", look.Text)
	problem.Style = fyne.TextStyle{Bold: true}
	problem.Hide()
	back := parts.NewButton(say.T("dialog.back"), parts.Plain, func() {
		if len(p.learners) == 0 {
			p.showStart()
		} else {
			p.open(tabHousehold)
		}
	})
	keep := parts.NewButton(say.T("setup.keep"), parts.Main, nil)
	keep.OnTapped = func() {
		// The invented household makes room for a real one: its shelf is marked
		// as read by somebody who does not exist.
		if p.demo && s.Named() {
			if err := p.deps.Store.RemoveDemo(); err != nil {
				p.trouble(say.Error(err))
				return
			}
			p.demo = false
		}
		l, err := s.Keep(p.house)
		if err != nil {
			problem.SetText(s.Trouble)
			problem.Show()
			page.Relayout()
			p.win.Canvas().Focus(nick.Entry)
			p.now.facts = map[string]string{"trouble": s.Trouble}
			p.Tell()
			return
		}
		p.setup = model.NewSetup()
		err = p.house.FillShelf(p.deps.Shelf)
		if e := p.deps.Store.SetSetting(model.SettingLearner, l.ID); err == nil {
			err = e
		}
		p.forget()
		p.begin()
		if err != nil {
			p.trouble(say.Error(err))
		}
	}
	nick.Entry.OnSubmitted = func(string) { keep.OnTapped() }
	left := parts.Stack(look.L, nick,
		parts.Stack(look.XS, bold(say.T("setup.mode")), parts.NewSoft(say.T("setup.mode-more"), look.Caption), mode),
		words)
	right := parts.Stack(look.S, bold(say.T("setup.look")), setting.object)
	page = parts.NewPage(1120, look.L,
		title(say.T("setup.title"), say.T("setup.under")),
		parts.Columns(look.XL, []float32{1, 1}, left, right),
		p.demoGoes(),
		problem,
		parts.Flow(look.M, keep, back),
	)
	targets := map[string]fyne.CanvasObject{"nickname": nick.Entry, "words": words.Entry, "keep": keep, "back": back, "larger": setting.larger, "smaller": setting.smaller}
	for i, m := range modes {
		targets["mode-"+string(m)] = mode.Button(i)
	}
	p.show(view{name: "set-up", targets: targets, content: page, focus: nick.Entry})
}

// demoGoes says that the invented household is removed by setting up a real
// one; without an invented one it is an empty thing.
func (p *Program) demoGoes() fyne.CanvasObject {
	w := parts.NewSoft("", look.Text)
	if p.demo {
		w.SetText(say.T("setup.demo-goes"))
	} else {
		w.Hide()
	}
	return w
}

func bold(text string) *parts.Words {
	w := parts.NewWords(text, look.Text)
	w.Style = fyne.TextStyle{Bold: true}
	return w
}
