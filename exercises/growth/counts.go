package growth

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"feltpage/exercises"
	"feltpage/nlp"
)

// Item is one answer as growth reads it.
type Item struct {
	Sitting    string // id
	Day        string // local date of the sitting, "2006-01-02"
	Moment     string // id
	CueKind    string // kind of the cue the moment rests on
	Family     string // heaviest fitting family
	Step       exercises.StepKind
	Value      exercises.MarkValue // the mark that counts
	Program    exercises.MarkValue // the program's own mark, or ""
	Guide      exercises.MarkValue // the guide's, or ""
	Blind      bool                // the guide marked before seeing the program's mark
	Standing   string              // one of exercises.Stand…, or ""
	Prompt     exercises.PromptLevel
	Entry      exercises.PromptLevel
	Try        int
	Helped     bool
	Steadied   bool
	Overheard  bool
	Repeat     bool
	Withdrawn  bool
	AboutSelf  bool
	Difficulty float64 // of the moment, 0 easy to 1 hard
}

// Counts reports whether the item belongs under the line of a share: a first
// answer to a marked step of a moment met for the first time, the learner's
// own, with a mark that says something. Answers still left to the guide and
// standing answers do not.
func (i Item) Counts() bool {
	return i.own() && i.Standing == "" && decided(i.Value)
}

// own reports whether the item is a first answer of the learner's own to a
// marked step: not withdrawn, no later try, no repeat, not steadied by a
// grown-up, not after another's answer was heard, not about the learner's self.
func (i Item) own() bool {
	return i.Step.Marked() && i.Try <= 1 && !i.Withdrawn && !i.Repeat && !i.Steadied && !i.Overheard && !i.AboutSelf
}

// AloneAndFits reports whether the item counts over the line: it counts, came
// with no prompting and no help, in a step opened without prompting, and fits.
func (i Item) AloneAndFits() bool {
	return i.Counts() && i.Prompt == exercises.Alone && i.Entry == exercises.Alone && !i.Helped && i.Value == exercises.Fits
}

func decided(v exercises.MarkValue) bool {
	return v == exercises.Fits || v == exercises.Near || v == exercises.NotYet
}

// Point is a share with its doubt. Lo and Hi are the 95 % Wilson interval of
// X of N; with N 0 they are 0 and 1 and nothing should be drawn.
type Point struct {
	Key      string // sitting id, cue kind, step or family
	Day      string // of a sitting, else ""
	X, N     int    // given alone and fitting, of all that count
	Lo, Hi   float64
	Standing int // standing answers and skips among first answers
	Waiting  int // left to the guide, no mark yet
	Offered  int // first answers in all: N, Standing and Waiting
}

// Share is X over N, or NaN where N is 0.
func (p Point) Share() float64 {
	if p.N == 0 {
		return math.NaN()
	}
	return float64(p.X) / float64(p.N)
}

// StandingShare is the share of skips and other standing answers among all
// first answers, or NaN where there are none.
func (p Point) StandingShare() float64 {
	if p.Offered == 0 {
		return math.NaN()
	}
	return float64(p.Standing) / float64(p.Offered)
}

func (p *Point) add(i Item) {
	if !i.own() {
		return
	}
	switch {
	case i.Standing != "":
		p.Standing++
	case i.Value == exercises.ForGuide:
		p.Waiting++
	case i.Counts():
		p.N++
		if i.AloneAndFits() {
			p.X++
		}
	default:
		return // unmarked without a standing answer: nothing was asked of it
	}
	p.Offered++
}

// All gives one point over all items.
func All(items []Item) Point {
	var p Point
	for _, i := range items {
		p.add(i)
	}
	p.Lo, p.Hi = Wilson(p.X, p.N, Z95)
	return p
}

func group(items []Item, key func(Item) string) []Point {
	byKey := map[string]*Point{}
	var order []string
	for _, i := range items {
		k := key(i)
		p := byKey[k]
		if p == nil {
			p = &Point{Key: k}
			byKey[k] = p
			order = append(order, k)
		}
		p.add(i)
	}
	out := make([]Point, 0, len(order))
	for _, k := range order {
		p := byKey[k]
		if p.Offered == 0 {
			continue
		}
		p.Lo, p.Hi = Wilson(p.X, p.N, Z95)
		out = append(out, *p)
	}
	return out
}

// BySitting gives one point a sitting, by day; sittings of one day in order of
// first appearance.
func BySitting(items []Item) []Point {
	day := map[string]string{}
	for _, i := range items {
		if _, ok := day[i.Sitting]; !ok {
			day[i.Sitting] = i.Day
		}
	}
	out := group(items, func(i Item) string { return i.Sitting })
	for k := range out {
		out[k].Day = day[out[k].Key]
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].Day < out[b].Day })
	return out
}

// Kinds of cue and steps in their fixed order, easy to hard and in reading order.
var (
	kindOrder = []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}
	stepOrder = []string{string(exercises.Find), string(exercises.Body), string(exercises.Feeling), string(exercises.Reason)}
)

// ByKind gives one point a kind of cue, easy kinds first.
func ByKind(items []Item) []Point {
	return ordered(group(items, func(i Item) string { return i.CueKind }), kindOrder)
}

// ByStep gives one point a step: Find, Body, Feeling, Reason.
func ByStep(items []Item) []Point {
	return ordered(group(items, func(i Item) string { return string(i.Step) }), stepOrder)
}

// ByFamily gives one point a feeling family, in the order of nlp.Families;
// a household's own families follow by id.
func ByFamily(items []Item) []Point {
	return ordered(group(items, func(i Item) string { return i.Family }), nlp.Families)
}

func ordered(ps []Point, order []string) []Point {
	at := func(k string) int {
		if i := slices.Index(order, k); i >= 0 {
			return i
		}
		return len(order)
	}
	sort.SliceStable(ps, func(a, b int) bool {
		if x, y := at(ps[a].Key), at(ps[b].Key); x != y {
			return x < y
		}
		return ps[a].Key < ps[b].Key
	})
	return ps
}

// Sentence says the last sitting in plain words, without any claim of growth.
func Sentence(items []Item) nlp.Reason {
	ps := BySitting(items)
	if len(ps) == 0 {
		return nlp.Reason{Code: "growth.none", Slots: map[string]string{}}
	}
	p := ps[len(ps)-1]
	if p.N == 0 {
		return nlp.Reason{Code: "growth.last-unmarked", Slots: map[string]string{"offered": fmt.Sprint(p.Offered)}}
	}
	code := "growth.last"
	if p.N == 1 {
		code = "growth.last-one"
		if p.X == 0 {
			code = "growth.last-one-not"
		}
	}
	return nlp.Reason{Code: code, Slots: map[string]string{
		"x": fmt.Sprint(p.X), "n": fmt.Sprint(p.N), "lo": tenth(p.Lo), "hi": tenth(p.Hi),
	}}
}

// tenth says a share as a whole number of ten.
func tenth(p float64) string { return fmt.Sprint(int(math.Round(p * 10))) }
