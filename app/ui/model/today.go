package model

import (
	"cmp"
	"context"

	"slices"
	"sort"
	"strings"
	"time"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/exercises/growth"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
)

// Planned is one passage of today's plan.
type Planned struct {
	Moment exercises.Moment
	Name   string // who it is about, and in which part of the story
	Why    string
}

// MostMoments is how many passages a day's plan holds: about ten minutes.
// Common practice, no source: one passage with its steps takes about three.
const MostMoments = 3

// Today is what the guide finds on opening the program: what to read with one
// learner, what to look at before, what has happened since.
type Today struct {
	house   *House
	learner record.Learner
	own     []record.Family
	story   *Reading
	plan    []Planned
	why     string
	none    string // why there is nothing to read
	need    []Needed
	again   *again
	resume  *record.Resume
	given   []record.Marked
	ready   int

	Busy    string
	Trouble string
	Kept    bool // the body note was kept
	Note    string
	run     int
	Changed func()
}

// Needed is a feeling family that the plan asks for and for which no word is
// tied yet.
type Needed struct {
	Family string
	Name   string
	Words  []string // new words there are already
}

// NewToday plans a day for a learner. The plan is made away from the screen;
// Changed is called when it is there.
func NewToday(h *House, l record.Learner, own []record.Family, changed func()) *Today {
	t := &Today{house: h, learner: l, own: own, Changed: changed}
	t.Plan()
	return t
}

// dayPlan is what planning finds.
type dayPlan struct {
	story  *Reading
	plan   []Planned
	why    string
	none   string
	need   []Needed
	again  *again
	resume *record.Resume
	given  []record.Marked
	ready  int
}

// again is a story that could be read once more, all of it having been met.
type again struct {
	story   *Reading
	moments []exercises.Moment
}

// Plan makes the plan anew.
func (t *Today) Plan() {
	t.run++
	run := t.run
	t.Busy, t.Trouble = say.T("today.planning"), ""
	var d dayPlan
	var err error
	t.house.background(func() { d, err = t.house.plan(t.learner, t.own) }, func() {
		if run != t.run {
			return
		}
		t.Busy = ""
		if err != nil {
			t.Trouble = say.Error(err)
		}
		t.story, t.plan, t.why, t.none, t.need, t.again, t.resume, t.given, t.ready = d.story, d.plan, d.why, d.none, d.need, d.again, d.resume, d.given, d.ready
		t.Changed()
	})
}

// plan chooses a story and its passages. A sitting that was begun goes first.
// Then: the ready story that was begun and has passages left, else the easiest
// one with passages not met yet.
func (h *House) plan(l record.Learner, own []record.Family) (d dayPlan, err error) {
	if d.given, err = h.Store.Marked(l.ID); err != nil {
		return d, err
	}
	met, begun := map[string]string{}, map[string]string{} // the last day of each
	for _, m := range d.given {
		if !m.Withdrawn {
			met[m.Moment.ID] = max(met[m.Moment.ID], m.SittingDay)
			begun[m.Answer.StoryID] = max(begun[m.Answer.StoryID], m.SittingDay)
		}
	}
	open, err := h.Store.Unfinished(l.ID)
	if err != nil {
		return d, err
	}
	if len(open) > 0 {
		r := open[len(open)-1]
		if s, err := h.Store.Story(r.Sitting.StoryID); err == nil {
			if d.story, err = h.Read(context.Background(), s); err == nil {
				d.resume = &r
				for _, m := range d.story.Moments {
					if slices.Contains(r.Sitting.Plan, m.ID) {
						d.plan = append(d.plan, planned(d.story, m, "today.why.open"))
					}
				}
				if len(d.plan) > 0 {
					d.why = say.T("today.story.open")
					d.need = h.needed(l, d.plan, own)
					return d, nil
				}
				d.resume = nil
			}
		}
	}
	stories, err := h.Store.Stories()
	if err != nil {
		return d, err
	}
	type option struct {
		r    *Reading
		left []exercises.Moment
		last string
	}
	var options, past []option
	usable := 0
	for _, s := range stories {
		if s.Away || s.ReadOn == "" || s.Demo != l.Demo && s.Demo {
			continue
		}
		d.ready++
		r, err := h.Read(context.Background(), s)
		if err != nil {
			continue // a story that cannot be read today is shown as such on its page
		}
		if len(r.Moments) > 0 {
			usable++
		}
		var left []exercises.Moment
		for _, m := range r.Moments {
			if met[m.ID] == "" {
				left = append(left, m)
			}
		}
		if len(left) > 0 {
			options = append(options, option{r, left, begun[s.Meta.ID]})
		} else if len(r.Moments) > 0 {
			past = append(past, option{r, r.Moments, begun[s.Meta.ID]})
		}
	}
	if len(options) == 0 {
		switch {
		case d.ready == 0:
			d.none = say.T("today.none.unread")
		case usable == 0:
			d.none = say.T("today.none.no-moment")
		default:
			d.none = say.T("today.none.all-met")
			longest := slices.MinFunc(past, func(a, b option) int {
				return cmp.Or(cmp.Compare(a.last, b.last), cmp.Compare(a.r.Level.Grade, b.r.Level.Grade))
			})
			d.again = &again{longest.r, oldest(longest.left, met, MostMoments)}
		}
		return d, nil
	}
	sort.SliceStable(options, func(i, j int) bool {
		a, b := options[i], options[j]
		if a.last != b.last {
			return a.last > b.last
		}
		return a.r.Level.Grade < b.r.Level.Grade
	})
	best := options[0]
	d.story = best.r
	if best.last != "" {
		d.why = say.T("today.story.begun", say.S{"day": Since(best.last, h.Now())})
	} else {
		d.why = say.T("today.story.new")
	}
	few := fewKinds(d.given)
	for _, m := range best.left {
		if len(d.plan) == MostMoments {
			break
		}
		why := "today.why.next"
		if few[m.Kind] {
			why = "today.why.few"
		}
		d.plan = append(d.plan, planned(best.r, m, why))
	}
	d.need = h.needed(l, d.plan, own)
	return d, nil
}

// oldest gives the moments that were met longest ago, at most n, in the order
// they came in.
func oldest(all []exercises.Moment, met map[string]string, n int) []exercises.Moment {
	byDay := slices.Clone(all)
	slices.SortStableFunc(byDay, func(a, b exercises.Moment) int { return cmp.Compare(met[a.ID], met[b.ID]) })
	byDay = byDay[:min(n, len(byDay))]
	var out []exercises.Moment
	for _, m := range all {
		if slices.ContainsFunc(byDay, func(x exercises.Moment) bool { return x.ID == m.ID }) {
			out = append(out, m)
		}
	}
	return out
}

// fewAnswers is how many counted answers make a kind of clue no longer rare.
const fewAnswers = 5

// fewKinds gives the kinds of clue that have few counted answers so far.
func fewKinds(given []record.Marked) map[string]bool {
	out := map[string]bool{}
	for _, k := range []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation} {
		out[k] = true
	}
	for _, p := range growth.ByKind(Items(given)) {
		if p.N >= fewAnswers {
			delete(out, p.Key)
		}
	}
	return out
}

func planned(r *Reading, m exercises.Moment, why string) Planned {
	n := 1 + slices.IndexFunc(r.Moments, func(x exercises.Moment) bool { return x.ID == m.ID })
	return Planned{Moment: m,
		Name: say.T("today.passage", say.S{"name": say.Name(m.CharacterName), "part": Number(n), "of": Number(len(r.Moments))}),
		Why:  say.T(why, say.S{"kind": say.T("clue.kind." + m.Kind)})}
}

func (h *House) needed(l record.Learner, plan []Planned, own []record.Family) []Needed {
	book, err := h.Book(l.ID)
	if err != nil {
		return nil
	}
	var out []Needed
	seen := map[string]bool{}
	for _, p := range plan {
		for i, f := range p.Moment.Key.Fits {
			if i > 0 || seen[f] {
				continue
			}
			seen[f] = true
			n := Needed{Family: f, Name: FamilyName(f, own)}
			tied := false
			for _, w := range book.For(f) {
				if book.State(w.ID) == wordbook.New {
					n.Words = append(n.Words, w.Form)
				} else {
					tied = true
				}
			}
			if !tied {
				out = append(out, n)
			}
		}
	}
	return out
}

// Learner gives for whom the day is planned.
func (t *Today) Learner() record.Learner { return t.learner }

// Story gives the planned story's title, or "".
func (t *Today) Story() string {
	if t.story == nil {
		return ""
	}
	return t.story.Story.Title
}

// StoryRow gives the planned story itself.
func (t *Today) StoryOf() (record.Story, bool) {
	if t.story == nil {
		return record.Story{}, false
	}
	return t.story.Story, true
}

// Why says why this story.
func (t *Today) Why() string { return t.why }

// Passages lists the planned passages.
func (t *Today) Passages() []Planned { return t.plan }

// None says why there is nothing to read, or "".
func (t *Today) None() string { return t.none }

// Again gives the story that could be read once more where nothing new is left,
// the one longest ago; or "".
func (t *Today) Again() string {
	if t.again == nil {
		return ""
	}
	return t.again.story.Story.Title
}

// RequestAgain asks for the passages of that story that were met longest ago.
// Their answers are kept as repeats, which nothing counts.
func (t *Today) RequestAgain() (SittingRequest, error) {
	if t.again == nil {
		return SittingRequest{}, ErrNotReady
	}
	return SittingRequest{Learner: t.learner, Story: t.again.story.Story, Analysis: t.again.story.Mended,
		Kind: record.Teaching, Moments: t.again.moments}, nil
}

// Need lists the feelings of the plan that have no tied word yet.
func (t *Today) Need() []Needed { return t.need }

// GoesOn reports whether the plan goes on with a sitting that was begun.
func (t *Today) GoesOn() bool { return t.resume != nil }

// Since says the last sitting in one sentence; it claims no growth.
func (t *Today) Since() string { return ReasonText(growth.Sentence(Items(t.given))) }

// Waiting counts the answers that wait for the guide's eye.
func (t *Today) Waiting() int { return waiting(t.given) }

// When to measure. A phase needs about five points (standards panel for
// single-case designs 2010, from memory; three with reservation), and a look
// back comes about every six weeks.
const (
	baselineSittings = 3
	probeAfterDays   = 42
)

// Measure gives the kind of measuring sitting that is due, or "": a baseline
// while teaching has not begun, a probe some weeks after the last look. Its
// passages are unseen ones, without prompting and feedback.
func (t *Today) Measure() record.SittingKind {
	if t.story == nil || t.resume != nil {
		return ""
	}
	baselines, taught, last := map[string]bool{}, false, ""
	for _, m := range t.given {
		switch m.SittingKind {
		case record.Baseline:
			baselines[m.Answer.Sitting] = true
			last = max(last, m.SittingDay)
		case record.Probe:
			last = max(last, m.SittingDay)
		default:
			taught = true
			if last == "" {
				last = m.SittingDay // never measured: six weeks count from the start
			}
		}
	}
	if !taught {
		if len(baselines) < baselineSittings {
			return record.Baseline
		}
		return ""
	}
	day, err := time.Parse(time.DateOnly, last)
	if err != nil {
		return ""
	}
	today, err := time.Parse(time.DateOnly, t.house.Today())
	if err != nil || today.Sub(day) < probeAfterDays*24*time.Hour {
		return ""
	}
	return record.Probe
}

// Request asks for the planned sitting of a kind. A short one has one moment.
// Teaching goes on with a sitting that was begun.
func (t *Today) Request(kind record.SittingKind) (SittingRequest, error) {
	if t.story == nil || len(t.plan) == 0 {
		return SittingRequest{}, ErrNotReady
	}
	r := SittingRequest{Learner: t.learner, Story: t.story.Story, Analysis: t.story.Mended, Kind: kind}
	if t.resume != nil && kind == record.Teaching {
		r.Resume, r.Kind = &t.resume.Sitting, t.resume.Sitting.Kind
	}
	for _, p := range t.plan {
		r.Moments = append(r.Moments, p.Moment)
	}
	if kind == record.Short {
		r.Moments = []exercises.Moment{easiest(r.Moments)}
	}
	return r, nil
}

func easiest(all []exercises.Moment) exercises.Moment {
	best := all[0]
	for _, m := range all[1:] {
		if m.Difficulty < best.Difficulty {
			best = m
		}
	}
	return best
}

// KeepNote keeps how the learner's body is today, in his or her words. What
// was written stays until it is kept.
func (t *Today) KeepNote(places []string) {
	said := strings.TrimSpace(t.Note)
	if said == "" && len(places) == 0 {
		return
	}
	_, err := t.house.Store.AddBodyNote(record.BodyNote{Learner: t.learner.ID, Said: said, Places: places})
	if err != nil {
		t.Trouble = say.Error(err)
	} else {
		t.Note, t.Kept = "", true
	}
	t.Changed()
}
