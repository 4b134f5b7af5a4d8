package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
)

// ask shows a sheet over the window with its buttons at the foot. It is taken
// away by any of them and by Escape, which is the same as the first.
func (p *Program) ask(name string, content fyne.CanvasObject, buttons ...*parts.Button) (close func()) {
	before := p.now
	row := parts.Flow(look.M)
	targets := map[string]fyne.CanvasObject{}
	for i, b := range buttons {
		row.Add(b)
		targets[name+"-"+[]string{"no", "yes", "more"}[min(i, 2)]] = b
	}
	pop := parts.NewModal(parts.Stack(look.L, content, row))
	done := false
	close = func() {
		if done {
			return
		}
		done = true
		pop.Close()
		p.now = before
		p.win.Canvas().SetOnTypedKey(before.key)
		p.Tell()
	}
	for _, b := range buttons {
		then := b.OnTapped
		b.OnTapped = func() {
			close()
			if then != nil {
				then()
			}
		}
	}
	pop.ShowOn(p.win.Canvas())
	facts := map[string]string{}
	for k, v := range before.facts {
		facts[k] = v
	}
	p.now = view{name: name, facts: facts, targets: targets, content: before.content, rail: false}
	p.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) {
		if e.Name == fyne.KeyEscape {
			buttons[0].Tapped(nil)
		}
	})
	p.win.Canvas().Focus(buttons[len(buttons)-1])
	p.Tell()
	return close
}

// trouble says one calm sentence about what did not work.
func (p *Program) trouble(sentence string) {
	if sentence == "" {
		return
	}
	ok := parts.NewButton(say.T("dialog.understood"), parts.Main, nil)
	p.ask("trouble", parts.NewWords(sentence, look.Lead), ok)
	p.now.facts["trouble"] = sentence
	p.Tell()
}

// confirm asks once before something that cannot be undone.
func (p *Program) confirm(question, more, yes string, then func()) {
	no := parts.NewButton(say.T("dialog.leave"), parts.Plain, nil)
	do := parts.NewButton(yes, parts.Main, then)
	p.ask("confirm", parts.Stack(look.S, head(question), parts.NewWords(more, look.Text)), no, do)
}
