package model

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
	"time"

	"feltpage/app/chart"
	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/exercises/growth"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// Share is one row of the growth screen: a share with its doubt.
type Share struct {
	Name     string
	X, N     int
	Low, Hi  float64
	Standing int
	Text     string // "6 of 8, likely between 41 and 93 of 100"
}

// Given is one answer in the list that the guide can mark anew.
type Given struct {
	ID      string
	Marked  record.Marked
	Day     string
	Asked   string // the question as it was put
	Said    string // the answer in words
	How     string // "alone", "with fewer choices", "you helped"
	Story   string
	Mark    exercises.MarkValue // that counts
	Program exercises.MarkValue
	Guide   exercises.MarkValue // or ""
	Blind   bool                // the program's mark is kept back until the guide has marked
	Why     string              // the program's reason
}

// Growth is the growth screen of one learner.
type Growth struct {
	house   *House
	learner record.Learner
	own     []record.Family
	given   []record.Marked
	items   []growth.Item
	lines   []record.PhaseLine
	words   *Words
	titles  map[string]string
	Trouble string
	Changed func()
}

// NewGrowth reads a learner's answers.
func NewGrowth(h *House, l record.Learner, own []record.Family) *Growth {
	g := &Growth{house: h, learner: l, own: own, Changed: func() {}}
	g.load()
	return g
}

func (g *Growth) load() {
	given, err := g.house.Store.Marked(g.learner.ID)
	if err == nil {
		g.given, g.items = given, Items(given)
		g.lines, err = g.house.Store.PhaseLines(g.learner.ID)
	}
	g.titles = map[string]string{}
	if err == nil {
		var all []record.Story
		if all, err = g.house.Store.Stories(); err == nil {
			for _, s := range all {
				g.titles[s.Meta.ID] = s.Title
			}
		}
	}
	g.words = wordsWith(g.house, g.learner, g.own, given)
	g.Trouble = say.Error(err)
}

// Learner gives whose growth it is.
func (g *Growth) Learner() record.Learner { return g.learner }

// Sentence says the last sitting in plain words. It claims no growth.
func (g *Growth) Sentence() string { return ReasonText(growth.Sentence(g.items)) }

// Empty reports whether there is nothing to count yet.
func (g *Growth) Empty() bool { return growth.All(g.items).Offered == 0 }

// Doubt says, in one sentence, what can be said over all sittings together.
func (g *Growth) Doubt() string {
	all := growth.All(g.items)
	if all.N == 0 {
		return ""
	}
	return say.T("growth.overall", say.S{"share": shareText(all), "sittings": Count("count.sitting", len(growth.BySitting(g.items)))})
}

// Agreement says whether the program's marks alone would tell the same.
func (g *Growth) Agreement() string {
	changed := 0
	for _, m := range g.given {
		if !m.Withdrawn && m.Guide != nil && m.Program != nil && m.Guide.Value != m.Program.Value {
			changed++
		}
	}
	if changed == 0 {
		return ""
	}
	program := make([]growth.Item, len(g.items))
	copy(program, g.items)
	for i := range program {
		if program[i].Program != "" {
			program[i].Value = program[i].Program
		}
	}
	return say.T("growth.by-program", say.S{"changed": Count("count.mark", changed), "share": shareText(growth.All(program))})
}

// leastBlind is how many answers marked by both, the guide's mark given blind,
// it takes before agreement is stated. Common practice asks for a fifth of the
// sittings; the number is our own judgement.
const leastBlind = 10

// Blind says how well the guide's blind marks and the program's agree, or "".
func (g *Growth) Blind() string {
	table := growth.Blind(g.items)
	k := growth.CohenKappa(table, growth.Unweighted)
	if k.N < leastBlind || math.IsNaN(k.Value) {
		return ""
	}
	same := 0
	for i := range table {
		same += table[i][i]
	}
	return say.T("growth.blind", say.S{"n": Count("count.answer", k.N), "same": strconv.Itoa(same), "kappa": strconv.FormatFloat(k.Value, 'f', 2, 64),
		"low": strconv.FormatFloat(max(k.Lo, -1), 'f', 2, 64), "high": strconv.FormatFloat(min(k.Hi, 1), 'f', 2, 64)})
}

func shareText(p growth.Point) string {
	if p.N == 0 {
		return say.T("growth.share-none")
	}
	return say.T("growth.share", say.S{"x": strconv.Itoa(p.X), "n": strconv.Itoa(p.N), "low": hundred(p.Lo), "high": hundred(p.Hi)})
}

func hundred(v float64) string { return strconv.Itoa(int(math.Round(v * 100))) }

// Series gives the growth chart's numbers: one point a sitting.
func (g *Growth) Series() chart.Series {
	kinds := map[string]record.SittingKind{}
	for _, m := range g.given {
		kinds[m.Answer.Sitting] = m.SittingKind
	}
	var out chart.Series
	for _, p := range growth.BySitting(g.items) {
		day, err := time.Parse(time.DateOnly, p.Day)
		if err != nil {
			continue
		}
		c := chart.Point{Day: day, Fits: p.X, Asked: p.N, Low: p.Lo, High: p.Hi, Skipped: p.Standing, Shown: p.Offered,
			Phase: g.phase(p.Day, kinds[p.Key])}
		for _, i := range g.items {
			if i.Sitting == p.Key && i.Counts() && (i.Prompt != exercises.Alone || i.Entry != exercises.Alone || i.Helped) {
				c.Helped++
				if i.Value == exercises.Fits {
					c.HelpedFits++
				}
			}
		}
		out = append(out, c)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Day.Before(out[j].Day) })
	return out
}

// Lines lists the learner's phase lines by day.
func (g *Growth) Lines() []record.PhaseLine { return g.lines }

// DrawLine parts the sittings from today on from those before, under a name.
func (g *Growth) DrawLine(name string) error {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		return nil
	}
	_, err := g.house.Store.AddPhaseLine(record.PhaseLine{Learner: g.learner.ID, On: g.house.Today(), Label: name})
	if err != nil {
		return fmt.Errorf("drawing a line: %w", err)
	}
	return nil
}

// Across describes how the sittings after a phase line lie to those before it,
// up to the next line on either side.
func (g *Growth) Across(line record.PhaseLine) string {
	from, to := "", "9999"
	for _, l := range g.lines {
		if l.On < line.On {
			from = max(from, l.On)
		}
		if l.On > line.On {
			to = min(to, l.On)
		}
	}
	var before, after []growth.Point
	for _, p := range growth.BySitting(g.items) {
		switch {
		case p.Day >= from && p.Day < line.On:
			before = append(before, p)
		case p.Day >= line.On && p.Day < to:
			after = append(after, p)
		}
	}
	return ReasonText(growth.Compare(before, after).Sentence())
}

// TakeLine takes a line off the graph.
func (g *Growth) TakeLine(id string) error { return g.house.Store.RemovePhaseLine(id) }

// phase names the phase that a sitting belongs to: baseline sittings by
// themselves, else by the newest phase line before the day.
func (g *Growth) phase(day string, k record.SittingKind) string {
	if k == record.Baseline {
		return say.T("growth.phase.baseline")
	}
	name, at := say.T("growth.phase.teaching"), ""
	for _, l := range g.lines {
		if l.On <= day && l.On >= at {
			name, at = l.Label, l.On
		}
	}
	return name
}

// Words gives the words written on the chart.
func (g *Growth) Words() chart.Words {
	return chart.Words{
		Value: say.T("growth.axis"), Alone: say.T("growth.key.alone"), Helped: say.T("growth.key.helped"),
		Skipped: say.T("growth.key.skipped"), Items: say.T("growth.key.items"), Nothing: say.T("growth.chart-none"),
		Day: ShortDay, Percent: func(n int) string { return say.T("growth.percent", say.S{"n": strconv.Itoa(n)}) },
	}
}

func (g *Growth) shares(points []growth.Point, name func(string) string) []Share {
	out := make([]Share, 0, len(points))
	for _, p := range points {
		out = append(out, Share{Name: name(p.Key), X: p.X, N: p.N, Low: p.Lo, Hi: p.Hi, Standing: p.Standing, Text: shareText(p)})
	}
	return out
}

// ByStep gives the share of each step.
func (g *Growth) ByStep() []Share {
	return g.shares(growth.ByStep(g.items), func(k string) string { return say.T("step.name." + k) })
}

// ByKind gives the share of each kind of clue, easy kinds first.
func (g *Growth) ByKind() []Share {
	return g.shares(growth.ByKind(g.items), func(k string) string { return say.T("clue.kind." + k) })
}

// ByFeeling gives the share of each feeling family.
func (g *Growth) ByFeeling() []Share {
	return g.shares(growth.ByFamily(g.items), func(k string) string { return FamilyName(k, g.own) })
}

// WordsText says how the word book has grown.
func (g *Growth) WordsText() string {
	all, tied, free := g.words.Count()
	if all == 0 {
		return say.T("growth.words-none")
	}
	return say.T("growth.words", say.S{"all": Count("count.word", all), "tied": strconv.Itoa(tied + free), "free": strconv.Itoa(free)})
}

// FreeWords lists the words that are used freely.
func (g *Growth) FreeWords() []string {
	var out []string
	for _, w := range g.words.words {
		if !w.Away && g.words.book.State(w.ID) == wordbook.Free {
			out = append(out, w.Form)
		}
	}
	return out
}

// Waiting counts the answers that are left to the guide and not yet marked.
func (g *Growth) Waiting() int { return waiting(g.given) }

func waiting(given []record.Marked) int {
	n := 0
	for _, m := range given {
		if waits(m) {
			n++
		}
	}
	return n
}

func waits(m record.Marked) bool {
	return !m.Withdrawn && m.Guide == nil && m.Program != nil && m.Program.Value == exercises.ForGuide
}

// blindOne reports whether an answer belongs to the blind sample, about one in
// five. It follows from the answer's id alone, so that it is the same answer
// every time and nobody can choose it.
func blindOne(id string) bool {
	h := uint32(2166136261)
	for _, b := range []byte(id) {
		h = (h ^ uint32(b)) * 16777619
	}
	h ^= h >> 15
	h *= 2246822519
	h ^= h >> 13
	return h%5 == 0
}

// Answers lists the answers newest first, those to marked steps alone.
func (g *Growth) Answers() []Given {
	var out []Given
	for i := len(g.given) - 1; i >= 0; i-- {
		m := g.given[i]
		if m.Withdrawn || !m.Step.Kind.Marked() || m.Answer.Answer.AboutSelf {
			continue
		}
		out = append(out, g.one(m))
	}
	return out
}

// WaitingAnswers lists those left to the guide, oldest first.
func (g *Growth) WaitingAnswers() []Given {
	var out []Given
	for _, m := range g.given {
		if waits(m) {
			out = append(out, g.one(m))
		}
	}
	return out
}

func (g *Growth) one(m record.Marked) Given {
	a := m.Answer.Answer
	v := Given{ID: m.Answer.ID, Marked: m, Day: m.SittingDay, Asked: ReasonText(m.Step.Prompt), Story: g.titles[m.Answer.StoryID],
		Mark: m.Effective().Value, Said: g.said(m)}
	if m.Program != nil {
		v.Program, v.Why = m.Program.Value, ReasonText(m.Program.Why)
	}
	if m.Guide != nil {
		v.Guide = m.Guide.Value
	}
	v.Blind = m.Guide == nil && m.Program != nil && m.Program.Value != exercises.Unmarked && a.Standing == "" && blindOne(v.ID)
	var how []string
	how = append(how, say.T("prompt."+strconv.Itoa(int(max(a.Prompt, a.Entry)))))
	if m.Helped || a.GuideHelp {
		how = append(how, say.T("prompt.helped"))
	}
	if a.Steadied {
		how = append(how, say.T("prompt.steadied"))
	}
	if a.Try > 1 {
		how = append(how, say.T("prompt.second"))
	}
	v.How = strings.Join(how, " · ")
	return v
}

// said puts an answer into words: what was chosen, pointed at or said.
func (g *Growth) said(m record.Marked) string {
	a := m.Answer.Answer
	if a.Standing != "" {
		return say.T("stand.said." + a.Standing)
	}
	var out []string
	for _, id := range a.ChoiceIDs {
		out = append(out, g.choice(m, id))
	}
	if len(a.Spans) > 0 {
		out = append(out, g.quotes(m, a.Spans)...)
	}
	if s := strings.TrimSpace(a.Said); s != "" {
		out = append(out, say.T("quote", say.S{"words": s}))
	}
	if len(out) == 0 {
		return say.T("growth.said-nothing")
	}
	return And(out)
}

// choice puts one choice into the words it was shown in. Of a choice that is no
// longer known, what its id says is said.
func (g *Growth) choice(m record.Marked, id string) string {
	shown := append(append([]exercises.Choice{}, m.Answer.Answer.Shown...), m.Step.Choices...)
	place, _, isSign := strings.Cut(id, "/")
	for _, c := range shown {
		if c.ID != id {
			continue
		}
		if isSign {
			return say.T("answers.sign", say.S{"place": PlaceName(place), "sign": choiceText(c)})
		}
		if t := choiceText(c); t != "" {
			return t
		}
	}
	if isSign {
		return PlaceName(place)
	}
	return PlaceName(FamilyName(id, g.own))
}

func (g *Growth) quotes(m record.Marked, spans []nlp.Span) []string {
	story, err := g.house.Store.Story(m.Answer.StoryID)
	if err != nil || story.Hash != m.Answer.TextHash {
		return []string{say.T("growth.said-pointed")}
	}
	var out []string
	for _, s := range spans {
		if s.Start >= 0 && s.End <= len(story.Text) && s.Start < s.End {
			out = append(out, say.T("quote", say.S{"words": strings.Join(strings.Fields(s.Of(story.Text)), " ")}))
		}
	}
	return out
}

// MarkAs gives an answer the guide's mark. Marks are facts that are only
// added: the newest counts. A mark given before the program's was shown is
// noted as blind.
func (g *Growth) MarkAs(id string, v exercises.MarkValue) error {
	for _, m := range g.given {
		if m.Answer.ID != id {
			continue
		}
		blind := g.one(m).Blind
		_, err := g.house.Store.AppendMark(record.Mark{AnswerID: id, Learner: g.learner.ID, By: record.ByGuide, Blind: blind,
			Mark: exercises.Mark{Value: v, Why: nlp.Reason{Code: "mark.by-guide"}}})
		if err != nil {
			return fmt.Errorf("keeping the guide's mark: %w", err)
		}
		g.load()
		g.Changed()
		return nil
	}
	return nil
}
