package marking

import (
	"slices"

	"feltpage/exercises"
	"feltpage/nlp"
)

// A word that means a family only this little ("bad", "better") says too
// little to be marked as not yet.
const vague = 0.45

// many is how many feelings named in free words say nothing any more.
const many = 4

// feeling judges chosen or said feelings. One that fits is enough, unless it
// is denied, or so many were named that the answer says nothing.
func (j judge) feeling() exercises.Mark {
	var all []named
	chosen := map[string]bool{}
	for _, id := range j.ans.ChoiceIDs {
		if f := j.familyOfChoice(id); f != "" && !chosen[id] {
			chosen[id] = true
			all = append(all, named{families: []nlp.Weight{{Family: f, Weight: 1}}})
		}
	}
	all = append(all, j.read(j.ans.Said)...)
	if len(all) == 0 {
		if f, ok := j.lived(); ok && slices.Contains(j.m.Key.Fits, f) {
			return j.mark(exercises.Fits, "mark.feeling.lived")
		}
		return j.mark(exercises.ForGuide, "mark.feeling.guide")
	}
	var fits, near, not, unclear, deniedFit, yes int
	quote := j.quoteOf(j.best())
	for _, n := range all {
		v := j.value(n.families)
		if f := j.fitting(n.families); f != "" && fits == 0 && !n.denied {
			quote = j.quoteOf(j.m.Key.BestFor(f))
		}
		switch {
		case n.denied && v == exercises.Fits:
			deniedFit++
		case n.denied:
		case v == exercises.Fits:
			fits++
		case v == exercises.Near:
			near++
		case v == exercises.ForGuide:
			unclear++
		default:
			not++
		}
		if !n.denied {
			yes++
		}
	}
	everything := len(chosen) > 1 && 2*len(chosen) > j.shown()
	switch {
	case fits > 0 && near+not > 0 && (everything || yes >= many):
		return j.mark(exercises.Near, "mark.feeling.many")
	case fits > 0 && deniedFit == 0:
		return j.mark(exercises.Fits, "mark.feeling.fits", "quote", quote)
	case fits > 0 || near > 0:
		return j.mark(exercises.Near, "mark.feeling.near")
	case deniedFit > 0:
		return j.notYet("mark.feeling.negated")
	case unclear > 0 || yes == 0: // too vague, or only what it is not
		return j.mark(exercises.ForGuide, "mark.feeling.guide")
	}
	return j.notYet("mark.feeling.not-yet")
}

// notYet says which places the words near here are about, where the text names
// some, rather than giving the words away.
func (j judge) notYet(code string) exercises.Mark {
	if p := j.placesGiven(); p != "" {
		return j.mark(exercises.NotYet, code+".body", "places", p)
	}
	return j.mark(exercises.NotYet, code)
}

// shown is how many feeling choices the learner saw.
func (j judge) shown() int {
	switch {
	case len(j.ans.Shown) > 0:
		return len(j.ans.Shown)
	case j.ans.Prompt >= exercises.FewerChoices && len(j.s.Fewer) > 0:
		return len(j.s.Fewer)
	}
	return len(j.s.Choices)
}

func (j judge) familyOfChoice(id string) string {
	if c, ok := j.choice(id); ok && c.Family != "" {
		return c.Family
	}
	if w, ok := j.Book.Word(id); ok && w.Family != "" {
		return w.Family
	}
	if _, ok := j.Table.Family(id); ok {
		return id
	}
	return ""
}

// fitting gives the first of the families that fits, or "".
func (j judge) fitting(ws []nlp.Weight) string {
	for _, w := range ws {
		if slices.Contains(j.m.Key.Fits, w.Family) {
			return w.Family
		}
	}
	return ""
}

// value is the best value among what a word can mean. A family that the key
// does not speak of is left to the guide.
func (j judge) value(ws []nlp.Weight) exercises.MarkValue {
	best := exercises.NotYet
	for _, w := range ws {
		v := exercises.ForGuide
		switch {
		case slices.Contains(j.m.Key.Not, w.Family):
			v = exercises.NotYet
		case slices.Contains(j.m.Key.Fits, w.Family):
			v = exercises.Fits
		case slices.Contains(j.m.Key.Near, w.Family),
			slices.ContainsFunc(j.m.Key.Fits, func(k string) bool { return j.Table.Near(k, w.Family) }):
			v = exercises.Near
		}
		if w.Weight < vague {
			if v == exercises.Fits {
				best = exercises.Near
			}
			continue
		}
		switch {
		case v == exercises.Fits:
			return v
		case v == exercises.Near, v == exercises.ForGuide && best == exercises.NotYet:
			best = v
		}
	}
	if best == exercises.NotYet && len(ws) > 0 && ws[0].Weight < vague {
		return exercises.ForGuide
	}
	return best
}

// livedWords is how many words an answer must share with what happened to the
// learner to point at it.
const livedWords = 2

// lived finds the one family whose experiences an answer speaks of ("like on
// the boat with Gran").
func (j judge) lived() (string, bool) {
	found := ""
	for _, w := range j.Book.Words {
		for _, e := range w.Experiences {
			if w.Family == "" || shared(j.ans.Said, meanings(e.What)) < livedWords {
				continue
			}
			if found != "" && found != w.Family {
				return "", false
			}
			found = w.Family
		}
	}
	return found, found != ""
}
