package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/nlp"
)

// strokes gives each kind of clue its line.
var strokes = map[string]parts.Stroke{
	nlp.Named: parts.Double, nlp.Body: parts.Single, nlp.FaceVoice: parts.Dashed,
	nlp.Action: parts.Dotted, nlp.Speech: parts.Wavy, nlp.Situation: parts.Brackets,
}

// kinds is the kinds of clue from easy to hard.
var kinds = []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}

// storyScreen is one story as the guide reads it.
type storyScreen struct {
	p       *Program
	page    *model.StoryPage
	text    *parts.MarkedText
	side    *fyne.Container // the finding and its keys
	sidePg  *parts.Page
	moments *fyne.Container
	top     *fyne.Container
	targets map[string]fyne.CanvasObject
	facts   map[string]string
	marks   []int // finding of each mark
	shown   bool
}

// showStory opens a story's page.
func (p *Program) showStory(s record.Story) {
	p.tab = tabShelf
	w := &storyScreen{p: p, targets: map[string]fyne.CanvasObject{}, facts: map[string]string{}}
	w.text = parts.NewMarkedText(look.Lead)
	w.text.OnChosen = func(i int) { w.finding(w.marks[i]) }
	w.text.OnKey = func(k fyne.KeyName) {
		if i := w.text.Chosen(); i >= 0 && (k == fyne.KeyDelete || k == fyne.KeyBackspace || k == fyne.KeyReturn) {
			w.turn(w.marks[i], k == fyne.KeyReturn)
		}
	}
	w.side, w.moments, w.top = parts.Stack(look.M), parts.Stack(look.S), parts.Stack(look.S)
	w.page = model.NewStoryPage(p.house, s, p.families, func() {
		if w.page != nil {
			w.fill()
		}
	})
	w.fill()
	w.sidePg = parts.NewPage(0, look.L, w.side, w.moments)
	w.sidePg.Margin = look.L
	split := container.New(&storyLayout{}, parts.Tight(w.text), w.sidePg)
	top := container.New(layout.NewCustomPaddedLayout(look.L, look.S, look.XL, look.XL), w.top)
	w.shown = true
	p.guide(view{name: "story", facts: w.facts, targets: w.targets, content: container.New(&topLayout{}, top, split), focus: w.text.Focus()})
}

// fill shows what the page knows now.
func (w *storyScreen) fill() {
	s := w.page.Story()
	w.facts["title"], w.facts["trouble"] = s.Title, w.page.Trouble
	w.facts["ready"] = "no"
	if w.page.Ready() {
		w.facts["ready"] = "yes"
	}
	back := parts.NewButton(say.T("story.back"), parts.Quiet, func() { w.p.showShelf() })
	tick := parts.NewTick(say.T("story.ready"), w.page.Ready(), func(on bool) { w.page.SetReady(on) })
	w.targets["back"], w.targets["ready"] = back, tick
	name := parts.NewWords(s.Title, look.Heading)
	name.Leading = 1.25
	name.Style = fyne.TextStyle{Bold: true}
	w.top.Objects = []fyne.CanvasObject{
		parts.Line(look.M, []float32{1, 0, 0}, name, tick, back),
		parts.NewSoft(w.page.Facts()+" · "+w.page.Origin(), look.Caption),
	}
	for _, r := range w.page.Remarks() {
		w.top.Add(parts.NewWords(r, look.Caption))
	}
	if notes := w.page.Notes(); len(notes) > 0 {
		row := parts.Flow(look.S, parts.Snug(parts.NewSoft(say.T("story.notes"), look.Caption)))
		for i, n := range notes {
			b := parts.NewButton(n.Text, parts.Quiet, func() { w.text.ShowPassage(n.Span.Start, n.Span.End) })
			b.Type = look.Caption
			w.targets["note-"+model.Number(i)] = b
			row.Add(b)
		}
		w.top.Add(row)
	}
	if w.page.Reading() == nil {
		w.text.SetText(s.Text, nil)
	} else {
		w.setMarks(s.Text)
	}
	at := -1 // what was being looked at stays
	if i := w.text.Chosen(); i >= 0 && i < len(w.marks) {
		at = w.marks[i]
	}
	w.finding(at)
	w.fillMoments()
	w.facts["findings"] = model.Number(len(w.page.Findings()))
	w.facts["moments"] = model.Number(len(w.page.Moments()))
	w.facts["busy"] = w.page.Busy
	w.refresh()
}

func (w *storyScreen) setMarks(text string) {
	var marks []parts.MarkOf
	w.marks = nil
	for i, f := range w.page.Findings() {
		at := f.Cue.Span
		marks = append(marks, parts.MarkOf{Start: at.Start, End: at.End, Stroke: strokes[f.Cue.Kind], Aside: f.Dropped})
		w.marks = append(w.marks, i)
	}
	if w.text.Text() == text {
		w.text.SetMarks(marks)
	} else {
		w.text.SetText(text, marks)
	}
}

func (w *storyScreen) refresh() {
	if !w.shown {
		return
	}
	w.sidePg.Relayout()
	w.p.root.Relayout()
	w.p.Tell()
}

// finding shows one finding at the side; -1 shows the key to the lines.
func (w *storyScreen) finding(i int) {
	w.side.Objects = nil
	switch {
	case w.page.Trouble != "":
		again := parts.NewButton(say.T("story.again"), parts.Plain, func() { w.page.Again() })
		w.targets["again"] = again
		w.side.Add(card(look.M, parts.NewWords(w.page.Trouble, look.Text), parts.AtLeft(again)))
	case w.page.Busy != "":
		stop := parts.NewButton(say.T("adding.stop"), parts.Plain, func() { w.page.Cancel() })
		w.targets["stop"] = stop
		w.side.Add(card(look.M, parts.NewWords(w.page.Busy, look.Text), parts.AtLeft(stop)))
	case i < 0:
		w.side.Add(w.key())
	default:
		w.side.Add(w.one(i))
	}
	w.facts["finding"] = model.Number(i)
	w.refresh()
}

// key says what the lines under the text mean.
func (w *storyScreen) key() fyne.CanvasObject {
	n := len(w.page.Findings())
	if n == 0 {
		return card(look.S, head(say.T("story.no-clues")), parts.NewWords(w.page.WhyNone(), look.Text))
	}
	count := map[string]int{}
	for _, f := range w.page.Findings() {
		count[f.Cue.Kind]++
	}
	block := parts.Stack(look.S, head(model.Count("story.clues", n)), parts.NewSoft(say.T("story.clues-more"), look.Text))
	for _, k := range kinds {
		if count[k] > 0 {
			block.Add(parts.Line(look.M, []float32{0, 1, 0}, parts.NewStrokeSample(strokes[k]), parts.NewWords(say.T("clue.kind."+k), look.Text),
				parts.Snug(parts.NewSoft(model.Number(count[k]), look.Caption))))
		}
	}
	return parts.NewCard(block)
}

// one shows one finding: whose, what it shows, why it was found, how sure.
func (w *storyScreen) one(i int) fyne.CanvasObject {
	f := w.page.Findings()[i]
	quote := parts.NewWords(say.T("quote", say.S{"words": f.Words}), look.Lead)
	quote.Style = fyne.TextStyle{Bold: true}
	block := parts.Stack(look.M,
		parts.Line(look.M, []float32{0, 1}, parts.NewStrokeSample(strokes[f.Cue.Kind]), parts.NewSoft(f.Kind, look.Caption)),
		quote)
	fact := func(label, text string) {
		if text != "" {
			block.Add(parts.Stack(0, parts.NewSoft(label, look.Caption), parts.NewWords(text, look.Text)))
		}
	}
	if people := w.page.People(); len(people) > 1 || len(people) == 1 && f.Owner == "" {
		block.Add(w.whose(i, people))
	} else {
		fact(say.T("story.label.whose"), f.Whose)
	}
	fact(say.T("story.label.shows"), f.Shows)
	fact(say.T("story.label.where"), f.Where)
	fact(say.T("story.label.why"), f.Why)
	fact(say.T("story.label.sure"), f.Sure)
	label, do := say.T("story.drop"), func() { w.page.Drop(i); w.again(i) }
	if f.Dropped {
		label, do = say.T("story.keep"), func() { w.page.Keep(i); w.again(i) }
		block.Add(parts.NewSoft(say.T("story.dropped"), look.Text))
	}
	b := parts.NewButton(label, parts.Plain, do)
	w.targets["drop"] = b
	block.Add(parts.AtLeft(b))
	return parts.NewCard(block)
}

// whose shows whose a finding is, and lets the guide give it to another.
func (w *storyScreen) whose(i int, people []string) fyne.CanvasObject {
	f := w.page.Findings()[i]
	at := -1
	for n, name := range people {
		if name == f.Owner {
			at = n
		}
	}
	menu := parts.NewMenu(people, at, func(n int) {
		if n >= 0 {
			w.page.Give(i, people[n])
			w.again(i)
		}
	})
	menu.Select.PlaceHolder = say.T("story.whose-choose")
	w.targets["whose"] = menu.Select
	block := parts.Stack(look.XS, parts.NewSoft(say.T("story.label.whose"), look.Caption), menu)
	if f.Owner == "" || f.Moved != "" {
		block.Add(parts.NewSoft(f.Whose, look.Caption))
	}
	return block
}

// turn keeps a finding as a clue or drops it, by key.
func (w *storyScreen) turn(i int, keep bool) {
	switch f := w.page.Findings()[i]; {
	case keep && f.Dropped:
		w.page.Keep(i)
	case !keep && !f.Dropped:
		w.page.Drop(i)
	default:
		return
	}
	w.again(i)
}

// again shows the same finding after it was changed.
func (w *storyScreen) again(i int) {
	if i < len(w.page.Findings()) {
		w.text.Choose(i)
		w.finding(i)
	}
}

// fillMoments shows the moments as cards in story order.
func (w *storyScreen) fillMoments() {
	w.moments.Objects = nil
	cards := w.page.Moments()
	if w.page.Reading() == nil {
		return
	}
	if len(cards) == 0 {
		if len(w.page.Findings()) > 0 {
			w.moments.Add(card(look.S, head(say.T("story.no-moments")), parts.NewWords(w.page.WhyNone(), look.Text)))
		}
	} else {
		w.moments.Add(parts.Stack(look.XS, head(model.Count("story.moments", len(cards))), parts.NewSoft(say.T("story.moments-more"), look.Caption)))
	}
	for _, m := range cards {
		out := parts.NewButton(say.T("story.leave-out"), parts.Quiet, func() { w.page.LeaveOut(m.Number) })
		out.Type = look.Caption
		show := parts.NewButton(say.T("story.show"), parts.Quiet, func() { w.text.ShowPassage(m.Moment.Span.Start, m.Moment.Span.End) })
		show.Type = look.Caption
		w.targets["moment-"+model.Number(m.Number)] = show
		w.moments.Add(card(look.S,
			bold(say.T("story.moment", say.S{"n": model.Number(m.Number), "name": m.Title})),
			parts.NewWords(m.Route, look.Text),
			parts.NewSoft(say.T("story.moment-fits", say.S{"feelings": m.Fits, "hard": m.Hard}), look.Caption),
			parts.Flow(look.S, show, out)))
	}
	for _, m := range w.page.LeftOut() {
		back := parts.NewButton(say.T("story.take-back"), parts.Quiet, func() { w.page.Undo(m.ID) })
		back.Type = look.Caption
		w.moments.Add(parts.Line(look.S, []float32{1, 0}, parts.NewSoft(say.T("story.left-out", say.S{"words": m.Quote}), look.Caption), back))
	}
	remove := parts.NewButton(say.T("story.remove"), parts.Quiet, w.askRemove)
	w.targets["remove"] = remove
	w.moments.Add(parts.AtLeft(remove))
}

func (w *storyScreen) askRemove() {
	w.p.confirm(say.T("story.remove-ask", say.S{"title": w.page.Story().Title}), say.T("story.remove-more"), say.T("story.remove"), func() {
		if err := w.page.Remove(); err != nil {
			w.p.trouble(say.Error(err))
			return
		}
		w.p.showShelf()
	})
}

// storyLayout gives the text three fifths and the findings the rest.
type storyLayout struct{}

func (storyLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 200) }

func (storyLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	side := max(300, min(420, s.Width*0.4))
	o[0].Resize(fyne.NewSize(s.Width-side, s.Height))
	o[1].Move(fyne.NewPos(s.Width-side, 0))
	o[1].Resize(fyne.NewSize(side, s.Height))
}

// topLayout puts a head of its own height over the rest.
type topLayout struct{}

func (topLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 240) }

func (topLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	inner := o[0].(*fyne.Container)
	h := parts.HeightOf(inner.Objects[0], s.Width-2*look.XL) + look.L + look.S
	o[0].Resize(fyne.NewSize(s.Width, h))
	o[1].Move(fyne.NewPos(0, h))
	o[1].Resize(fyne.NewSize(s.Width, s.Height-h))
}
