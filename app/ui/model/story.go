package model

import (
	"context"
	"slices"
	"strconv"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/corpus/ingest"
	"feltpage/corpus/level"
	"feltpage/exercises"
	"feltpage/nlp"
)

// Finding is one clue as the guide reads it.
type Finding struct {
	Cue      nlp.Cue
	Words    string // of the text
	Kind     string // in words
	Whose    string
	Shows    string // which feelings, in words
	Where    string // body places, or ""
	Why      string // why it was found
	Sure     string // how sure, in plain words
	Dropped  bool   // the guide says it is no clue
	MendID   string // of that mend
	InMoment int    // number of the moment it belongs to from 1, or 0
	Owner    string // name of whose it is, as the guide has it, or ""
	Moved    string // id of the mend that says so, or ""
}

// MomentCard is one moment as the guide reads it.
type MomentCard struct {
	Moment  exercises.Moment
	Number  int // from 1
	Title   string
	Route   string // what is asked first, in words
	Fits    string
	Near    string
	Passage string
	Hard    string // how hard, in words
	LeftOut bool
	MendID  string
}

// StoryPage is one story with its findings and moments.
type StoryPage struct {
	house   *House
	story   record.Story
	reading *Reading
	own     []record.Family
	cards   []MomentCard
	finds   []Finding
	mends   []record.Mend

	Busy    string
	Trouble string
	cancel  context.CancelFunc
	run     int
	Changed func()
}

// NewStoryPage opens a story. The reading comes from what is kept or is made
// away from the screen; Changed is called when it is there.
func NewStoryPage(h *House, s record.Story, own []record.Family, changed func()) *StoryPage {
	p := &StoryPage{house: h, story: s, own: own, Changed: changed}
	p.read()
	return p
}

func (p *StoryPage) read() {
	ctx, cancel := context.WithCancel(context.Background())
	p.run++
	run := p.run
	p.cancel, p.Busy, p.Trouble = cancel, say.T("story.reading"), ""
	var r *Reading
	var err error
	p.house.background(func() { r, err = p.house.Read(ctx, p.story) }, func() {
		if run != p.run {
			return
		}
		p.Busy = ""
		if err != nil {
			p.Trouble = say.Error(err)
		} else {
			p.take(r)
		}
		p.Changed()
	})
}

// Cancel stops the reading.
func (p *StoryPage) Cancel() {
	if p.Busy == "" {
		return
	}
	p.cancel()
	p.run++
	p.Busy, p.Trouble = "", say.T("errors.cancelled")
	p.Changed()
}

// Again reads the story again after it was stopped.
func (p *StoryPage) Again() { p.read(); p.Changed() }

func (p *StoryPage) take(r *Reading) {
	p.reading, p.mends = r, r.Mends
	p.cards, p.finds = nil, nil
	for i, m := range r.Moments {
		p.cards = append(p.cards, p.card(m, i+1))
	}
	// mended gives the newest mend of a kind that is about a finding.
	mended := func(c nlp.Cue, what string) (out record.Mend) {
		for _, m := range r.Mends {
			if m.What != what {
				continue
			}
			if at, ok := m.Anchor.In(p.story.Text); ok && at == c.Span && (m.Character == "" || m.Character == p.who(r.Found, c.Character)) {
				out = m
			}
		}
		return out
	}
	for _, c := range r.Found.Cues {
		f := p.finding(r.Found, c)
		f.Owner = p.who(r.Found, c.Character)
		if m := mended(c, record.MendNotAClue); m.ID != "" {
			f.Dropped, f.MendID = true, m.ID
		}
		if m := mended(c, record.MendOwner); m.ID != "" {
			f.Owner, f.Moved = m.NewCharacter, m.ID
			f.Whose = say.T("story.whose-yours", say.S{"name": m.NewCharacter})
		}
		for _, m := range r.Moments {
			if slices.ContainsFunc(m.Key.Evidence, func(e exercises.Evidence) bool { return e.Span == c.Span }) {
				f.InMoment = 1 + slices.IndexFunc(r.Moments, func(x exercises.Moment) bool { return x.ID == m.ID })
				break
			}
		}
		p.finds = append(p.finds, f)
	}
}

func (p *StoryPage) who(a *nlp.Analysis, id int) string {
	if id < 0 || id >= len(a.Characters) {
		return ""
	}
	return a.Characters[id].Name
}

func (p *StoryPage) finding(a *nlp.Analysis, c nlp.Cue) Finding {
	f := Finding{Cue: c, Words: c.Span.Of(p.story.Text), Kind: say.T("clue.kind." + c.Kind), Why: ReasonText(c.Reason)}
	if name := p.who(a, c.Character); name != "" {
		f.Whose = say.T("story.whose", say.S{"name": name})
	} else {
		f.Whose = say.T("story.whose-unknown")
	}
	var names []string
	for i, w := range c.Feelings {
		if i < 4 && w.Weight >= 0.12 {
			names = append(names, FamilyName(w.Family, p.own))
		}
	}
	switch {
	case len(names) == 0:
		f.Shows = say.T("story.shows-none")
	case c.Denied:
		f.Shows = say.T("story.shows-denied", say.S{"feelings": Or(names)})
	case c.Pretended:
		f.Shows = say.T("story.shows-pretended", say.S{"feelings": Or(names)})
	case len(names) == 1:
		f.Shows = say.T("story.shows-one", say.S{"feeling": names[0]})
	default:
		f.Shows = say.T("story.shows-many", say.S{"feelings": Or(names)})
	}
	var places []string
	for _, x := range c.Places {
		places = append(places, PlaceName(x))
	}
	f.Where = And(places)
	top, second := 0.0, 0.0
	if len(c.Feelings) > 0 {
		top = c.Feelings[0].Weight
	}
	if len(c.Feelings) > 1 {
		second = c.Feelings[1].Weight
	}
	switch {
	case c.Character == nlp.None:
		f.Sure = say.T("story.sure-whose")
	case c.Kind == nlp.Situation:
		f.Sure = say.T("story.sure-event")
	case top >= 0.75 && second < 0.4:
		f.Sure = say.T("story.sure-high")
	case top >= 0.45:
		f.Sure = say.T("story.sure-middle")
	default:
		f.Sure = say.T("story.sure-low")
	}
	return f
}

func (p *StoryPage) card(m exercises.Moment, n int) MomentCard {
	names := func(ids []string, most int) string {
		var out []string
		for i, f := range ids {
			if i < most {
				out = append(out, FamilyName(f, p.own))
			}
		}
		return Or(out)
	}
	hard := "middle"
	switch {
	case m.Difficulty < 0.35:
		hard = "easy"
	case m.Difficulty > 0.65:
		hard = "hard"
	}
	return MomentCard{Moment: m, Number: n, Title: say.Name(m.CharacterName), Route: say.T("moment.route." + string(m.Route)),
		Fits: names(m.Key.Fits, 3), Near: names(m.Key.Near, 3), Passage: m.Span.Of(p.story.Text), Hard: say.T("moment.hard." + hard)}
}

// Story gives the story.
func (p *StoryPage) Story() record.Story { return p.story }

// Reading gives what was read, or nil while it is not there yet.
func (p *StoryPage) Reading() *Reading { return p.reading }

// Findings lists the clues in text order, dropped ones too.
func (p *StoryPage) Findings() []Finding { return p.finds }

// Moments lists the moments in story order.
func (p *StoryPage) Moments() []MomentCard { return p.cards }

// LeftOut lists the places from which the guide wants no exercise.
func (p *StoryPage) LeftOut() []record.Mend {
	var out []record.Mend
	for _, m := range p.mends {
		if m.What == record.MendLeaveOut {
			out = append(out, m)
		}
	}
	return out
}

// WhyNone says why there is no moment, or "".
func (p *StoryPage) WhyNone() string {
	if p.reading == nil || len(p.reading.Moments) > 0 {
		return ""
	}
	return ReasonText(p.reading.WhyNone)
}

// Facts says level, minutes and words in one line.
func (p *StoryPage) Facts() string {
	l := level.Of(p.story.Text)
	return say.T("story.facts", say.S{"band": say.T(level.Band(l)), "minutes": Minutes(l.Minutes), "words": thousands(l.Words)})
}

// Remarks says what to look at after the import.
func (p *StoryPage) Remarks() []string {
	remarks := p.story.Remarks
	if len(remarks) == 0 {
		remarks = ingest.Remarks(p.story.Text) // those of a kept story
	}
	var out []string
	for _, r := range remarks {
		out = append(out, ReasonText(r))
	}
	return out
}

// NoteLine is one content note with the place it rests on.
type NoteLine struct {
	Text string
	Span nlp.Span
	N    int // how many places
}

// Notes lists the content notes, each kind once with its first place.
func (p *StoryPage) Notes() []NoteLine {
	if p.reading == nil {
		return nil
	}
	var out []NoteLine
	at := map[string]int{}
	for _, n := range p.reading.Notes {
		if i, ok := at[n.Code]; ok {
			out[i].N++
			continue
		}
		at[n.Code] = len(out)
		out = append(out, NoteLine{Text: say.T(n.Code), Span: n.Span, N: 1})
	}
	return out
}

// Origin says where the story comes from.
func (p *StoryPage) Origin() string {
	o := p.story.Origin
	switch {
	case o.Source != "" && o.FileName != "":
		return say.T("story.origin-file", say.S{"source": o.Source, "file": o.FileName})
	case o.Source != "":
		return say.T("story.origin", say.S{"source": o.Source})
	case o.FileName != "":
		return say.T("story.origin", say.S{"source": o.FileName})
	}
	return say.T("story.origin-unknown")
}

// Ready reports whether the guide has read the story.
func (p *StoryPage) Ready() bool { return p.story.ReadOn != "" }

// SetReady ticks "I have read it", or takes the tick away.
func (p *StoryPage) SetReady(on bool) {
	if err := p.house.Store.TickRead(p.story.Meta.ID, on); err != nil {
		p.Trouble = say.Error(err)
	} else if s, err := p.house.Store.Story(p.story.Meta.ID); err == nil {
		p.story = s
	}
	p.Changed()
}

// Drop says that a finding is no clue; Keep takes that back.
func (p *StoryPage) Drop(i int) {
	f := p.finds[i]
	p.mend(record.Mend{Anchor: record.AnchorAt(p.story.Text, p.story.Hash, f.Cue.Span, p.who(p.reading.Found, f.Cue.Character)), What: record.MendNotAClue})
}

// People lists the characters that a clue can belong to, in the order in which
// the story names them.
func (p *StoryPage) People() []string {
	var out []string
	if p.reading != nil {
		for _, c := range p.reading.Found.Characters {
			if c.Name != "" && !slices.Contains(out, c.Name) {
				out = append(out, c.Name)
			}
		}
	}
	return out
}

// Give says that a finding belongs to another character. Giving it back to whom
// the engine found takes the mend back.
func (p *StoryPage) Give(i int, name string) {
	f := p.finds[i]
	found := p.who(p.reading.Found, f.Cue.Character)
	switch {
	case name == f.Owner:
	case name == found && f.Moved != "":
		p.undo(f.Moved)
	default:
		p.mend(record.Mend{Anchor: record.AnchorAt(p.story.Text, p.story.Hash, f.Cue.Span, found), What: record.MendOwner, NewCharacter: name})
	}
}

// Keep takes a drop back.
func (p *StoryPage) Keep(i int) { p.undo(p.finds[i].MendID) }

// LeaveOut makes no exercise from a moment's words; Undo takes it back.
func (p *StoryPage) LeaveOut(n int) {
	for _, c := range p.cards {
		if c.Number == n && len(c.Moment.Key.Evidence) > 0 {
			p.mend(record.Mend{Anchor: record.AnchorAt(p.story.Text, p.story.Hash, c.Moment.Key.Evidence[0].Span, c.Moment.CharacterName), What: record.MendLeaveOut})
			return
		}
	}
}

// Undo takes a mend back.
func (p *StoryPage) Undo(id string) { p.undo(id) }

func (p *StoryPage) mend(m record.Mend) {
	if _, err := p.house.Store.SaveMend(m); err != nil {
		p.Trouble = say.Error(err)
		p.Changed()
		return
	}
	p.read()
}

func (p *StoryPage) undo(id string) {
	if err := p.house.Store.UndoMend(id); err != nil {
		p.Trouble = say.Error(err)
		p.Changed()
		return
	}
	p.read()
}

// Remove takes the story off the shelf, or erases it where no answer hangs on
// it.
func (p *StoryPage) Remove() error {
	_, err := p.house.Store.RemoveStory(p.story.Meta.ID)
	return err
}

// Number writes a number for the screen.
func Number(n int) string { return strconv.Itoa(n) }
