package characters

import (
	"strings"

	"feltpage/nlp"
)

// constructs links mentions that the grammar makes one: apposition ("Nilo,
// the fisher's boy,"), predicate ("he was the baker") and naming ("a boy
// called Nilo", "her name was Nilo").
func (r *reading) constructs() {
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.phrase == nlp.None || r.byPhrase[m.phrase] != i || m.end >= len(r.d.Tokens) {
			continue
		}
		switch r.d.Tokens[m.end].Lower {
		case ",":
			r.apposition(i)
		case "named", "called", "christened", "hight", "nicknamed":
			r.naming(i, m.end+1)
		case "by":
			if m.end+3 < len(r.d.Tokens) && r.d.Tokens[m.end+1].Lower == "the" && r.d.Tokens[m.end+2].Lower == "name" {
				r.naming(i, m.end+4)
			}
		}
	}
	for v := range r.d.Verbs {
		r.predicate(v)
	}
}

// starts gives the mention whose phrase begins at token t, or nlp.None.
func (r *reading) starts(t int) int {
	if t < 0 || t >= len(r.phraseAt) || r.phraseAt[t] == nlp.None {
		return nlp.None
	}
	return r.byPhrase[r.phraseAt[t]]
}

func (r *reading) naming(i, t int) int {
	j := r.starts(t)
	if j == nlp.None || r.mentions[j].kind != proper || r.mentions[i].plural || r.mentions[i].kind == pronoun {
		return nlp.None
	}
	r.mentions[j].same = i
	return j
}

func (r *reading) apposition(i int) {
	a := &r.mentions[i]
	j := r.starts(a.end + 1)
	if j == nlp.None || a.kind == pronoun || a.next != nlp.None {
		return
	}
	b := &r.mentions[j]
	if b.kind == pronoun || b.next != nlp.None || b.plural != a.plural || b.quote != a.quote || b.sentence != a.sentence || !genderFits(a.gender, b.gender) {
		return
	}
	if a.kind == proper && b.kind == proper || b.kind == nominal && b.noun.kind == "" && a.kind != proper {
		return
	}
	if b.kind == nominal && b.det == bare && b.noun.kind == "" || b.kind == nominal && b.noun.kind == "" && b.noun.does == plain && !b.known {
		return
	}
	if a.kind == nominal && (a.noun.kind == "" || a.noun.kind == nlp.Thing) {
		return
	}
	if a.lemma == b.lemma && a.kind == b.kind {
		return
	}
	end := b.end
	if b.of != nlp.None {
		end = r.mentions[b.of].end
	}
	if end >= len(r.d.Tokens) {
		b.same = i
		return
	}
	switch w := r.d.Tokens[end].Lower; {
	case w == "," || w == ";" || w == "." || w == ":" || w == "!" || w == "?" || w == "who" || w == "whose" || strings.HasPrefix(w, "-"):
		if b.place == roleSubject && b.verb != nlp.None && a.verb != b.verb && w != "," && w != "who" {
			return
		}
		if a.place == rolePossessor {
			return
		}
		b.same = i
	}
}

// predicate makes the noun after "was" or "became" the same as its subject.
func (r *reading) predicate(v int) {
	g := &r.d.Verbs[v]
	lemma := lemmaOf(&r.d.Tokens[g.Head])
	if (lemma == "call" || lemma == "name" || lemma == "christen") && g.Passive && g.Subject >= 0 {
		if s := r.byPhrase[g.Subject]; s != nlp.None && r.mentions[s].kind != pronoun {
			r.naming(s, g.End)
		} else if j := r.starts(g.End); s != nlp.None && j != nlp.None && r.mentions[j].kind == proper {
			r.mentions[j].same = s
		}
		return
	}
	if (lemma == "call" || lemma == "name" || lemma == "christen") && !g.Passive && g.Object >= 0 {
		o := r.byPhrase[g.Object]
		if o != nlp.None {
			if j := r.starts(r.mentions[o].end); j != nlp.None && r.mentions[j].kind == proper && !r.mentions[o].plural {
				r.mentions[j].same = o
			}
		}
		return
	}
	if lemma != "be" && lemma != "become" || g.Negated || g.Subject < 0 || g.Modal != "" && g.Modal != "will" {
		return
	}
	s := r.byPhrase[g.Subject]
	if s == nlp.None {
		return
	}
	o := nlp.None
	switch {
	case g.Complement >= 0:
		o = r.byToken[g.Complement]
	case g.Object >= 0:
		o = r.byPhrase[g.Object]
	default:
		o = r.starts(g.End)
	}
	if o == nlp.None || o == s {
		return
	}
	a, b := &r.mentions[s], &r.mentions[o]
	if b.kind == pronoun || b.sentence != a.sentence || b.quote != a.quote || b.same != nlp.None || b.first < g.Head {
		return
	}
	if a.lemma == "name" && b.kind == proper && a.possessor != nlp.None {
		b.same = a.possessor
		return
	}
	if a.kind == pronoun && a.form.class != third && a.form.class != speaking && a.form.class != addressed || b.plural != a.plural {
		return
	}
	if b.kind == nominal && (b.noun.kind == "" || b.noun.kind == nlp.Thing) || a.kind == nominal && a.noun.kind == "" {
		return
	}
	if a.kind == proper && b.kind == proper {
		return
	}
	b.same = s
}

// findActing notes the nouns that act like somebody in this text though the
// lexicon has them as things or not at all: they say, answer, think.
func (r *reading) findActing() {
	seen := map[headKey]int{}
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.kind != nominal || m.noun.kind != "" && m.noun.kind != nlp.Thing || m.place != roleSubject || m.verb == nlp.None || m.plural || neverSomebody[m.lemma] && !r.tags[i] {
			continue
		}
		g := &r.d.Verbs[m.verb]
		if g.Passive || g.Participle {
			continue
		}
		v := lemmaOf(&r.d.Tokens[g.Head])
		k := headKey{norm(m.lemma), false}
		w := 0
		switch {
		case r.tags[i]:
			w = 2
		case minds[v] && m.quote == nlp.None && !(v == "tell" || v == "say" || v == "look" || v == "speak" || v == "taste" || v == "smell" || v == "mean"):
			w = 1
			if m.noun.kind == nlp.Thing {
				w = 2
			}
		}
		if m.possessor != nlp.None && w == 1 {
			w = 0
		}
		if w > 0 {
			seen[k] += w
		}
	}
	r.acting = make(map[headKey]bool, len(seen))
	for k, n := range seen {
		if n >= 2 {
			r.acting[k] = true
		}
	}
}

// Nouns that report or move without being somebody: parts of the body, words
// and writings.
var neverSomebody = set(`heart eye eyes face hand hands lip lips mouth tongue mind head foot feet arm arms leg legs hair breast conscience
	letter note book story tale paper news word words song saying proverb law legend report sign inscription poem verse bible
	way thing matter time day night midnight noon evening morning dawn dusk hour week month moment year place house world side end part reason fact idea thought feeling
	silence laughter cry sound noise tear tears smile sight look it that this what all nothing something everything anything none
	one two three most rest both many some other others half number lot deal kind sort`)
