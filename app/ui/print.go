package ui

import (
	"errors"
	"io"

	"fyne.io/fyne/v2"

	"feltpage/app/print"
	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// papers are the sizes to choose from.
var papers = []print.Paper{print.A4, print.Letter}

// showPrint offers what can go on paper: the growth report, and a story's
// passages for use away from the computer.
func (p *Program) showPrint() {
	p.tab = tabPrint
	targets := map[string]fyne.CanvasObject{}
	kept, _ := p.deps.Store.Setting(model.SettingPaper)
	at := 0
	for i, x := range papers {
		if string(x) == kept {
			at = i
		}
	}
	paper := parts.NewPick([]string{say.T("print.a4"), say.T("print.letter")}, at, func(i int) {
		if err := p.deps.Store.SetSetting(model.SettingPaper, string(papers[i])); err != nil {
			p.trouble(say.Error(err))
		}
	})
	report := parts.NewButton(say.T("print.report-save"), parts.Plain, func() {
		p.saveFile(fileName(say.T("growth.file", say.S{"name": p.who().Nickname}))+".pdf", func(w io.Writer) error {
			return p.writeReport(w, papers[paper.At()])
		})
	})
	targets["report"] = report

	block := parts.Stack(look.M, head(say.T("print.story")), parts.NewSoft(say.T("print.story-more"), look.Text))
	rows := p.printable()
	if len(rows) == 0 {
		block.Add(parts.NewWords(say.T("today.none.unread"), look.Text))
	} else {
		var names []string
		for _, s := range rows {
			names = append(names, s.Title)
		}
		chosen := 0
		menu := parts.NewMenu(names, 0, func(i int) { chosen = i })
		save := parts.NewButton(say.T("print.story-save"), parts.Plain, func() {
			s := rows[chosen]
			sheets, err := p.house.Sheets(p.who(), s, p.families)
			if err == nil && len(sheets.Sheets) == 0 {
				err = print.ErrNothing
			}
			if errors.Is(err, print.ErrNothing) {
				p.trouble(say.T("print.story-none", say.S{"title": s.Title}))
				return
			}
			if err != nil {
				p.trouble(say.Error(err))
				return
			}
			p.saveFile(fileName(say.T("print.story-file", say.S{"title": s.Title}))+".pdf", func(w io.Writer) error {
				return sheets.Write(w, papers[paper.At()])
			})
		})
		targets["story"], targets["story-save"] = menu.Select, save
		block.Add(parts.Columns(look.M, []float32{1, 0}, menu, save))
	}
	p.guide(view{name: "print", targets: targets, content: parts.NewPage(880, look.L,
		title(say.T("print.title"), say.T("print.under")),
		card(look.M, head(say.T("print.report", say.S{"name": p.who().Nickname})), parts.NewSoft(say.T("print.report-more"), look.Text), parts.AtLeft(report)),
		parts.NewCard(block),
		card(look.M, head(say.T("print.paper")), paper),
	)})
}

// writeReport writes the growth report of the learner whose screens are open.
func (p *Program) writeReport(w io.Writer, paper print.Paper) error {
	r, err := model.NewGrowth(p.house, p.who(), p.families).Report(p.house.Now())
	if err != nil {
		return err
	}
	return r.Write(w, paper)
}

// printable lists the stories that the guide has read.
func (p *Program) printable() []record.Story {
	var out []record.Story
	all, err := p.deps.Store.Stories()
	if err != nil {
		return nil
	}
	for _, s := range all {
		if !s.Away && s.ReadOn != "" {
			out = append(out, s)
		}
	}
	return out
}
