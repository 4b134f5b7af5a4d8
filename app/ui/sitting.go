package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/app/ui/parts/typeset"
	"feltpage/exercises"
	"feltpage/nlp"
)

// sittingScreen shows a model.Sitting in the whole window: no navigation, the
// passage left, one question with one kind of answer right, four fixed buttons
// below.
type sittingScreen struct {
	s    *model.Sitting
	app  fyne.App
	win  fyne.Window
	see  model.Observer
	done func(id string)

	root    *fyne.Container
	lay     *sittingLayout
	reading *parts.Reading
	earlier *parts.Reading // the story before the passage, to look back at
	pane    *parts.Sheet
	body    *fyne.Container // inside the pane
	rule    *canvas.Rectangle
	title   *parts.Words
	part    *parts.Words
	pageNo  *parts.Words

	stop, aa, back, skip, help, next *parts.Button
	helped, steadied                 *parts.Button
	pageBack, pageOn                 *parts.Button
	ending                           fyne.CanvasObject
	all                              []fyne.CanvasObject // what the screen holds while the end is shown

	// What is open on the screen and not in the model.
	big      bool   // the point page: fewer, larger targets
	saying   bool   // "something else" is open
	toBox    bool   // it was just opened: the keyboard goes to its box
	outline  bool   // places are shown on the outline, not as a list
	looking  bool   // the pane shows how the story looks
	sentence [2]int // words shown large, [first, end); none when equal
	byKeys   bool   // the keyboard is in use: it is taken along to a new question

	// What was built for the question that is shown.
	shape   string // what the pane was built for
	step    exercises.StepKind
	passage string
	before  model.SittingView      // whose passage the earlier story leads to
	choices map[string]*parts.Tile // by target name
	first   fyne.Focusable         // where the keyboard goes
	box     *parts.SayBox
	note    *parts.Words    // what is missing or not saved; hidden when empty
	choose  *parts.Button   // back from words of one's own, or nil
	pairs   []*parts.Button // whose body, and list or outline

	told  string     // what the observer was told last
	house fyne.Theme // the household's own, to come back to
	left  bool
}

// newSittingScreen makes the screen; done is called once, when it is left.
func newSittingScreen(a fyne.App, win fyne.Window, s *model.Sitting, see model.Observer, done func(id string)) *sittingScreen {
	x := &sittingScreen{s: s, app: a, win: win, see: see, done: done, house: a.Settings().Theme(), big: s.Kind() == record.Short}
	v := s.View()
	x.setTheme(v.Look.Dark)
	button := func(key string, w parts.Weight, f func()) *parts.Button {
		b := parts.NewButton(say.T(key), w, f)
		b.MinW = barButton
		return b
	}
	x.back = button("sitting.back", parts.Plain, s.Back)
	x.skip = button("sitting.skip", parts.Plain, s.Skip)
	x.help = button("sitting.help", parts.Plain, s.LittleHelp)
	x.next = button("sitting.next", parts.Main, x.onNext)
	x.next.MinW = barButton + look.XXL
	x.stop = parts.NewButton(say.T("sitting.stop"), parts.Quiet, s.Stop)
	x.aa = parts.NewButton(say.T("sitting.aa"), parts.Quiet, x.toggleLook)
	x.aa.Type = look.Lead
	x.helped = parts.NewButton(say.T("sitting.helped"), parts.Quiet, s.IHelped)
	x.helped.Type = look.Caption
	x.steadied = parts.NewButton(say.T("sitting.steadied"), parts.Quiet, s.Steadied)
	x.steadied.Type = look.Caption
	x.title, x.part = parts.NewSoft("", look.Text), parts.NewSoft("", look.Text)
	x.part.Align = fyne.TextAlignTrailing
	x.pageNo = parts.NewSoft("", look.Text)
	x.pageBack = parts.NewButton(say.T("sitting.page-back"), parts.Plain, func() { x.turn(-1) })
	x.pageOn = parts.NewButton(say.T("sitting.page-on"), parts.Plain, func() { x.turn(+1) })
	x.rule = canvas.NewRectangle(theme.Color(theme.ColorNameSeparator))

	x.reading = parts.NewReading(readLook(v.Look))
	x.reading.OnChosen = func(spans []typeset.Span) { s.SetSpans(toStory(spans)) }
	x.reading.OnPage = x.paged
	x.reading.OnSentence = func(first, end int) { x.sentence = [2]int{first, end}; x.refresh() }
	x.reading.Ignore = s.Repeated
	x.earlier = parts.NewReading(readLook(v.Look))
	x.earlier.Soft = true
	x.earlier.OnPage = x.paged
	x.earlier.Hide()

	x.body = container.NewWithoutLayout()
	x.pane = parts.NewCard(x.body)
	x.pane.Pad = look.M
	x.lay = &sittingLayout{s: x}
	x.root = container.New(x.lay, x.rule, x.reading, x.earlier, x.pane, x.next, x.help, x.skip, x.back, x.helped, x.steadied,
		x.pageBack, x.pageOn, x.pageNo, x.stop, x.aa, x.title, x.part)
	s.OnChange(x.refresh)
	win.Canvas().Unfocus() // whatever opened the sitting had the keyboard
	x.refresh()
	return x
}

func (x *sittingScreen) setTheme(dark bool) {
	want := x.house
	if dark {
		want = look.New(look.AlwaysDark)
	}
	if x.app.Settings().Theme() != want {
		x.app.Settings().SetTheme(want)
	}
}

func toSet(spans []nlp.Span) []typeset.Span {
	out := make([]typeset.Span, len(spans))
	for i, s := range spans {
		out[i] = typeset.Span{Start: s.Start, End: s.End}
	}
	return out
}

func toStory(spans []typeset.Span) []nlp.Span {
	out := make([]nlp.Span, len(spans))
	for i, s := range spans {
		out[i] = nlp.Span{Start: s.Start, End: s.End}
	}
	return out
}

func (x *sittingScreen) onNext() {
	if x.looking {
		x.toggleLook()
		return
	}
	x.s.Next()
}

// refresh shows what the model holds now.
func (x *sittingScreen) refresh() {
	if x.left {
		return
	}
	v := x.s.View()
	if v.Phase == model.Ended {
		x.end(v)
		return
	}
	if x.all != nil { // a stop was taken back
		x.root.Objects, x.all, x.ending = x.all, nil, nil
		x.next.SetText(say.T("sitting.next"))
		x.next.OnTapped = x.onNext
	}
	passage := fmt.Sprint(v.Moment, v.Passage)
	if passage != x.passage {
		x.passage = passage
		x.reading.SetText(v.Text, typeset.Span{Start: v.Passage.Start, End: v.Passage.End}, toSet(v.Sentences), toSet(v.Paragraphs))
		x.title.SetText(v.Title)
		x.part.SetText(v.Part)
		x.before = v
		x.lookBack(false)
	}
	x.earlier.SetLook(readLook(v.Look))
	x.rule.FillColor = theme.Color(theme.ColorNameSeparator)
	x.reading.SetLook(readLook(v.Look))
	x.reading.SetPointing(v.PointText)
	x.reading.SetWay(wayOf(v))
	x.reading.SetLit(toSet(v.Lit))
	x.reading.SetChosen(toSet(v.Chosen))
	x.pages()

	able(x.back, v.CanBack)
	able(x.skip, v.CanSkip)
	able(x.help, v.CanHelp)
	x.helped.SetChosen(v.Helped)
	x.steadied.SetChosen(v.Steadied)
	showIf(x.steadied, v.Phase == model.Asking && (v.Helped || v.Steadied))

	if shape := x.shapeOf(v); shape != x.shape {
		x.shape = shape
		x.lookBack(false)
		x.build(v)
		x.moveFocus(v)
	} else {
		x.update(v)
	}
	x.lay.Layout(x.root.Objects, x.root.Size())
	x.root.Refresh()
	x.tell()
}

func showIf(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

func wayOf(v model.SittingView) parts.Way {
	switch v.Look.Way {
	case record.WayEnds:
		return parts.FirstAndLast
	case record.WaySentence:
		return parts.SentenceFirst
	case "":
		if v.Kind == record.Short {
			return parts.SentenceFirst
		}
	}
	return parts.WordByWord
}

// turn turns pages: those of the passage, and before its first page those of
// the story up to it.
func (x *sittingScreen) turn(by int) {
	back := x.earlier.Visible()
	switch {
	case back && by > 0 && x.earlier.Page() == x.earlier.Pages()-1:
		x.lookBack(false)
	case back:
		x.earlier.Turn(x.earlier.Page() + by)
	case by < 0 && x.reading.Page() == 0 && x.hasEarlier():
		x.lookBack(true)
	default:
		x.reading.Turn(x.reading.Page() + by)
	}
}

func (x *sittingScreen) hasEarlier() bool {
	return strings.TrimSpace(x.before.Text[:x.before.Passage.Start]) != ""
}

// lookBack shows the story before the passage, from the page nearest to it, or
// the passage again.
func (x *sittingScreen) lookBack(on bool) {
	if on == x.earlier.Visible() {
		return
	}
	v := x.before
	x.part.SetText(v.Part)
	if on {
		x.win.Canvas().Unfocus()
		x.earlier.SetText(v.Text, typeset.Span{End: v.Passage.Start}, toSet(v.Sentences), toSet(v.Paragraphs))
		x.earlier.Turn(x.earlier.Pages() - 1)
		x.part.SetText(say.T("sitting.earlier"))
	}
	showIf(x.earlier, on)
	showIf(x.reading, !on)
	x.pages()
	x.lay.place(x.root.Size())
	x.tell()
}

// paged shows that another page is in sight.
func (x *sittingScreen) paged(int, int) {
	if x.root == nil {
		return
	}
	x.pages()
	x.lay.place(x.root.Size())
	x.tell()
}

// pages shows the page keys where there is something to turn to.
func (x *sittingScreen) pages() {
	r, back := x.reading, x.earlier.Visible()
	if back {
		r = x.earlier
	}
	at, n := r.Page(), r.Pages()
	turns := n > 1 || back || x.hasEarlier()
	showIf(x.pageBack, turns)
	showIf(x.pageOn, turns)
	showIf(x.pageNo, n > 1)
	x.pageNo.SetText(say.T("sitting.page", say.S{"n": fmt.Sprint(at + 1), "of": fmt.Sprint(n)}))
	key := "sitting.page-back"
	if at == 0 && !back && x.hasEarlier() {
		key = "sitting.page-earlier"
	}
	x.pageBack.SetText(say.T(key))
	able(x.pageBack, at > 0 || !back && x.hasEarlier())
	able(x.pageOn, at < n-1 || back)
}

// able lets a button be pressed or not.
func able(b *parts.Button, on bool) {
	if on && b.Disabled() {
		b.Enable()
	} else if !on && !b.Disabled() {
		b.Disable()
	}
}

// moveFocus takes the keyboard along to a new question, for whoever uses it.
func (x *sittingScreen) moveFocus(v model.SittingView) {
	c := x.win.Canvas()
	focused := c.Focused()
	_, typing := focused.(*parts.SayEntry)
	if focused != nil && !typing {
		x.byKeys = true
	}
	if x.toBox && x.box != nil {
		x.toBox = false
		c.Focus(x.box.Entry)
		return
	}
	if !x.byKeys {
		if focused != nil {
			c.Unfocus()
		}
		return
	}
	switch {
	case x.looking || v.Phase == model.Asking:
		if x.first != nil {
			c.Focus(x.first)
		}
	default:
		c.Focus(x.next)
	}
}

// resized lays the pane out anew after the window changed its size.
func (x *sittingScreen) resized() {
	x.shape = ""
	x.refresh()
}

// end shows what was read, and Done in the place of Next.
func (x *sittingScreen) end(v model.SittingView) {
	lines := parts.NewWords(v.Closing, look.Heading)
	lines.Align = fyne.TextAlignCenter
	things := []fyne.CanvasObject{lines}
	if v.Trouble != "" {
		t := parts.NewSoft(v.Trouble, look.Text)
		t.Align = fyne.TextAlignCenter
		things = append(things, t)
	}
	x.ending = container.New(&middle{}, parts.Stack(look.L, things...))
	if x.all == nil {
		x.all = x.root.Objects
	}
	x.root.Objects = []fyne.CanvasObject{x.rule, x.ending, x.next}
	if v.CanBack {
		x.back.Enable()
		x.root.Objects = append(x.root.Objects, x.back)
	}
	x.next.SetText(say.T("sitting.done"))
	x.next.OnTapped = x.leave
	x.choices, x.shape = nil, "end"
	x.lay.Layout(x.root.Objects, x.root.Size())
	x.root.Refresh()
	if x.byKeys {
		x.win.Canvas().Focus(x.next)
	}
	x.tell()
}

// leave gives the window back.
func (x *sittingScreen) leave() {
	if x.left {
		return
	}
	x.left = true
	x.s.Close()
	x.setTheme(false)
	c := x.win.Canvas()
	for _, k := range sittingKeys() {
		c.RemoveShortcut(k.shortcut())
	}
	c.SetOnTypedKey(nil)
	if x.done != nil {
		x.done(x.s.ID())
	}
}

// middle puts its thing in the middle of the room, not too wide.
type middle struct{}

func (middle) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }
func (middle) Layout(o []fyne.CanvasObject, s fyne.Size) {
	w := min(s.Width, 720)
	h := parts.HeightOf(o[0], w)
	o[0].Move(fyne.NewPos((s.Width-w)/2, max(0, (s.Height-h)/2-look.XXL)))
	o[0].Resize(fyne.NewSize(w, h))
}

// sittingKey is a key of the whole screen, held with Control.
type sittingKey struct {
	key fyne.KeyName
	do  func(x *sittingScreen)
}

func (k sittingKey) shortcut() fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: k.key, Modifier: fyne.KeyModifierControl}
}

// sittingKeys are the keys of the sitting. Tab, the arrows, Space and Return
// work as everywhere; with Control: right is Next, left is Back, down is Skip,
// up is A little help, H is "I helped", PageUp and PageDown turn the story's
// pages, plus and minus change its size.
func sittingKeys() []sittingKey {
	return []sittingKey{
		{fyne.KeyRight, func(x *sittingScreen) { x.onNext() }},
		{fyne.KeyReturn, func(x *sittingScreen) { x.onNext() }},
		{fyne.KeyLeft, func(x *sittingScreen) { x.s.Back() }},
		{fyne.KeyDown, func(x *sittingScreen) { x.s.Skip() }},
		{fyne.KeyUp, func(x *sittingScreen) { x.s.LittleHelp() }},
		{fyne.KeyH, func(x *sittingScreen) { x.s.IHelped() }},
		{fyne.KeyPageDown, func(x *sittingScreen) { x.turn(+1) }},
		{fyne.KeyPageUp, func(x *sittingScreen) { x.turn(-1) }},
		{fyne.KeyPlus, func(x *sittingScreen) { x.size(+2) }},
		{fyne.KeyEqual, func(x *sittingScreen) { x.size(+2) }},
		{fyne.KeyMinus, func(x *sittingScreen) { x.size(-2) }},
	}
}

// listen takes the keys of the canvas.
func (x *sittingScreen) listen(c fyne.Canvas) {
	for _, k := range sittingKeys() {
		c.AddShortcut(k.shortcut(), func(fyne.Shortcut) { x.byKeys = true; k.do(x) })
	}
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		switch e.Name {
		case fyne.KeyF1:
			x.byKeys = true
			x.s.LittleHelp()
		case fyne.KeyPageDown:
			x.turn(+1)
		case fyne.KeyPageUp:
			x.turn(-1)
		}
	})
}

// shortcut runs a key of the screen from inside the box for spoken words;
// left and right move the cursor there and stay with the box.
func (x *sittingScreen) shortcut(s fyne.Shortcut) bool {
	c, ok := s.(*desktop.CustomShortcut)
	if !ok || c.Modifier != fyne.KeyModifierControl {
		return false
	}
	for _, k := range sittingKeys() {
		if k.key == c.KeyName {
			x.byKeys = true
			k.do(x)
			return true
		}
	}
	return false
}
