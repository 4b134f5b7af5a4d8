package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// outlines gives each state of a word the weight of its line.
var outlines = map[wordbook.State]parts.Outline{wordbook.New: parts.Thin, wordbook.Tied: parts.Full, wordbook.Free: parts.Bold}

// wordsOf gives the word book of the learner whose screens are open.
func (p *Program) wordsOf() *model.Words {
	id := p.who().ID
	w := p.words[id]
	if w == nil {
		w = model.NewWords(p.house, p.who(), p.families)
		p.words[id] = w
	}
	return w
}

// openWords shows the Words screen at one feeling.
func (p *Program) openWords(group string) {
	p.wordsOf().Show(group)
	p.open(tabWords)
}

// showWords shows the word book: the list at the left, the shades line in the
// middle, one word at the right.
func (p *Program) showWords() {
	p.tab = tabWords
	w := p.wordsOf()
	w.Reload()
	s := &wordsScreen{p: p, w: w, targets: map[string]fyne.CanvasObject{}, facts: map[string]string{}}
	w.Changed = func() { s.fill(true) }
	s.list = parts.Stack(look.Hair)
	s.line, s.one = parts.Stack(look.M), parts.Stack(look.M)
	s.listPg = parts.NewPage(0, 0, s.list)
	s.linePg = parts.NewPage(0, 0, s.line)
	s.onePg = parts.NewPage(0, 0, s.one)
	for _, pg := range []*parts.Page{s.listPg, s.linePg, s.onePg} {
		pg.Margin = look.M
	}
	s.fill(false)
	top := parts.Stack(0, title(say.T("words.title", say.S{"name": p.who().Nickname}), s.count()))
	p.guide(view{name: "words", facts: s.facts, targets: s.targets,
		content: container.New(&topLayout{}, container.New(layout.NewCustomPaddedLayout(look.XL, 0, look.XL, look.XL), top), container.New(&threeLayout{s}, s.listPg, s.linePg, s.onePg))})
}

type wordsScreen struct {
	p                     *Program
	w                     *model.Words
	targets               map[string]fyne.CanvasObject
	facts                 map[string]string
	list, line, one       *fyne.Container
	listPg, linePg, onePg *parts.Page
	rows                  map[string]*parts.Row
	backToLine            *parts.Button // shown where there is no room for both
}

func (s *wordsScreen) count() string {
	all, tied, free := s.w.Count()
	if all == 0 {
		return say.T("words.none-at-all")
	}
	said := say.T("growth.words", say.S{"all": model.Count("count.word", all), "tied": model.Number(tied + free), "free": model.Number(free)})
	if fading := s.w.Fading(); fading != "" {
		said += " " + fading
	}
	return said
}

func (s *wordsScreen) fill(tell bool) {
	group := s.w.Group()
	s.fillList(group)
	s.fillLine(group)
	s.fillOne()
	s.facts["group"], s.facts["trouble"] = group.ID, s.w.Trouble
	if tell {
		s.p.root.Relayout()
	}
	for _, pg := range []*parts.Page{s.listPg, s.linePg, s.onePg} {
		pg.Relayout()
	}
	if tell {
		s.p.Tell()
	}
}

// fillList shows the feelings and then the places. Rows are kept, so that the
// keyboard stays where it is.
func (s *wordsScreen) fillList(group model.WordGroup) {
	if s.rows == nil {
		s.rows = map[string]*parts.Row{}
		place := false
		s.list.Add(inset(parts.NewSoft(say.T("words.feelings"), look.Caption)))
		for _, g := range s.w.Groups() {
			if g.Place && !place {
				place = true
				s.list.Add(parts.Stack(0, parts.Gap(look.M), inset(parts.NewSoft(say.T("words.places"), look.Caption))))
			}
			r := parts.NewRow(g.Name, "", "", func() { s.w.OpenGroup(g.ID) })
			r.Bare = true
			s.rows[g.ID] = r
			s.targets["group-"+g.ID] = r
			s.list.Add(r)
		}
	}
	for _, g := range s.w.Groups() {
		r := s.rows[g.ID]
		if r == nil {
			continue
		}
		r.End = ""
		if g.N > 0 {
			r.End = model.Number(g.N)
		}
		r.Chosen = g.ID == group.ID
		r.Refresh()
	}
}

// fillLine shows the words of the open group along their shades line.
func (s *wordsScreen) fillLine(group model.WordGroup) {
	s.line.Objects = nil
	s.line.Add(head(group.Name))
	if group.Line != "" {
		s.line.Add(parts.NewSoft(group.Line, look.Text))
	}
	words := s.w.Line()
	chosen, _ := s.w.Word()
	for k := range s.targets {
		if len(k) > 5 && k[:5] == "word-" {
			delete(s.targets, k)
		}
	}
	if len(words) == 0 {
		s.line.Add(parts.NewWords(say.T("words.none", say.S{"name": s.p.who().Nickname}), look.Text))
	} else {
		if len(words) > 1 {
			s.line.Add(parts.NewSoft(say.T("words.least"), look.Caption))
		}
		list := parts.Stack(look.S)
		for _, x := range words {
			c := parts.NewWordCard(x.Word.Form, outlines[x.State], func() { s.w.Open(x.Word.ID) })
			c.Chosen = x.Word.ID == chosen.Word.ID
			s.targets["word-"+x.Word.Form] = c
			list.Add(parts.AtLeft(c))
		}
		s.line.Add(list)
		if len(words) > 1 {
			s.line.Add(parts.NewSoft(say.T("words.most"), look.Caption))
		}
	}
	add := parts.NewField(say.T("words.add"), say.T("words.add-more"), "")
	add.SetText(s.w.NewForm)
	add.Entry.OnChanged = func(t string) { s.w.NewForm = t }
	keep := parts.NewButton(say.T("words.add-keep"), parts.Plain, func() { s.w.Add(s.w.NewForm) })
	add.Entry.OnSubmitted = func(string) { keep.Tapped(nil) }
	s.targets["new-word"], s.targets["add-word"] = add.Entry, keep
	s.line.Add(parts.Gap(look.S))
	s.line.Add(parts.Columns(look.S, []float32{1, 0}, add, parts.Bottom(keep)))
	if s.w.Trouble != "" {
		s.line.Add(bold(s.w.Trouble))
	}
	s.line.Add(parts.Gap(look.S))
	s.line.Add(s.legend())
}

// legend says what the outlines mean.
func (s *wordsScreen) legend() fyne.CanvasObject {
	row := parts.Flow(look.M)
	for _, st := range []wordbook.State{wordbook.New, wordbook.Tied, wordbook.Free} {
		row.Add(parts.Line(look.S, nil, parts.NewOutlineSample(outlines[st]), parts.Snug(parts.NewSoft(say.T("words.legend."+string(st)), look.Caption))))
	}
	return row
}

// fillOne shows the chosen word.
func (s *wordsScreen) fillOne() {
	s.one.Objects = nil
	d, ok := s.w.Word()
	s.backToLine = parts.NewButton(say.T("words.back"), parts.Quiet, func() { s.w.Open("") })
	s.backToLine.Hide()
	s.backToLine.Leading = true
	s.one.Add(s.backToLine)
	s.targets["words-back"] = s.backToLine
	if !ok {
		s.one.Add(parts.NewSoft(say.T("words.choose"), look.Text))
		return
	}
	s.facts["word"] = d.Word.Form
	form := parts.NewField("", "", "")
	form.SetText(d.Word.Form)
	form.Entry.OnSubmitted = func(t string) {
		x := d.Word
		x.Form = t
		s.w.Save(x)
	}
	rename := parts.NewButton(say.T("words.rename"), parts.Quiet, func() { form.Entry.OnSubmitted(form.Text()) })
	s.targets["form"], s.targets["rename"] = form.Entry, rename
	name := parts.NewWords(d.Word.Form, look.Heading)
	name.Style = fyne.TextStyle{Bold: true}
	block := parts.Stack(look.M, name, parts.NewSoft(d.StateText, look.Text))

	happened := parts.NewLongField(say.T("words.happened"), say.T("words.happened-more", say.S{"name": s.p.who().Nickname}), "", 2)
	happened.SetText(s.w.Draft.What)
	happened.Entry.OnChanged = func(t string) { s.w.Draft.What = t }
	strong := parts.NewField(say.T("words.strong"), "", "")
	strong.SetText(s.w.Draft.HowStrong)
	strong.Entry.OnChanged = func(t string) { s.w.Draft.HowStrong = t }
	helped := parts.NewField(say.T("words.helped"), "", "")
	helped.SetText(s.w.Draft.Helped)
	helped.Entry.OnChanged = func(t string) { s.w.Draft.Helped = t }
	keep := parts.NewButton(say.T("words.today"), parts.Main, func() { s.w.Keep() })
	s.targets["what"], s.targets["today-happened"] = happened.Entry, keep
	block.Add(happened)
	block.Add(s.whereFelt())
	block.Add(parts.Columns(look.S, []float32{1, 1}, strong, helped))
	block.Add(parts.AtLeft(keep))
	s.one.Add(parts.NewCard(block))

	told := parts.Stack(look.M, bold(say.T("words.told")))
	if len(d.Told) == 0 {
		told.Add(parts.NewSoft(say.T("words.told-none"), look.Text))
	}
	for _, e := range d.Told {
		day := e.HappenedOn
		if day == "" {
			day = e.Day
		}
		x := parts.Stack(0, parts.NewSoft(model.Since(day, s.p.house.Now()), look.Caption), parts.NewWords(e.What, look.Text))
		var more []string
		if e.Place != "" {
			more = append(more, model.PlaceName(e.Place))
		}
		if e.HowStrong != "" {
			more = append(more, e.HowStrong)
		}
		if e.Helped != "" {
			more = append(more, say.T("words.helped-by", say.S{"what": e.Helped}))
		}
		if e.WrittenBy != "" {
			more = append(more, say.T("words.written-by", say.S{"name": e.WrittenBy}))
		}
		for _, m := range more {
			x.Add(parts.NewSoft(m, look.Caption))
		}
		told.Add(x)
	}
	s.one.Add(told)

	less := parts.NewButton(say.T("words.less"), parts.Plain, func() { s.w.Move(-1) })
	more := parts.NewButton(say.T("words.more"), parts.Plain, func() { s.w.Move(1) })
	used := parts.NewButton(say.T("words.used"), parts.Plain, func() { s.w.Used() })
	away := parts.NewButton(say.T("words.away"), parts.Quiet, func() {
		x := d.Word
		x.Away = true
		s.w.Save(x)
	})
	s.targets["less"], s.targets["more"], s.targets["used"], s.targets["away"] = less, more, used, away
	settings := parts.Stack(look.M, parts.Gap(look.S), bold(say.T("words.about")),
		parts.Columns(look.S, []float32{1, 0}, form, rename))
	if len(s.w.Line()) > 1 {
		settings.Add(parts.Flow(look.S, less, more))
	}
	settings.Add(s.where(d))
	settings.Add(parts.Flow(look.S, used, away))
	if d.LastUsed != "" {
		settings.Add(parts.NewSoft(say.T("words.last-used", say.S{"day": model.Since(d.LastUsed, s.p.house.Now())}), look.Caption))
	}
	s.one.Add(settings)
}

// whereFelt asks where in the body it was felt; it may stay open.
func (s *wordsScreen) whereFelt() fyne.CanvasObject {
	names, at := []string{say.T("words.felt-open")}, 0
	for i, id := range nlp.Places {
		names = append(names, model.PlaceName(id))
		if id == s.w.Draft.Place {
			at = i + 1
		}
	}
	menu := parts.NewMenu(names, at, func(i int) {
		s.w.Draft.Place = ""
		if i > 0 {
			s.w.Draft.Place = nlp.Places[i-1]
		}
	})
	s.targets["felt"] = menu.Select
	return parts.Columns(look.M, []float32{0, 1}, parts.Snug(bold(say.T("words.felt"))), menu)
}

// where lets a word be tied to a feeling and to one body place.
func (s *wordsScreen) where(d model.WordDetail) fyne.CanvasObject {
	var names []string
	ids := []string{""}
	names = append(names, say.T("words.no-feeling"))
	for _, g := range s.w.Groups() {
		if !g.Place && g.ID != model.Loose {
			ids = append(ids, g.ID)
			names = append(names, g.Name)
		}
	}
	at := 0
	for i, id := range ids {
		if id == d.Word.Family {
			at = i
		}
	}
	feeling := parts.NewMenu(names, at, func(i int) {
		x := d.Word
		x.Family = ids[i]
		s.w.Save(x)
	})
	places := []string{""}
	placeNames := []string{say.T("words.no-place")}
	at = 0
	for _, id := range nlp.Places {
		places = append(places, id)
		placeNames = append(placeNames, model.PlaceName(id))
		if len(d.Word.Places) > 0 && d.Word.Places[0] == id {
			at = len(places) - 1
		}
	}
	place := parts.NewMenu(placeNames, at, func(i int) {
		x := d.Word
		x.Places = nil
		if places[i] != "" {
			x.Places = []string{places[i]}
		}
		s.w.Save(x)
	})
	return parts.Columns(look.S, []float32{1, 1},
		parts.Stack(look.XS, parts.NewSoft(say.T("words.label.feeling"), look.Caption), feeling),
		parts.Stack(look.XS, parts.NewSoft(say.T("words.label.place"), look.Caption), place))
}

// inset moves a caption to where the words of rows begin.
func inset(o fyne.CanvasObject) fyne.CanvasObject {
	return parts.Inset(look.M, o)
}

// threeLayout shares the width among list, line and word. Where it is too
// narrow for three, the chosen word takes the place of its line.
type threeLayout struct{ s *wordsScreen }

// threeWide is the least width for three columns.
const threeWide float32 = 820

func (threeLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 240) }

func (l threeLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	left := look.M
	list := max(180, min(248, s.Width*0.22))
	rest := s.Width - list - left
	widths := []float32{list, rest * 0.42, rest * 0.58}
	_, chosen := l.s.w.Word()
	narrow := s.Width < threeWide
	if narrow {
		widths[1], widths[2] = rest, 0
		if chosen {
			widths[1], widths[2] = 0, rest
		}
	}
	if b := l.s.backToLine; b != nil {
		if narrow && chosen {
			b.Show()
		} else {
			b.Hide()
		}
	}
	x := left
	for i, w := range widths {
		if w == 0 {
			o[i].Hide()
			continue
		}
		o[i].Show()
		o[i].Move(fyne.NewPos(x, 0))
		o[i].Resize(fyne.NewSize(w, s.Height))
		x += w
	}
}
