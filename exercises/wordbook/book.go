// Package wordbook keeps the rules of the learner's own words: which state a
// word is in, which words serve for a feeling family or a place, how the words
// of one sense stand on a shades line, and when a word should be met again.
//
// A Book is a plain value that the caller fills from what it keeps; nothing
// here reads a clock. Days are local dates, "2006-01-02".
package wordbook

import (
	"slices"
	"sort"
	"strings"
	"unicode"
)

// Word is one of the learner's own words.
type Word struct {
	ID          string
	Form        string // as the learner says it
	Family      string // feeling family, shipped or own, or ""
	Sense       string // another sense that is no feeling ("needing the toilet"), or ""
	Places      []string
	Shade       float64 // place on the shades line, 0 least to 1 most
	Language    string  // level: Plain, Rich or ""
	Added       string  // day
	Away        bool    // put aside by the guide: never offered, still understood
	Experiences []Experience
}

// Language levels of words.
const (
	Plain = "plain"
	Rich  = "rich"
)

// Experience is what the rules need of something that happened to the learner.
type Experience struct {
	Day    string
	What   string // as it was told
	Places []string
}

// Use is one time that a word was used in an exercise or, with Moment empty
// and Daily set, unasked in daily life.
type Use struct {
	WordID string
	Moment string // id of the moment
	Day    string
	What   string // as it was told
	Alone  bool   // unprompted, first try, neither helped nor steadied nor overheard
	Fits   bool   // the answer fitted or was left unmarked
	Daily  bool
}

// Book is the learner's words with their history.
type Book struct {
	Words []Word
	Uses  []Use
}

// State is how far a word has come. It follows from the history alone.
type State string

// States.
const (
	New  State = "new"  // not tied to anything yet
	Tied State = "tied" // at least one experience
	Free State = "free" // used alone in two moments or more, on two days or more
)

// Word gives a word by id.
func (b Book) Word(id string) (Word, bool) {
	for _, w := range b.Words {
		if w.ID == id {
			return w, true
		}
	}
	return Word{}, false
}

// State gives the state of a word: Free when it was used alone, and not amiss,
// in at least two different moments and on at least two days; else Tied with
// an experience and New without one.
func (b Book) State(id string) State {
	w, ok := b.Word(id)
	if !ok {
		return New
	}
	moments, days := map[string]bool{}, map[string]bool{}
	for _, u := range b.Uses {
		if u.WordID == id && u.Alone && u.Fits && u.Moment != "" {
			moments[u.Moment] = true
			days[u.Day] = true
		}
	}
	if len(moments) >= 2 && len(days) >= 2 {
		return Free
	}
	if len(w.Experiences) == 0 {
		return New
	}
	return Tied
}

// For gives the words to offer for a feeling family: tied and free ones before
// new ones, then in shades order, then by form.
func (b Book) For(family string) []Word {
	var out []Word
	for _, w := range b.Words {
		if w.Family == family && family != "" && !w.Away {
			out = append(out, w)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, c := b.State(out[i].ID) != New, b.State(out[j].ID) != New
		if a != c {
			return a
		}
		return shadeLess(out[i], out[j])
	})
	return out
}

// At gives the words that belong to a body place, in shades order.
func (b Book) At(place string) []Word {
	var out []Word
	for _, w := range b.Words {
		if !w.Away && slices.Contains(w.Places, place) {
			out = append(out, w)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return shadeLess(out[i], out[j]) })
	return out
}

// Line gives the shades line of a family or sense: its words from least to
// most, ties by form.
func (b Book) Line(familyOrSense string) []Word {
	var out []Word
	for _, w := range b.Words {
		if familyOrSense != "" && !w.Away && (w.Family == familyOrSense || w.Sense == familyOrSense) {
			out = append(out, w)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return shadeLess(out[i], out[j]) })
	return out
}

// Find gives the words whose form is the given one; case, blanks and hyphens do
// not matter. Words put aside are found too.
func (b Book) Find(form string) []Word {
	var out []Word
	key := plainForm(form)
	for _, w := range b.Words {
		if key != "" && plainForm(w.Form) == key {
			out = append(out, w)
		}
	}
	return out
}

// Said gives the words, tried or put aside, whose form stands in what was said:
// whole words, as the learner says them.
func (b Book) Said(said string) []Word {
	text := " " + words(said) + " "
	var out []Word
	for _, w := range b.Words {
		if f := words(w.Form); f != "" && strings.Contains(text, " "+f+" ") {
			out = append(out, w)
		}
	}
	return out
}

// words gives the words of a text in lower case with single blanks.
func words(s string) string {
	return strings.Join(strings.FieldsFunc(plainForm(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) && r != '\''
	}), " ")
}

func plainForm(s string) string {
	s = strings.NewReplacer("\u2019", "'", "-", " ").Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), " ")
}

func shadeLess(a, b Word) bool {
	if a.Shade != b.Shade {
		return a.Shade < b.Shade
	}
	if x, y := strings.ToLower(a.Form), strings.ToLower(b.Form); x != y {
		return x < y
	}
	return a.ID < b.ID
}
