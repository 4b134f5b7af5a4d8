package clauses

import "feltpage/nlp"

// clause is an open clause.
type clause struct {
	relative   bool
	question   bool // opened by a question word that is its own subject
	pending    int  // phrase that waits for its verb, or nlp.None
	subject    int  // of the last finite verb, or nlp.None
	verb       int  // last finite verb, or nlp.None
	last       int  // last verb of any kind, or nlp.None
	antecedent int  // of a relative clause, or nlp.None
	predicate  int  // adjective that came before the verb ("how cold it was"), or nlp.None
	fronted    bool // opened by a place, "there", "so": the subject may follow
	joined     bool // "and" came after its last verb
	exists     bool // "there" came: the subject follows the verb
	late       int  // verb whose subject is still to come, or nlp.None
}

func newClause() clause {
	return clause{pending: nlp.None, subject: nlp.None, verb: nlp.None, last: nlp.None, antecedent: nlp.None,
		predicate: nlp.None, late: nlp.None}
}

// space is the world of one depth of quotes.
type space struct {
	clauses  []clause
	dangling []loose // what waits for the subject of its clause
	prev     item    // what came last
	before   item    // what came before that
	afterIt  bool    // a quote closed and nothing came since
	broken   bool    // the quote broke off at a comma and may go on
}

// loose is a participle, or an infinitive under one, that comes before the
// subject, with the depth of its clause.
type loose struct{ verb, depth int }

// item is what the walk met last.
type item uint8

const (
	nothing item = iota
	aPhrase
	aPrepPhrase
	aVerb
	aPreposition
	aConjunction
	aComma
	anOther
)

// maxDepth bounds quotes and clauses within each other; deeper ones are read
// as if they were at this depth.
const maxDepth = 16

// walker reads one sentence.
type walker struct {
	*parser
	end       int
	depth     int
	lastNoun  int // last phrase met in this space, or nlp.None
	prep      int // token of the preposition met last, or nlp.None
	taken     int // phrase that already has its role, or nlp.None
	conjunct  int // phrase before the last conjunction or list comma, or nlp.None
	forPhrase int // last phrase after "for", or nlp.None
	root      int // first phrase of the list that lastNoun belongs to
}

func (p *parser) walk(s nlp.Sentence) {
	w := walker{parser: p, end: s.End, lastNoun: nlp.None, prep: nlp.None, taken: nlp.None, conjunct: nlp.None,
		forPhrase: nlp.None, root: nlp.None}
	w.open(0)
	for i := s.First; i < s.End; {
		i = w.step(i)
	}
	for d := range w.spaces {
		w.spaces[d].dangling, w.spaces[d].broken = w.spaces[d].dangling[:0], false
	}
}

// open starts an empty space at a depth.
func (w *walker) open(depth int) {
	for len(w.spaces) <= depth {
		w.spaces = append(w.spaces, space{})
	}
	s := &w.spaces[depth]
	s.clauses = append(s.clauses[:0], newClause())
	s.dangling = s.dangling[:0]
	s.prev, s.before, s.afterIt, s.broken = nothing, nothing, false, false
	w.depth = depth
}

func (w *walker) here() *space { return &w.spaces[w.depth] }
func (w *walker) top() *clause { s := w.here(); return &s.clauses[len(s.clauses)-1] }

func (w *walker) met(it item) {
	s := w.here()
	s.before, s.prev = s.prev, it
	if it != aComma {
		s.afterIt = false
	}
}

// push opens a clause inside the present one.
func (w *walker) push(c clause) {
	s := w.here()
	if len(s.clauses) < maxDepth {
		s.clauses = append(s.clauses, c)
	} else {
		s.clauses[len(s.clauses)-1] = c
	}
}

// step reads what is at i and gives the place after it.
func (w *walker) step(i int) int {
	if n := w.starts[i]; n != 0 {
		return w.phrase(int(n - 1))
	}
	switch k := w.kinds[i]; {
	case k == openQuote:
		if w.scare(i) {
			return i + 1
		}
		w.reset()
		if next := w.depth + 1; next < len(w.spaces) && next < maxDepth && w.spaces[next].broken {
			w.depth = next // "That box," said he, "is empty."
			w.here().broken = false
			w.here().before, w.here().prev = nothing, aComma
		} else {
			w.open(min(next, maxDepth))
		}
	case k == closeQuote:
		if w.depth > 0 {
			if w.closesScare(i) {
				return i + 1
			}
			w.here().broken = w.here().prev == aComma
			w.depth--
		} else if w.here().prev != nothing {
			w.open(0) // the quote began in an earlier sentence
		}
		w.reset()
		w.here().afterIt = true
	case k == comma:
		w.comma(i)
	case k == stop:
		after := w.here().afterIt && w.word(i) != "."
		w.stop()
		w.here().afterIt = after
	case k == bracket:
		w.met(anOther)
	case k == conjunction:
		w.conjunct, w.prep = nlp.None, nlp.None
		s := w.here()
		if s.prev == aPhrase || s.prev == aPrepPhrase || s.prev == aComma && w.lastNoun != nlp.None &&
			(w.root != w.lastNoun || w.top().verb == nlp.None) {
			w.conjunct = w.lastNoun
		}
		w.top().joined = true
		w.met(aConjunction)
	case k == existential:
		w.prep = nlp.None
		w.top().fronted, w.top().exists = true, true
		w.met(anOther)
	case k == whPronoun:
		w.relative(i)
	case k == whAdverb:
		if w.top().verb != nlp.None || w.top().pending != nlp.None || w.here().prev != nothing {
			w.push(newClause())
		}
		w.prep = nlp.None
		w.top().fronted = true
		w.met(anOther)
	case k == to && w.infinitive(i):
		return w.verb(i)
	case k.verb():
		return w.verb(i)
	case k == preposition || k == to:
		return w.preposition(i)
	case k == particle:
		if w.top().verb == nlp.None && w.top().pending == nlp.None {
			w.top().fronted = true
		}
		if w.here().prev != aVerb {
			w.met(anOther)
		}
	case k == adverb:
		if c := w.top(); (c.verb == nlp.None || c.joined) && c.pending == nlp.None {
			c.fronted = true
		}
		w.prep = nlp.None
	default:
		if k == adjective {
			if c := w.top(); c.verb == nlp.None && c.pending == nlp.None {
				c.fronted = true
				if c.predicate == nlp.None && !atTimes[w.word(i)] {
					c.predicate = i
				}
			}
		}
		w.prep = nlp.None // "at last", "in vain"
		w.met(anOther)
	}
	return i + 1
}

// reset forgets what should not be seen across the border of a quote.
func (w *walker) reset() {
	w.prep, w.conjunct, w.lastNoun = nlp.None, nlp.None, nlp.None
}

// scare reports an opening quote around a word or two of the sentence itself,
// as in: the "king" wept.
func (w *walker) scare(i int) bool {
	if i == 0 || w.d.Tokens[i-1].Sentence != w.d.Tokens[i].Sentence {
		return false
	}
	switch k := w.kinds[i-1]; k {
	case det, possPronoun, adjective, preposition, possMark:
	default:
		return false
	}
	for j := i + 1; j < w.end && j <= i+5; j++ {
		switch w.kinds[j] {
		case closeQuote:
			return j > i+1
		case stop, comma, openQuote:
			return false
		}
	}
	return false
}

// closesScare reports the closing quote of one that scare let pass.
func (w *walker) closesScare(i int) bool {
	for j := i - 1; j >= 0 && j >= i-5; j-- {
		if w.kinds[j] == openQuote {
			return w.scare(j)
		}
		if w.kinds[j] == closeQuote {
			return false
		}
	}
	return false
}

// comma, at i, closes clauses that have their verb, and such as "though small"
// that lack one.
func (w *walker) comma(i int) {
	s := w.here()
	for n := len(s.clauses); n > 1; n-- {
		inner, outer := s.clauses[n-1], &s.clauses[n-2]
		switch {
		case inner.relative && inner.verb != nlp.None && outer.pending == nlp.None && i+1 < w.end &&
			w.kinds[i+1] == conjunction && w.finiteFollows(i+2):
			// "a man who limped, and shivered, and growled"
			n = 0
			continue
		case inner.verb == nlp.None && !(inner.question && inner.last != nlp.None) &&
			(inner.relative || inner.question || inner.pending != nlp.None):
			n = 0
			continue
		}
		if outer.verb == nlp.None && outer.pending == nlp.None {
			outer.subject = inner.subject // "For he was tired, and slept."
		}
		s.clauses = s.clauses[:n-1]
	}
	w.prep = nlp.None
	w.top().joined = true
	w.met(aComma)
}

// stop closes all clauses; the subject may be left out after it.
func (w *walker) stop() {
	s := w.here()
	c := newClause()
	c.subject = s.clauses[0].subject
	pending := s.clauses[0].pending
	s.clauses = append(s.clauses[:0], c)
	// "The boy -- so they say -- wept": the boy still waits.
	s.clauses[0].pending = pending
	s.dangling = s.dangling[:0]
	w.reset()
	w.met(nothing)
	s.before = nothing
}

// relative opens a clause about the noun before it.
func (w *walker) relative(i int) {
	s := w.here()
	c := newClause()
	c.relative = true
	word := w.word(i)
	if w.lastNoun != nlp.None && s.prev != nothing && s.prev != aVerb && word != "what" {
		c.antecedent = w.lastNoun
	} else if s.prev == aVerb && w.lastNoun != nlp.None && word != "what" && s.clauses[len(s.clauses)-1].subject == w.lastNoun && w.intransitive() {
		c.antecedent = w.lastNoun // "a storm arose which"
	} else if w.prep != nlp.None && w.lastNoun != nlp.None && word != "what" {
		c.antecedent = w.lastNoun // "the wood in which"
	} else {
		c.question = true
	}
	w.prep = nlp.None
	if c.question && s.prev == nothing && len(s.clauses) == 1 {
		c.relative = false
		s.clauses[0] = c
	} else {
		w.push(c)
	}
	w.met(anOther)
}

// intransitive reports that the last verb is one of place or motion.
func (w *walker) intransitive() bool {
	c := w.top()
	if c.last == nlp.None {
		return false
	}
	lemma := w.verbLemma(c.last)
	return lingering[lemma] || appearing[lemma]
}

// preposition reads a preposition, or a conjunction that opens a clause.
func (w *walker) preposition(i int) int {
	s := w.here()
	word := w.word(i)
	c := w.top()
	switch {
	case word == "that" && s.prev == aPhrase && w.lastNoun != nlp.None && w.lastNoun == c.pending && w.clauseFollows(i+1):
		w.relative(i) // "the loaf that she baked"
		return i + 1
	case word == "that" && (s.prev == aPhrase || s.prev == aPrepPhrase) && w.lastNoun != nlp.None && w.verbFollows(i+1):
		w.relative(i)
		return i + 1
	case s.prev == aVerb && w.particleAt(i):
		return i + 1
	case alwaysClause[word] && i+1 < w.end && w.word(i+1) != "of" && w.kinds[i+1] != comma && w.kinds[i+1] != stop || subordinators[word] && !w.betweenSubjectAndVerb(word, i) && w.clauseFollows(i+1):
		w.push(newClause())
		w.prep = nlp.None
		w.lastNoun = nlp.None
		w.met(anOther)
		return i + 1
	}
	if (c.verb == nlp.None || c.joined) && c.pending == nlp.None {
		c.fronted = true
	}
	w.prep = i
	if s.prev != aVerb {
		w.met(aPreposition)
	} else {
		s.before, s.prev = s.prev, aPreposition
	}
	return i + 1
}

// betweenSubjectAndVerb reports "for", "after" and the like between a noun that
// waits for its verb and another noun: "The time for regrets had passed."
func (w *walker) betweenSubjectAndVerb(word string, i int) bool {
	c := w.top()
	if !eitherWay[word] || c.pending == nlp.None || c.verb != nlp.None || w.here().prev == aComma {
		return false
	}
	return i+1 < w.end && w.starts[i+1] != 0 && !nominative[w.word(w.d.Phrases[w.starts[i+1]-1].Head)]
}

// particleAt reports a preposition that belongs to the verb: nothing follows
// that it could govern.
func (w *walker) particleAt(i int) bool {
	if i+1 >= w.end {
		return true
	}
	switch k := w.kinds[i+1]; k {
	case comma, stop, conjunction, preposition, to, closeQuote:
		return true
	}
	return false
}

// verbFollows reports a verb at i, past adverbs.
func (w *walker) verbFollows(i int) bool {
	for n := 0; i < w.end && n < 4; n++ {
		if w.starts[i] == 0 && w.kinds[i].verb() {
			return true
		}
		if w.kinds[i] != adverb {
			return false
		}
		i++
	}
	return false
}

// clauseFollows reports a phrase and a finite verb at i: a clause.
func (w *walker) clauseFollows(i int) bool {
	for n := 0; i < w.end && n < 8; n++ {
		switch k := w.kinds[i]; {
		case k == adverb, k == comma && n == 0:
			i++
		case k == existential:
			return true
		case w.starts[i] != 0:
			if w.oblique(int(w.starts[i]-1)) && w.d.Phrases[w.starts[i]-1].Pronoun {
				return false
			}
			ph := w.d.Phrases[w.starts[i]-1]
			i = ph.End
			if i < w.end && (w.kinds[i] == conjunction || w.kinds[i] == preposition && w.word(i) == "of") && i+1 < w.end && w.starts[i+1] != 0 {
				i = w.d.Phrases[w.starts[i+1]-1].End
			}
			for m := 0; m < 2 && i+1 < w.end && w.kinds[i] == preposition && w.starts[i+1] != 0; m++ {
				i = w.d.Phrases[w.starts[i+1]-1].End // "that the ale in the cup grew less"
			}
			for m := 0; i < w.end && m < 3 && (w.kinds[i] == adverb || w.kinds[i] == det); m++ {
				i++
			}
			if i < w.end && (w.kinds[i].finite() || w.kinds[i] == whPronoun && nominative[w.word(ph.Head)]) {
				return true
			}
			return i < w.end && (w.kinds[i] == verbEn || w.kinds[i] == verbBase) && ph.Pronoun
		default:
			return false
		}
	}
	return false
}

// infinitive reports "to" before a base form, past adverbs.
func (w *walker) infinitive(i int) bool {
	for j, n := i+1, 0; j < w.end && n < 3; j, n = j+1, n+1 {
		if w.kinds[j] == verbBase {
			return true
		}
		if w.kinds[j] != adverb {
			return false
		}
	}
	return false
}
