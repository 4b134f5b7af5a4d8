package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// vectors holds unit word vectors.
type vectors map[string][]float32

// dims is how many numbers a vector has.
const dims = 100

// readVectors reads the vectors file and scales each vector to length 1.
func readVectors(name string) (vectors, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var file struct {
		Vectors map[string][]float64 `json:"vectors"`
	}
	if err := json.NewDecoder(bufio.NewReaderSize(f, 1<<20)).Decode(&file); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	out := make(vectors, len(file.Vectors))
	for w, v := range file.Vectors {
		if len(v) < dims {
			return nil, fmt.Errorf("%s: %q has %d numbers, not %d", name, w, len(v), dims)
		}
		u, norm := make([]float32, dims), 0.0
		for _, x := range v[:dims] {
			norm += x * x
		}
		if norm == 0 {
			continue
		}
		for i := range u {
			u[i] = float32(v[i] / math.Sqrt(norm))
		}
		out[w] = u
	}
	return out, nil
}

func cosine(a, b []float32) float64 {
	s := 0.0
	for i := range a {
		s += float64(a[i]) * float64(b[i])
	}
	return s
}

// labeller turns a person's answer ("very sad", "angry, upset") into classes.
type labeller struct {
	table *feelings.Table
	vec   vectors
	class map[string]int
	near  map[string][]float64 // cache of words judged by their neighbours
	words []string
}

func newLabeller(t *feelings.Table, vec vectors) *labeller {
	l := &labeller{table: t, vec: vec, class: map[string]int{}, near: map[string][]float64{}}
	for i, f := range nlp.Families {
		l.class[f] = i
	}
	for _, w := range t.Words() {
		if vec[w] != nil {
			l.words = append(l.words, w)
		}
	}
	return l
}

// nearEnough is how like a known feeling word an unknown one must be to take
// its family; below it, neighbours are often opposites.
const nearEnough = 0.62

// label gives the share of each class (the last is "none"), or nil where the
// answer says no feeling that is known.
func (l *labeller) label(answer string) []float64 {
	answer = strings.ToLower(strings.TrimSpace(answer))
	sum := make([]float64, len(nlp.Families)+1)
	if answer == "none" || answer == "" {
		sum[len(nlp.Families)] = 1
		return sum
	}
	n := 0.0
	add := func(ws []nlp.Weight) {
		total := 0.0
		for _, w := range ws {
			total += w.Weight
		}
		for _, w := range ws {
			if i, ok := l.class[w.Family]; ok {
				sum[i] += w.Weight / total
				n += w.Weight / total
			}
		}
	}
	if ws := l.table.FamilyOf(answer); len(ws) > 0 {
		add(ws)
	} else {
		for _, word := range strings.FieldsFunc(answer, func(r rune) bool { return (r < 'a' || r > 'z') && r != '-' }) {
			if ws := l.table.FamilyOf(word); len(ws) > 0 {
				add(ws)
			} else if u := l.byNeighbours(word); u != nil && !strings.Contains(answer, " ") {
				for i, x := range u {
					sum[i] += x
				}
				n++
			}
		}
		if strings.Contains(answer, "not ") || strings.Contains(answer, "n't") {
			return nil
		}
	}
	if n == 0 {
		return nil
	}
	for i := range sum {
		sum[i] /= n
	}
	return sum
}

// byNeighbours gives an unknown word the families of the known words that are
// used most like it.
func (l *labeller) byNeighbours(word string) []float64 {
	if got, ok := l.near[word]; ok {
		return got
	}
	l.near[word] = nil
	v := l.vec[word]
	if v == nil {
		return nil
	}
	sum, total := make([]float64, len(nlp.Families)+1), 0.0
	for _, w := range l.words {
		c := cosine(v, l.vec[w])
		if c < nearEnough {
			continue
		}
		for _, f := range l.table.FamilyOf(w) {
			if i, ok := l.class[f.Family]; ok {
				sum[i] += f.Weight * math.Pow(c, 8)
				total += f.Weight * math.Pow(c, 8)
			}
		}
	}
	if total == 0 {
		return nil
	}
	for i := range sum {
		sum[i] /= total
	}
	l.near[word] = sum
	return sum
}
