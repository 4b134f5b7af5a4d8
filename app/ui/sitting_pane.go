package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/exercises"
	"feltpage/nlp"
)

// shapeOf names what the pane is made of, so that it is built anew only when
// that changes; what is chosen is shown by the widgets that are there.
func (x *sittingScreen) shapeOf(v model.SittingView) string {
	if v.Phase != model.Asking || v.Step != x.step {
		x.saying, x.toBox, x.sentence = false, false, [2]int{}
	}
	x.step = v.Step
	if v.Said != "" && (v.Step == exercises.Feeling || v.Step == exercises.Body) {
		x.saying = true // words taken back are shown again
	}
	var b strings.Builder
	fmt.Fprint(&b, v.Phase, v.Moment, " ", v.StepNo, v.Level, v.Place, x.looking, x.outline, x.sentence, v.Feedback, v.LookAgain, v.CanKeep, v.Step, x.saying, x.root.Size())
	for _, c := range v.Choices {
		b.WriteString(" " + c.ID)
	}
	if v.PointText {
		fmt.Fprint(&b, v.Chosen)
	}
	return b.String()
}

// build makes the pane for a view.
func (x *sittingScreen) build(v model.SittingView) {
	x.choices, x.first, x.box, x.pairs, x.choose = map[string]*parts.Tile{}, nil, nil, nil, nil
	compact := x.root.Size().Height < shortWindow
	lead, space := look.Lead, look.M
	if x.big {
		lead = look.Heading
	}
	if compact {
		lead, space = look.Text, look.S
	}
	grows := map[fyne.CanvasObject]bool{}
	col := &column{gap: space, grows: grows}
	x.pane.Fill, x.pane.Line = look.ColourCard, true
	if v.Own && !x.looking {
		x.pane.Fill, x.pane.Line = look.ColourAside, false
	}
	var head, things []fyne.CanvasObject
	add := func(o ...fyne.CanvasObject) { things = append(things, o...) }
	grow := func(o fyne.CanvasObject) { grows[o] = true; add(o) }

	switch {
	case x.looking:
		head = append(head, parts.NewWords(say.T("sitting.look"), lead))
		grow(x.lookTiles(v))
	case v.Phase == model.Feedback:
		head = append(head, parts.NewSoft(v.Prompt, look.Text), parts.NewWords(v.Feedback, lead))
		if v.LookAgain {
			grow(x.grid(x.tile("again", say.T("sitting.again"), x.s.LookAgain)))
		}
	default:
		if v.Own {
			note := parts.NewSoft(v.OwnNote, look.Text)
			note.Style = fyne.TextStyle{Bold: true}
			head = append(head, note)
		}
		head = append(head, parts.NewWords(v.Prompt, lead))
		if v.Worked != "" {
			worked := parts.NewWords(v.Worked, look.Text)
			worked.MinW = look.Target
			s := parts.NewCard(worked)
			s.Fill, s.Line, s.Pad = look.ColourLit, false, look.M
			head = append(head, s)
		}
		x.answer(v, add, grow)
	}
	if len(grows) == 0 {
		grow(container.NewWithoutLayout()) // the room between the question and what stands at the bottom
	}
	x.note = parts.NewSoft("", look.Text)
	x.note.MinW = look.Target
	add(x.note)
	x.noteText(v)
	if v.Phase == model.Asking && !x.looking {
		var ts []*parts.Tile
		for _, c := range v.Standing {
			t := x.tile("stand:"+c.ID, c.Text, func() { x.closeSaying(); x.s.Stand(c.ID) })
			t.Faint, t.Chosen = !v.Own, c.Chosen
			t.Type = look.Text
			ts = append(ts, t)
		}
		g := x.grid(ts...)
		g.Cell, g.High = 0, 0
		add(g)
	}
	for _, o := range head {
		if w, ok := o.(*parts.Words); ok {
			w.MinW = look.Target // a word longer than the pane is cut, not let out of it
		}
	}
	col.head = container.NewVScroll(parts.Stack(space, head...))
	x.body.Layout = col
	x.body.Objects = append([]fyne.CanvasObject{col.head}, things...)
	if x.first == nil && v.PointText {
		x.first = x.reading
	}
	if x.first == nil && x.box != nil {
		x.first = x.box.Entry
	}
	x.body.Refresh()
	x.pane.Refresh()
}

// noteText shows or hides the line that says what is missing or not saved.
func (x *sittingScreen) noteText(v model.SittingView) {
	line := v.Trouble
	if line == "" {
		line = v.Hint
	}
	x.note.SetText(line)
	showIf(x.note, line != "")
}

// tile makes an answer to point at under a target name.
func (x *sittingScreen) tile(name, text string, tapped func()) *parts.Tile {
	t := parts.NewTile(text, tapped)
	if len([]rune(text)) > 22 {
		t.Type = look.Text
	}
	x.choices[name] = t
	if x.first == nil && !strings.HasPrefix(name, "stand:") {
		x.first = t
	}
	return t
}

func (x *sittingScreen) grid(ts ...*parts.Tile) *parts.TileGrid {
	g := parts.NewTileGrid(say.T("sitting.more"), ts...)
	if x.big && x.root.Size().Height >= shortWindow {
		g.Cell, g.High = 1.8*look.Answer, 1.8*look.Answer
		for _, t := range ts {
			if t.Type == 0 {
				t.Type = look.Heading
			}
		}
	}
	return g
}

// answer adds what the question is answered with.
func (x *sittingScreen) answer(v model.SittingView, add func(...fyne.CanvasObject), grow func(fyne.CanvasObject)) {
	if x.sentence[0] < x.sentence[1] && v.PointText {
		grow(x.wordTiles())
		return
	}
	switch v.Step {
	case exercises.Find, exercises.Reason:
		x.pointed(v, add, grow)
	case exercises.Feeling:
		if x.saying {
			x.say(v, add)
			x.instead(add)
			return
		}
		grow(x.grid(x.choiceTiles(v)...))
	case exercises.Body:
		x.bodyAnswer(v, add, grow)
	default:
		x.say(v, add)
		if v.CanKeep {
			add(parts.NewTick(v.KeepText, v.KeepWord, x.s.SetKeepWord))
		}
	}
}

// pointed shows the words chosen in the passage, and for a reason those that
// were chosen before; a tap takes them off or chooses them again.
func (x *sittingScreen) pointed(v model.SittingView, add func(...fyne.CanvasObject), grow func(fyne.CanvasObject)) {
	if v.Step == exercises.Reason && v.CanSay {
		x.say(v, add)
	}
	if len(v.Choices) > 0 {
		grow(x.grid(x.choiceTiles(v)...))
		return
	}
	if v.Step == exercises.Reason && x.first == nil {
		x.first = x.reading
	}
	var spans []nlp.Span
	chosen := map[nlp.Span]bool{}
	for _, s := range v.Chosen {
		spans = append(spans, s)
		chosen[s] = true
	}
	for _, s := range v.Before {
		free := true
		for _, c := range v.Chosen {
			free = free && !c.Overlaps(s)
		}
		if free {
			spans = append(spans, s)
		}
	}
	if len(spans) == 0 {
		add(parts.NewSoft(say.T("sitting.chosen-none"), look.Text))
		return
	}
	x.first = x.reading
	key := "sitting.chosen"
	if len(v.Chosen) == 0 {
		key = "sitting.chosen-before"
	}
	add(parts.NewSoft(say.T(key), look.Text))
	var ts []*parts.Tile
	for i, s := range spans {
		t := x.tile(fmt.Sprintf("chosen:%d", i), strings.Join(strings.Fields(s.Of(v.Text)), " "), func() { x.s.ToggleSpan(s) })
		t.Chosen = chosen[s]
		ts = append(ts, t)
	}
	g := x.grid(ts...)
	g.Cell = 2 * look.Answer
	grow(g)
}

// choiceTiles makes the tiles of the choices, and one for words of one's own.
func (x *sittingScreen) choiceTiles(v model.SittingView) []*parts.Tile {
	var ts []*parts.Tile
	for _, c := range v.Choices {
		t := x.tile("choice:"+c.ID, c.Text, func() { x.s.Choose(c.ID) })
		t.Chosen = c.Chosen
		ts = append(ts, t)
	}
	if v.CanSay && v.Step != exercises.Reason { // a reason has its box always
		ts = append(ts, x.tile("else", say.T("sitting.say.else"), func() { x.saying, x.toBox = true, true; x.refresh() }))
	}
	return ts
}

// instead adds the way back from words of one's own to the choices.
func (x *sittingScreen) instead(add func(...fyne.CanvasObject)) {
	x.choose = parts.NewButton(say.T("sitting.say.instead"), parts.Plain, func() { x.closeSaying(); x.refresh() })
	add(parts.AtLeft(x.choose))
}

func (x *sittingScreen) closeSaying() {
	if x.saying {
		x.saying = false
		x.s.Say("")
	}
}

// say adds the box for what the learner says.
func (x *sittingScreen) say(v model.SittingView, add func(...fyne.CanvasObject)) {
	x.box = parts.NewSayBox(v.SayHint, v.Said, x.s.Say)
	x.box.Entry.Shortcut = x.shortcut
	add(x.box)
}

// bodyAnswer shows the places as a list or on the outline; an open place shows
// what it may be like there.
func (x *sittingScreen) bodyAnswer(v model.SittingView, add func(...fyne.CanvasObject), grow func(fyne.CanvasObject)) {
	pair := func(names [2]string, at int, take func(i int)) {
		for i, n := range names {
			b := parts.NewButton(n, parts.Plain, func() { take(i) })
			b.Chosen = i == at
			x.pairs = append(x.pairs, b)
		}
	}
	x.pairs = nil
	pair([2]string{v.StoryBody, say.T("sitting.whose.mine")}, boolIndex(v.AboutSelf), func(i int) { x.s.SetAboutSelf(i == 1) })
	row := []fyne.CanvasObject{x.pairs[0], x.pairs[1]}
	if v.Place == "" && !x.tall() {
		other := "sitting.body.outline"
		if x.outline {
			other = "sitting.body.list"
		}
		x.pairs = append(x.pairs, parts.NewButton(say.T(other), parts.Quiet, func() { x.outline = !x.outline; x.refresh() }))
		row = append(row, x.pairs[2])
	}
	add(parts.Flow(look.S, row...))
	if v.Place != "" {
		if x.saying {
			x.say(v, add)
			x.instead(add)
			return
		}
		add(parts.NewSoft(say.T("sitting.place.what", say.S{"place": v.PlaceName}), look.Text))
		ts := x.choiceTiles(v)
		close := x.tile("places", say.T("sitting.place.close"), func() { x.s.OpenPlace(v.Place) })
		close.Faint = true
		grow(x.grid(append(ts, close)...))
		return
	}
	var places []*parts.Tile
	on := map[string]bool{}
	for _, p := range v.Places {
		on[p.ID] = true
		if !x.outline || x.tall() {
			places = append(places, x.tile("place:"+p.ID, p.Name, func() { x.s.OpenPlace(p.ID) }))
		}
	}
	list := x.grid(places...)
	outline := parts.NewBodyOutline(v.Place, func(p string) bool { return on[p] }, x.s.OpenPlace)
	switch {
	case x.tall():
		add(list)
		grow(outline)
	case x.outline:
		grow(outline)
	default:
		grow(list)
	}
}

// tall reports whether there is room for list and outline together.
func (x *sittingScreen) tall() bool { return x.root.Size().Height >= tallWindow }

func boolIndex(b bool) int {
	if b {
		return 1
	}
	return 0
}

// wordTiles shows the words of one sentence large.
func (x *sittingScreen) wordTiles() *parts.TileGrid {
	var ts []*parts.Tile
	n := map[string]int{}
	for w := x.sentence[0]; w < x.sentence[1]; w++ {
		text := x.reading.WordText(w)
		n[text]++
		t := x.tile(numbered("large:"+text, n[text]), text, func() { x.reading.Toggle(w) })
		t.Chosen = x.reading.Chosen(w)
		ts = append(ts, t)
	}
	close := x.tile("close", say.T("sitting.words.close"), func() { x.sentence = [2]int{}; x.refresh() })
	close.Faint = true
	return x.grid(append(ts, close)...)
}

// update shows what is chosen on the widgets that are there.
func (x *sittingScreen) update(v model.SittingView) {
	set := func(name string, on bool) {
		if t := x.choices[name]; t != nil && t.Chosen != on {
			t.SetChosen(on)
		}
	}
	for _, c := range v.Choices {
		set("choice:"+c.ID, c.Chosen)
	}
	for _, c := range v.Standing {
		set("stand:"+c.ID, c.Chosen)
	}
	if len(x.pairs) > 1 {
		x.pairs[0].SetChosen(!v.AboutSelf)
		x.pairs[1].SetChosen(v.AboutSelf)
	}
	x.noteText(v)
	x.body.Refresh()
	if x.box != nil && x.box.Entry.Text != v.Said {
		x.box.Entry.SetText(v.Said)
	}
}

// toggleLook opens or closes how the story looks.
func (x *sittingScreen) toggleLook() { x.looking = !x.looking; x.refresh() }

// size changes the size of the story's type by points.
func (x *sittingScreen) size(by float64) {
	l := x.s.View().Look
	l.SizePt = max(14, min(l.SizePt+by, 40))
	x.s.SetLook(l)
}

func (x *sittingScreen) space(by float64) {
	l := x.s.View().Look
	l.Letter = max(0, min(l.Letter+0.02*by, 0.3))
	l.Word = max(0, min(l.Word+0.06*by, 0.6))
	l.Line = max(1.2, min(l.Line+0.1*by, 2.5))
	x.s.SetLook(l)
}

// lookTiles are the ways the story can look, and how its words are chosen.
func (x *sittingScreen) lookTiles(v model.SittingView) *parts.TileGrid {
	dark := func(on bool) func() {
		return func() {
			l := x.s.View().Look
			l.Dark = on
			x.setTheme(on)
			x.s.SetLook(l)
			x.shape = ""
			x.refresh()
		}
	}
	way := func(w string) func() {
		return func() {
			l := x.s.View().Look
			l.Way = w
			x.s.SetLook(l)
			x.shape = ""
			x.refresh()
		}
	}
	ts := []*parts.Tile{
		x.tile("size:smaller", say.T("sitting.size.smaller"), func() { x.size(-2) }),
		x.tile("size:bigger", say.T("sitting.size.bigger"), func() { x.size(+2) }),
		x.tile("size:light", say.T("sitting.size.light"), dark(false)),
		x.tile("size:tighter", say.T("sitting.size.tighter"), func() { x.space(-1) }),
		x.tile("size:calmer", say.T("sitting.size.calmer"), func() { x.space(+1) }),
		x.tile("size:dark", say.T("sitting.size.dark"), dark(true)),
	}
	ts[2].Chosen, ts[5].Chosen = !v.Look.Dark, v.Look.Dark
	for _, w := range []string{record.WayWords, record.WayEnds, record.WaySentence} {
		t := x.tile("way:"+w, say.T("sitting.choose."+w), way(w))
		t.Type, t.Chosen = look.Text, wayName(wayOf(v)) == w
		ts = append(ts, t)
	}
	close := x.tile("close", say.T("sitting.words.close"), x.toggleLook)
	close.Faint = true
	g := x.grid(append(ts, close)...)
	g.Cell = 1.25 * look.Answer // three beside each other
	return g
}

func wayName(w parts.Way) string {
	switch w {
	case parts.FirstAndLast:
		return record.WayEnds
	case parts.SentenceFirst:
		return record.WaySentence
	}
	return record.WayWords
}
