package pipeline

import (
	"fmt"
	"math"

	"feltpage/nlp"
)

// A floor is a share below which the engine must not fall on the invented
// passages. Need is what the product needs, and why says why; where the engine
// is not there yet, floor is what it had reached when the floor was set,
// rounded down to a twentieth. A floor is raised as the engine learns, and
// never lowered to let a change pass; where passages are added, it is set anew.
type floor struct {
	name        string
	need, floor float64
	why         string
	of          func(r *report) (n, d int)
}

// The needs on finding, owner and feeling are those asked of the engine on the
// development stories; the others are our own judgement of what a family would
// put up with.
var floors = []floor{
	{"named, body, face and voice: found", 0.85, 0.60,
		"what a page says outright is what the learner is asked to find", func(r *report) (int, int) {
			t := r.ofKinds(nlp.Named, nlp.Body, nlp.FaceVoice)
			return t.found, t.required
		}},
	{"every kind but events: found", 0.65, 0.55,
		"a clue the learner points at should be one the key knows", func(r *report) (int, int) {
			t := r.ofKinds(nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech)
			return t.found, t.required
		}},
	{"thinnest family: found", 0.50, 0.20,
		"no feeling may be one that the stories seem not to have", func(r *report) (int, int) {
			n, d := 0, 0
			for _, f := range nlp.Families {
				if t := r.by[f]; d == 0 || t.found*d < n*t.required {
					n, d = t.found, t.required
				}
			}
			return n, d
		}},
	{"owner of what was found", 0.85, 0.85,
		"a feeling given to another teaches the story wrong", func(r *report) (int, int) {
			t := r.sum(func(string) bool { return true })
			return t.owner, t.found
		}},
	{"owner among several characters", 0.80, 0.80,
		"the same, where nearness alone would mislead", func(r *report) (int, int) {
			return r.by["owners"].owner, r.by["owners"].found
		}},
	{"a feeling that fits", 0.85, 0.85,
		"an answer that fits must not be called far off", func(r *report) (int, int) {
			t := r.sum(func(string) bool { return true })
			return t.any, t.found
		}},
	{"the feeling named first fits", 0.85, 0.80,
		"the first feeling is the one that the reason on screen speaks of", func(r *report) (int, int) {
			t := r.sum(func(string) bool { return true })
			return t.first, t.found
		}},
	{"denied or not, on denial", 0.95, 0.80,
		"'was not afraid' read as afraid is the plainest of mistakes", func(r *report) (int, int) {
			return r.by["denial"].flags, r.by["denial"].found
		}},
	{"pretended or not, on pretence", 0.75, 0.25,
		"the learners we teach take a shown feeling for a felt one", func(r *report) (int, int) {
			return r.by["pretence"].flags, r.by["pretence"].found
		}},
	{"nothing where nobody feels anything", 0.90, 0.70,
		"an exercise on the sighing wind has no answer", func(r *report) (int, int) {
			t := r.sum(func(string) bool { return true })
			return t.clean, t.nothing
		}},
	{"clues where a teacher has one", 0.85, 0.80,
		"the rest are found where no finding is; here only their place is judged", func(r *report) (int, int) {
			t := r.sum(func(string) bool { return true })
			return t.found, t.found + t.extra
		}},
	{"events: found", 0.40, 0.10,
		"one clue in eight is an event alone (a count of 60 expert questions)", func(r *report) (int, int) {
			return r.by["situations"].found, r.by["situations"].required
		}},
}

func (r *report) ofKinds(kinds ...string) tally {
	var t tally
	for _, k := range kinds {
		t.add(*r.kinds[k])
	}
	return t
}

func (f floor) say(r *report) string {
	n, d := f.of(r)
	share := 0.0
	if d > 0 {
		share = float64(n) / float64(d)
	}
	state := "met"
	if share < f.need {
		state = fmt.Sprintf("%d to go", int(math.Ceil(f.need*float64(d)))-n)
	}
	return fmt.Sprintf("%-36s %3d of %3d = %.2f  need %.2f  floor %.2f  %s: %s\n", f.name, n, d, share, f.need, f.floor, state, f.why)
}
