package characters

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/clauses"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

var (
	rounds = flag.Int("rounds", 4, "rounds of fitting")
	both   = flag.Bool("both", false, "fit to all development books in the end")
	forced = flag.Int("forced", 50, "percent of choices set right before the next while fitting")
	ridge  = flag.Float64("ridge", 1e-2, "pull of the weights towards nought")
)

var fit = flag.Bool("fit", false, "fit salience.txt anew to LitBank's development books")

type goldBook struct {
	Text     string
	Mentions []goldMention
}

type goldMention struct {
	Start, End          int
	Entity, Form, Chain string
	Text                string
}

// choice is one pronoun with the features of its candidates.
type choice struct {
	use   int
	cs    [][features]float64
	right []bool
}

// TestFitSalience fits the weights by softmax regression over candidates: each
// round reads the books with the weights so far, sets a part of the choices
// right before it goes on, gathers every choice with what would have been
// right, and fits to all choices gathered. It fits to the odd books and checks
// on the even ones, the other way round, and at last fits to all (-both).
func TestFitSalience(t *testing.T) {
	if !*fit {
		t.Skip("runs with -fit")
	}
	books := readBooks(t)
	tg, err := tag.Load()
	if err != nil {
		t.Fatal(err)
	}
	docs := make([]*nlp.Document, len(books))
	for i := range books {
		docs[i] = segment.Split(books[i].Text)
		tg.Tag(docs[i])
		clauses.Parse(docs[i])
	}
	w := weights()
	before := *w
	train := func(fitted func(int) bool) (best [uses][features]float64) {
		*w = before
		var data []choice
		for round := range *rounds {
			for i := range books {
				if fitted(i) {
					cs, _, _ := observeBook(docs[i], books[i], *forced, round)
					data = append(data, cs...)
				}
			}
			*w = fitWeights(data)
		}
		return *w
	}
	measure := func(on func(int) bool) string {
		right, had, all := 0, 0, 0
		for i := range books {
			if on(i) {
				cs, ok, n := observeBook(docs[i], books[i], 0, 0)
				right, had, all = right+ok, had+len(cs), all+n
			}
		}
		return fmt.Sprintf("%d of %d, %d had the right one to choose (%.3f)", right, all, had, float64(right)/float64(all))
	}
	local := func(on func(int) bool) string {
		var right, n [uses]int
		for i := range books {
			if on(i) {
				cs, _, _ := observeBook(docs[i], books[i], 100, 0)
				for _, c := range cs {
					best, top := 0, math.Inf(-1)
					for k := range c.cs {
						v := 0.0
						for j, x := range c.cs[k] {
							v += x * w[c.use][j]
						}
						if v > top {
							best, top = k, v
						}
					}
					n[c.use]++
					if c.right[best] {
						right[c.use]++
					}
				}
			}
		}
		return fmt.Sprint("after right choices only: ", right, " of ", n)
	}
	even, odd := func(i int) bool { return i%2 == 0 }, func(i int) bool { return i%2 == 1 }
	*w = train(odd)
	t.Logf("fitted to the odd books: odd %s; even %s", measure(odd), measure(even))
	t.Logf("fitted: odd %s; even %s", local(odd), local(even))
	*w = train(even)
	t.Logf("fitted to the even books: even %s; odd %s", measure(even), measure(odd))
	t.Logf("fitted: even %s; odd %s", local(even), local(odd))
	if *both {
		*w = train(func(int) bool { return true })
		t.Logf("fitted to all: even %s; odd %s", measure(even), measure(odd))
	}
	var b strings.Builder
	b.WriteString(`# How much each feature speaks for an entity that a he or she may mean: as subject, as object, as possessive, and anywhere in speech.
# Source: fitted by TestFitSalience (go test -run TestFitSalience -fit -both ./nlp/characters) to the
# development part of LitBank (Bamman, Lewke & Mansoor 2020, "An Annotated Dataset of Coreference in English
# Literature", LREC; CC BY 4.0); the features are our own, after Lappin & Leass 1994 and Lee et al. 2013.
# Licence: that of this project; no text of LitBank is in here.
`)
	for k, name := range featureNames {
		fmt.Fprintf(&b, "%s %.3f %.3f %.3f %.3f\n", name, w[0][k], w[1][k], w[2][k], w[3][k])
	}
	if err := os.WriteFile("salience.txt", []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestPronounsOnLitBank checks he and she against LitBank's annotation (source
// in salience.txt). The floor is the one set for the program as a whole.
func TestPronounsOnLitBank(t *testing.T) {
	books := readBooks(t)
	tg, err := tag.Load()
	if err != nil {
		t.Fatal(err)
	}
	right, all := 0, 0
	for _, b := range books {
		d := segment.Split(b.Text)
		tg.Tag(d)
		clauses.Parse(d)
		_, ok, n := observeBook(d, b, 0, 0)
		right, all = right+ok, all+n
	}
	share := float64(right) / float64(all)
	t.Logf("%d of %d pronouns right (%.3f)", right, all, share)
	if share < 0.65 {
		t.Errorf("%.3f of the pronouns are right, want 0.65", share)
	}
}

// observeBook reads one book and gives the choices met and how many were
// right.
func observeBook(d *nlp.Document, b goldBook, force, round int) ([]choice, int, int) {
	var others []goldMention
	byEnd, bySpan := map[int][]goldMention{}, map[nlp.Span]goldMention{}
	for _, m := range b.Mentions {
		if m.Entity == "PER" {
			bySpan[nlp.Span{Start: m.Start, End: m.End}] = m
			if m.Form != "PRON" {
				others = append(others, m)
				byEnd[m.End] = append(byEnd[m.End], m)
			}
		}
	}
	r := prepare(d, quotes.Find(d))
	span := func(m *mention) nlp.Span {
		return nlp.Span{Start: d.Tokens[m.first].Span.Start, End: d.Tokens[m.end-1].Span.End}
	}
	chainOf := func(e int) string {
		votes := map[string]int{}
		best := ""
		for _, i := range r.entities[e].mentions {
			m := &r.mentions[i]
			if m.kind == pronoun {
				continue
			}
			s := span(m)
			var g *goldMention
			near := byEnd[s.End]
			if len(near) == 0 {
				near = others
			}
			for k := range near {
				if c := &near[k]; c.Start < s.End && s.Start < c.End && (g == nil || c.End-c.Start < g.End-g.Start) {
					g = c
				}
			}
			if g != nil {
				votes[g.Chain]++
				if best == "" || votes[g.Chain] > votes[best] {
					best = g.Chain
				}
			}
		}
		return best
	}
	var out []choice
	ok, total := 0, 0
	r.observe = func(i int, cs []candidate, chosen int) int {
		m := &r.mentions[i]
		g, is := bySpan[span(m)]
		if !is {
			return chosen
		}
		total++
		c := choice{use: use(m)}
		all := r.crowdOf(cs)
		any, forcedTo := false, chosen
		for k := range cs {
			var f [features]float64
			r.describe(i, &cs[k], &all, &f)
			c.cs = append(c.cs, f)
			right := chainOf(cs[k].entity) == g.Chain
			c.right = append(c.right, right)
			if right && !any && (i*7919+round*104729)%100 < force {
				forcedTo = cs[k].entity
			}
			any = any || right
			if right && cs[k].entity == chosen {
				ok++
			}
		}
		if any {
			out = append(out, c)
		}
		return forcedTo
	}
	r.sequence()
	return out, ok, total
}

// fitWeights maximises the log-likelihood of a right candidate, with a small
// ridge, by full-batch gradient steps (Adam, Kingma & Ba 2015): no chance in it.
func fitWeights(data []choice) [uses][features]float64 {
	var w, v, v2 [uses][features]float64
	const steps, rate = 250, 0.05
	var count [uses]float64
	for _, c := range data {
		count[c.use]++
	}
	for step := range steps {
		var g [uses][features]float64
		for _, c := range data {
			s := make([]float64, len(c.cs))
			top := math.Inf(-1)
			for k := range c.cs {
				for j, x := range c.cs[k] {
					s[k] += x * w[c.use][j]
				}
				top = math.Max(top, s[k])
			}
			z, zr := 0.0, 0.0
			for k := range s {
				s[k] = math.Exp(s[k] - top)
				z += s[k]
				if c.right[k] {
					zr += s[k]
				}
			}
			for k := range s {
				p := -s[k] / z
				if c.right[k] {
					p += s[k] / zr
				}
				for j, x := range c.cs[k] {
					g[c.use][j] += p * x
				}
			}
		}
		for u := range w {
			for j := range w[u] {
				x := g[u][j]/math.Max(1, count[u]) - *ridge*w[u][j]
				v[u][j] = 0.9*v[u][j] + 0.1*x
				v2[u][j] = 0.99*v2[u][j] + 0.01*x*x
				c1, c2 := 1-math.Pow(0.9, float64(step+1)), 1-math.Pow(0.99, float64(step+1))
				w[u][j] += rate * (v[u][j] / c1) / (math.Sqrt(v2[u][j]/c2) + 1e-8)
			}
		}
	}
	return w
}

func readBooks(t *testing.T) []goldBook {
	t.Helper()
	path := filepath.Join(sharedDir(), "data", "litbank-dev", "books.jsonl")
	f, err := os.Open(path)
	if err != nil {
		t.Skip("the LitBank development books are not here")
	}
	defer f.Close()
	var out []goldBook
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<24)
	for sc.Scan() {
		var b goldBook
		if err := json.Unmarshal(sc.Bytes(), &b); err != nil {
			t.Fatal(err)
		}
		out = append(out, b)
	}
	return out
}

// sharedDir is where the development data lies: beside the repository, or
// where FELTPAGE_SHARED says.
func sharedDir() string {
	if s := os.Getenv("FELTPAGE_SHARED"); s != "" {
		return s
	}
	return filepath.Join("..", "..", "..", "shared")
}
