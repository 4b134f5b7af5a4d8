package main

import (
	"fmt"
	"log"
	"math"
	"os"
	"strconv"

	"feltpage/nlp"
	"feltpage/nlp/situations"
)

func env(n string, d float64) float64 {
	if v, err := strconv.ParseFloat(os.Getenv(n), 64); err == nil {
		return v
	}
	return d
}

// pooled experiment
func (g *gatherer) pooled(ex *examiner, vec vectors, s settings, k int) {
	unmask := env("UNMASK", 0) > 0
	roles := env("ROLES", 1)
	pw := env("PW", 1)
	useTail := env("TAIL", 0)
	byName := map[string]*story{}
	readings := map[string]*situations.Reading{}
	for _, st := range g.stories {
		byName[st.name] = st
		var sh []nlp.Cue
		if !unmask {
			sh = st.cues
		}
		readings[st.name] = situations.Read(st.doc, st.cast, st.quotes, sh, g.known)
	}
	var exs []example
	var qs []exam
	for _, q := range g.asked {
		st := byName[q.Story]
		shares := ex.shares(q)
		want := g.want(append(append([]string{}, q.Answers...), q.Second...))
		if st == nil || want == nil || len(shares) == 0 {
			continue
		}
		r, near, who := readings[q.Story], st.near(q), st.asked(q.who())
		agg := map[[2]int]float64{}
		var order [][2]int
		put := func(slot situations.Slot, w int32, x float64) {
			key := [2]int{int(slot), int(w)}
			if _, ok := agg[key]; !ok {
				order = append(order, key)
			}
			agg[key] += x
		}
		tot := 0.0
		x := exam{fold: st.fold, explicit: q.Stated == "explicit", shares: shares, shown: map[string]float64{}}
		for _, c := range st.cues {
			if i := sentenceOf(st.doc, c.Span.Start); near[i] > 0 && who[c.Character] && !c.Denied {
				for _, f := range c.Feelings {
					x.shown[f.Family] += f.Weight * near[i]
				}
			}
		}
		for i := range st.doc.Sentences {
			if near[i] == 0 {
				continue
			}
			w := math.Pow(near[i], pw)
			for t := st.doc.Sentences[i].First; t < st.doc.Sentences[i].End; t++ {
				if n := g.known(st.doc.Tokens[t].Lemma); n >= 0 {
					if e := r.Word(t); e >= 0 {
						put(situations.Scene, e, w)
						tot += w * w
					}
				}
			}
			for _, c := range r.People(i) {
				if who[c] && roles > 0 {
					for _, e := range r.Evidence(i, c) {
						if e.Slot != situations.Scene {
							put(e.Slot, e.Word, w*float64(e.Weight)*roles)
						}
					}
				}
			}
		}
		if useTail > 0 {
			d := g.parse(q.tail() + ".")
			rt := situations.Read(d, pronounCast(d, q.who()), nil, nil, g.known)
			if len(d.Sentences) > 0 {
				for _, e := range rt.Evidence(0, 0) {
					put(e.Slot, e.Word, float64(e.Weight)*useTail)
				}
			}
		}
		sc := 1 / math.Sqrt(math.Max(1, tot))
		var ts []term
		for _, key := range order {
			v := agg[key]
			if key[0] == int(situations.Scene) {
				v *= sc
			}
			ts = append(ts, term{situations.Slot(key[0]), int32(key[1]), float32(v)})
		}
		exs = append(exs, example{ts, want, 1, asked, st.fold})
		qs = append(qs, x)
	}
	var aux []example
	for _, e := range g.examples {
		if s.bySource[e.source] > 0 && e.source != asked {
			aux = append(aux, e)
		}
	}
	tr := append(append([]example{}, exs...), aux...)
	alone, both := [2]tally{{}, {}}, [2]tally{{}, {}}
	scl := env("SCALE", 0.5)
	for f := range k {
		l := newLearner(g.words, vec, s)
		loss := l.train(tr, f)
		w := newWork(l.classes)
		for i, e := range exs {
			if e.fold != f {
				continue
			}
			l.scores(e.terms, 1, w)
			a, b := map[string]float64{}, map[string]float64{}
			for fam, v := range qs[i].shown {
				b[fam] = v
			}
			for c, p := range w.z[:len(w.z)-1] {
				a[situations.Classes[c]] = float64(p)
				b[situations.Classes[c]] += float64(p) * scl
			}
			n := 0
			if qs[i].explicit {
				n = 1
			}
			ex.mark(alone[n], qs[i].shares, heaviestOf(a))
			ex.mark(both[n], qs[i].shares, heaviestOf(b))
		}
		if f == 0 {
			log.Println("loss", loss)
		}
	}
	fmt.Println("pooled implicit", alone[0], "both", both[0], "explicit", alone[1], "both", both[1])
}
