package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// showToday shows the day of one learner in three blocks.
func (p *Program) showToday() {
	p.tab = tabToday
	var t *model.Today
	t = model.NewToday(p.house, p.who(), p.families, func() {
		if t != nil && p.tab == tabToday && p.now.rail {
			p.drawToday(t)
		}
	})
	t.Note = p.notes[p.who().ID]
	p.drawToday(t)
}

func (p *Program) drawToday(t *model.Today) {
	targets := map[string]fyne.CanvasObject{}
	facts := map[string]string{"story": t.Story(), "ready": "no", "waiting": model.Number(t.Waiting())}
	objects := []fyne.CanvasObject{
		parts.Line(look.M, []float32{1, 0}, title(say.T("today.title"), ""), parts.Snug(parts.NewSoft(model.DayName(p.house.Today()), look.Text))),
		p.todayRead(t, targets, facts),
		p.todayBefore(t, targets),
		p.todaySince(t, targets),
	}
	if t.Trouble != "" {
		facts["trouble"] = t.Trouble
		objects = append([]fyne.CanvasObject{objects[0], parts.NewWords(t.Trouble, look.Text)}, objects[1:]...)
	}
	v := view{name: "today", facts: facts, targets: targets, content: parts.NewPage(960, look.M, objects...)}
	if b, ok := targets["start"].(*parts.Button); ok {
		v.focus = b
	}
	p.guide(v)
}

// todayRead is the first block: what to read, and Start.
func (p *Program) todayRead(t *model.Today, targets map[string]fyne.CanvasObject, facts map[string]string) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("today.read", say.S{"name": t.Learner().Nickname})))
	switch {
	case t.Busy != "":
		block.Add(parts.NewSoft(t.Busy, look.Text))
	case t.None() != "":
		shelf := parts.NewButton(say.T("today.to-shelf"), parts.Main, func() { p.open(tabShelf) })
		targets["to-shelf"] = shelf
		row := parts.Flow(look.M, shelf)
		block.Add(parts.NewWords(t.None(), look.Text))
		block.Add(row)
		if t.Again() != "" {
			again := parts.NewButton(say.T("today.again", say.S{"title": t.Again()}), parts.Plain, func() {
				if r, err := t.RequestAgain(); err == nil {
					p.sit(r)
				}
			})
			targets["again"] = again
			row.Add(again)
			block.Add(parts.NewSoft(say.T("today.again-more"), look.Caption))
		}
	case t.Story() != "":
		facts["ready"] = "yes"
		name := parts.NewWords(t.Story(), look.Heading)
		name.Leading = 1.25
		left := parts.Stack(look.M, parts.Stack(look.XS, name, parts.NewSoft(t.Why(), look.Text)))
		for _, m := range t.Passages() {
			left.Add(parts.Stack(0, parts.NewWords(m.Name, look.Text), parts.NewSoft(m.Why, look.Caption)))
		}
		label := say.T("today.start")
		if t.GoesOn() {
			label = say.T("today.go-on")
		}
		start := parts.NewButton(label, parts.Main, func() { p.startSitting(t, record.Teaching) })
		start.Type, start.MinH, start.MinW = look.Heading, look.Answer, startWide
		short := parts.NewButton(say.T("today.short"), parts.Plain, func() { p.startSitting(t, record.Short) })
		short.MinW = startWide
		targets["start"], targets["short"] = start, short
		right := parts.Stack(look.M, start, short, parts.NewSoft(say.T("today.short-more"), look.Caption))
		block.Add(parts.Columns(look.L, []float32{1, 0}, left, right))
		if kind := t.Measure(); kind != "" {
			measure := parts.NewButton(say.T("today.measure."+string(kind)), parts.Plain, func() { p.startSitting(t, kind) })
			targets["measure"] = measure
			block.Add(parts.Line(look.M, []float32{1, 0}, parts.NewSoft(say.T("today.measure-more."+string(kind), say.S{"name": t.Learner().Nickname}), look.Caption), measure))
		}
	}
	return parts.NewCard(block)
}

// startWide is the width of Start.
const startWide float32 = 232

func (p *Program) startSitting(t *model.Today, kind record.SittingKind) {
	r, err := t.Request(kind)
	if err != nil {
		p.trouble(say.T("today.none.unread"))
		return
	}
	p.sit(r)
}

// todayBefore is the second block: words to talk about first, and how the
// learner's body is today.
func (p *Program) todayBefore(t *model.Today, targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("today.before")))
	need := t.Need()
	switch {
	case t.Busy != "":
	case len(need) == 0 && t.Story() != "":
		block.Add(parts.NewSoft(say.T("today.need-none"), look.Text))
	case len(need) > 0:
		var names []string
		for _, n := range need {
			names = append(names, n.Name)
		}
		text := parts.NewWords(say.T("today.need", say.S{"feelings": model.And(names), "name": t.Learner().Nickname}), look.Text)
		row := parts.Flow(look.S)
		for _, n := range need {
			b := parts.NewButton(say.T("today.need-open", say.S{"feeling": n.Name}), parts.Plain, func() { p.openWords(n.Family) })
			targets["need-"+n.Family] = b
			row.Add(b)
		}
		if len(need) == 1 {
			block.Add(parts.Line(look.M, []float32{1, 0}, text, row))
		} else {
			block.Add(text)
			block.Add(row)
		}
	}
	note := parts.NewField(say.T("today.note", say.S{"name": t.Learner().Nickname}), "", say.T("today.note-more"))
	note.SetText(t.Note)
	id := t.Learner().ID
	note.Entry.OnChanged = func(s string) {
		t.Note, t.Kept = s, false
		p.notes[id] = s
	}
	keep := parts.NewButton(say.T("today.note-keep"), parts.Plain, func() {
		t.KeepNote(nil)
		p.notes[id] = t.Note
	})
	note.Entry.OnSubmitted = func(string) { keep.Tapped(nil) }
	targets["note"], targets["note-keep"] = note.Entry, keep
	block.Add(parts.Columns(look.S, []float32{1, 0}, note, parts.Bottom(keep)))
	if t.Kept {
		block.Add(parts.NewSoft(say.T("today.note-kept"), look.Caption))
	}
	return parts.NewCard(block)
}

// todaySince is the third block: the last sitting in one sentence, and what
// waits for the guide's eye.
func (p *Program) todaySince(t *model.Today, targets map[string]fyne.CanvasObject) fyne.CanvasObject {
	block := parts.Stack(look.M, head(say.T("today.since")), parts.NewWords(t.Since(), look.Text))
	if n := t.Waiting(); n > 0 {
		b := parts.NewButton(say.T("today.waiting-open"), parts.Plain, func() { p.showAnswers(true) })
		targets["waiting"] = b
		block.Add(parts.Line(look.M, []float32{1, 0}, parts.NewWords(model.Count("today.waiting", n), look.Text), b))
	}
	return parts.NewCard(block)
}
