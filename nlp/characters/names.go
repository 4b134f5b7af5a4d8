package characters

import (
	"math"
	"strings"
	"sync"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/lemma"
	"feltpage/nlp/quotes"
)

// A cluster is all mentions of one name, short and long.
type cluster struct {
	names    []string // the fullest form
	title    string
	gender   string
	plural   bool
	place    bool // a street, a house
	mentions int
	inside   int     // mentions whose capital is not that of a sentence
	score    float64 // above 0: somebody, not a place or a thing
}

// perWord bounds how many clusters of one name word are looked at: the most
// recent ones.
const perWord = 6

// ordinary is what speaks against a name that the language has as a plain
// word; everyday is from how many uses in SemCor a word counts as one. Both
// are own judgement.
const (
	ordinary = 2.5
	everyday = 8
)

// clusterNames joins the mentions of names that can be the same: "Moss Alder",
// "Moss", "Mr Alder". It reads the whole text before anything is resolved, so
// that a name told late counts early.
func (r *reading) clusterNames() []cluster {
	var cs []cluster
	index := map[string][]int{}
	add := func(w string, c int) {
		l := index[w]
		for _, x := range l {
			if x == c {
				return
			}
		}
		if len(l) >= 2*perWord {
			l = append(l[:0], l[perWord:]...)
		}
		index[w] = append(l, c)
	}
	// Longer names first: they tell which short forms belong together.
	for pass := 0; pass < 2; pass++ {
		for i := range r.mentions {
			m := &r.mentions[i]
			if m.kind != proper || len(m.names) == 0 || (len(m.names) > 1) != (pass == 0) {
				continue
			}
			c := matchName(r.lex, cs, index, m)
			if c == nlp.None {
				c = len(cs)
				cs = append(cs, cluster{names: m.names, title: m.title, gender: m.gender, plural: m.plural, place: placeName(r.lex, m)})
				for _, w := range m.names {
					add(w, c)
				}
			}
			k := &cs[c]
			k.mentions++
			if k.gender == "" {
				k.gender = m.gender
			}
			if k.title == "" {
				k.title = m.title
			}
			if len(m.names) > len(k.names) {
				k.names = m.names
				for _, w := range m.names {
					add(w, c)
				}
			}
			m.cluster = c
		}
	}
	for i := range r.mentions {
		if m := &r.mentions[i]; m.cluster != nlp.None {
			c := &cs[m.cluster]
			c.score += r.personal(m)
			if !r.opens(m.first) || len(m.names) > 1 || m.title != "" {
				c.inside++
			}
		}
	}
	openers := map[string][]int{} // clusters of words that only ever open a sentence
	for i := range cs {
		c := &cs[i]
		c.score += 0.3
		// A word that may have its capital only from its place in the sentence.
		if c.inside == 0 && r.lex.first[c.names[0]] == "" {
			c.score -= math.Min(1+0.2*float64(c.mentions), 2)
			if len(c.names) == 1 && c.title == "" {
				openers[c.names[0]] = append(openers[c.names[0]], i)
			}
		}
	}
	// "Water ran down the wall": the text has the word small elsewhere, or it
	// is an everyday word; then the capital says nothing.
	for i := range r.d.Tokens {
		if t := &r.d.Tokens[i]; len(openers[t.Lower]) > 0 && !r.capital(i) {
			for _, c := range openers[t.Lower] {
				cs[c].score -= ordinary
			}
			delete(openers, t.Lower)
		}
	}
	for w, list := range openers {
		if u, ok := lemma.UseOf(w); ok && u.Noun+u.Verb+u.Adjective+u.Adverb > everyday {
			for _, c := range list {
				cs[c].score -= ordinary
			}
		}
	}
	r.followNames(cs)
	return cs
}

// followNames counts for a name the he or she that comes after it in the same
// sentence or opens the next.
func (r *reading) followNames(cs []cluster) {
	last := nlp.None
	for i := range r.mentions {
		m := &r.mentions[i]
		switch {
		case m.quote != nlp.None:
		case m.kind == pronoun && m.form.class == third && last != nlp.None:
			if o := &r.mentions[last]; m.sentence-o.sentence <= 1 && o.cluster != nlp.None {
				cs[o.cluster].score += 0.7
			}
			last = nlp.None
		case m.kind == proper && m.place == roleSubject:
			last = i
		case m.kind == nominal && m.noun.kind != "":
			last = nlp.None
		}
	}
}

// matchName gives the cluster a name belongs to, or nlp.None.
func matchName(lex *lexicon, cs []cluster, index map[string][]int, m *mention) int {
	seen, byLast, several := nlp.None, nlp.None, false
	for k := len(m.names) - 1; k >= 0; k-- {
		l := index[m.names[k]]
		for j := len(l) - 1; j >= 0 && j >= len(l)-perWord; j-- {
			c := &cs[l[j]]
			if c.plural != m.plural || c.place != placeName(lex, m) || !sameName(c, m) {
				continue
			}
			if len(c.names) == len(m.names) && c.title == m.title {
				return l[j]
			}
			// A last name that two bear tells neither: "Miss Alder" of two
			// sisters is a name of its own.
			if len(m.names) == 1 && len(c.names) > 1 && m.names[0] != c.names[0] {
				several = several || byLast != nlp.None && byLast != l[j]
				byLast = l[j]
				continue
			}
			// Of several, the one named most often, then the latest.
			if seen == nlp.None || c.mentions > cs[seen].mentions {
				seen = l[j]
			}
		}
		if seen != nlp.None {
			return seen
		}
	}
	if several && m.title != "" {
		return nlp.None
	}
	return byLast
}

// placeName reports whether the name is one of a street, house or the like.
func placeName(lex *lexicon, m *mention) bool {
	return m.title == "" && len(m.names) > 1 && lex.ends[m.names[len(m.names)-1]]
}

// sameName reports whether the mention can be a form of the cluster's name.
func sameName(c *cluster, m *mention) bool {
	if c.gender != "" && m.gender != "" && c.gender != m.gender {
		return false
	}
	if len(c.names) == 1 && len(m.names) == 1 {
		if c.names[0] != m.names[0] {
			return false
		}
		// "Mr Alder" is not "Miss Alder"; "Captain Alder" may be "Mr Alder".
		return c.title == m.title || c.title == "" || m.title == "" || c.gender == m.gender
	}
	long, short := c.names, m.names
	if len(short) > len(long) {
		long, short = short, long
	}
	if len(short) == 1 {
		return short[0] == long[0] || short[0] == long[len(long)-1]
	}
	// Two names or more on both sides: the same last, and the same first or
	// its initial.
	a, b := long[0], short[0]
	return long[len(long)-1] == short[len(short)-1] && (a == b || initial(a, b) || initial(b, a))
}

// initial reports whether short is the initial of long.
func initial(short, long string) bool {
	short = strings.TrimSuffix(short, ".")
	return len(short) == 1 && strings.HasPrefix(long, short)
}

// Prepositions that come before places.
var placing = map[string]bool{"in": true, "at": true, "near": true, "into": true, "towards": true, "toward": true,
	"through": true, "across": true, "round": true, "around": true, "throughout": true}

// feels are copulas that only somebody does.
var feels = set("feel")

// feelingWords are the words of the feeling families: who is sad or afraid is
// somebody.
var feelingWords = sync.OnceValue(func() *feelings.Table {
	t, err := feelings.Load()
	if err != nil {
		panic(err) // a test of package feelings loads the same embedded file
	}
	return t
})

// personal is how much one mention speaks for a person and not a place or
// thing; the weights are ours, by judgement, kept to halves.
func (r *reading) personal(m *mention) float64 {
	s := 0.0
	last := m.names[len(m.names)-1]
	if m.title != "" {
		s += 3
	}
	if r.lex.first[m.names[0]] != "" {
		s += 2
	}
	if r.lex.places[last] && m.title == "" && r.lex.first[m.names[0]] == "" {
		s -= 3
	}
	if r.lex.ends[last] && m.title == "" && (len(m.names) > 1 || m.det == definite) {
		s -= 4
	}
	if r.lex.other[last] && m.title == "" {
		s -= 4
		if r.lex.first[m.names[0]] != "" {
			s += 1.5
		}
	}
	switch m.place {
	case roleSubject:
		s += 0.5
		if m.verb != nlp.None {
			v := &r.d.Tokens[r.d.Verbs[m.verb].Head]
			switch {
			case quotes.Reports(v.Lower) || minds[lemmaOf(v)]:
				s += 1.5
			case deeds[lemmaOf(v)]:
				s += 0.7
			}
			g := &r.d.Verbs[m.verb]
			if g.Object != nlp.None && !g.Passive {
				s += 0.6 // "Moss slammed the gate"
			}
			if g.Complement >= 0 && (len(feelingWords().FamilyOf(r.d.Tokens[g.Complement].Lower)) > 0 || feels[lemmaOf(v)]) {
				s += 1.5 // "Moss was sad"
			}
			if c := g.Complement; c >= 0 && strings.HasPrefix(r.d.Tokens[c].Tag, "NN") {
				if k := r.lex.nouns[lemmaOf(&r.d.Tokens[c])].kind; k == nlp.Person || k == nlp.Animal {
					s += 1.5 // "Moss was the youngest cousin"
				}
			}
		}
	case rolePossessor:
		s++
	case roleIndirect:
		s++
	}
	if m.next != nlp.None {
		if n := &r.mentions[m.next]; n.kind == nominal && n.noun.kind == nlp.Person || n.kind == proper && n.title != "" {
			s++
		}
	}
	if m.det == definite && !m.plural && m.title == "" {
		s -= 1.5
	}
	if m.det == indefinite {
		s -= 0.5
	}
	for t := m.end; t < len(r.d.Tokens) && t < m.end+2; t++ {
		if w := r.d.Tokens[t].Lower; w == "who" || w == "whom" || w == "whose" {
			s += 1.5
		} else if w != "," {
			break
		}
	}
	if r.d.Tokens[m.head].Tag == "NN" {
		s -= 0.5
	}
	if m.first > 0 {
		before := r.d.Tokens[m.first-1].Lower
		switch {
		case before == "of" && m.first > 1 && minds[lemmaOf(&r.d.Tokens[m.first-2])]:
		case before == "of":
			s -= 0.5
		case before == "at" && m.first > 1 && minds[lemmaOf(&r.d.Tokens[m.first-2])]:
		case before == "in" || before == "at":
			s -= 2
		case placing[before]:
			s--
		case before == "from" || before == "on" || before == "upon" || before == "over":
			s -= 0.4
		}
	}
	return s
}

// opens reports whether token t opens a sentence or speech.
func (r *reading) opens(t int) bool {
	if t == 0 || r.d.Sentences[r.d.Tokens[t].Sentence].First == t {
		return true
	}
	switch p := &r.d.Tokens[t-1]; {
	case p.Tag == "“", p.Lower == ":", p.Lower == "--", p.Lower == "—", p.Lower == "!", p.Lower == "?":
		return true
	}
	return false
}
