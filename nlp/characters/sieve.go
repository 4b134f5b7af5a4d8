package characters

import "feltpage/nlp"

// pronoun gives the entity of a pronoun, or nlp.None. What the form decides
// comes first (I, you, himself), then salience.
func (r *reading) pronoun(i int) int {
	m := &r.mentions[i]
	switch m.form.class {
	case speaking:
		return r.speaker(m)
	case addressed:
		if m.quote == nlp.None {
			return nlp.None
		}
		return r.find(r.turns[m.quote].listener)
	case ours:
		return r.we(m)
	}
	if m.form.reflexive {
		if e := r.subjectEntity(m); e != nlp.None && r.agrees(e, m) {
			return e
		}
	}
	switch m.form.class {
	case third:
		return r.heOrShe(i)
	case they:
		return r.they(i)
	}
	return r.it(i)
}

// speaker is the "I" of a quote, else the one who tells the story.
func (r *reading) speaker(m *mention) int {
	for q := m.quote; q != nlp.None; q = r.turns[q].outer {
		return r.find(r.turns[q].speaker)
	}
	return r.narrator()
}

func (r *reading) narrator() int {
	if r.teller == nlp.None {
		m := mention{cluster: nlp.None, noun: noun{kind: nlp.Person}}
		r.teller = r.newEntity(&m)
		r.entities[r.teller].narrator = true
	}
	return r.find(r.teller)
}

// we is the speaker together with the listener where both are known and have
// been named as two; else the speaker.
func (r *reading) we(m *mention) int {
	if m.quote == nlp.None {
		return r.narrator()
	}
	t := &r.turns[m.quote]
	s, l := r.find(t.speaker), r.find(t.listener)
	if s != nlp.None && l != nlp.None {
		if g, ok := r.pairs[pair(s, l)]; ok {
			return r.find(g)
		}
	}
	return s
}

func pair(a, b int) [2]int {
	if a > b {
		a, b = b, a
	}
	return [2]int{a, b}
}

// subjectEntity gives the entity of the subject of the verb that m hangs on.
func (r *reading) subjectEntity(m *mention) int {
	if m.verb == nlp.None {
		return nlp.None
	}
	s := r.subjectOf(m.verb)
	if s == nlp.None {
		return nlp.None
	}
	return r.who(s)
}

// agrees reports whether a pronoun fits an entity in number and gender.
func (r *reading) agrees(e int, m *mention) bool {
	x := &r.entities[e]
	if x.last != nlp.None && !x.plural && len(x.heads) > 0 && anybody[x.heads[0]] && r.mentions[x.last].sentence != m.sentence {
		return false // "Nobody came. She ...": she is somebody else
	}
	switch m.form.class {
	case third:
		return !x.plural && genderFits(x.gender, m.gender) && !x.narrator
	case they:
		return x.plural || x.kind == nlp.Group
	case neuter:
		if x.plural && x.kind != nlp.Group || x.narrator {
			return false
		}
		return x.kind != nlp.Person || x.gender == "" && !x.named && (has(x.heads, "child") || has(x.heads, "baby") || has(x.heads, "infant") || has(x.heads, "creature"))
	}
	return false
}

// barred reports whether the grammar forbids that m means entity e: the
// object of a verb, or of "at" and "to" beside it, is not its subject unless
// reflexive, and neither is one joined to the other by "and".
func (r *reading) barred(i, e int) bool {
	m := &r.mentions[i]
	if m.form.reflexive {
		return false
	}
	if m.quote != nlp.None && m.form.class != neuter && r.turns[m.quote].sure && r.find(r.turns[m.quote].speaker) == e {
		return true // who speaks says "I"
	}
	if m.verb != nlp.None && m.place != rolePossessor {
		g := &r.d.Verbs[m.verb]
		for _, p := range [...]int{g.Subject, g.Object, g.Indirect, g.By} {
			if p >= 0 && r.byPhrase[p] != i && r.byPhrase[p] != nlp.None && r.done[r.byPhrase[p]] && r.who(r.byPhrase[p]) == e {
				return true
			}
		}
	}
	if m.verb == nlp.None && !m.form.possessive && m.head > 0 && beside[r.d.Tokens[m.head-1].Lower] {
		if v := r.clause[m.head]; v != nlp.None {
			if s := r.subjectOf(v); s != nlp.None && s != i && r.done[s] && r.who(s) == e {
				return true
			}
		}
	}
	if m.next != nlp.None && r.done[m.next] && r.who(m.next) == e {
		return true
	}
	if b := r.before(i); b != nlp.None && r.mentions[b].next == i && r.who(b) == e {
		return true
	}
	return false
}

// before gives the mention right before i that is no part of i's phrase.
func (r *reading) before(i int) int {
	for j := i - 1; j >= 0 && j >= i-4; j-- {
		if r.mentions[j].next == i {
			return j
		}
	}
	return nlp.None
}

// heOrShe weighs the latest entities that agree and takes the heaviest.
func (r *reading) heOrShe(i int) int {
	cs := r.candidates(i)
	all := r.crowdOf(cs)
	best, top := nlp.None, 0.0
	for k := range cs {
		s := r.weigh(i, &cs[k], &all)
		if best == nlp.None || s > top {
			best, top = cs[k].entity, s
		}
	}
	if best == nlp.None {
		best = r.lastResort(i)
	}
	if r.observe != nil {
		best = r.observe(i, cs, best)
	}
	if best != nlp.None {
		m := &r.mentions[i]
		r.chain[level(m)][sex(m.gender)] = i
		r.latest[sex(m.gender)] = best
		if x := &r.entities[best]; x.gender == "" {
			if m.gender == nlp.Female {
				x.votes[0]++
			} else {
				x.votes[1]++
			}
		}
	}
	return best
}

// lastResort is for a pronoun with nobody near who agrees: somebody named
// later in its sentence ("When he woke, Moss ..."), else whoever he or she
// meant last, however long ago.
func (r *reading) lastResort(i int) int {
	m := &r.mentions[i]
	for j := i + 1; j < len(r.mentions) && j < i+8 && r.mentions[j].sentence == m.sentence; j++ {
		o := &r.mentions[j]
		if o.place != roleSubject || o.kind == pronoun || o.plural || o.quote != m.quote || o.gender != m.gender && o.gender != "" || o.possessor == i {
			continue
		}
		if o.kind == nominal && !r.somebody(o) {
			continue
		}
		r.resolve(j)
		if e := r.who(j); e != nlp.None && r.agrees(e, m) {
			return e
		}
	}
	if e := r.find(r.latest[sex(m.gender)]); e != nlp.None {
		if r.agrees(e, m) && !r.barred(i, e) {
			return e
		}
		return nlp.None
	}
	// A text that begins in the middle of a tale: the first one named after.
	for j := i + 1; j < len(r.mentions) && j < i+80 && r.mentions[j].sentence < m.sentence+12; j++ {
		o := &r.mentions[j]
		if o.kind == pronoun || o.plural || o.gender != m.gender || o.possessor != nlp.None && r.mentions[o.possessor].kind == pronoun || !r.somebody(o) {
			continue
		}
		if o.quote != nlp.None && m.quote == nlp.None {
			continue
		}
		r.resolve(j)
		if e := r.who(j); e != nlp.None && r.agrees(e, m) && !r.barred(i, e) {
			return e
		}
	}
	if m.quote != nlp.None {
		return nlp.None
	}
	// Nobody ever says who: somebody all the same.
	u := mention{cluster: nlp.None, gender: m.gender, noun: noun{kind: nlp.Person}}
	return r.newEntity(&u)
}

// it takes the latest animal, being or living thing, unless a nearer lifeless
// noun can be meant.
func (r *reading) it(i int) int {
	m := &r.mentions[i]
	if r.emptyIt(m) {
		return nlp.None
	}
	best, top := nlp.None, 0.0
	seen := 0
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 24; j-- {
		o := &r.mentions[r.recent[j]]
		d := m.sentence - o.sentence
		if d > 2 {
			break
		}
		if d < 0 || o.plural || o.quote != m.quote && o.quote != nlp.None && m.quote == nlp.None || o.first >= m.first {
			continue
		}
		e := r.find(o.entity)
		if e != nlp.None && (!r.agrees(e, m) || r.barred(i, e)) {
			continue
		}
		if e == nlp.None && (o.kind == pronoun || o.kind == proper || timeWords[o.lemma]) {
			continue
		}
		s := 3 - 1.2*float64(d) - 0.3*float64(seen)
		if o.place == roleSubject {
			s += 1
		}
		if e != nlp.None {
			s += 0.3
			if o.kind == pronoun {
				s += 0.6
			}
		}
		if o.place == roleNone && e == nlp.None {
			s -= 0.8
		}
		seen++
		if best == nlp.None && top == 0 || s > top {
			top, best = s, e
		}
		if seen > 8 {
			break
		}
	}
	return best
}

var timeWords = set("day night morning evening time hour moment minute year week month noon midnight way while deal lot place thing")

// emptyIt reports an "it" that means nobody: it rained, it was late, it is
// said.
func (r *reading) emptyIt(m *mention) bool {
	if m.place != roleSubject || m.verb == nlp.None || m.form.possessive || m.form.reflexive {
		return false
	}
	g := &r.d.Verbs[m.verb]
	switch lemmaOf(&r.d.Tokens[g.Head]) {
	case "rain", "snow", "happen", "seem", "appear", "befall", "matter", "chance":
		return true
	case "be", "become", "get", "grow", "take":
		if g.End < len(r.d.Tokens) {
			for t := g.End; t < len(r.d.Tokens) && t < g.End+6; t++ {
				switch r.d.Tokens[t].Lower {
				case "that", "to", "who", "which", "when", "time", "o'clock", "for", "as", "night", "morning", "dark", "late", "day", "evening", "if":
					return true
				case ".", ",", ";":
					return false
				}
			}
		}
	}
	return false
}
