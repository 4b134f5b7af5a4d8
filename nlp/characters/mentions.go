package characters

import (
	"sort"
	"strings"

	"feltpage/nlp"
)

type mentionKind byte

const (
	pronoun mentionKind = iota
	proper              // Moss, Mistress Alder
	nominal             // the baker, a gull, the youngest
)

type determiner byte

const (
	bare       determiner = iota
	definite              // the, this, that
	indefinite            // a, an, some, one, no
	possessed             // his, the king's
	another               // another
	theOther              // the other
	many                  // two, three, many, several, all (without "the")
)

// The place of a mention in its clause.
const (
	roleNone = iota
	roleSubject
	roleObject
	roleIndirect
	roleBy
	rolePossessor
	roleOf
)

// A mention is one phrase that may mean somebody, with all that its form and
// its clause tell about it.
type mention struct {
	first, end, head int // tokens
	sentence         int
	quote            int // innermost quote around the head, or nlp.None
	kind             mentionKind
	form             pronounForm
	lemma            string // of the head, lower case
	noun             noun
	known            bool // the lexicon has the head
	det              determiner
	mods             []string // adjectives and the like, lower case
	compound         []string // nouns among them: the tin [soldier]
	names            []string // parts of a name, lower case, without title
	title            string   // lower case
	nameFirst        int      // token where title and name begin
	plural           bool
	nobody           bool // no child, none of them
	gender           string
	possessor        int // mention, or nlp.None
	of               int // mention after "of", or nlp.None
	next             int // mention joined by "and", or nlp.None
	phrase           int // or nlp.None
	place            int // roleSubject ...
	verb             int // verb group it belongs to, or nlp.None
	cluster          int // name cluster of a proper mention, or nlp.None
	same             int // mention that apposition or predicate makes the same, or nlp.None
	acts             bool
	entity           int // or nlp.None
}

// reading is the working state of one Resolve.
type reading struct {
	d        *nlp.Document
	q        []nlp.Quote
	lex      *lexicon
	mentions []mention
	byPhrase []int // mention of a phrase, or nlp.None
	byToken  []int // innermost mention whose head is the token, or nlp.None
	quoteAt  []int // innermost quote of each token, or nlp.None
	verbAt   []int // verb group whose head is the token, or nlp.None
	clause   []int // verb group last begun in the sentence before the token, or nlp.None
	phraseAt []int // phrase that begins at the token, or nlp.None
	role     []int // role of a phrase
	roleVerb []int
	capitals map[string]bool // words with a capital inside a sentence, lower case
	owner    []int           // phrase whose possessor the token is, or nlp.None
	flow     bool            // the text has no paragraphs of speech
	turns    []turn
	tags     map[int]bool // mentions that reporting clauses name
	acting   map[headKey]bool
	clusters []cluster

	clusterEntity []int
	likely        map[string]string // gender of nouns, learned
	entities      []entity
	byHead        map[headKey][]int
	byKin         map[kinKey][]int
	pairs         map[[2]int]int
	teller        int
	recent        []int // mentions as they came to mind
	done          []bool
	seen          []seenMark
	stamp         int
	scratch       []candidate
	handle        []int     // of each mention, or nlp.None
	handles       [][]int   // mentions of each handle
	speaks        []bool    // handles whose mentions speak
	latest        [2]int    // the last entity meant by she, by he
	chain         [2][2]int // the last he and she, in narration and in speech

	// observe, when set, sees each choice and may change it; used to fit the
	// weights.
	observe func(pronoun int, cs []candidate, chosen int) int
}

func fill(n int) []int {
	s := make([]int, n)
	for i := range s {
		s[i] = nlp.None
	}
	return s
}

func newReading(d *nlp.Document, q []nlp.Quote) *reading {
	r := &reading{d: d, q: q, lex: words(), teller: nlp.None, latest: [2]int{nlp.None, nlp.None}, chain: [2][2]int{{nlp.None, nlp.None}, {nlp.None, nlp.None}}}
	n := len(d.Tokens)
	r.byToken, r.quoteAt, r.verbAt, r.phraseAt = fill(n), fill(n), fill(n), fill(n)
	r.byPhrase = fill(len(d.Phrases))
	r.role, r.roleVerb = make([]int, len(d.Phrases)), fill(len(d.Phrases))
	markQuotes(r.quoteAt, q)
	for i, p := range d.Phrases {
		if r.phraseAt[p.First] == nlp.None {
			r.phraseAt[p.First] = i
		}
	}
	set := func(p, role, v int) {
		if p >= 0 && p < len(r.role) && r.role[p] == roleNone {
			r.role[p], r.roleVerb[p] = role, v
		}
	}
	for i, v := range d.Verbs {
		r.verbAt[v.Head] = i
		set(v.Subject, roleSubject, i)
		set(v.Object, roleObject, i)
		set(v.Indirect, roleIndirect, i)
		set(v.By, roleBy, i)
	}
	r.clause = fill(n)
	last, sentence := nlp.None, -1
	for t := range d.Tokens {
		if s := d.Tokens[t].Sentence; s != sentence {
			last, sentence = nlp.None, s
		}
		r.clause[t] = last
		if r.verbAt[t] != nlp.None {
			last = r.verbAt[t]
		}
	}
	r.findMentions()
	return r
}

// markQuotes gives each token its innermost quote; the quotes are sorted,
// outer before inner.
func markQuotes(at []int, q []nlp.Quote) {
	var open []int
	next := 0
	for t := range at {
		for len(open) > 0 && q[open[len(open)-1]].End <= t {
			open = open[:len(open)-1]
		}
		for next < len(q) && q[next].First <= t {
			if q[next].End > t {
				open = append(open, next)
			}
			next++
		}
		if len(open) > 0 {
			at[t] = open[len(open)-1]
		}
	}
}

func (r *reading) findMentions() {
	r.mentions = make([]mention, 0, len(r.d.Tokens)*2/5+8)
	r.capitals = map[string]bool{}
	for t := range r.d.Tokens {
		if tok := &r.d.Tokens[t]; strings.HasPrefix(tok.Tag, "NNP") && !r.opens(t) && r.capital(t) {
			r.capitals[tok.Lower] = true
		}
	}
	r.owner = fill(len(r.d.Tokens))
	for i, p := range r.d.Phrases {
		if p.Possessor >= 0 {
			r.owner[p.Possessor] = i
		}
	}
	for i := range r.d.Phrases {
		r.addPhrase(i)
	}
	for i, p := range r.d.Phrases {
		if t := p.Possessor; t >= p.First && t < p.Head && r.byToken[t] == nlp.None {
			if f, ok := pronounForms[r.d.Tokens[t].Lower]; ok {
				r.addPronoun(t, f, nlp.None)
			} else {
				r.addNominal(p.First, t+1, t, i, i)
			}
		}
	}
	// Pronouns that are in no phrase.
	for t := range r.d.Tokens {
		if r.byToken[t] == nlp.None {
			if f, ok := pronounForms[r.d.Tokens[t].Lower]; ok && r.pronounTag(t) {
				r.addPronoun(t, f, nlp.None)
			}
		}
	}
	r.looseNames()
	r.takeHer()
	r.order()
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.phrase == nlp.None {
			continue
		}
		if r.byPhrase[m.phrase] == nlp.None || r.mentions[r.byPhrase[m.phrase]].head != r.d.Phrases[m.phrase].Head {
			r.byPhrase[m.phrase] = i
		}
	}
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.phrase == nlp.None || r.byPhrase[m.phrase] != i {
			continue
		}
		p := r.d.Phrases[m.phrase]
		if p.Possessor != nlp.None {
			m.possessor = r.byToken[p.Possessor]
			if o := m.possessor; o != nlp.None && r.mentions[o].kind == proper && r.mentions[o].first > m.first && r.mentions[o].end <= m.head {
				m.first = r.mentions[o].first
			}
		} else if m.first < p.First && r.d.Tokens[m.first].Lower == "her" {
			m.possessor = r.byToken[m.first]
		}
		if p.Of >= 0 {
			m.of = r.byPhrase[p.Of]
		}
		if p.Conjunct >= 0 {
			m.next = r.byPhrase[p.Conjunct]
		}
	}
}

// looseNames takes the names that are in no phrase, where the tags took them
// for another word.
func (r *reading) looseNames() {
	inside := make([]bool, len(r.d.Tokens))
	for _, p := range r.d.Phrases {
		for t := p.First; t < p.End; t++ {
			inside[t] = true
		}
	}
	for t := range r.d.Tokens {
		if inside[t] || r.byToken[t] != nlp.None || !r.capital(t) || !r.capitals[r.d.Tokens[t].Lower] || noName[r.d.Tokens[t].Lower] {
			continue
		}
		if r.opens(t) && !strings.HasPrefix(r.d.Tokens[t].Tag, "NN") {
			continue
		}
		m := r.blank(t, t+1, t)
		m.kind, m.nameFirst, m.names = proper, t, []string{r.d.Tokens[t].Lower}
		if g := r.lex.first[m.names[0]]; g == nlp.Female || g == nlp.Male {
			m.gender = g
		}
		r.push(m)
	}
}

// takeHer gives "her" to the noun right after it where the tags took it for
// an object: "loved her father".
func (r *reading) takeHer() {
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.kind == pronoun || m.det != bare || m.first == 0 || m.place == rolePossessor {
			continue
		}
		t := m.first - 1
		if r.d.Tokens[t].Lower != "her" || r.byToken[t] == nlp.None || r.d.Tokens[t].Sentence != m.sentence {
			continue
		}
		if tag := r.d.Tokens[m.head].Tag; tag != "NN" && tag != "NNS" {
			continue
		}
		her := &r.mentions[r.byToken[t]]
		if her.place != rolePossessor {
			m.place, m.verb = her.place, her.verb
		}
		her.form.possessive, her.place = true, rolePossessor
		m.first, m.det = t, possessed
	}
}

// order sorts the mentions by where they begin, the shorter first, and makes
// byToken point at them again.
func (r *reading) order() {
	sort.SliceStable(r.mentions, func(i, j int) bool {
		a, b := &r.mentions[i], &r.mentions[j]
		if a.first != b.first {
			return a.first < b.first
		}
		return a.end < b.end
	})
	for i := range r.byToken {
		r.byToken[i] = nlp.None
	}
	for i := range r.mentions {
		r.byToken[r.mentions[i].head] = i
	}
}

func (r *reading) pronounTag(t int) bool {
	tag := r.d.Tokens[t].Tag
	return tag == "PRP" || tag == "PRP$" || tag == ""
}

func (r *reading) addPronoun(t int, f pronounForm, phrase int) {
	m := r.blank(t, t+1, t)
	m.kind, m.form, m.gender, m.phrase = pronoun, f, f.gender, phrase
	m.plural = f.class == they || f.class == ours
	if o := r.owner[t]; o != nlp.None {
		m.form.possessive, m.place, m.verb = true, rolePossessor, r.roleVerb[o]
	} else if r.d.Tokens[t].Tag == "PRP$" {
		m.form.possessive = true
		m.place = rolePossessor
	} else if f.possessive && r.d.Tokens[t].Lower != "her" && r.d.Tokens[t].Lower != "mine" {
		m.place = rolePossessor
	}
	r.place(&m)
	r.push(m)
}

func (r *reading) blank(first, end, head int) mention {
	tok := &r.d.Tokens[head]
	return mention{first: first, end: end, head: head, sentence: tok.Sentence, quote: r.quoteAt[head], lemma: tok.Lower,
		possessor: nlp.None, of: nlp.None, next: nlp.None, phrase: nlp.None, verb: nlp.None,
		cluster: nlp.None, same: nlp.None, entity: nlp.None}
}

func (r *reading) place(m *mention) {
	if m.phrase != nlp.None && m.place == roleNone {
		m.place, m.verb = r.role[m.phrase], r.roleVerb[m.phrase]
	}
}

func (r *reading) push(m mention) {
	r.byToken[m.head] = len(r.mentions)
	r.mentions = append(r.mentions, m)
}

func (r *reading) addPhrase(i int) {
	p := &r.d.Phrases[i]
	head := &r.d.Tokens[p.Head]
	if f, ok := pronounForms[head.Lower]; ok && (p.Pronoun || p.End-p.First == 1 && r.pronounTag(p.Head)) {
		r.addPronoun(p.Head, f, i)
		return
	}
	if p.Pronoun {
		return
	}
	r.addNominal(p.First, p.End, p.Head, i, r.owner[p.Head])
}
