package situations

import (
	"math"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// bend is how far what happens may bend what an ambiguous sign says: the root
// of how much likelier the event makes a family than it usually is. Own
// judgement: the sign itself has the first word.
const bend = 0.5

// orElse ends the code of a reason that tells two families; the second is told
// where it weighs this part of the first or more. The cues stage does the same.
const (
	orElse = "-or"
	second = 0.4
)

// Lean lets the situation about it decide what an ambiguous cue leans to: of
// the families that a sign can mean, those that the event speaks for gain and
// the others lose, the sum staying the same. Named feelings stay as they are.
// The cues given are not changed.
func (m *Model) Lean(d *nlp.Document, cast []nlp.Character, quotes []nlp.Quote, cues []nlp.Cue) []nlp.Cue {
	r := Read(d, cast, quotes, cues, m.Number)
	scenes, strands := m.add(r)
	out := append([]nlp.Cue(nil), cues...)
	said := map[[2]int][]float64{} // shares by sentence and character
	for i, c := range out {
		t := tokenAt(d, c.Span.Start)
		if c.Kind == nlp.Named || c.Kind == nlp.Situation || c.Denied || len(c.Feelings) < 2 || t >= len(d.Tokens) {
			continue
		}
		at := [2]int{d.Tokens[t].Sentence, c.Character}
		p := said[at]
		if p == nil {
			p = m.shares(m.about(r, at[0], at[1], scenes, strands))
			said[at] = p
		}
		fs := append([]nlp.Weight(nil), c.Feelings...)
		before, after := 0.0, 0.0
		for k, f := range fs {
			before += f.Weight
			n := classOf(f.Family)
			fs[k].Weight *= math.Pow(p[n]/m.usual[n], bend)
			after += fs[k].Weight
		}
		for k := range fs {
			fs[k].Weight *= before / after
		}
		feelings.SortWeights(fs)
		out[i].Feelings, out[i].Reason = fs, retell(c.Reason, fs)
	}
	return out
}

// retell tells the families of a cue anew, in a copy.
func retell(old nlp.Reason, fs []nlp.Weight) nlp.Reason {
	if _, ok := old.Slots["family"]; !ok {
		return old
	}
	slots := make(map[string]string, len(old.Slots)+1)
	for k, v := range old.Slots {
		slots[k] = v
	}
	slots["family"] = fs[0].Family
	delete(slots, "feeling")
	code := strings.TrimSuffix(old.Code, orElse)
	if fs[1].Weight >= second*fs[0].Weight && code != "cue.pretended" {
		slots["feeling"] = fs[1].Family
		code += orElse
	}
	return nlp.Reason{Code: code, Slots: slots}
}
