package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"regexp"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/clauses"
	"feltpage/nlp/segment"
	"feltpage/nlp/situations"
	"feltpage/nlp/tag"
)

// gatherer turns the data into examples over numbered keys.
type gatherer struct {
	labels   *labeller
	tagger   *tag.Tagger
	keys     []string
	index    map[string]int
	seen     []int
	examples []example
	unknown  int
	prior    []float64 // share of each class among the questions
	common   []string  // words to give a row though no event held them
}

func newGatherer(l *labeller) (*gatherer, error) {
	t, err := tag.Load()
	if err != nil {
		return nil, err
	}
	return &gatherer{labels: l, tagger: t, index: map[string]int{}}, nil
}

func (g *gatherer) parse(text string) *nlp.Document {
	d := segment.Split(text)
	g.tagger.Tag(d)
	clauses.Parse(d)
	return d
}

func (g *gatherer) number(keys []string) []int {
	out := make([]int, len(keys))
	for i, k := range keys {
		n, ok := g.index[k]
		if !ok {
			n = len(g.keys)
			g.index[k] = n
			g.keys = append(g.keys, k)
			g.seen = append(g.seen, 0)
		}
		g.seen[n]++
		out[i] = n
	}
	return out
}

// want averages the labels of the answers; nil where none says a feeling.
func (g *gatherer) want(answers []string) []float64 {
	var sum []float64
	n := 0.0
	for _, a := range answers {
		s := g.labels.label(a)
		if s == nil {
			g.unknown++
			continue
		}
		if sum == nil {
			sum = make([]float64, len(s))
		}
		for i, x := range s {
			sum[i] += x
		}
		n++
	}
	for i := range sum {
		sum[i] /= n
	}
	return sum
}

var blanks = strings.NewReplacer("PersonX 's", "Tom's", "PersonX's", "Tom's", "PersonX", "Tom",
	"PersonY 's", "Ann's", "PersonY's", "Ann's", "PersonY", "Ann", "PersonZ", "Joe", " '", "'", "___", "something")

// events reads Event2Mind rows.
func (g *gatherer) events(name string, held bool) error {
	return each(name, func(b []byte) error {
		var row struct {
			Event  string   `json:"event"`
			Actor  []string `json:"actor"`
			Others []string `json:"others"`
		}
		if err := json.Unmarshal(b, &row); err != nil {
			return err
		}
		d := g.parse(blanks.Replace(row.Event) + ".")
		keys := situations.Keys(d, 0, len(d.Tokens))
		if len(keys) == 0 {
			return nil
		}
		num := g.number(keys)
		for role, answers := range [][]string{row.Actor, row.Others} {
			if w := g.want(answers); w != nil {
				g.examples = append(g.examples, example{keys: num, role: role, want: w, weight: 1, held: held})
			}
		}
		return nil
	})
}

var tail = regexp.MustCompile(`(?i)^(?:how|what|why)\s+\S+\s+(.*?)\s+(?:feel|felt|feeling)\b\s*(.*)$`)

// questionWeight is how much more one question counts than one event: the
// questions are of the texts that the model is for, and few.
var questionWeight = env("QW", 4)

// questions reads "How did X feel when …?": the tail is the event.
func (g *gatherer) questions(name string, half bool) error {
	stories := map[string]int{}
	return each(name, func(b []byte) error {
		var q struct {
			Story    string   `json:"story"`
			Question string   `json:"question"`
			Answers  []string `json:"answers"`
			Second   []string `json:"second_annotator"`
		}
		if err := json.Unmarshal(b, &q); err != nil {
			return err
		}
		if _, ok := stories[q.Story]; !ok {
			stories[q.Story] = len(stories)
		}
		m := tail.FindStringSubmatch(strings.TrimSuffix(strings.TrimSpace(q.Question), "?"))
		if m == nil || m[2] == "" {
			return nil
		}
		d := g.parse(m[2] + ".")
		keys := situations.Keys(d, 0, len(d.Tokens))
		if len(keys) == 0 {
			return nil
		}
		w := g.want(append(append([]string{}, q.Answers...), q.Second...))
		if w == nil {
			return nil
		}
		g.examples = append(g.examples, example{keys: g.number(keys), role: roleOf(d, m[1]), want: w,
			weight: questionWeight, story: true, held: half && stories[q.Story]%2 == 1})
		return nil
	})
}

// roleOf tells whether the one asked about acts in the tail: its first clause
// has a pronoun or the same noun as subject.
func roleOf(d *nlp.Document, who string) int {
	for _, v := range d.Verbs {
		if v.Subject == nlp.None {
			continue
		}
		p := d.Phrases[v.Subject]
		head := d.Tokens[p.Head].Lower
		if v.Passive {
			return int(situations.Other)
		}
		if p.Pronoun && (head == "he" || head == "she" || head == "they" || head == "it") ||
			strings.Contains(strings.ToLower(who), head) {
			return int(situations.Actor)
		}
		return int(situations.Other)
	}
	return int(situations.Actor)
}

// each calls f with each line of a file.
func each(name string, f func([]byte) error) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	sc := bufio.NewScanner(file)
	sc.Buffer(nil, 16<<20)
	for n := 1; sc.Scan(); n++ {
		if len(sc.Bytes()) == 0 {
			continue
		}
		if err := f(sc.Bytes()); err != nil {
			return fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return sc.Err()
}

// reweigh makes events of a feeling count by how much more often stories are
// asked about it than everyday events have it, at most five times.
func (g *gatherer) reweigh() {
	var sum [2][]float64
	for d := range sum {
		sum[d] = make([]float64, len(nlp.Families)+1)
	}
	var n [2]float64
	for _, e := range g.examples {
		if e.held {
			continue
		}
		d := e.domain()
		for c, w := range e.want {
			sum[d][c] += w
			n[d] += w
		}
	}
	ratio := make([]float64, len(sum[0]))
	g.prior = make([]float64, len(ratio))
	for c := range ratio {
		ratio[c] = math.Min(5, math.Max(0.2, (sum[1][c]+2)/(n[1]+60)*(n[0]+60)/(sum[0][c]+2)))
		g.prior[c] = (sum[1][c] + 5) / (n[1] + 5*float64(len(ratio)))
	}
	for i, e := range g.examples {
		if e.story || e.held {
			continue
		}
		w := 0.0
		for c, x := range e.want {
			w += x * ratio[c]
		}
		g.examples[i].weight = w
	}
}
