package characters

import "feltpage/nlp"

// joinGroup makes a group of mentions joined by "and" once its last member is
// resolved: "the man and his wife".
func (r *reading) joinGroup(i int) {
	m := &r.mentions[i]
	if m.next != nlp.None && m.next < len(r.mentions) && !r.done[m.next] {
		return
	}
	first := i
	members := []int{r.who(i)}
	for n := 0; n < 6; n++ {
		b := r.before(first)
		if b == nlp.None {
			break
		}
		first = b
		e := r.who(b)
		if e == nlp.None {
			return
		}
		if !hasID(members, e) {
			members = append(members, e)
		}
	}
	if len(members) < 2 || r.mentions[first].quote != m.quote || !r.joinedByAnd(first, i) {
		return
	}
	for _, e := range members {
		if r.entities[e].kind == nlp.Thing && !r.entities[e].acts {
			return
		}
	}
	g := r.group(members)
	a := &r.mentions[first]
	u := r.blank(a.first, m.end, m.head)
	u.kind, u.plural, u.det, u.phrase = nominal, true, a.det, nlp.None
	u.place, u.verb = a.place, a.verb
	if m.place == roleSubject {
		u.place, u.verb = m.place, m.verb
	}
	u.lemma = "and"
	r.mentions = append(r.mentions, u)
	r.done = append(r.done, true)
	k := len(r.mentions) - 1
	r.mentions[k].entity = g
	e := &r.entities[g]
	e.mentions = append(e.mentions, k)
	e.last = k
	r.recent = append(r.recent, k)
}

// joinedByAnd reports whether the last two members are joined by "and".
func (r *reading) joinedByAnd(first, last int) bool {
	for t := r.mentions[first].end; t < r.mentions[last].first; t++ {
		if w := r.d.Tokens[t].Lower; w == "and" || w == "&" {
			return true
		}
	}
	return false
}

// group gives the group entity of some members, making it once.
func (r *reading) group(members []int) int {
	key := [2]int{nlp.None, nlp.None}
	if len(members) == 2 {
		key = pair(members[0], members[1])
		if g, ok := r.pairs[key]; ok {
			return r.find(g)
		}
	}
	m := mention{cluster: nlp.None, plural: true, noun: noun{kind: nlp.Group}}
	g := r.newEntity(&m)
	x := &r.entities[g]
	x.members = append([]int(nil), members...)
	x.kind = nlp.Group
	if key[0] != nlp.None {
		r.pairs[key] = g
	}
	return g
}

// they takes the latest group or plural that fits; else the two told of just
// before are taken together.
func (r *reading) they(i int) int {
	m := &r.mentions[i]
	best, top := nlp.None, 0.0
	var near []int // single entities of this sentence and the last
	things := 0
	r.stamp++
	for j, n := len(r.recent)-1, 0; j >= 0 && n < windowMentions; j, n = j-1, n+1 {
		o := &r.mentions[r.recent[j]]
		d := m.sentence - o.sentence
		if d > 8 {
			break
		}
		if d < -1 {
			continue
		}
		e := r.find(o.entity)
		if e == nlp.None {
			if o.plural && d <= 1 && o.kind == nominal {
				things++
			}
			continue
		}
		if !r.once(e) {
			continue
		}
		if !r.agrees(e, m) {
			if x := &r.entities[e]; d <= 2 && x.kind != nlp.Thing && !x.narrator && !(m.quote == nlp.None && o.quote != nlp.None) && len(near) < 6 {
				near = append(near, e)
			}
			continue
		}
		if r.barred(i, e) {
			continue
		}
		if m.quote != nlp.None && (r.find(r.turns[m.quote].speaker) == e) {
			continue
		}
		s := 3 - 0.6*float64(d)
		if o.place == roleSubject {
			s += 0.8
		}
		if o.kind == pronoun {
			s += 0.5
		}
		if !r.entities[e].plural {
			s -= 0.8 // the crowd
		}
		if r.entities[e].members != nil {
			s += 0.3
		}
		if m.quote == nlp.None && o.quote != nlp.None {
			s -= 1.5
		}
		s -= 0.5 * float64(things)
		if m.form.possessive && d == 0 {
			s += 0.5
		}
		if best == nlp.None || s > top {
			best, top = e, s
		}
	}
	if best != nlp.None && top > 0.4 {
		return best
	}
	if m.quote != nlp.None || m.place != roleSubject && !m.form.possessive || len(near) < 2 || things > 0 && !r.doesDeed(m) {
		return best
	}
	a, b := near[1], near[0]
	if people := r.people(near); len(people) >= 2 {
		a, b = people[1], people[0]
	}
	return r.group([]int{a, b})
}

// people leaves only persons and talking beings of a list.
func (r *reading) people(list []int) []int {
	var out []int
	for _, e := range list {
		if k := r.entities[e].kind; k == nlp.Person || k == nlp.Being {
			out = append(out, e)
		}
	}
	return out
}

// doesDeed reports whether the verb that m is subject of is one that mostly
// somebody does.
func (r *reading) doesDeed(m *mention) bool {
	if m.verb == nlp.None || m.place != roleSubject {
		return false
	}
	v := lemmaOf(&r.d.Tokens[r.d.Verbs[m.verb].Head])
	return deeds[v] || minds[v]
}

// once reports whether entity e is met for the first time under this stamp.
func (r *reading) once(e int) bool {
	for e >= len(r.seen) {
		r.seen = append(r.seen, seenMark{})
	}
	if r.seen[e].stamp == r.stamp {
		return false
	}
	r.seen[e] = seenMark{r.stamp, -1}
	return true
}
