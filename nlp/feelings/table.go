// Package feelings holds what is known about each feeling family: how
// pleasant and how stirred up it is, which families lie near, its words, its
// usual body signs. The shipped families lie in families.txt; a household may
// add its own at run time with Table.With.
//
// Call Load once; a Table is read-only and safe for use by several goroutines.
package feelings

import (
	_ "embed"
	"fmt"
	"math"
	"sort"
	"strings"

	"feltpage/nlp"
)

//go:embed families.txt
var shipped []byte

// Sign is a body sign with its place, both ids: hands, shaking.
type Sign struct{ Place, Sign string }

// Word is a feeling word with how much of it means the family, above 0 to 1.
type Word struct {
	Text   string
	Weight float64
}

// Family is one feeling family. Valence runs from unpleasant -1 to pleasant 1,
// arousal from still -1 to stirred up 1. All lists are in order of use.
type Family struct {
	ID               string
	Valence, Arousal float64
	Near             []string // ids of near families, both ways
	Plain, Rich      []string // words to offer, by language level
	Also             []Word   // understood, not offered
	Signs            []Sign   // usual body signs; none is a must
	Line             string   // catalogue key of a plain sentence about it
	Nearest          string   // of a household's own family: a shipped one, or ""
	Own              bool     // added by the household
}

// Table is the families with an index of their words.
type Table struct {
	order  []string
	byID   map[string]*Family
	byWord map[string][]nlp.Weight
	own    map[string][]Word // words of a family with weights, as read
}

// Load gives the shipped families. An error means the embedded file is broken.
func Load() (*Table, error) {
	t, err := parse("families.txt", string(shipped))
	if err != nil {
		return nil, fmt.Errorf("loading the feeling families: %w", err)
	}
	return t, nil
}

// IDs lists the family ids: the shipped ones in their fixed order, then the
// household's in the order they were added.
func (t *Table) IDs() []string { return append([]string(nil), t.order...) }

// Family gives one family; ok is false where the table has no such id.
func (t *Table) Family(id string) (f Family, ok bool) {
	p, ok := t.byID[id]
	if !ok {
		return Family{}, false
	}
	return *p, true
}

// Near reports whether two different families lie near each other. An own
// family is near to its nearest shipped one and to that one's near families.
func (t *Table) Near(a, b string) bool {
	f, ok := t.byID[a]
	if !ok || a == b {
		return false
	}
	for _, n := range f.Near {
		if n == b {
			return true
		}
	}
	return false
}

// Distance says how far apart two families lie: 0 for the same, 1 for near
// ones, else 1 plus their distance in valence and arousal (at most 1 + 2√2).
// A family that is not known lies at 4.
func (t *Table) Distance(a, b string) float64 {
	if a == b {
		return 0
	}
	f, g := t.byID[a], t.byID[b]
	if f == nil || g == nil {
		return 4
	}
	if t.Near(a, b) {
		return 1
	}
	return 1 + math.Hypot(f.Valence-g.Valence, f.Arousal-g.Arousal)
}

// FamilyOf gives the families that a word or short phrase can mean, heaviest
// first and ties by id; none for a word that is no feeling word. Case, blanks
// and hyphens do not matter.
func (t *Table) FamilyOf(word string) []nlp.Weight {
	return append([]nlp.Weight(nil), t.byWord[normal(word)]...)
}

// Words lists every word and phrase that FamilyOf knows, in order.
func (t *Table) Words() []string {
	out := make([]string, 0, len(t.byWord))
	for w := range t.byWord {
		out = append(out, w)
	}
	sort.Strings(out)
	return out
}

// With gives a new table that has the household's own families too. An own
// family must have an id that is not taken; Nearest, if given, must be known.
// Without a valence and arousal of its own it takes those of Nearest.
func (t *Table) With(own ...Family) (*Table, error) {
	n := &Table{order: t.IDs(), byID: make(map[string]*Family, len(t.byID)+len(own)), own: map[string][]Word{}}
	for id, f := range t.byID {
		c := *f
		c.Near = append([]string(nil), f.Near...)
		n.byID[id] = &c
		n.own[id] = t.own[id]
	}
	for _, f := range own {
		if f.ID == "" || n.byID[f.ID] != nil {
			return nil, fmt.Errorf("adding a feeling family: the id %q is empty or taken", f.ID)
		}
		f.Own = true
		f.Near = append([]string(nil), f.Near...)
		if f.Nearest != "" {
			base := n.byID[f.Nearest]
			if base == nil {
				return nil, fmt.Errorf("adding the feeling family %q: nearest family %q is not known", f.ID, f.Nearest)
			}
			if f.Valence == 0 && f.Arousal == 0 {
				f.Valence, f.Arousal = base.Valence, base.Arousal
			}
			f.Near = append(append(f.Near, base.ID), base.Near...)
		}
		n.order = append(n.order, f.ID)
		n.byID[f.ID] = &f
		n.own[f.ID] = words(&f)
	}
	if err := n.link(); err != nil {
		return nil, fmt.Errorf("adding feeling families: %w", err)
	}
	return n, nil
}

// words lists all words of a family with weights, the id's own word included.
func words(f *Family) []Word {
	var out []Word
	for _, w := range append(append([]string{}, f.Plain...), f.Rich...) {
		out = append(out, Word{w, 1})
	}
	return append(out, f.Also...)
}

// link makes near families mutual and builds the index of words.
func (t *Table) link() error {
	for _, id := range t.order {
		for _, n := range t.byID[id].Near {
			g := t.byID[n]
			if g == nil {
				return fmt.Errorf("%q names an unknown near family %q", id, n)
			}
			g.Near = append(g.Near, id)
		}
	}
	rank := map[string]int{}
	for i, id := range t.order {
		rank[id] = i
	}
	t.byWord = map[string][]nlp.Weight{}
	for _, id := range t.order {
		f := t.byID[id]
		sort.Slice(f.Near, func(i, j int) bool { return rank[f.Near[i]] < rank[f.Near[j]] })
		f.Near = compact(f.Near, id)
		seen := map[string]bool{}
		for _, w := range t.own[id] {
			k := normal(w.Text)
			if k == "" || seen[k] {
				continue
			}
			seen[k] = true
			t.byWord[k] = append(t.byWord[k], nlp.Weight{Family: id, Weight: w.Weight})
		}
	}
	for _, ws := range t.byWord {
		SortWeights(ws)
	}
	return nil
}

// SortWeights puts weights in their fixed order: heaviest first, ties by
// family id.
func SortWeights(ws []nlp.Weight) {
	sort.Slice(ws, func(i, j int) bool {
		if ws[i].Weight != ws[j].Weight {
			return ws[i].Weight > ws[j].Weight
		}
		return ws[i].Family < ws[j].Family
	})
}

// compact drops doubles from a sorted list, and the family itself.
func compact(ids []string, self string) []string {
	out := ids[:0]
	for _, id := range ids {
		if id != self && (len(out) == 0 || out[len(out)-1] != id) {
			out = append(out, id)
		}
	}
	return out
}

// normal is the form under which words are looked up.
func normal(s string) string {
	s = strings.NewReplacer("\u2019", "'", "-", " ").Replace(s)
	return strings.Join(strings.Fields(strings.ToLower(s)), " ")
}
