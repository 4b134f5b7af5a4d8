package characters

import "feltpage/nlp"

// Nouns that mean the same kin or kind.
var sameNoun = map[string]string{"mamma": "mother", "mama": "mother", "mum": "mother", "mummy": "mother", "mammy": "mother", "ma": "mother",
	"papa": "father", "dad": "father", "daddy": "father", "pa": "father",
	"grandma": "grandmother", "granny": "grandmother", "grandmamma": "grandmother", "gran": "grandmother",
	"grandpa": "grandfather", "granddad": "grandfather", "grandpapa": "grandfather",
	"auntie": "aunt", "aunty": "aunt", "lassie": "lass", "laddie": "lad", "fisher": "fisherman", "wood-cutter": "woodcutter",
	"neighbour": "neighbor", "doggie": "dog", "pussy": "cat", "puss": "cat", "kitty": "kitten", "birdie": "bird", "mousie": "mouse", "hound": "dog"}

func norm(lemma string) string {
	if s, ok := sameNoun[lemma]; ok {
		return s
	}
	return lemma
}

// Adjectives that tell two of one noun apart: those of one row contradict
// each other, unless in one group.
var tellApart = func() map[string][2]int {
	m := map[string][2]int{}
	for row, groups := range [][]string{
		{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "elder older", "eldest oldest", "younger", "youngest", "middle", "next", "last"},
		{"old aged ancient", "young", "new"},
		{"big great large huge enormous giant gigantic", "little small tiny wee"},
		{"rich wealthy", "poor"},
		{"black", "white", "red", "grey gray", "brown", "green", "golden gold", "blue", "yellow", "silver"},
		{"good kind", "wicked bad evil cruel"},
		{"tall", "short"}, {"fat stout", "thin lean"}, {"blind", "lame", "deaf"},
		{"wise clever", "foolish stupid simple"}, {"ugly", "beautiful pretty fair handsome"},
		{"male", "female"}, {"wild", "tame"}, {"dead late", "living"}, {"true real rightful", "false"},
	} {
		for g, ws := range groups {
			for w := range set(ws) {
				m[w] = [2]int{row, g}
			}
		}
	}
	// "Eldest" and "elder" may be one, and so "youngest" and "last".
	m["eldest"], m["oldest"] = m["elder"], m["elder"]
	m["youngest"] = m["younger"]
	return m
}()

// clash reports whether two lists of adjectives contradict each other.
func clash(a, b []string) bool {
	for _, x := range a {
		cx, ok := tellApart[x]
		if !ok {
			continue
		}
		differs := false
		for _, y := range b {
			if cy, ok := tellApart[y]; ok && cx[0] == cy[0] {
				if cx[1] == cy[1] {
					differs = false
					break
				}
				differs = true
			}
		}
		if differs {
			return true
		}
	}
	return false
}

var ranks = set("first second third fourth fifth elder eldest older oldest younger youngest middle other latter former last next")

// perHead bounds how many entities of one noun are looked at, the latest
// first.
const perHead = 8

type headKey struct {
	lemma  string
	plural bool
}

type kinKey struct {
	of    int
	lemma string
}

// somebody reports whether a noun phrase may mean a character: by the
// lexicon, or because what it names acts like one in this text.
func (r *reading) somebody(m *mention) bool {
	if m.kind == proper {
		return true
	}
	if m.nobody {
		return false
	}
	if m.noun.kind != "" && m.noun.kind != nlp.Thing {
		return true
	}
	return r.acting[headKey{norm(m.lemma), false}]
}

// nominal finds or makes the entity of a described somebody. It tries, in
// this order: what apposition or predicate says; whose it is; the rank in a
// row of brothers and sisters; the same noun; a wider noun.
func (r *reading) nominal(i int) int {
	m := &r.mentions[i]
	if m.same != nlp.None {
		if e := r.who(m.same); e != nlp.None && r.accepts(e, m) {
			return e
		}
	}
	if ranks[m.lemma] {
		return r.ranked(m)
	}
	if m.lemma == "one" && m.kind == nominal {
		if owner := r.ownerOf(m); owner != nlp.None && m.plural && len(m.mods) > 0 {
			e := r.owned(i, owner) // "her young ones"
			if r.entities[e].kind == nlp.Thing {
				r.entities[e].kind = r.entities[owner].kind
			}
			return e
		}
		return r.ones(m)
	}
	if !r.somebody(m) {
		return nlp.None
	}
	owner := r.ownerOf(m)
	if owner != nlp.None {
		return r.owned(i, owner)
	}
	if m.quote != nlp.None && m.det == bare && !m.plural {
		if e := r.calledInSpeech(i); e != nlp.None {
			return e
		}
	}
	switch m.det {
	case indefinite, another:
		if e := r.introducedAgain(m); e != nlp.None {
			return e
		}
	case bare, many:
		if m.plural && m.det == bare && m.noun.does != kin || m.det == many {
			break
		}
		fallthrough
	default:
		if e := r.sameHead(m); e != nlp.None && (m.det != bare || m.noun.does == kin || m.noun.title || r.near(e, m, 4)) {
			return e
		}
		if e := r.widerNoun(m); e != nlp.None {
			return e
		}
	}
	return r.enter(m)
}

// ones resolves "the little ones", "the old one": the latest somebody of that
// number outside speech.
func (r *reading) ones(m *mention) int {
	if m.det == indefinite || m.det == bare || len(m.mods) == 0 {
		return nlp.None
	}
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 60; j-- {
		o := &r.mentions[r.recent[j]]
		if m.sentence-o.sentence > 5 {
			break
		}
		e := r.find(o.entity)
		if e == nlp.None || o.quote != m.quote {
			continue
		}
		if x := &r.entities[e]; x.plural == m.plural && x.kind != nlp.Thing && !x.narrator && x.members == nil && !clash(x.mods, m.mods) {
			return e
		}
	}
	return nlp.None
}

// enter makes a new entity of m and files it under its noun.
func (r *reading) enter(m *mention) int {
	e := r.newEntity(m)
	r.file(e, m)
	return e
}

func (r *reading) file(e int, m *mention) {
	k := headKey{norm(m.lemma), m.plural}
	l := r.byHead[k]
	if n := len(l); n > 0 && r.find(l[n-1]) == e {
		return
	}
	if len(l) >= 2*perHead {
		l = append(l[:0], l[perHead:]...)
	}
	r.byHead[k] = append(l, e)
}

// accepts reports whether entity e can be what m describes.
func (r *reading) accepts(e int, m *mention) bool {
	x := &r.entities[e]
	return x.plural == m.plural && genderFits(x.firmGender(), m.gender) && !clash(x.mods, m.mods)
}

// sameHead gives the latest entity of the same noun that m can be.
func (r *reading) sameHead(m *mention) int {
	l := r.byHead[headKey{norm(m.lemma), m.plural}]
	best := nlp.None
	skipped := false
	for j := len(l) - 1; j >= 0 && j >= len(l)-perHead; j-- {
		e := r.find(l[j])
		x := &r.entities[e]
		if !r.accepts(e, m) {
			continue
		}
		if m.of != nlp.None && x.of != "" && x.of != r.mentions[m.of].lemma {
			continue
		}
		if len(m.compound) > 0 && shared(x.mods, m.compound) < len(m.compound) {
			continue // the snow man is not the young man
		}
		if m.det == theOther && !skipped && x.last != nlp.None && m.sentence-r.mentions[x.last].sentence <= 2 {
			skipped = true // "the other gull" is not the one just named
			continue
		}
		// One whose own adjectives are named again before one without.
		if best == nlp.None || shared(x.mods, m.mods) > shared(r.entities[best].mods, m.mods) || later(x, &r.entities[best]) && shared(x.mods, m.mods) == shared(r.entities[best].mods, m.mods) {
			best = e
		}
	}
	if best != nlp.None && m.kind == nominal {
		r.file(best, m)
	}
	return best
}

func later(a, b *entity) bool { return a.last > b.last }

func shared(a, b []string) int {
	n := 0
	for _, w := range b {
		if has(a, w) {
			n++
		}
	}
	return n
}

// introducedAgain takes "a" as a new somebody, save in speech of somebody told
// of already: "Look, there is a tin gull!"
func (r *reading) introducedAgain(m *mention) int {
	if m.quote == nlp.None || len(m.mods) == 0 {
		return nlp.None
	}
	e := r.sameHead(m)
	if e == nlp.None || !r.near(e, m, 20) || shared(r.entities[e].mods, m.mods) < len(m.mods) {
		return nlp.None
	}
	return e
}

// ranked resolves "the youngest", "the other", "the first": one of a row.
func (r *reading) ranked(m *mention) int {
	if m.det != definite && m.det != possessed && m.det != theOther || m.kind == proper {
		return nlp.None
	}
	if m.lemma == "other" || m.lemma == "latter" || m.lemma == "former" {
		return r.theOther(m)
	}
	row := nlp.None
	from := m.sentence
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 60; j-- {
		o := &r.mentions[r.recent[j]]
		e := r.find(o.entity)
		if e == nlp.None || from-o.sentence > 12 {
			continue
		}
		x := &r.entities[e]
		if !x.plural && has(x.mods, m.lemma) {
			return e
		}
		if x.plural && x.kind != nlp.Thing && row == nlp.None && from-o.sentence <= 4 {
			row = e
		}
	}
	if row == nlp.None || m.place != roleSubject {
		return nlp.None
	}
	x := &r.entities[row]
	if len(x.heads) == 0 {
		return nlp.None
	}
	g := x.gender
	rank := m.lemma
	id := r.newEntity(m)
	e := &r.entities[id]
	e.kind, e.gender, e.possessor, e.relation = x.kind, g, x.possessor, x.relation
	if e.kind == nlp.Group {
		e.kind = nlp.Person
	}
	e.heads = append(e.heads, x.heads[0])
	e.mods = append(e.mods, rank)
	r.byHead[headKey{x.heads[0], false}] = append(r.byHead[headKey{x.heads[0], false}], id)
	return id
}

// theOther resolves "the other", "the former", "the latter" among the last
// two single somebodies: the other is not the last who acted.
func (r *reading) theOther(m *mention) int {
	if e := r.otherOf(m, false); e != nlp.None {
		return e
	}
	return r.otherOf(m, true)
}

func (r *reading) otherOf(m *mention, animals bool) int {
	var two []int
	actor := nlp.None
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 40 && len(two) < 2; j-- {
		o := &r.mentions[r.recent[j]]
		if m.sentence-o.sentence > 6 {
			break
		}
		e := r.find(o.entity)
		if e == nlp.None || m.quote == nlp.None && o.quote != nlp.None {
			continue
		}
		if x := &r.entities[e]; x.plural || x.kind == nlp.Thing || x.kind == nlp.Animal && !animals {
			continue
		}
		if actor == nlp.None && o.place == roleSubject {
			actor = e
		}
		if !hasID(two, e) {
			two = append(two, e)
		}
	}
	switch {
	case len(two) < 2:
		return nlp.None
	case m.lemma == "latter":
		return two[0]
	case m.lemma == "former", two[0] == actor:
		return two[1]
	}
	return two[0]
}

// A wider noun ("the old man", "the youth", "the creature") that has not been
// brought in before takes somebody lately told of whom it fits: the one with
// most mentions in the last sentences, the latest of equals.
func (r *reading) widerNoun(m *mention) int {
	if m.det != definite || m.plural || len(m.compound) > 0 || m.noun.does != age && m.noun.does != vague || m.of != nlp.None {
		return nlp.None
	}
	far := 3
	if m.noun.does == age {
		far = 6
	}
	type tally struct{ entity, n int }
	var found []tally
scan:
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 60; j-- {
		o := &r.mentions[r.recent[j]]
		if m.sentence-o.sentence > far {
			break
		}
		e := r.find(o.entity)
		if e == nlp.None || o.quote != m.quote && o.quote != nlp.None {
			continue
		}
		n := 1
		if o.place == roleSubject {
			n = 2
		}
		if m.lemma == "creature" && r.entities[e].kind != nlp.Person {
			n *= 4
		}
		for k := range found {
			if found[k].entity == e {
				found[k].n += n
				continue scan
			}
		}
		if len(found) < 6 && r.widens(e, m) {
			found = append(found, tally{e, n})
		}
	}
	best := nlp.None
	top := 0
	for _, f := range found {
		if f.n > top {
			best, top = f.entity, f.n
		}
	}
	return best
}

func (r *reading) widens(e int, m *mention) bool {
	x := &r.entities[e]
	if !r.accepts(e, m) || x.narrator || x.plural {
		return false
	}
	if m.noun.does == vague {
		return m.noun.kind != nlp.Animal || x.kind == nlp.Animal || x.kind == nlp.Being
	}
	if g := x.genderOf(); m.gender != "" && g != m.gender && !(g == "" && x.named) || x.kind != nlp.Person {
		return false
	}
	young := youthful[m.lemma] || has(m.mods, "young") || has(m.mods, "little")
	old := elderly[m.lemma] || has(m.mods, "old") || has(m.mods, "aged")
	for _, h := range x.heads {
		if n := r.lex.nouns[h]; n.does == age && (youthful[h] != youthful[m.lemma]) {
			return false
		}
		if young && (elderly[h] || h == "king" || h == "queen" || h == "mother" || h == "father") || old && youthful[h] {
			return false
		}
	}
	return true
}

var (
	youthful = set("boy girl lad lass laddie lassie child baby infant youth maiden damsel youngster stripling urchin schoolboy schoolgirl maid bairn")
	elderly  = set("crone hag granny gaffer greybeard graybeard grandmother grandfather beldame goody")
)
