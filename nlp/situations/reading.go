package situations

import (
	"math"
	"strings"

	"feltpage/nlp"
)

// Slot is the part a word plays in what happens to one character. A word has
// its say in each slot apart: "kill" says one thing of the one who kills and
// another of the one who is killed.
type Slot uint8

// The slots.
const (
	DoesVerb  Slot = iota // verb of what the character does
	DoesRest              // the words beside it
	MeetsVerb             // verb of what is done to the character
	MeetsRest             // the words beside it
	Owns                  // what is done by or to somebody or something of the character's
	Sees                  // what the character sees, hears or learns
	Says                  // the character's own direct speech
	Hears                 // speech addressed to the character
	Scene                 // any word of the sentence and its neighbours
	Slots                 // how many there are
)

// Evidence is one word that speaks for or against a feeling.
type Evidence struct {
	Slot   Slot
	Word   int32   // number of the word, as given by the numbering of the Reading
	Weight float32 // how much it counts
	Token  int
}

const (
	// maxWords bounds the words of one event: what stands further off is
	// seldom part of it, and long sentences stay cheap.
	maxWords = 14
	// everybody stands for words that show a feeling of nobody in particular.
	everybody = -1
	// window is how many sentences before and after speak too.
	window = 3
	// maxGap is how many words may stand between a subject and its verb for
	// both to be quoted together.
	maxGap = 4
	// maxLook is how many words before a verb may tell that it is not real.
	maxLook = 8
	// maxStrands bounds the events, names and moods kept of one sentence, so
	// that a sentence as long as a book costs no more than its length.
	maxStrands = 64
)

// How much a character's own part, and the scene, of a sentence so many away
// count.
var (
	parted = [window + 1]float32{1.4, 0.5, 0.3, 0.2}
	aside  = [window + 1]float32{1, 0.6, 0.4, 0.3}
)

// idle words say nothing of what happens.
var idle = wordSet(`be have do get go come make take say tell ask answer reply
the a an this that these those some any all one two three very so too then
there here now as well also just only even still again up out over
of to in on at by for with from into and or but if when while not n't will
would shall should can could may might must what which who whom whose where
time way thing man woman person day other such own`)

// perceive are verbs after which the rest of the sentence is what is seen,
// heard or learned.
var perceive = wordSet(`see hear find learn discover notice perceive behold
watch know realize realise understand remember think`)

// supposed are verbs after which a thing is only in somebody's mind.
var supposed = wordSet(`think believe fear hope dream suppose imagine pretend`)

// atOne are prepositions after which stands one whom the event concerns.
var atOne = wordSet(`to at upon on behind after from before against toward towards over around round beside`)

func wordSet(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// strand is a stretch of words in one slot for one character.
type strand struct {
	who        int
	slot       Slot
	first, end int   // tokens
	verb       int32 // word that stands for the verb at token first, or -1: read the tokens
	from, to   int   // tokens of the whole event, its subject included
	unreal     bool  // it is only wished, feared, asked or planned, or does not happen
}

// Reading is a document seen for its situations: who takes part in what.
type Reading struct {
	d       *nlp.Document
	words   []int32    // of each token, or -1 where it says nothing
	content []int      // of each sentence: tokens that say something
	strands [][]strand // of each sentence
	moods   [][]mood   // of each sentence
	who     []int32    // character named or described at each head token + 1
	hides   []int32    // character whose feeling each token shows + 1, or everybody
	own     [][]int    // of each sentence: tokens that say nothing of somebody
}

// mood is a feeling that somebody shows: it colours the scene for the others.
type mood struct {
	who    int
	word   int32
	weight float32
	token  int
}

// Read prepares a document. number gives each word its number, or -1 for one
// that is not known. Words inside shown, which show a feeling already, are
// passed over: a situation is what moves somebody apart from them.
func Read(d *nlp.Document, cast []nlp.Character, quotes []nlp.Quote, shown []nlp.Cue, number func(lemma string) int32) *Reading {
	r := &Reading{d: d, words: make([]int32, len(d.Tokens)), content: make([]int, len(d.Sentences)), strands: make([][]strand, len(d.Sentences))}
	r.moods = make([][]mood, len(d.Sentences))
	r.who, r.hides, r.own = make([]int32, len(d.Tokens)), make([]int32, len(d.Tokens)), make([][]int, len(d.Sentences))
	for _, c := range shown {
		first := tokenAt(d, c.Span.Start)
		for i := first; i < len(d.Tokens) && d.Tokens[i].Span.Start < c.Span.End; i++ {
			r.hides[i] = int32(c.Character) + 1
			if c.Character == nlp.None {
				r.hides[i] = everybody
			}
		}
		if first < len(d.Tokens) && !c.Denied {
			s := d.Tokens[first].Sentence
			for _, f := range c.Feelings {
				if n := number("~" + f.Family); n >= 0 && len(r.moods[s]) < maxStrands {
					r.moods[s] = append(r.moods[s], mood{c.Character, n, float32(f.Weight), first})
				}
			}
		}
	}
	for _, c := range cast {
		for _, m := range c.Mentions {
			r.who[m.Head] = int32(c.ID) + 1
		}
	}
	for i := range d.Tokens {
		r.words[i] = -1
		t := &d.Tokens[i]
		if r.hides[i] == everybody || !isContent(t) {
			continue
		}
		if r.words[i] = number(t.Lemma); r.words[i] < 0 {
			continue
		}
		r.content[t.Sentence]++
		if (r.who[i] > 0 || r.hides[i] > 0) && len(r.own[t.Sentence]) < maxStrands {
			r.own[t.Sentence] = append(r.own[t.Sentence], i)
		}
	}
	quoted := make([]bool, len(d.Tokens))
	for _, q := range quotes {
		for i := q.First; i < q.End; i++ {
			quoted[i] = true
		}
		r.addQuote(q)
	}
	for v := range d.Verbs {
		if !quoted[d.Verbs[v].Head] {
			r.addEvent(v, number)
		}
	}
	return r
}

// tokenAt gives the first token that ends after a byte.
func tokenAt(d *nlp.Document, at int) int {
	lo, hi := 0, len(d.Tokens)
	for lo < hi {
		if mid := (lo + hi) / 2; d.Tokens[mid].Span.End > at {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

// isContent reports whether a token may say something of what happens. Names
// say nothing of it.
func isContent(t *nlp.Token) bool {
	if len(t.Tag) < 2 || len(t.Lemma) < 2 || idle[t.Lemma] {
		return false
	}
	switch t.Tag[:2] {
	case "NN":
		return len(t.Tag) < 3 || t.Tag[2] != 'P'
	case "JJ", "VB", "RB", "RP", "UH":
		return true
	}
	return t.Lower == "against" || t.Lower == "without" || t.Lower == "behind"
}

func (r *Reading) add(s strand) {
	if s.first >= s.end {
		return
	}
	if at := r.d.Tokens[s.first].Sentence; len(r.strands[at]) < maxStrands {
		r.strands[at] = append(r.strands[at], s)
	}
}

// addQuote adds the speech to its speaker and listener, sentence by sentence.
func (r *Reading) addQuote(q nlp.Quote) {
	if q.Speaker == nlp.None && q.Listener == nlp.None {
		return
	}
	for i := q.First; i < q.End; {
		end := min(q.End, r.d.Sentences[r.d.Tokens[i].Sentence].End)
		if end <= i {
			return
		}
		if q.Speaker != nlp.None {
			r.add(strand{who: q.Speaker, slot: Says, first: i, end: end, verb: -1, from: i, to: end})
		}
		if q.Listener != nlp.None && q.Listener != q.Speaker {
			r.add(strand{who: q.Listener, slot: Hears, first: i, end: end, verb: -1, from: i, to: end})
		}
		i = end
	}
}

// addEvent adds the event of verb group v to all who take part in it.
func (r *Reading) addEvent(v int, number func(string) int32) {
	d, g, who := r.d, r.d.Verbs[v], r.who
	end := r.reach(v)
	from := g.First
	if p := g.Subject; p != nlp.None && d.Phrases[p].First < from && from-d.Phrases[p].End <= maxGap && d.Tokens[d.Phrases[p].First].Sentence == d.Tokens[g.Head].Sentence {
		from = d.Phrases[p].First
	}
	verb, seen := int32(-1), false
	if lemma := d.Tokens[g.Head].Lemma; r.hides[g.Head] != everybody {
		if g.Negated {
			verb = number("not " + lemma)
		} else {
			verb = r.words[g.Head]
		}
		seen = perceive[lemma]
	}
	unreal := r.unreal(v, verb)
	var done [8]int
	n := 0
	join := func(char int, does bool, slots [2]Slot) {
		for _, c := range done[:n] {
			if c == char {
				return
			}
		}
		if n == len(done) {
			return
		}
		done[n] = char
		n++
		if verb >= 0 && r.hides[g.Head] != int32(char)+1 && !(does && seen) {
			r.add(strand{char, slots[0], g.Head, g.Head + 1, verb, from, end, unreal})
		}
		if g.Negated {
			return // what did not happen brings nothing with it
		}
		r.add(strand{char, slots[1], g.Head + 1, end, -1, from, end, unreal})
		if does && seen {
			stop := min(end+maxWords, d.Sentences[d.Tokens[g.Head].Sentence].End)
			r.add(strand{char, Sees, g.Head + 1, stop, -1, from, stop, unreal})
		}
	}
	phrases := func(p int, does bool, slots [2]Slot) {
		for k := 0; p != nlp.None && k < 4; k++ {
			if c := who[d.Phrases[p].Head]; c > 0 && !strings.HasSuffix(d.Tokens[d.Phrases[p].Head].Lower, "self") {
				join(int(c-1), does, slots)
			}
			p = d.Phrases[p].Conjunct
		}
	}
	owners := func(p int) {
		if p == nlp.None {
			return
		}
		ph := d.Phrases[p]
		char := int32(0)
		if ph.Possessor != nlp.None {
			char = who[ph.Possessor]
		}
		if char == 0 && ph.Of != nlp.None {
			char = who[d.Phrases[ph.Of].Head]
		}
		if char == 0 {
			return
		}
		before := n
		join(int(char-1), false, [2]Slot{Owns, Owns})
		if n > before {
			r.add(strand{int(char - 1), Owns, ph.Head, ph.Head + 1, -1, from, end, unreal})
		}
	}
	does, meets := [2]Slot{DoesVerb, DoesRest}, [2]Slot{MeetsVerb, MeetsRest}
	if g.Passive {
		phrases(g.Subject, false, meets)
		phrases(g.By, true, does)
	} else {
		phrases(g.Subject, true, does)
		phrases(g.Indirect, false, meets)
		phrases(g.Object, false, meets)
	}
	owners(g.Subject)
	owners(g.Object)
	// Whoever it is done to, at or behind ("came up to him") meets it too.
	toward := false
	for i := g.End; i < end; i++ {
		t := &d.Tokens[i]
		switch {
		case who[i] > 0 && toward && !strings.HasSuffix(t.Lower, "self"):
			join(int(who[i]-1), false, meets)
			toward = false
		case atOne[t.Lower]:
			toward = true
		case t.Tag == "IN" || t.Tag == "TO":
			toward = false
		case len(t.Tag) > 1 && (t.Tag[:2] == "NN" || t.Tag[:2] == "VB"):
			toward = false
		}
	}
}

// unreal reports whether the event of a verb group is only wished, feared,
// asked, planned or denied. What is not done counts only where the verb with
// "not" says something of its own ("could not find").
func (r *Reading) unreal(v int, verb int32) bool {
	d, g := r.d, r.d.Verbs[v]
	if g.Negated {
		return verb < 0
	}
	if g.Modal != "" || g.Infinitive {
		return true
	}
	s := d.Sentences[d.Tokens[g.Head].Sentence]
	if d.Tokens[s.End-1].Lower == "?" {
		return true
	}
	for i := max(s.First, g.First-maxLook); i < g.First; i++ {
		if supposed[d.Tokens[i].Lemma] {
			return true
		}
		switch d.Tokens[i].Lower {
		case "if", "unless", "lest", "until", "till", "whether", "as":
			return d.Tokens[i].Lower != "as" || i+1 < g.First && d.Tokens[i+1].Lower == "if"
		}
	}
	return false
}

// reach gives the end of the token range of the event of verb group v: the
// verb, its particles, objects and the words beside them up to the end of its
// clause. Verbs that hang on it ("wanted to go") belong to it.
func (r *Reading) reach(v int) int {
	d, g := r.d, r.d.Verbs[v]
	stop := min(d.Sentences[d.Tokens[g.Head].Sentence].End, g.End+maxWords)
	next := v + 1
	for i := g.End; i < stop; i++ {
		if isBreak(d.Tokens[i].Lower) {
			return max(i, g.Head+1)
		}
		for next < len(d.Verbs) && d.Verbs[next].First < i {
			next++
		}
		if next < len(d.Verbs) && d.Verbs[next].First == i && d.Verbs[next].Governor != v && !d.Verbs[next].Infinitive {
			// A clause of its own: end before its subject, if that is ours.
			if s := d.Verbs[next].Subject; s != nlp.None && d.Phrases[s].First >= g.End && d.Phrases[s].First < i {
				return d.Phrases[s].First
			}
			return i
		}
	}
	return max(stop, g.Head+1)
}

func isBreak(lower string) bool {
	switch lower {
	case ".", "!", "?", ";", ":", "\"", "--", "—", "(", ")", ",":
		return true
	}
	return false
}

// People lists the characters that take part in sentence s, in order of their
// first part in it.
func (r *Reading) People(s int) []int {
	var out []int
next:
	for _, st := range r.strands[s] {
		for _, c := range out {
			if c == st.who {
				continue next
			}
		}
		out = append(out, st.who)
	}
	return out
}

// Evidence gives every word that speaks of how character who is moved in
// sentence s, in a fixed order: its own part there and, counting less, in the
// sentences about, and the scene. Long stretches are scaled down by the root
// of their length, so that many words are not surer than a few.
func (r *Reading) Evidence(s, who int) []Evidence {
	var out []Evidence
	for i := max(0, s-window); i <= min(len(r.strands)-1, s+window); i++ {
		far := max(i-s, s-i)
		for _, st := range r.strands[i] {
			if st.who == who {
				out = r.strand(out, st, parted[far])
			}
		}
		out = r.scene(out, i, aside[far])
		for _, t := range r.own[i] {
			if !r.speaks(t, who) { // take back from the scene
				out = append(out, Evidence{Scene, r.words[t], -aside[far] * scale(r.content[i]), t})
			}
		}
		for _, m := range r.moods[i] {
			if m.who != who {
				out = append(out, Evidence{Scene, m.word, m.weight * aside[far], m.token})
			}
		}
	}
	return out
}

func (r *Reading) strand(out []Evidence, st strand, weight float32) []Evidence {
	if st.verb >= 0 {
		return append(out, Evidence{st.slot, st.verb, weight, st.first})
	}
	if st.slot == Says || st.slot == Hears || st.slot == Sees {
		n := 0
		for i := st.first; i < st.end; i++ {
			if r.speaks(i, st.who) {
				n++
			}
		}
		weight *= scale(n)
	}
	for i := st.first; i < st.end; i++ {
		if r.speaks(i, st.who) {
			out = append(out, Evidence{st.slot, r.words[i], weight, i})
		}
	}
	return out
}

// speaks reports whether token i says something of what happens to a
// character: what the character is called does not, nor what shows how the
// character feels.
func (r *Reading) speaks(i, who int) bool {
	return r.words[i] >= 0 && r.who[i] != int32(who)+1 && r.hides[i] != int32(who)+1
}

func (r *Reading) scene(out []Evidence, s int, weight float32) []Evidence {
	weight *= scale(r.content[s])
	for i := r.d.Sentences[s].First; i < r.d.Sentences[s].End; i++ {
		if r.words[i] >= 0 {
			out = append(out, Evidence{Scene, r.words[i], weight, i})
		}
	}
	return out
}

func scale(n int) float32 { return float32(1 / math.Sqrt(float64(max(1, n)))) }
