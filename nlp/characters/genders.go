package characters

import (
	"math"

	"feltpage/nlp"
)

// learnGenders learns the gender of names and of nouns that do not tell it
// ("the fox", "the stranger") from the pronouns that follow: he or she right
// after the only one it could mean counts in full, else a little.
func (r *reading) learnGenders() {
	type key struct {
		cluster int
		lemma   string
	}
	votes := map[key]*[2]float64{}
	last, known := nlp.None, nlp.None
	before := [2]int{nlp.None, nlp.None} // the last she and he
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.quote != nlp.None {
			continue
		}
		if m.kind != pronoun {
			if m.plural || m.place == roleOf {
				continue
			}
			g := m.gender
			if m.cluster != nlp.None {
				if r.clusters[m.cluster].score <= 0 {
					continue
				}
				g = r.clusters[m.cluster].gender
			} else if !r.somebody(m) {
				continue
			}
			if g == "" {
				// Who acts stays in mind before what is only mentioned.
				if last == nlp.None || m.place == roleSubject || r.mentions[last].place != roleSubject || r.mentions[last].sentence != m.sentence {
					last = i
				}
			} else {
				known = i
			}
			continue
		}
		if m.form.class != third {
			continue
		}
		if last == nlp.None || m.sentence-r.mentions[last].sentence > 1 {
			before[sex(m.gender)] = i
			continue
		}
		o := &r.mentions[last]
		w := 1.0
		if s := sex(m.gender); before[s] != nlp.None && before[s] < last {
			// She was there already: "she looked at Moss and took her hat".
			switch o.sentence - r.mentions[before[s]].sentence {
			case 0:
				w = 0.2
			case 1:
				w = 0.5
			}
		}
		if known > last || known != nlp.None && m.sentence-r.mentions[known].sentence <= 1 {
			g := r.mentions[known].gender
			if r.mentions[known].cluster != nlp.None {
				g = r.clusters[r.mentions[known].cluster].gender
			}
			if g == m.gender {
				w = math.Min(w, 0.2)
			}
		}
		if o.place == roleSubject {
			w *= 1.5
		}
		k := key{o.cluster, ""}
		if o.cluster == nlp.None {
			k.lemma = norm(o.lemma)
		}
		if votes[k] == nil {
			votes[k] = new([2]float64)
		}
		if m.gender == nlp.Female {
			votes[k][0] += w
		} else {
			votes[k][1] += w
		}
		before[sex(m.gender)] = i
	}
	decide := func(v *[2]float64) string {
		switch {
		case v == nil:
			return ""
		case v[0] >= 1 && v[0] >= 2*v[1]:
			return nlp.Female
		case v[1] >= 1 && v[1] >= 2*v[0]:
			return nlp.Male
		}
		return ""
	}
	for i := range r.clusters {
		if c := &r.clusters[i]; c.gender == "" {
			c.gender = decide(votes[key{i, ""}])
		}
	}
	r.likely = map[string]string{}
	for i := range r.mentions {
		m := &r.mentions[i]
		if m.kind == nominal && m.gender == "" && m.cluster == nlp.None {
			l := norm(m.lemma)
			if _, ok := r.likely[l]; !ok {
				r.likely[l] = decide(votes[key{nlp.None, l}])
			}
		}
	}
}
