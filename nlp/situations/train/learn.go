package main

import (
	"bytes"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"

	"feltpage/nlp/feelings"
	"feltpage/nlp/situations"
)

// example is one event in one role with the shares of the classes.
type example struct {
	keys   []int
	role   int
	want   []float64
	weight float64
	story  bool // a question about a story, not an everyday event
	held   bool // measured on, not learned from
}

// domain is 1 for questions about stories, 0 for everyday events: how often a
// feeling is asked about differs between them, what a word says does not.
func (e example) domain() int {
	if e.story {
		return 1
	}
	return 0
}

// The model while it is learned: each key's say is a projection of its word's
// vector (shared by words of one sense) plus a part of its own, which is held
// small, so that it grows only where the data insist.
type learner struct {
	keys    []string
	index   map[string]int
	vec     [][]float32 // of the key's word, or nil
	slot    []int
	classes int
	prior   []float64

	bias    [2][2][]float64 // domain, role
	project [2][3][]float64 // role, slot: classes × dims
	own     [2][]float64    // role: keys × classes

	gBias    [2][2][]float64
	gProject [2][3][]float64
	gOwn     [2][]float64
}

var (
	rate     = env("RATE", 0.05) // AdaGrad's first step
	ownDecay = env("OWN", 1e-2)  // L2 on a key's own part
	proDecay = env("PRO", 1e-5)  // L2 on the projections
)

func learn(data, vectorsFile, out string, half bool, epochs int) error {
	vec, err := readVectors(vectorsFile)
	if err != nil {
		return err
	}
	table, err := feelings.Load()
	if err != nil {
		return err
	}
	g, err := newGatherer(newLabeller(table, vec))
	if err != nil {
		return err
	}
	if err := g.events(filepath.Join(data, "event-feelings", "train.jsonl"), false); err != nil {
		return err
	}
	if err := g.events(filepath.Join(data, "event-feelings", "dev.jsonl"), true); err != nil {
		return err
	}
	if err := g.questions(filepath.Join(data, "fairytale-dev", "feeling-questions.jsonl"), half); err != nil {
		return err
	}
	log.Printf("%d examples, %d answers without a known feeling left out", len(g.examples), g.unknown)
	g.reweigh()
	l := newLearner(g, vec)
	rng := rand.New(rand.NewPCG(1, 2)) // a fixed seed: the same data, the same weights
	order := make([]int, 0, len(g.examples))
	for i, e := range g.examples {
		if !e.held {
			order = append(order, i)
		}
	}
	for epoch := range epochs {
		rng.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
		loss := 0.0
		for _, i := range order {
			loss += l.step(g.examples[i])
		}
		log.Printf("pass %d: loss %.4f, held %s", epoch+1, loss/float64(len(order)), l.measure(g.examples))
	}
	m := l.model(g)
	var b bytes.Buffer
	if err := m.Encode(&b); err != nil {
		return err
	}
	if b.Len() > 4<<20 {
		return fmt.Errorf("the weights take %d bytes, more than 4 MB", b.Len())
	}
	log.Printf("%d rows, %d bytes", m.Len(), b.Len())
	return os.WriteFile(out, b.Bytes(), 0o644)
}

func newLearner(g *gatherer, vec vectors) *learner {
	n := len(g.keys)
	l := &learner{keys: g.keys, index: g.index, vec: make([][]float32, n), slot: make([]int, n), prior: g.prior, classes: len(g.labels.class) + 1}
	for i, k := range g.keys {
		word := k[1:]
		switch k[0] {
		case 'v':
			l.slot[i] = 0
			word = strings.TrimPrefix(word, "not ")
			word = strings.TrimSuffix(word, "+passive")
			l.vec[i] = vec[word]
			if word != k[1:] { // a denied or passive verb says something else: only its own part
				l.slot[i] = 2
			}
		case 'r':
			l.slot[i] = 1
			l.vec[i] = vec[word]
		default:
			l.slot[i] = 2
		}
	}
	for r := range 2 {
		for d := range 2 {
			l.bias[d][r], l.gBias[d][r] = make([]float64, l.classes), make([]float64, l.classes)
		}
		l.own[r], l.gOwn[r] = make([]float64, n*l.classes), make([]float64, n*l.classes)
		for s := range 3 {
			l.project[r][s], l.gProject[r][s] = make([]float64, l.classes*dims), make([]float64, l.classes*dims)
		}
	}
	return l
}

// scores gives the probability of each class.
func (l *learner) scores(e example) []float64 {
	s := append([]float64(nil), l.bias[e.domain()][e.role]...)
	for _, k := range e.keys {
		o := l.own[e.role][k*l.classes:]
		for c := range s {
			s[c] += o[c]
		}
		if v := l.vec[k]; v != nil {
			p := l.project[e.role][l.slot[k]]
			for c := range s {
				row := p[c*dims : c*dims+dims]
				t := 0.0
				for i, x := range v {
					t += row[i] * float64(x)
				}
				s[c] += t
			}
		}
	}
	top := math.Inf(-1)
	for _, x := range s {
		top = math.Max(top, x)
	}
	sum := 0.0
	for i, x := range s {
		s[i] = math.Exp(x - top)
		sum += s[i]
	}
	for i := range s {
		s[i] /= sum
	}
	return s
}

// step learns from one example by AdaGrad on the cross entropy (Duchi, Hazan &
// Singer 2011) and gives its loss before.
func (l *learner) step(e example) float64 {
	p := l.scores(e)
	loss := 0.0
	grad := make([]float64, len(p))
	for c := range p {
		if e.want[c] > 0 {
			loss -= e.weight * e.want[c] * math.Log(math.Max(p[c], 1e-12))
		}
		grad[c] = e.weight * (p[c] - e.want[c])
	}
	move := func(x, g2 *float64, g float64) {
		*g2 += g * g
		*x -= rate * g / (1e-4 + math.Sqrt(*g2))
	}
	for c, g := range grad {
		move(&l.bias[e.domain()][e.role][c], &l.gBias[e.domain()][e.role][c], g)
	}
	for _, k := range e.keys {
		at := k * l.classes
		for c, g := range grad {
			x := &l.own[e.role][at+c]
			move(x, &l.gOwn[e.role][at+c], g+ownDecay**x)
		}
		v := l.vec[k]
		if v == nil {
			continue
		}
		pr, g2 := l.project[e.role][l.slot[k]], l.gProject[e.role][l.slot[k]]
		for c, g := range grad {
			if math.Abs(g) < 1e-4 {
				continue
			}
			for i, x := range v {
				j := c*dims + i
				move(&pr[j], &g2[j], g*float64(x)+proDecay*pr[j])
			}
		}
	}
	return loss
}

// measure gives the mean share of the first guess, by role, and the loss over
// what is held out.
func (l *learner) measure(examples []example) string {
	var hit, n, loss [3]float64
	mac := map[int][]float64{}
	for _, e := range examples {
		if !e.held {
			continue
		}
		kind := e.role
		if e.domain() == 1 {
			kind = 2
		}
		p := l.scores(e)
		best, top := -1, 0.0
		for c := range p[:len(p)-1] {
			if best < 0 || p[c]/math.Pow(l.prior[c], ALPHA) > p[best]/math.Pow(l.prior[best], ALPHA) {
				best = c
			}
			top = math.Max(top, e.want[c])
		}
		for c := range p {
			loss[kind] -= e.want[c] * math.Log(math.Max(p[c], 1e-12))
		}
		if kind == 2 && top > 0 {
			pr := 0
			for c := range p[:len(p)-1] {
				if e.want[c] > e.want[pr] {
					pr = c
				}
			}
			mac[pr] = append(mac[pr], e.want[best]/top)
		}
		if top > 0 {
			hit[kind] += e.want[best] / top
			n[kind]++
		}
	}
	macro, big := 0.0, 0
	for c := range l.classes {
		if len(mac[c]) >= 5 {
			t := 0.0
			for _, x := range mac[c] {
				t += x
			}
			macro += t / float64(len(mac[c]))
			big++
		}
	}
	return fmt.Sprintf("events: actor %.3f (loss %.3f) other %.3f (loss %.3f); questions %.3f macro %.3f (loss %.3f)",
		hit[0]/n[0], loss[0]/n[0], hit[1]/n[1], loss[1]/n[1], hit[2]/math.Max(1, n[2]), macro/float64(max(1, big)), loss[2]/math.Max(1, n[2]))
}

// model turns what was learned into rows: every word met, and the common words
// that were not met but have a vector.
func (l *learner) model(g *gatherer) *situations.Model {
	say := func(k int, key string, slot int, v []float32) [2][]float64 {
		var out [2][]float64
		for r := range 2 {
			s := make([]float64, l.classes)
			if k >= 0 {
				copy(s, l.own[r][k*l.classes:(k+1)*l.classes])
			}
			if v != nil {
				for c := range s {
					for i, x := range v {
						s[c] += l.project[r][slot][c*dims+i] * float64(x)
					}
				}
			}
			out[r] = s
		}
		return out
	}
	rows := map[string][2][]float64{}
	for i, k := range l.keys {
		if k[0] == 'p' && g.seen[i] < 3 {
			continue
		}
		rows[k] = say(i, k, l.slot[i], l.vec[i])
	}
	for _, w := range g.common {
		v := g.labels.vec[w]
		if v == nil {
			continue
		}
		for slot, mark := range []string{"v", "r"} {
			if _, ok := rows[mark+w]; !ok {
				rows[mark+w] = say(-1, mark+w, slot, v)
			}
		}
	}
	keys := make([]string, 0, len(rows))
	for k := range rows {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	m := situations.NewModel(l.bias[1])
	for _, k := range keys {
		m.Put(k, rows[k])
	}
	return m
}

func env(n string, d float64) float64 {
	if v, err := strconv.ParseFloat(os.Getenv(n), 64); err == nil {
		return v
	}
	return d
}

var ALPHA = env("ALPHA", 0.5)
