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
// round reads the even books with the weights so far, gathers every choice
// with what would have been right, and fits to all choices gathered. The odd
// books only check.
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
	var data []choice
	for round := range 6 {
		n, ok := [2]int{}, [2]int{}
		for i := range books {
			cs, right := observeBook(docs[i], books[i])
			if i%2 == 0 {
				data = append(data, cs...)
			}
			n[i%2] += len(cs)
			ok[i%2] += right
		}
		t.Logf("round %d: right of those with a right candidate: fitted %d/%d, checked %d/%d", round, ok[0], n[0], ok[1], n[1])
		*w = fitWeights(data)
	}
	var b strings.Builder
	b.WriteString(`# How much each feature speaks for an entity that a he or she may mean: as subject, as object, as possessive.
# Source: fitted by TestFitSalience (go test -run TestFitSalience -fit ./nlp/characters) to every second book of the
# development part of LitBank (Bamman, Lewke & Mansoor 2020, "An Annotated Dataset of Coreference in English
# Literature", LREC; CC BY 4.0); the features are our own, after Lappin & Leass 1994 and Lee et al. 2013.
# Licence: that of this project; no text of LitBank is in here.
`)
	for k, name := range featureNames {
		fmt.Fprintf(&b, "%s %.3f %.3f %.3f\n", name, w[0][k], w[1][k], w[2][k])
	}
	if err := os.WriteFile("salience.txt", []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// observeBook reads one book and gives the choices met and how many were
// right.
func observeBook(d *nlp.Document, b goldBook) ([]choice, int) {
	byEnd, bySpan := map[int][]goldMention{}, map[nlp.Span]goldMention{}
	for _, m := range b.Mentions {
		if m.Entity == "PER" {
			bySpan[nlp.Span{Start: m.Start, End: m.End}] = m
			if m.Form != "PRON" {
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
			for k := range byEnd[s.End] {
				if c := &byEnd[s.End][k]; g == nil || c.End-c.Start < g.End-g.Start {
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
	ok := 0
	r.observe = func(i int, cs []candidate, chosen int) int {
		m := &r.mentions[i]
		g, is := bySpan[span(m)]
		if !is {
			return chosen
		}
		c := choice{use: use(m)}
		all := crowdOf(cs)
		any := false
		for k := range cs {
			var f [features]float64
			r.describe(i, &cs[k], &all, &f)
			c.cs = append(c.cs, f)
			right := chainOf(cs[k].entity) == g.Chain
			c.right = append(c.right, right)
			any = any || right
			if right && cs[k].entity == chosen {
				ok++
			}
		}
		if any {
			out = append(out, c)
		}
		return chosen
	}
	r.sequence()
	return out, ok
}

// fitWeights maximises the log-likelihood of a right candidate, with a small
// ridge, by full-batch gradient with momentum: no chance in it.
func fitWeights(data []choice) [uses][features]float64 {
	var w, v [uses][features]float64
	const steps, rate, ridge, momentum = 400, 1.0, 2e-3, 0.9
	var count [uses]float64
	for _, c := range data {
		count[c.use]++
	}
	for range steps {
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
				v[u][j] = momentum*v[u][j] + rate*(g[u][j]/math.Max(1, count[u])-ridge*w[u][j])*(1-momentum)
				w[u][j] += v[u][j]
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
