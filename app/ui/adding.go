package ui

import (
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// showAdding takes in a new story. The model outlives the screen, so what was
// pasted is still here when the guide comes back.
func (p *Program) showAdding() {
	p.tab = tabShelf
	if p.adding == nil || p.adding.Done != nil {
		p.adding = model.NewAdding(p.house)
	}
	a := p.adding
	targets := map[string]fyne.CanvasObject{}
	facts := map[string]string{}

	name := parts.NewField(say.T("adding.title-asks"), say.T("adding.title-more"), "")
	from := parts.NewField(say.T("adding.from-asks"), say.T("adding.from-more"), say.T("adding.from-hint"))
	text := parts.NewLongField(say.T("adding.text-asks"), say.T("adding.text-more"), "", 11)
	status := parts.NewWords("", look.Text)
	status.Style = fyne.TextStyle{Bold: true}
	open := parts.NewButton(say.T("adding.open"), parts.Plain, func() { p.openFile(a) })
	add := parts.NewButton(say.T("adding.add"), parts.Main, func() { a.Add() })
	steps, remarks := parts.NewSteps(), parts.NewWords("", look.Text)
	stop := parts.NewButton(say.T("adding.stop"), parts.Plain, func() { a.Cancel() })
	back := parts.NewButton(say.T("dialog.back"), parts.Quiet, func() { p.showShelf() })
	name.Entry.OnChanged = func(s string) { a.Title = s }
	from.Entry.OnChanged = func(s string) { a.Source = s }
	text.Entry.OnChanged = func(s string) { a.Text = s }
	text.SetText(a.Text)
	name.SetText(a.Title)
	from.SetText(a.Source)
	row := parts.Flow(look.M, add, stop, back)
	var page *parts.Page
	fill := func() {
		if a.Done != nil && a.Trouble == "" {
			s := *a.Done
			p.adding = nil
			p.showStory(s)
			return
		}
		if text.Text() != a.Text {
			text.SetText(a.Text)
		}
		if name.Text() != a.Title {
			name.SetText(a.Title)
		}
		facts["busy"], facts["trouble"] = a.Busy, a.Trouble
		status.SetText(a.Busy + a.Trouble)
		steps.Set(a.Stage, a.Stages)
		if a.Busy != "" && a.Stages > 0 {
			steps.Show()
		} else {
			steps.Hide()
		}
		if a.Busy != "" {
			stop.Show()
			add.Hide()
			open.Disable()
		} else {
			stop.Hide()
			add.Show()
			open.Enable()
		}
		remarks.SetText(strings.Join(a.Remarks, "\n"))
		if len(a.Remarks) == 0 {
			remarks.Hide()
		} else {
			remarks.Show()
		}
		if a.Busy+a.Trouble == "" {
			status.Hide()
		} else {
			status.Show()
		}
		if page != nil {
			page.Relayout()
			p.Tell()
		}
	}
	a.Changed = fill
	fill()
	targets["title"], targets["from"], targets["text"] = name.Entry, from.Entry, text.Entry
	targets["open-file"], targets["add"], targets["stop"], targets["back"] = open, add, stop, back
	page = parts.NewPage(880, look.L,
		title(say.T("adding.title"), say.T("adding.under")),
		parts.Stack(look.S, text, parts.AtLeft(open)),
		parts.Columns(look.L, []float32{1, 1}, name, from),
		parts.Stack(look.S, remarks, status, steps),
		row,
	)
	p.guide(view{name: "add-story", facts: facts, targets: targets, content: page, focus: text.Entry})
}

// openFile lets the guide choose a text file.
func (p *Program) openFile(a *model.Adding) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err != nil {
			p.trouble(say.Error(err))
			return
		}
		if r == nil {
			return
		}
		a.OpenReader(filepath.Base(r.URI().Path()), func() (io.ReadCloser, error) { return r, nil })
	}, p.win)
	d.SetFilter(storage.NewExtensionFileFilter([]string{".txt", ".text", ".md"}))
	d.Resize(fyne.NewSize(820, 560))
	d.Show()
}

// dropped takes in a file that was dropped on the window, on any screen of the
// guide's side; during a sitting it does nothing.
func (p *Program) dropped(files []fyne.URI) {
	if !p.now.rail || len(files) == 0 {
		return
	}
	p.showAdding()
	p.adding.OpenFile(files[0].Path())
}
