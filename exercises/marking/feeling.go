package marking

import (
	"slices"
	"strings"

	"feltpage/exercises"
	"feltpage/nlp"
)

// feeling judges chosen or said feelings: one that fits is enough, unless it
// is denied or so many were chosen that the choice says nothing.
func (j judge) feeling() exercises.Mark {
	var all []named
	chosen := 0
	for _, id := range j.ans.ChoiceIDs {
		if c, ok := j.choice(id); ok && c.Family != "" {
			all = append(all, named{families: []string{c.Family}})
			chosen++
		} else if w, ok := j.Book.Word(id); ok && w.Family != "" {
			all = append(all, named{families: []string{w.Family}})
			chosen++
		}
	}
	all = append(all, j.read(j.ans.Said)...)
	if len(all) == 0 {
		return j.mark(exercises.ForGuide, "mark.feeling.guide")
	}
	var fits, near, not, deniedFit, yes int
	for _, n := range all {
		v := j.value(n.families)
		switch {
		case n.denied && v == exercises.Fits:
			deniedFit++
		case n.denied:
		case v == exercises.Fits:
			fits++
		case v == exercises.Near:
			near++
		default:
			not++
		}
		if !n.denied {
			yes++
		}
	}
	switch {
	case chosen > 2 && 2*chosen > len(j.s.Choices) && not > 0:
		return j.mark(exercises.Near, "mark.feeling.many")
	case fits > 0 && deniedFit == 0:
		return j.mark(exercises.Fits, "mark.feeling.fits")
	case fits > 0 || near > 0:
		return j.mark(exercises.Near, "mark.feeling.near")
	case deniedFit > 0:
		return j.mark(exercises.NotYet, "mark.feeling.negated")
	case yes == 0: // only said what it is not
		return j.mark(exercises.ForGuide, "mark.feeling.guide")
	}
	return j.mark(exercises.NotYet, "mark.feeling.not-yet")
}

// value is the best value among families that a word can mean.
func (j judge) value(families []string) exercises.MarkValue {
	best := exercises.NotYet
	for _, f := range families {
		switch {
		case slices.Contains(j.m.Key.Fits, f):
			return exercises.Fits
		case slices.Contains(j.m.Key.Near, f):
			best = exercises.Near
		case slices.ContainsFunc(j.m.Key.Fits, func(k string) bool { return j.Table.Near(k, f) }):
			best = exercises.Near
		}
	}
	return best
}

// named is a feeling found in an answer.
type named struct {
	families []string
	denied   bool
}

var deniers = map[string]bool{"not": true, "no": true, "never": true, "n't": true, "without": true, "isn't": true,
	"wasn't": true, "don't": true, "doesn't": true, "didn't": true, "aren't": true, "weren't": true, "isnt": true,
	"wasnt": true, "dont": true, "doesnt": true, "didnt": true, "nor": true, "neither": true, "hardly": true}

// enders end the reach of a denial.
var enders = map[string]bool{"but": true, "just": true, "only": true, "more": true, "though": true, "because": true, "so": true}

// read finds feeling words in free words.
func (j judge) read(said string) []named {
	var out []named
	denied := false
	ws := words(said, nlp.Span{End: len(said)})
	for i := 0; i < len(ws); {
		if i > 0 && strings.ContainsAny(said[ws[i-1].span.End:ws[i].span.Start], ".,;!?") {
			denied = false
		}
		if deniers[ws[i].text] {
			denied = true
			i++
			continue
		}
		if enders[ws[i].text] {
			denied = false
		}
		took := 1
		for n := min(4, len(ws)-i); n >= 1; n-- {
			var parts []string
			for _, w := range ws[i : i+n] {
				parts = append(parts, w.text)
			}
			if fs := j.families(strings.Join(parts, " ")); len(fs) > 0 {
				out = append(out, named{fs, denied})
				took = n
				break
			}
		}
		i += took
	}
	return out
}

// families gives the families of a word or phrase: the learner's own link
// first, then the table, then the table for a slip of the pen.
func (j judge) families(s string) []string {
	var out []string
	for _, w := range j.Book.Find(s) {
		if w.Family != "" {
			out = append(out, w.Family)
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, w := range j.Table.FamilyOf(s) {
		out = append(out, w.Family)
	}
	if len(out) == 0 && !strings.Contains(s, " ") {
		if w, ok := j.slip(s); ok {
			return j.families(w)
		}
	}
	return out
}
