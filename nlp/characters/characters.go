// Package characters finds who is in a text: people, animals, giants, talking
// pots, groups, and the "I" who tells it. Resolve gives each character with
// every place where he, she or it is named, described or meant by a pronoun,
// and says who speaks each quote and to whom.
//
// The text is read from left to right like a listener would, with a short
// memory: every mention meets a sieve of rules, the surest first, after Lee,
// Chang, Peirsman, Chambers, Surdeanu & Jurafsky (2013), "Deterministic
// coreference resolution based on entity-centric, precision-ranked rules",
// Computational Linguistics 39(4). Names and genders are gathered from the
// whole text before. No step looks further back than a fixed window, so time
// is linear in the text.
package characters

import "feltpage/nlp"

// Resolve reads a document with phrases and verbs and the quotes in it. It
// returns the characters, ids in order of first mention, and the quotes with
// speaker and listener, nlp.None where the text does not tell. The document
// and the quotes given are not changed.
func Resolve(d *nlp.Document, q []nlp.Quote) ([]nlp.Character, []nlp.Quote) {
	r := prepare(d, q)
	r.sequence()
	return r.cast()
}

// prepare gathers all that can be known before anything is resolved.
func prepare(d *nlp.Document, q []nlp.Quote) *reading {
	r := newReading(d, append([]nlp.Quote(nil), q...))
	r.byHead = map[headKey][]int{}
	r.byKin = map[kinKey][]int{}
	r.pairs = map[[2]int]int{}
	r.findTurns()
	r.findActing()
	r.constructs()
	r.have()
	r.clusters = r.clusterNames()
	r.learnGenders()
	r.findHandles()
	r.clusterEntity = fill(len(r.clusters))
	r.done = make([]bool, len(r.mentions))
	return r
}

// sequence resolves all mentions in the order in which a listener knows them:
// a quote waits until it is told who speaks, even if that is told after it.
func (r *reading) sequence() {
	next := 0
	begin := func(token int) {
		for next < len(r.turns) && r.q[next].First <= token {
			r.beginTurn(next)
			next++
		}
	}
	n := len(r.mentions) // groups are added behind as they are met
	for i := 0; i < n; i++ {
		begin(r.mentions[i].first)
		r.resolve(i)
	}
	begin(len(r.d.Tokens))
}

// resolve gives mention i its entity, if it has one and is not resolved yet.
func (r *reading) resolve(i int) {
	if r.done[i] {
		return
	}
	r.done[i] = true
	m := &r.mentions[i]
	e := nlp.None
	switch m.kind {
	case pronoun:
		e = r.pronoun(i)
	case proper:
		e = r.name(i)
	case nominal:
		if m.possessor != nlp.None {
			r.resolve(m.possessor)
		}
		e = r.nominal(i)
	}
	m = &r.mentions[i]
	if e == nlp.None {
		if m.kind != pronoun {
			r.recent = append(r.recent, i) // nobody, but "it" may mean it
		}
		return
	}
	r.settle(i, e)
	if m.kind != pronoun || m.next == nlp.None {
		r.joinGroup(i)
	}
}

// name gives the entity of a name.
func (r *reading) name(i int) int {
	m := &r.mentions[i]
	if m.cluster == nlp.None {
		return nlp.None
	}
	c := &r.clusters[m.cluster]
	if c.score <= 0 {
		return nlp.None
	}
	e := r.find(r.clusterEntity[m.cluster])
	same := nlp.None
	if m.same != nlp.None {
		same = r.who(m.same)
	} else if m.possessor != nlp.None && m.noun.does == kin {
		// "her cousin Juniper": whoever is her cousin already.
		if owner := r.who(m.possessor); owner != nlp.None {
			for _, known := range latest(r.byKin[kinKey{owner, norm(m.title)}]) {
				if k := r.find(known); r.accepts(k, m) && r.entities[k].cluster == nlp.None {
					same = k
				}
			}
		}
	}
	switch {
	case e == nlp.None && same != nlp.None && r.accepts(same, m) && (r.entities[same].cluster == nlp.None || r.entities[same].cluster == m.cluster):
		e = same
	case e == nlp.None:
		e = r.newEntity(m)
		r.entities[e].kind = nlp.Person
		if m.noun.kind != "" {
			r.entities[e].kind = m.noun.kind
		}
	case same != nlp.None:
		r.join(e, same)
		e = r.find(e)
	}
	x := &r.entities[e]
	x.cluster, x.named = m.cluster, true
	if x.gender == "" {
		x.gender = c.gender
	}
	if m.possessor != nlp.None && m.noun.does == kin && x.possessor == nlp.None {
		if owner := r.who(m.possessor); owner != nlp.None && owner != e {
			x.possessor, x.relation = owner, norm(m.title)
			r.byKin[kinKey{owner, x.relation}] = append(r.byKin[kinKey{owner, x.relation}], e)
		}
	}
	if m.title != "" && m.known && m.noun.kind != "" && !m.plural {
		k := headKey{norm(m.title), false}
		if l := r.byHead[k]; len(l) == 0 || r.find(l[len(l)-1]) != e {
			r.byHead[k] = append(l, e)
		}
	}
	r.clusterEntity[m.cluster] = e
	return e
}
