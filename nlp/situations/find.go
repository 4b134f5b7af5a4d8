package situations

import (
	"sort"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// A situation is told as a guess, never as a sign: its families weigh less
// than those of anything shown. All numbers below are own judgement, set by
// reading what was found in stories, not by a measure.
const (
	heaviest = 0.5  // weight of a family that is wholly sure
	keep     = 0.5  // a family with less than this part of the first one's share is left out
	most     = 3    // families of a cue
	likely   = 0.20 // the first family's share for a cue to be given at all
	sure     = 0.27 // the share below which the verb must speak plainly
	grounds  = 0.9  // log odds by which the event's own words speak for the first family
	leaning  = 0.3  // log odds by which its verb does
	speaking = 0.7  // log odds by which a verb speaks plainly
	apart    = 1    // sentences to the next sentence where the character shows a feeling
	plain    = 0.4  // weight of a shown feeling that leaves nothing to guess
	spread   = 2    // sentences to the next situation of the same character
)

// sums is what evidence says for each class, in units.
type sums [classes]float32

// Find gives the situation cues of a text in text order: events that would
// make one of the cast feel something where the text about does not show it.
// Shown are the cues found by other stages. Of events of one character close
// together the plainest is given. What is told inside quotes is an event for
// the one spoken to. Time is linear in the text.
func (m *Model) Find(d *nlp.Document, cast []nlp.Character, quotes []nlp.Quote, shown []nlp.Cue) []nlp.Cue {
	r := Read(d, cast, quotes, shown, m.Number)
	near := shownNear(d, shown)
	scenes, strands := m.add(r)
	last := make(map[int]int, len(cast)) // character → index of its last cue in out, + 1
	var out []nlp.Cue
	var at []int // sentence of each cue
	for s := range d.Sentences {
		for _, who := range r.People(s) {
			if near[[2]int{s, who}] {
				continue
			}
			c, ok := m.judge(r, s, who, scenes, strands)
			if !ok {
				continue
			}
			if l := last[who]; l > 0 && s-at[l-1] <= spread {
				if out[l-1].Feelings[0].Weight < c.Feelings[0].Weight {
					out[l-1], at[l-1] = c, s
				}
				continue
			}
			out, at = append(out, c), append(at, s)
			last[who] = len(out)
		}
	}
	sort.SliceStable(out, func(a, b int) bool {
		x, y := out[a], out[b]
		if x.Span != y.Span {
			return x.Span.Start < y.Span.Start || x.Span.Start == y.Span.Start && x.Span.End < y.Span.End
		}
		return x.Character < y.Character
	})
	return out
}

// shownNear lists the sentences at or beside which a character plainly shows a
// feeling.
func shownNear(d *nlp.Document, shown []nlp.Cue) map[[2]int]bool {
	near := map[[2]int]bool{}
	for _, c := range shown {
		if i := tokenAt(d, c.Span.Start); c.Character != nlp.None && i < len(d.Tokens) && len(c.Feelings) > 0 && c.Feelings[0].Weight >= plain {
			for s := d.Tokens[i].Sentence - apart; s <= d.Tokens[i].Sentence+apart; s++ {
				near[[2]int{s, c.Character}] = true
			}
		}
	}
	return near
}

// add adds up once what each scene and each strand says.
func (m *Model) add(r *Reading) (scenes []sums, strands [][]sums) {
	scenes, strands = make([]sums, len(r.strands)), make([][]sums, len(r.strands))
	var ev []Evidence
	for s := range r.strands {
		ev = r.scene(ev[:0], s, 1)
		m.sum(&scenes[s], ev)
		if len(r.strands[s]) > 0 {
			strands[s] = make([]sums, len(r.strands[s]))
		}
		for k, st := range r.strands[s] {
			ev = r.strand(ev[:0], st, 1)
			m.sum(&strands[s][k], ev)
		}
	}
	return scenes, strands
}

func (m *Model) sum(into *sums, ev []Evidence) {
	for _, e := range ev {
		for i, v := range m.row(e.Word, e.Slot) {
			into[i] += float32(v) * e.Weight
		}
	}
}

func (s *sums) add(o *sums, weight float32) {
	for i, v := range o {
		s[i] += v * weight
	}
}

// about adds up all that speaks of a character in a sentence, as
// Reading.Evidence lists it.
func (m *Model) about(r *Reading, s, who int, scenes []sums, strands [][]sums) *sums {
	var all sums
	for i := max(0, s-window); i <= min(len(r.strands)-1, s+window); i++ {
		far := max(i-s, s-i)
		all.add(&scenes[i], aside[far])
		for k, st := range r.strands[i] {
			if st.who == who {
				all.add(&strands[i][k], parted[far])
			}
		}
		for _, t := range r.own[i] {
			if !r.speaks(t, who) {
				weight := aside[far] * scale(r.content[i])
				for c, v := range m.row(r.words[t], Scene) {
					all[c] -= float32(v) * weight
				}
			}
		}
		for _, x := range r.moods[i] {
			if x.who != who {
				for c, v := range m.row(x.word, Scene) {
					all[c] += float32(v) * x.weight * aside[far]
				}
			}
		}
	}
	return &all
}

// judge gives the situation of a character in a sentence, if there is one.
func (m *Model) judge(r *Reading, s, who int, scenes []sums, strands [][]sums) (nlp.Cue, bool) {
	p := m.shares(m.about(r, s, who, scenes, strands))
	fs, ok := Feelings(p)
	if !ok {
		return nlp.Cue{}, false
	}
	need := speaking
	if fs[0].Weight >= heaviest*sure {
		need = leaning
	}
	best := m.event(r.strands[s], strands[s], who, classOf(fs[0].Family), need)
	if best < 0 {
		return nlp.Cue{}, false
	}
	return cue(r.d, r.strands[s][best], who, fs), true
}

// event gives the strand of the event that speaks most for a family, or -1
// where none does so plainly. Need is what its verb must say. Of what is done the verb itself must lean that
// way: a wolf in the sentence is no danger while one only counts it. It must
// also say more for the family than for no feeling to speak of.
func (m *Model) event(list []strand, says []sums, who, class int, need float64) int {
	best, most := -1, grounds
	for k := 0; k < len(list); {
		from, to := list[k].from, k
		first := k
		for k++; k < len(list) && list[k].from == from; k++ {
		}
		to = k
		total, verb, none, loudest, by := 0.0, 0.0, 0.0, 0.0, -1
		for i := first; i < to; i++ {
			st := list[i]
			if st.who != who || st.unreal || st.slot == Says || st.slot == Hears {
				continue // speech is for the cues of speech
			}
			x := m.lean(&says[i], class)
			total += x
			none += m.lean(&says[i], classes-1)
			switch {
			case st.slot == DoesVerb && x < speaking: // what one does oneself is seldom what one feels it at
			case st.verb >= 0, need == leaning && st.slot == Sees:
				verb += x
			}
			if by < 0 || x > loudest {
				loudest, by = x, i
			}
		}
		if by >= 0 && verb >= need && total >= most && total > none {
			best, most = by, total
		}
	}
	return best
}

// lean is how far the sums speak for one family rather than for the others, in
// log odds.
func (m *Model) lean(s *sums, class int) float64 {
	mean := float32(0)
	for _, x := range s {
		mean += x
	}
	return float64(s[class]-mean/classes) * m.unit
}

// Feelings turns the shares of the classes into weights, heaviest first; the
// share of "no feeling to speak of" is dealt out among the others. ok is false
// where no family is likely enough to say so.
func Feelings(shares []float64) (ws []nlp.Weight, ok bool) {
	n := len(shares) - 1
	rest := max(1-shares[n], 1e-9)
	top := 0.0
	for _, p := range shares[:n] {
		top = max(top, p/rest)
	}
	if top < likely {
		return nil, false
	}
	for i, p := range shares[:n] {
		if p/rest >= keep*top {
			ws = append(ws, nlp.Weight{Family: Classes[i], Weight: heaviest * p / rest})
		}
	}
	feelings.SortWeights(ws)
	return ws[:min(most, len(ws))], true
}

func classOf(family string) int {
	for i, c := range Classes {
		if c == family {
			return i
		}
	}
	return len(Classes) - 1
}

// codes of the reasons by slot.
var codes = [Slots]string{
	DoesVerb: "cue.event-does", DoesRest: "cue.event-does", MeetsVerb: "cue.event-meets", MeetsRest: "cue.event-meets",
	Owns: "cue.event-owns", Sees: "cue.event-sees",
}

// maxQuote bounds the words of a speech that are quoted as an event.
const maxQuote = 24

func cue(d *nlp.Document, st strand, who int, fs []nlp.Weight) nlp.Cue {
	to := min(st.to, st.from+maxQuote)
	for to > st.first+1 && isBreak(d.Tokens[to-1].Lower) {
		to--
	}
	event := d.Whole(st.from, to)
	code := codes[st.slot]
	slots := map[string]string{"words": strings.Join(strings.Fields(event.Of(d.Text)), " "), "family": fs[0].Family}
	if len(fs) > 1 {
		slots["feeling"] = fs[1].Family
		code += "-or"
	}
	return nlp.Cue{Span: event, Kind: nlp.Situation, Character: who, Feelings: fs, Strength: nlp.Plain, Event: &event,
		Rule: "event:" + d.Tokens[st.first].Lemma, Reason: nlp.Reason{Code: code, Slots: slots}}
}
