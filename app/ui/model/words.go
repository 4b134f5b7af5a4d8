package model

import (
	"slices"
	"sort"
	"strings"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// WordGroup is one entry of the list at the left of the Words screen: a
// feeling family, a body place, or the words that belong to none.
type WordGroup struct {
	ID    string
	Name  string
	Line  string // a plain sentence about it, or ""
	Place bool
	N     int // words in it
}

// Loose is the group of words that have neither family nor place.
const Loose = "loose"

// WordItem is one word on a shades line.
type WordItem struct {
	Word  record.Word
	State wordbook.State
}

// WordDetail is one word's page.
type WordDetail struct {
	Word        record.Word
	State       wordbook.State
	Told        []record.Experience // newest first
	StateText   string
	FamilyText  string
	PlacesText  string
	LastUsed    string // day, or ""
	UsedAloneIn int    // moments
}

// Happened is an experience being written down.
type Happened struct {
	What, Place, HowStrong, Helped, On string
}

// Words is the Words screen of one learner. What is being written stays here
// until it is kept, so that nothing is lost by looking elsewhere.
type Words struct {
	house   *House
	learner record.Learner
	own     []record.Family
	words   []record.Word
	told    []record.Experience
	book    wordbook.Book

	group   string
	word    string
	Draft   Happened
	NewForm string // a word being added
	Trouble string // one sentence, or ""

	Changed func()
}

// NewWords reads a learner's words.
func NewWords(h *House, l record.Learner, own []record.Family) *Words {
	w := &Words{house: h, learner: l, own: own, Changed: func() {}}
	w.load()
	if g := w.Groups(); len(g) > 0 {
		w.group = g[0].ID
		for _, x := range g {
			if x.N > 0 {
				w.group = x.ID
				break
			}
		}
	}
	return w
}

// wordsWith is NewWords for a look at the whole, with answers read already.
func wordsWith(h *House, l record.Learner, own []record.Family, given []record.Marked) *Words {
	w := &Words{house: h, learner: l, own: own, Changed: func() {}}
	w.loadWith(given, nil)
	return w
}

func (w *Words) load() { w.loadWith(w.house.Store.Marked(w.learner.ID)) }

func (w *Words) loadWith(given []record.Marked, err error) {
	keep := func(e error) {
		if e != nil && err == nil {
			err = e
		}
	}
	var e error
	w.words, e = w.house.Store.Words(w.learner.ID)
	keep(e)
	w.told, e = w.house.Store.Experiences(w.learner.ID)
	keep(e)
	w.book, e = w.house.book(w.learner.ID, w.words, w.told, given)
	keep(e)
	w.Trouble = say.Error(err)
}

// Reload reads the words again; what is being written stays.
func (w *Words) Reload() { w.load() }

// Show opens a group without telling.
func (w *Words) Show(group string) { w.group, w.word = group, "" }

// Learner gives whose words these are.
func (w *Words) Learner() record.Learner { return w.learner }

// Count gives how many words there are, and how many of them are tied or free.
func (w *Words) Count() (all, tied, free int) {
	for _, x := range w.words {
		if x.Away {
			continue
		}
		all++
		switch w.book.State(x.ID) {
		case wordbook.Tied:
			tied++
		case wordbook.Free:
			free++
		}
	}
	return all, tied, free
}

// mostFading is how many words that may fade are named at once.
const mostFading = 3

// Fading names the words that should be met again, the most faded first, or "".
// The plan is that of a published memory model; it measures nobody.
func (w *Words) Fading() string {
	var forms []string
	for _, f := range w.book.Fade(w.house.Today()) {
		if len(forms) < mostFading {
			forms = append(forms, f.Word.Form)
		}
	}
	if len(forms) == 0 {
		return ""
	}
	return say.T("words.fading", say.S{"words": And(forms)})
}

// Groups lists the feeling families and then the body places.
func (w *Words) Groups() []WordGroup {
	var out []WordGroup
	count := func(in func(record.Word) bool) int {
		n := 0
		for _, x := range w.words {
			if !x.Away && in(x) {
				n++
			}
		}
		return n
	}
	ids := slices.Clone(nlp.Families)
	if w.house.Table != nil {
		ids = w.house.Table.IDs()
	}
	for _, f := range w.own {
		if !f.Away && !slices.Contains(ids, f.FamilyID) {
			ids = append(ids, f.FamilyID)
		}
	}
	for _, id := range ids {
		out = append(out, WordGroup{ID: id, Name: FamilyName(id, w.own), Line: familyLine(w.house.Table, id),
			N: count(func(x record.Word) bool { return x.Family == id })})
	}
	for _, id := range nlp.Places {
		out = append(out, WordGroup{ID: "place:" + id, Name: PlaceName(id), Place: true,
			N: count(func(x record.Word) bool { return slices.Contains(x.Places, id) })})
	}
	if n := count(loose); n > 0 {
		out = append(out, WordGroup{ID: Loose, Name: say.T("words.loose"), Line: say.T("words.loose-line"), N: n})
	}
	return out
}

func loose(x record.Word) bool { return x.Family == "" && len(x.Places) == 0 }

// Group gives the group that is open.
func (w *Words) Group() WordGroup {
	for _, g := range w.Groups() {
		if g.ID == w.group {
			return g
		}
	}
	return WordGroup{}
}

// OpenGroup opens a group; no word is chosen in it.
func (w *Words) OpenGroup(id string) {
	w.group, w.word = id, ""
	w.Changed()
}

// Line gives the words of the open group along their shades line, least first.
func (w *Words) Line() []WordItem {
	var out []WordItem
	for _, x := range w.words {
		in := x.Family == w.group
		if p, ok := strings.CutPrefix(w.group, "place:"); ok {
			in = slices.Contains(x.Places, p)
		} else if w.group == Loose {
			in = loose(x)
		}
		if in && !x.Away {
			out = append(out, WordItem{x, w.book.State(x.ID)})
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Word.Shade != out[j].Word.Shade {
			return out[i].Word.Shade < out[j].Word.Shade
		}
		return out[i].Word.Form < out[j].Word.Form
	})
	return out
}

// Open chooses a word.
func (w *Words) Open(id string) {
	if id != w.word {
		w.word = id
	}
	w.Changed()
}

// Word gives the chosen word's page; ok is false where none is chosen.
func (w *Words) Word() (d WordDetail, ok bool) {
	i := slices.IndexFunc(w.words, func(x record.Word) bool { return x.ID == w.word })
	if i < 0 {
		return d, false
	}
	d.Word = w.words[i]
	d.State = w.book.State(d.Word.ID)
	d.StateText = say.T("words.state." + string(d.State))
	if d.Word.Family != "" {
		d.FamilyText = FamilyName(d.Word.Family, w.own)
	}
	var places []string
	for _, p := range d.Word.Places {
		places = append(places, PlaceName(p))
	}
	d.PlacesText = And(places)
	for _, e := range w.told {
		if e.WordID == d.Word.ID {
			d.Told = append(d.Told, e)
		}
	}
	sort.SliceStable(d.Told, func(i, j int) bool { return dayOf(d.Told[i]) > dayOf(d.Told[j]) })
	seen := map[string]bool{}
	for _, u := range w.book.Uses {
		if u.WordID != d.Word.ID {
			continue
		}
		d.LastUsed = max(d.LastUsed, u.Day)
		if u.Alone && u.Fits && u.Moment != "" && !seen[u.Moment] {
			seen[u.Moment] = true
			d.UsedAloneIn++
		}
	}
	return d, true
}

func dayOf(e record.Experience) string {
	if e.HappenedOn != "" {
		return e.HappenedOn
	}
	return e.Day
}

// Add puts the word being written into the open group. It reports whether it
// was kept; a word that is there already is opened instead.
func (w *Words) Add(form string) bool {
	form = strings.Join(strings.Fields(form), " ")
	if form == "" {
		w.Trouble = say.T("words.no-form")
		w.Changed()
		return false
	}
	for _, x := range w.words {
		if strings.EqualFold(x.Form, form) && !x.Away && sameGroup(x, w.group) {
			w.word, w.NewForm, w.Trouble = x.ID, "", ""
			w.Changed()
			return true
		}
	}
	x := record.Word{Learner: w.learner.ID, Form: form, Shade: 0.5}
	if p, ok := strings.CutPrefix(w.group, "place:"); ok {
		x.Places = []string{p}
	} else if w.group != Loose {
		x.Family = w.group
	}
	x.Language = LevelOf(w.house.Table, x.Family, form)
	x, err := w.house.Store.SaveWord(x)
	if err != nil {
		w.Trouble = say.Error(err)
		w.Changed()
		return false
	}
	w.load()
	w.word, w.NewForm = x.ID, ""
	w.Changed()
	return true
}

func sameGroup(x record.Word, group string) bool {
	if p, ok := strings.CutPrefix(group, "place:"); ok {
		return slices.Contains(x.Places, p)
	}
	return x.Family == group || group == Loose && loose(x)
}

// Save keeps a changed word: another form, places, shade, or put aside.
func (w *Words) Save(x record.Word) bool {
	x.Form = strings.Join(strings.Fields(x.Form), " ")
	if x.Form == "" {
		w.Trouble = say.T("words.no-form")
		w.Changed()
		return false
	}
	if _, err := w.house.Store.SaveWord(x); err != nil {
		w.Trouble = say.Error(err)
		w.Changed()
		return false
	}
	w.load()
	w.Changed()
	return true
}

// Move moves the chosen word one place along its shades line: -1 towards less,
// 1 towards more. Words are then spread evenly over the line.
func (w *Words) Move(by int) {
	line := w.Line()
	i := slices.IndexFunc(line, func(x WordItem) bool { return x.Word.ID == w.word })
	j := i + by
	if i < 0 || j < 0 || j >= len(line) {
		return
	}
	line[i], line[j] = line[j], line[i]
	for n, x := range line {
		at := 0.5
		if len(line) > 1 {
			at = float64(n) / float64(len(line)-1)
		}
		if x.Word.Shade != at {
			x.Word.Shade = at
			if _, err := w.house.Store.SaveWord(x.Word); err != nil {
				w.Trouble = say.Error(err)
				break
			}
		}
	}
	trouble := w.Trouble
	w.load()
	if trouble != "" {
		w.Trouble = trouble
	}
	w.Changed()
}

// Keep writes the experience down under the chosen word. It reports whether it
// was kept; what was written stays until it is.
func (w *Words) Keep() bool {
	d := w.Draft
	if strings.TrimSpace(d.What) == "" {
		w.Trouble = say.T("words.no-what")
		w.Changed()
		return false
	}
	day := d.On
	if day == "" {
		day = w.house.Today()
	}
	_, err := w.house.Store.AddExperience(record.Experience{Learner: w.learner.ID, WordID: w.word, HappenedOn: day,
		What: strings.TrimSpace(d.What), Place: d.Place, HowStrong: strings.TrimSpace(d.HowStrong),
		Helped: strings.TrimSpace(d.Helped), WrittenBy: say.T("words.by-guide")})
	if err != nil {
		w.Trouble = say.Error(err)
		w.Changed()
		return false
	}
	w.load()
	w.Draft = Happened{}
	w.Changed()
	return true
}

// Used notes that the chosen word was used unasked today.
func (w *Words) Used() {
	if w.word == "" {
		return
	}
	_, err := w.house.Store.AddWordUse(record.WordUse{Learner: w.learner.ID, WordID: w.word, UsedOn: w.house.Today()})
	w.load()
	if err != nil {
		w.Trouble = say.Error(err)
	}
	w.Changed()
}
