package characters

import "feltpage/nlp"

// beginTurn decides who speaks quote i and to whom, from the surest to the
// least sure: a reporting clause; the other half of one breath; the same
// paragraph; who acts beside the quote; turns that alternate.
func (r *reading) beginTurn(i int) {
	t := &r.turns[i]
	prev := r.turnBefore(i)
	switch {
	case t.tag != nlp.None:
		r.resolve(t.tag)
		if m := &r.mentions[t.tag]; r.who(t.tag) == nlp.None && m.kind == nominal && !t.before && !m.plural {
			r.settle(t.tag, r.newEntity(m)) // "said one", "cried the youngest"
		}
		t.speaker, t.sure = r.who(t.tag), true
	case t.follows != nlp.None:
		t.speaker, t.listener, t.sure = r.turns[t.follows].speaker, r.turns[t.follows].listener, true
	}
	if t.speaker == nlp.None && prev != nlp.None && r.oneBreath(prev, i) {
		t.speaker, t.listener = r.turns[prev].speaker, r.turns[prev].listener
	}
	if t.speaker == nlp.None && !r.flow {
		if k := r.tagAhead(i); k != nlp.None {
			r.resolve(r.turns[k].tag)
			t.speaker = r.who(r.turns[k].tag)
		}
	}
	voc := r.called(i)
	adjacent := prev != nlp.None && r.q[prev].End == r.q[i].First
	answers := prev != nlp.None && t.beat != nlp.None && t.beat == r.turns[prev].tag && r.asks(prev) && r.flow
	if t.speaker == nlp.None && t.beat != nlp.None && !(adjacent && r.flow) && !answers {
		r.resolve(t.beat)
		if e := r.who(t.beat); e != nlp.None && e != voc && !(adjacent && prev != nlp.None && e == r.turns[prev].speaker) {
			t.speaker = e
		}
	}
	if t.speaker == nlp.None && prev != nlp.None && r.closeTurns(prev, i) {
		t.speaker = r.answering(prev, i, voc)
	}
	if t.speaker == nlp.None && t.outer == nlp.None {
		t.speaker = r.lastActor(i, voc)
		if t.speaker == nlp.None && voc != nlp.None {
			t.speaker = r.bystander(voc, r.q[i].First)
		}
	}
	if t.speaker != nlp.None {
		t.speaker = r.find(t.speaker)
	}
	r.hear(i, prev, voc)
}

// lastActor gives who was told of last as doing something, within three
// sentences before quote i: the last resort.
func (r *reading) lastActor(i, not int) int {
	now := r.d.Tokens[r.q[i].First].Sentence
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 30; j-- {
		m := &r.mentions[r.recent[j]]
		if now-m.sentence > 3 {
			break
		}
		e := r.find(m.entity)
		if e != nlp.None && e != not && m.quote == nlp.None && m.place == roleSubject && r.entities[e].kind != nlp.Thing {
			return e
		}
	}
	return nlp.None
}

// turnBefore gives the quote before i at the same level.
func (r *reading) turnBefore(i int) int {
	for j := i - 1; j >= 0 && j >= i-6; j-- {
		if r.turns[j].outer == r.turns[i].outer && r.q[j].End <= r.q[i].First {
			return j
		}
	}
	return nlp.None
}

// oneBreath reports whether quote i is spoken by the speaker of the quote
// before: in one paragraph, or, in a text without paragraphs, with only the
// reporting clause between.
func (r *reading) oneBreath(prev, i int) bool {
	p, t := &r.turns[prev], &r.turns[i]
	if p.paragraph != t.paragraph || r.q[prev].End == r.q[i].First {
		return false
	}
	if !r.flow {
		if t.beat == nlp.None || p.speaker == nlp.None {
			return true
		}
		r.resolve(t.beat)
		e := r.who(t.beat)
		return e == nlp.None || e == r.find(p.speaker) || r.mentions[t.beat].first > r.q[i].First
	}
	if p.tag == nlp.None || p.before || r.mentions[p.tag].first < r.q[prev].End || r.asks(prev) {
		return false
	}
	stops := 0
	for s := r.q[prev].End; s < r.q[i].First; s++ {
		switch r.d.Tokens[s].Lower {
		case ".", "!", "?":
			stops++
		}
	}
	return stops <= 1 && r.q[i].First-r.q[prev].End < 25
}

// asks reports whether quote i ends with a question mark.
func (r *reading) asks(i int) bool {
	for t := r.q[i].End - 1; t > r.q[i].First && t >= r.q[i].End-3; t-- {
		if r.d.Tokens[t].Lower == "?" {
			return true
		}
	}
	return false
}

// tagAhead gives a later quote of the same paragraph with a reporting clause.
func (r *reading) tagAhead(i int) int {
	for j := i + 1; j < len(r.q) && j < i+4; j++ {
		if r.turns[j].paragraph != r.turns[i].paragraph || r.q[j].First < r.q[i].End {
			if r.q[j].First < r.q[i].End {
				continue
			}
			break
		}
		if r.turns[j].tag != nlp.None {
			return j
		}
	}
	return nlp.None
}

// closeTurns reports whether the two quotes stand in one conversation.
func (r *reading) closeTurns(prev, i int) bool {
	if r.flow {
		return r.q[i].First-r.q[prev].End < 60
	}
	return r.turns[i].paragraph-r.turns[prev].paragraph <= 2 && r.q[i].First-r.q[prev].End < 80
}

// answering gives who is likely to speak after the quote before: the one
// spoken to, or the last other speaker.
func (r *reading) answering(prev, i, voc int) int {
	p := &r.turns[prev]
	if p.speaker == nlp.None {
		return nlp.None
	}
	last := r.find(p.speaker)
	sex := r.calledSex(i)
	if e := r.find(p.listener); e != nlp.None && e != last && e != voc && (voc != nlp.None || genderFits(r.entities[last].genderOf(), sex)) {
		return e
	}
	for j, n := prev, 0; j != nlp.None && n < 6; j, n = r.turnBefore(j), n+1 {
		if e := r.find(r.turns[j].speaker); e != nlp.None && e != last && e != voc {
			return e
		}
	}
	return nlp.None
}

// calledSex gives the gender of the first noun that is called in quote i
// ("No, father"), or "".
func (r *reading) calledSex(i int) string {
	q := &r.q[i]
	for t, n := q.First, 0; t < q.End && n < 40; t, n = t+1, n+1 {
		m := r.byToken[t]
		if m != nlp.None && r.mentions[m].kind == nominal && r.mentions[m].gender != "" && r.mentions[m].quote == i && r.vocative(m) {
			return r.mentions[m].gender
		}
	}
	return ""
}

// hear decides the listener of quote i.
func (r *reading) hear(i, prev, voc int) {
	t := &r.turns[i]
	if t.to != nlp.None {
		r.resolve(t.to)
		if e := r.who(t.to); e != nlp.None && e != t.speaker {
			t.listener = e
			return
		}
	}
	if voc != nlp.None && voc != t.speaker {
		// Somebody calls the "I" of the tale by name.
		if n := r.find(r.teller); n != nlp.None && prev != nlp.None && r.find(r.turns[prev].speaker) == n && r.entities[voc].told == 0 && r.closeTurns(prev, i) {
			r.join(n, voc)
			voc = n
		}
		t.listener = voc
		return
	}
	if t.listener != nlp.None || prev == nlp.None || !r.closeTurns(prev, i) {
		if t.listener == nlp.None {
			t.listener = r.answerer(i)
		}
		if t.listener == nlp.None {
			t.listener = r.bystander(t.speaker, r.q[i].First)
		}
		return
	}
	p := &r.turns[prev]
	switch s, l := r.find(p.speaker), r.find(p.listener); {
	case s != nlp.None && s != t.speaker:
		t.listener = s
	case l != nlp.None && l != t.speaker:
		t.listener = l
	default:
		t.listener = r.bystander(t.speaker, r.q[i].First)
	}
}

// answerer gives who is told by name or noun to speak next, if it is somebody
// else than the speaker of quote i: whoever answers was spoken to.
func (r *reading) answerer(i int) int {
	for j := i + 1; j < len(r.q) && j < i+5; j++ {
		n := &r.turns[j]
		if n.outer != r.turns[i].outer || r.q[j].First < r.q[i].End || n.follows != nlp.None {
			continue
		}
		if !r.closeTurns(i, j) || n.tag == nlp.None {
			return nlp.None
		}
		if m := &r.mentions[n.tag]; m.kind == pronoun || m.same != nlp.None || m.possessor != nlp.None {
			return nlp.None
		}
		r.resolve(n.tag)
		if e := r.who(n.tag); e != r.turns[i].speaker {
			return e
		}
	}
	return nlp.None
}

// bystander gives who was told of most shortly before, other than the
// speaker; who acted counts more, and who is nearer.
func (r *reading) bystander(speaker, token int) int {
	if token >= len(r.d.Tokens) {
		return nlp.None
	}
	now := r.d.Tokens[token].Sentence
	type tally struct {
		entity int
		n      float64
	}
	var found []tally
scan:
	for j := len(r.recent) - 1; j >= 0 && len(r.recent)-j < 40; j-- {
		m := &r.mentions[r.recent[j]]
		if now-m.sentence > 4 {
			break
		}
		e := r.find(m.entity)
		if e == nlp.None || e == speaker || m.quote != nlp.None {
			continue
		}
		n := 1.0
		if m.place == roleSubject {
			n = 1.5
		}
		n /= float64(1 + max(0, now-m.sentence))
		for k := range found {
			if found[k].entity == e {
				found[k].n += n
				continue scan
			}
		}
		if x := &r.entities[e]; x.kind != nlp.Thing && !hasID(x.members, speaker) && len(found) < 6 {
			found = append(found, tally{e, n})
		}
	}
	best, top := nlp.None, 0.0
	for _, f := range found {
		if f.n > top {
			best, top = f.entity, f.n
		}
	}
	return best
}

func hasID(list []int, x int) bool {
	for _, v := range list {
		if v == x {
			return true
		}
	}
	return false
}

// called gives the entity that is called by name in quote i, or nlp.None.
func (r *reading) called(i int) int {
	q := &r.q[i]
	for t, n := q.First, 0; t < q.End && n < 60; t, n = t+1, n+1 {
		m := r.byToken[t]
		if m == nlp.None || r.mentions[m].kind != proper || r.mentions[m].quote != i || !r.vocative(m) {
			continue
		}
		r.resolve(m)
		if e := r.who(m); e != nlp.None {
			return e
		}
	}
	return nlp.None
}

// vocative reports whether mention i in speech stands alone between marks:
// "Moss, come in", "Come in, dear child!"
func (r *reading) vocative(i int) bool {
	m := &r.mentions[i]
	if m.quote == nlp.None || m.place == roleSubject && m.verb != nlp.None && !r.imperativeAfter(m) {
		return false
	}
	if m.det == definite || m.det == indefinite || m.det == another {
		return false
	}
	q := &r.q[m.quote]
	edge := func(t int) bool {
		if t < q.First || t >= q.End {
			return true
		}
		switch r.d.Tokens[t].Lower {
		case ",", ".", "!", "?", ";", ":", "-", "--", "—", "\"", "'", "“", "”", "''", "``":
			return true
		case "you", "thou", "ye":
			return t < m.first // "you silly boy"
		case "o", "oh", "ah", "dear", "dearest", "poor", "well", "yes", "no", "good-morning":
			return t < m.first
		}
		return r.d.Tokens[t].Tag == "“" || r.d.Tokens[t].Tag == "”"
	}
	return edge(m.first-1) && edge(m.end) && (m.first > q.First+1 || m.end < q.End-1)
}

func (r *reading) imperativeAfter(m *mention) bool {
	return m.end < len(r.d.Tokens) && r.d.Tokens[m.end].Lower == ","
}

// addressee gives who a common noun calls in speech: the listener, when he,
// she or they can be that.
func (r *reading) addressee(i int) int {
	m := &r.mentions[i]
	t := &r.turns[m.quote]
	if l := r.find(t.listener); l != nlp.None {
		x := &r.entities[l]
		if x.plural == m.plural && genderFits(x.genderOf(), m.gender) {
			if x.gender == "" && m.gender != "" && x.votes[0]+x.votes[1] == 0 {
				x.gender = m.gender
			}
			return l
		}
	}
	e := r.sameHead(m)
	if e == nlp.None || e == t.speaker || !r.near(e, m, 10) {
		e = r.enter(m)
	}
	if r.find(t.listener) == nlp.None {
		t.listener = e
	}
	return e
}
