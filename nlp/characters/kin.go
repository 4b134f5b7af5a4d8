package characters

import "feltpage/nlp"

// ownerOf gives the entity that m belongs to: the king of "the king's
// daughter", the boy of "the mother of the boy", the one meant by "his".
func (r *reading) ownerOf(m *mention) int {
	if m.possessor != nlp.None {
		return r.who(m.possessor)
	}
	if m.of != nlp.None && (m.noun.does == kin || m.noun.does == role) {
		r.resolve(m.of)
		return r.who(m.of)
	}
	return nlp.None
}

var (
	children = set("son daughter child stepson stepdaughter baby boy girl")
	parents  = set("father mother parent stepmother stepfather")
	siblings = set("brother sister")
)

// owned resolves "his mother", "the king's servant": the one already known
// by that relation, the other end of a relation told before ("the king had a
// daughter ... her father"), else a new somebody.
func (r *reading) owned(i, owner int) int {
	m := &r.mentions[i]
	lemma := norm(m.lemma)
	key := kinKey{owner, lemma}
	if m.plural {
		key.lemma += "s"
	}
	kinship := m.noun.does == kin || m.noun.does == role
	for _, known := range latest(r.byKin[key]) {
		if e := r.find(known); r.accepts(e, m) {
			r.file(e, m)
			return e
		}
	}
	e := nlp.None
	if kinship && !m.plural {
		e = r.otherEnd(owner, lemma, m)
	}
	if e == nlp.None {
		e = r.royal(owner, lemma, m)
	}
	if e == nlp.None && (m.noun.does != kin || m.plural) {
		if c := r.sameHead(m); c != nlp.None && c != owner && r.near(c, m, 8) && (r.entities[c].possessor == nlp.None || r.find(r.entities[c].possessor) == owner) {
			e = c
		}
	} else if e == nlp.None {
		if c := r.sameHead(m); c != nlp.None && c != owner && r.near(c, m, 5) && r.entities[c].possessor == nlp.None && r.entities[c].cluster == nlp.None {
			e = c
		}
	}
	if e == nlp.None {
		e = r.enter(m)
	}
	x := &r.entities[e]
	if x.possessor == nlp.None && e != owner {
		x.possessor, x.relation = owner, lemma
	}
	r.byKin[key] = append(r.byKin[key], e)
	return e
}

// otherEnd follows a relation backwards: father of his daughter, husband of
// his wife, brother of his sister, master of his servant.
func (r *reading) otherEnd(owner int, lemma string, m *mention) int {
	o := &r.entities[owner]
	p := r.find(o.possessor)
	if p == nlp.None || p == owner {
		return r.coParent(owner, lemma, m)
	}
	x := &r.entities[p]
	fits := false
	switch {
	case parents[lemma]:
		fits = children[o.relation]
	case lemma == "husband":
		fits = o.relation == "wife"
	case lemma == "wife":
		fits = o.relation == "husband"
	case siblings[lemma]:
		fits = siblings[o.relation]
	case lemma == "son" || lemma == "daughter" || lemma == "child":
		fits = parents[o.relation]
	case lemma == "master" || lemma == "mistress":
		fits = o.relation == "servant" || o.relation == "maid" || o.relation == "dog" || o.relation == "cat" || o.relation == "horse"
	case lemma == "friend" || lemma == "companion" || lemma == "comrade":
		fits = o.relation == lemma
	}
	if fits && !x.plural && genderFits(x.genderOf(), m.gender) {
		if x.gender == "" {
			x.gender = m.gender
		}
		return p
	}
	return r.coParent(owner, lemma, m)
}

// royal takes the king's daughter for the princess told of shortly before, his
// son for the prince, his wife for the queen.
func (r *reading) royal(owner int, lemma string, m *mention) int {
	o := &r.entities[owner]
	if !has(o.heads, "king") && !has(o.heads, "queen") && !has(o.heads, "emperor") && !has(o.heads, "sultan") || m.plural {
		return nlp.None
	}
	title := map[string]string{"daughter": "princess", "son": "prince", "wife": "queen", "husband": "king"}[lemma]
	l := r.byHead[headKey{title, false}]
	for j := len(l) - 1; j >= 0 && j >= len(l)-3; j-- {
		e := r.find(l[j])
		if x := &r.entities[e]; e != owner && r.near(e, m, 25) && r.accepts(e, m) && (x.possessor == nlp.None || r.find(x.possessor) == owner) {
			return e
		}
	}
	return nlp.None
}

// coParent finds the mother of a father's child as his wife, and the reverse.
func (r *reading) coParent(owner int, lemma string, m *mention) int {
	o := &r.entities[owner]
	p := r.find(o.possessor)
	if p == nlp.None || !parents[lemma] || !children[o.relation] {
		return nlp.None
	}
	spouse := "wife"
	if m.gender == nlp.Male {
		spouse = "husband"
	}
	for _, known := range latest(r.byKin[kinKey{p, spouse}]) {
		if e := r.find(known); r.accepts(e, m) {
			return e
		}
	}
	return nlp.None
}

// near reports whether entity e was last told of within n sentences of m.
func (r *reading) near(e int, m *mention, n int) bool {
	last := r.entities[e].last
	return last != nlp.None && m.sentence-r.mentions[last].sentence <= n
}

// calledInSpeech resolves a bare noun in speech: "Come in, grandmother" is the
// listener, "Mother is asleep" the speaker's mother.
func (r *reading) calledInSpeech(i int) int {
	m := &r.mentions[i]
	q := &r.turns[m.quote]
	if r.vocative(i) {
		return r.addressee(i)
	}
	if m.noun.does != kin {
		return nlp.None
	}
	if q.speaker != nlp.None {
		return r.owned(i, r.find(q.speaker))
	}
	return nlp.None
}

// have records what "had" says: a king had three daughters; there was a woman
// who had a son.
func (r *reading) have() {
	for v := range r.d.Verbs {
		g := &r.d.Verbs[v]
		if lemmaOf(&r.d.Tokens[g.Head]) != "have" || g.Subject < 0 || g.Object < 0 {
			continue
		}
		s, o := r.byPhrase[g.Subject], r.byPhrase[g.Object]
		if s == nlp.None || o == nlp.None {
			continue
		}
		if m := &r.mentions[o]; (m.noun.does == kin || m.noun.does == role) && m.possessor == nlp.None && m.of == nlp.None && m.kind == nominal {
			m.possessor = s
		}
	}
}

// latest gives the last few of a list, so that no name makes a search long.
func latest(list []int) []int { return list[max(0, len(list)-perHead):] }
