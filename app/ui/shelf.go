package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// showShelf lists the stories, with search, order, and the way to add one.
func (p *Program) showShelf() {
	p.tab = tabShelf
	if p.shelf == nil {
		p.shelf = model.NewShelf(p.house)
	} else {
		p.shelf.Changed = func() {}
		p.shelf.Reload()
	}
	s := p.shelf
	targets := map[string]fyne.CanvasObject{}
	facts := map[string]string{}

	add := parts.NewButton(say.T("shelf.add"), parts.Main, func() { p.showAdding() })
	search := parts.NewField("", "", say.T("shelf.search"))
	search.SetText(s.Words())
	orders := []string{say.T("shelf.order.easy"), say.T("shelf.order.title"), say.T("shelf.order.short")}
	list := parts.Stack(0)
	count := parts.NewSoft("", look.Caption)
	var page *parts.Page
	fill := func() {
		list.Objects = nil
		for k := range targets {
			if len(k) > 6 && k[:6] == "story-" {
				delete(targets, k)
			}
		}
		rows := s.Rows()
		for _, r := range rows {
			under := say.T("shelf.row", say.S{"band": r.Band, "minutes": r.Minutes})
			row := parts.NewRow(r.Story.Title, under, shelfEnd(r), func() { p.showStory(r.Story) })
			row.Type = look.Lead
			list.Add(row)
			targets["story-"+r.Story.Title] = row
		}
		switch {
		case len(rows) == 0 && s.All() == 0:
			count.SetText(say.T("shelf.empty"))
		case len(rows) == 0:
			count.SetText(say.T("shelf.none-found", say.S{"words": s.Words()}))
		case len(rows) == s.All():
			count.SetText(model.Count("shelf.count", len(rows)))
		default:
			count.SetText(model.Count("shelf.found", len(rows)))
		}
		facts["stories"] = model.Number(len(rows))
		if page != nil {
			page.Relayout()
			p.Tell()
		}
	}
	s.Changed = fill
	search.Entry.OnChanged = s.Search
	order := parts.NewPick(orders, int(s.Order()), func(i int) { s.SortBy(model.ShelfOrder(i)) })
	tray := parts.NewCard(list)
	tray.Pad = look.S
	fill()
	targets["add-story"], targets["search"] = add, search.Entry
	page = parts.NewPage(960, look.L,
		parts.Line(look.M, []float32{1, 0}, title(say.T("shelf.title"), say.T("shelf.under")), add),
		parts.Stack(look.M, search, order),
		parts.Stack(look.S, count, tray),
	)
	if s.Trouble != "" {
		facts["trouble"] = s.Trouble
	}
	p.guide(view{name: "shelf", facts: facts, targets: targets, content: page})
}

// shelfEnd is the note at the end of a story's row.
func shelfEnd(r model.StoryRow) string {
	switch {
	case r.Ready:
		return say.T("shelf.read-by-you")
	case r.Own:
		return say.T("shelf.own-unread")
	}
	return say.T("shelf.unread")
}
