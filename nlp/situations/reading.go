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
	// window is how many sentences before and after speak too.
	window = 3
	// maxStrands bounds the events kept of one sentence, so that a sentence
	// as long as a book costs no more than its length.
	maxStrands = 64
)

// How much a character's own part, and the scene, of a sentence so many away
// count.
var (
	parted = [window + 1]float32{1, 0.5, 0.3, 0.2}
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
}

// Reading is a document seen for its situations: who takes part in what.
type Reading struct {
	d       *nlp.Document
	words   []int32    // of each token, or -1 where it says nothing
	content []int      // of each sentence: tokens that say something
	strands [][]strand // of each sentence
	moods   [][]mood   // of each sentence
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
	masked := make([]bool, len(d.Tokens))
	for _, c := range shown {
		for i := tokenAt(d, c.Span.Start); i < len(d.Tokens) && d.Tokens[i].Span.Start < c.Span.End; i++ {
			masked[i] = true
		}
		if i := tokenAt(d, c.Span.Start); i < len(d.Tokens) && !c.Denied {
			for _, f := range c.Feelings {
				if n := number("~" + f.Family); n >= 0 {
					s := d.Tokens[i].Sentence
					r.moods[s] = append(r.moods[s], mood{c.Character, n, float32(f.Weight), i})
				}
			}
		}
	}
	for i := range d.Tokens {
		r.words[i] = -1
		if t := &d.Tokens[i]; !masked[i] && isContent(t) {
			if r.words[i] = number(t.Lemma); r.words[i] >= 0 {
				r.content[t.Sentence]++
			}
		}
	}
	quoted := make([]bool, len(d.Tokens))
	for _, q := range quotes {
		for i := q.First; i < q.End; i++ {
			quoted[i] = true
		}
		r.addQuote(q)
	}
	who := make([]int32, len(d.Tokens)) // character at each head token + 1
	for _, c := range cast {
		for _, m := range c.Mentions {
			who[m.Head] = int32(c.ID) + 1
		}
	}
	for v := range d.Verbs {
		if !quoted[d.Verbs[v].Head] {
			r.addEvent(v, who, masked, number)
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
	at := r.d.Tokens[s.first].Sentence
	if s.first < s.end && len(r.strands[at]) < maxStrands {
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
			r.add(strand{q.Speaker, Says, i, end, -1})
		}
		if q.Listener != nlp.None && q.Listener != q.Speaker {
			r.add(strand{q.Listener, Hears, i, end, -1})
		}
		i = end
	}
}

// addEvent adds the event of verb group v to all who take part in it.
func (r *Reading) addEvent(v int, who []int32, masked []bool, number func(string) int32) {
	d, g := r.d, r.d.Verbs[v]
	end := r.reach(v)
	verb, seen := int32(-1), false
	if lemma := d.Tokens[g.Head].Lemma; !masked[g.Head] {
		if g.Negated {
			verb = number("not " + lemma)
		} else {
			verb = r.words[g.Head]
		}
		seen = perceive[lemma]
	}
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
		if verb >= 0 {
			r.add(strand{char, slots[0], g.Head, g.Head + 1, verb})
		}
		r.add(strand{char, slots[1], g.Head + 1, end, -1})
		if does && seen {
			r.add(strand{char, Sees, end, min(end+maxWords, d.Sentences[d.Tokens[g.Head].Sentence].End), -1})
		}
	}
	phrases := func(p int, does bool, slots [2]Slot) {
		for k := 0; p != nlp.None && k < 4; k++ {
			if c := who[d.Phrases[p].Head]; c > 0 {
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
			r.add(strand{int(char - 1), Owns, ph.Head, ph.Head + 1, -1})
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
	// Whoever else is named in the clause ("came up to him") meets it too.
	for i := g.End; i < end; i++ {
		if c := who[i]; c > 0 {
			join(int(c-1), false, meets)
		}
	}
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
	if st.slot == Says || st.slot == Hears {
		n := 0
		for i := st.first; i < st.end; i++ {
			if r.words[i] >= 0 {
				n++
			}
		}
		weight *= scale(n)
	}
	for i := st.first; i < st.end; i++ {
		if r.words[i] >= 0 {
			out = append(out, Evidence{st.slot, r.words[i], weight, i})
		}
	}
	return out
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

// Word gives the number of token i's word, or -1 where it says nothing.
func (r *Reading) Word(i int) int32 { return r.words[i] }
