package characters

import (
	"math"
	"sort"
	"strings"

	"feltpage/nlp"
)

// cast makes the characters out of the entities: ids in order of first
// mention, things that never act left out.
func (r *reading) cast() ([]nlp.Character, []nlp.Quote) {
	keep := make([]bool, len(r.entities))
	for id := range r.entities {
		keep[id] = r.find(id) == id && r.isCharacter(&r.entities[id])
	}
	var order []int
	firstAt := make([]int, len(r.entities))
	for id := range r.entities {
		if !keep[id] {
			continue
		}
		e := &r.entities[id]
		sort.SliceStable(e.mentions, func(i, j int) bool {
			a, b := &r.mentions[e.mentions[i]], &r.mentions[e.mentions[j]]
			if a.first != b.first {
				return a.first < b.first
			}
			return a.end > b.end
		})
		firstAt[id] = r.mentions[e.mentions[0]].first
		order = append(order, id)
	}
	sort.SliceStable(order, func(i, j int) bool { return firstAt[order[i]] < firstAt[order[j]] })
	ids := fill(len(r.entities))
	for n, id := range order {
		ids[id] = n
	}
	out := make([]nlp.Character, len(order))
	for n, id := range order {
		out[n] = r.character(n, id)
	}
	for i := range r.q {
		r.q[i].Speaker, r.q[i].Listener = nlp.None, nlp.None
		if s := r.find(r.turns[i].speaker); s != nlp.None {
			r.q[i].Speaker = ids[s]
		}
		if l := r.find(r.turns[i].listener); l != nlp.None {
			r.q[i].Listener = ids[l]
		}
	}
	return out, r.q
}

func (r *reading) isCharacter(e *entity) bool {
	if len(e.mentions) == 0 {
		return false
	}
	if e.members != nil {
		return true
	}
	return true
}

func (r *reading) character(n, id int) nlp.Character {
	e := &r.entities[id]
	c := nlp.Character{ID: n, Kind: r.kindOf(e), Gender: e.genderOf(), Plural: e.plural, Narrator: e.narrator}
	if e.plural || c.Kind == "" {
		c.Kind = nlp.Group
	}
	if e.kind == nlp.Thing && c.Gender == "" {
		c.Gender = nlp.Neuter
	}
	best := -1.0
	forms := r.forms(e)
	seen := map[string]bool{}
	var names []string
	last := nlp.None
	for _, i := range e.mentions {
		m := &r.mentions[i]
		if i == last {
			continue
		}
		last = i
		span := r.d.Whole(m.first, m.end)
		if k := len(c.Mentions); k > 0 && c.Mentions[k-1].Span == span {
			continue
		}
		c.Mentions = append(c.Mentions, nlp.Mention{Span: span, First: m.first, End: m.end, Head: m.head, Pronoun: m.kind == pronoun})
		if m.kind == pronoun {
			continue
		}
		name := r.nameOf(m)
		if name == "" {
			continue
		}
		s := r.clarity(m, forms[name], len(e.mentions))
		if s > best {
			best, c.Name = s, name
		}
		if !seen[name] {
			seen[name] = true
			names = append(names, name)
		}
	}
	if c.Name == "" || e.narrator && !e.named {
		if c.Name != "" {
			c.Aliases = append(c.Aliases, c.Name)
		}
		c.Name = r.unnamed(e)
	}
	for _, a := range names {
		if a != c.Name && !has(c.Aliases, a) && len(c.Aliases) < 24 {
			c.Aliases = append(c.Aliases, a)
		}
	}
	return c
}

// kindOf is the kind that most of the nouns used for an entity tell.
func (r *reading) kindOf(e *entity) string {
	kinds := [...]string{nlp.Person, nlp.Animal, nlp.Being, nlp.Thing, nlp.Group}
	var n [len(kinds)]int
	for _, i := range e.mentions {
		m := &r.mentions[i]
		if m.kind == pronoun || m.noun.kind == "" || m.noun.does == vague {
			continue
		}
		for k := range kinds {
			if kinds[k] == m.noun.kind {
				n[k]++
			}
		}
	}
	best := -1
	for k := range kinds {
		if n[k] > 0 && (best < 0 || n[k] > n[best]) {
			best = k
		}
	}
	if best < 0 {
		return e.kind
	}
	return kinds[best]
}

// unnamed names a character that only pronouns mean: the teller, a pair.
func (r *reading) unnamed(e *entity) string {
	if e.members != nil {
		var parts []string
		for _, m := range e.members {
			x := &r.entities[r.find(m)]
			best, name := -1.0, ""
			forms := r.forms(x)
			for _, i := range x.mentions {
				if mm := &r.mentions[i]; mm.kind != pronoun {
					n := r.nameOf(mm)
					if s := r.clarity(mm, forms[n], len(x.mentions)); s > best {
						best, name = s, n
					}
				}
			}
			if name != "" {
				parts = append(parts, name)
			}
		}
		return strings.Join(parts, " and ")
	}
	if e.narrator {
		return "I"
	}
	return r.d.Word(r.mentions[e.mentions[0]].head)
}

// forms counts how often a character is named in each way.
func (r *reading) forms(e *entity) map[string]int {
	n := make(map[string]int, 4)
	for _, i := range e.mentions {
		if m := &r.mentions[i]; m.kind != pronoun {
			n[r.nameOf(m)]++
		}
	}
	return n
}

// clarity orders the ways a character is named: a name before a noun, a full
// one before a short one unless it is rare, "the" before "a", an often used
// one before others; a very long phrase is no name. times is how often this
// way is used, of so many mentions in all.
func (r *reading) clarity(m *mention, times, mentions int) float64 {
	s := 0.0
	words := m.end - m.first
	switch m.kind {
	case proper:
		s = 20 + float64(min(len(m.names), 3))
		if times*40 < mentions {
			s -= 4
		}
		if m.title != "" {
			s++
		}
		if m.possessor != nlp.None {
			s -= 2
		}
	case nominal:
		s = 5 + 0.5*float64(min(words, 4)) + 0.7*math.Log1p(float64(times))
		switch m.det {
		case definite, theOther:
			s += 2
		case possessed:
			s++
			if m.possessor != nlp.None && r.mentions[m.possessor].kind == pronoun {
				s -= 0.5
			}
		}
		if m.known && m.noun.does == vague {
			s -= 2
		}
		if m.lemma == "and" {
			s += 3
		}
	}
	if words > 6 {
		s -= float64(words)
	}
	if m.quote != nlp.None {
		s -= 1.5
	}
	return s
}

// nameOf gives the words of a mention as a name: one line, "the" for "The"
// and for "a".
func (r *reading) nameOf(m *mention) string {
	from := m.first
	if m.kind == proper {
		from = m.nameFirst
	}
	s := nlp.Span{Start: r.d.Tokens[from].Span.Start, End: r.d.Tokens[m.end-1].Span.End}.Of(r.d.Text)
	s = strings.Join(strings.Fields(s), " ")
	first, rest, ok := strings.Cut(s, " ")
	if !ok {
		return s
	}
	low := strings.ToLower(first)
	if m.kind != nominal {
		return s
	}
	if m.det == indefinite && (low == "a" || low == "an") {
		return "the " + rest
	}
	// The capital of a sentence, or of a line all in capitals.
	if _, small := determiners[low]; small || pronounForms[low].possessive || strings.HasPrefix(r.d.Tokens[m.first].Tag, "JJ") {
		return low + " " + rest
	}
	return s
}
