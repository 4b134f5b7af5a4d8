package characters

import (
	"math"

	"feltpage/nlp"
)

// An entity is somebody while the text is being read.
type entity struct {
	parent    int // itself, or the entity it was joined to
	cluster   int
	gender    string
	votes     [2]float64 // female, male pronouns taken for it while its gender is unknown
	plural    bool
	kind      string
	heads     []string
	mods      []string
	of        string // head noun after "of": the king [of the gulls]
	possessor int    // entity whose kin, servant or friend it is, or nlp.None
	relation  string // what it is to the possessor: daughter
	members   []int  // of a group
	narrator  bool
	acts      bool
	mentions  []int
	named     bool
	last      int // latest mention, or nlp.None
	namedAt   int // latest mention that is no pronoun, or nlp.None
	told      int // mentions so far outside quotes
}

func (r *reading) newEntity(m *mention) int {
	id := len(r.entities)
	e := entity{parent: id, cluster: m.cluster, gender: m.gender, plural: m.plural, kind: m.noun.kind, possessor: nlp.None, last: nlp.None, namedAt: nlp.None}
	if e.kind == "" {
		e.kind = nlp.Person
		if m.kind == nominal {
			e.kind = nlp.Thing
		}
	}
	if e.gender == "" {
		u := m.noun.usual
		if l := r.likely[norm(m.lemma)]; l != "" && m.kind == nominal {
			u = l
		}
		switch u {
		case nlp.Female:
			e.votes[0] += 0.7
		case nlp.Male:
			e.votes[1] += 0.7
		}
	}
	r.entities = append(r.entities, e)
	return id
}

// find gives the entity that id was joined to.
func (r *reading) find(id int) int {
	for id != nlp.None && r.entities[id].parent != id {
		r.entities[id].parent = r.entities[r.entities[id].parent].parent
		id = r.entities[id].parent
	}
	return id
}

// who gives the entity of mention i, or nlp.None.
func (r *reading) who(i int) int {
	if i == nlp.None {
		return nlp.None
	}
	return r.find(r.mentions[i].entity)
}

// join makes b the same as a, where nothing speaks against it.
func (r *reading) join(a, b int) bool {
	a, b = r.find(a), r.find(b)
	if a == b {
		return true
	}
	x, y := &r.entities[a], &r.entities[b]
	if x.plural != y.plural || x.narrator && y.narrator || !genderFits(x.gender, y.gender) || clash(x.mods, y.mods) {
		return false
	}
	if x.cluster != nlp.None && y.cluster != nlp.None && x.cluster != y.cluster {
		return false
	}
	y.parent = a
	if x.cluster == nlp.None {
		x.cluster = y.cluster
	}
	if x.gender == "" {
		x.gender = y.gender
	}
	if x.kind == nlp.Thing || x.kind == nlp.Person && y.kind != nlp.Thing && !x.named {
		x.kind = y.kind
	}
	x.named = x.named || y.named
	x.acts = x.acts || y.acts
	x.narrator = x.narrator || y.narrator
	x.votes[0] += y.votes[0]
	x.votes[1] += y.votes[1]
	x.told += y.told
	x.heads = union(x.heads, y.heads)
	x.mods = union(x.mods, y.mods)
	x.mentions = append(x.mentions, y.mentions...)
	if x.possessor == nlp.None {
		x.possessor, x.relation = y.possessor, y.relation
	}
	if x.of == "" {
		x.of = y.of
	}
	x.namedAt = max(x.namedAt, y.namedAt)
	if y.last > x.last {
		x.last = y.last
	}
	return true
}

// union adds the words of b that a has not; lists stay short.
func union(a, b []string) []string {
	for _, w := range b {
		if len(a) >= 12 {
			break
		}
		if !has(a, w) {
			a = append(a, w)
		}
	}
	return a
}

func has(list []string, w string) bool {
	for _, x := range list {
		if x == w {
			return true
		}
	}
	return false
}

func genderFits(a, b string) bool { return a == "" || b == "" || a == b }

// genderOf is the gender of an entity as far as told: its own, else that of
// the pronouns taken for it.
func (e *entity) genderOf() string {
	switch {
	case e.gender != "":
		return e.gender
	case e.votes[0] > e.votes[1]:
		return nlp.Female
	case e.votes[1] > e.votes[0]:
		return nlp.Male
	}
	return ""
}

// firmGender is like genderOf, but takes only what is told, or what pronouns
// have told more than once.
func (e *entity) firmGender() string {
	if e.gender == "" && math.Abs(e.votes[0]-e.votes[1]) < 1.5 {
		return ""
	}
	return e.genderOf()
}

// settle makes mention i one of entity id and moves id to the front of what
// is in the reader's mind.
func (r *reading) settle(i, id int) {
	id = r.find(id)
	m, e := &r.mentions[i], &r.entities[id]
	m.entity = id
	e.mentions = append(e.mentions, i)
	e.last = i
	e.acts = e.acts || m.acts
	if m.kind != pronoun {
		e.namedAt = max(e.namedAt, i)
	}
	if m.quote == nlp.None {
		e.told++
	}
	if m.gender != "" && m.kind != pronoun && e.gender == "" {
		e.gender = m.gender
	}
	if m.kind == proper {
		e.named = true
		if e.kind == nlp.Thing && m.noun.kind == "" {
			e.kind = nlp.Person
		}
		if m.title != "" && m.known && m.noun.kind != "" {
			e.heads = union(e.heads, []string{norm(m.title)})
			if e.kind == nlp.Person {
				e.kind = m.noun.kind
			}
		}
	}
	if m.kind == nominal {
		e.heads = union(e.heads, []string{norm(m.lemma)})
		e.mods = union(e.mods, m.mods)
		if m.of != nlp.None && e.of == "" {
			e.of = r.mentions[m.of].lemma
		}
		if m.known && m.noun.kind != "" && (e.kind == nlp.Thing || e.kind == nlp.Person && m.noun.kind != nlp.Thing && m.noun.does != vague) && !(e.named && m.noun.kind == nlp.Person) {
			e.kind = m.noun.kind
		}
	}
	r.recent = append(r.recent, i)
}
