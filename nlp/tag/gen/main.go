// Command gen turns the trained weights in the module prose/v2 into the table
// that package tag embeds. Run it by "go generate ./nlp/tag"; the same weights
// give the same bytes.
//
// The weights are an averaged perceptron's, rounded to thousandths by whoever
// trained them, so they are kept as whole thousandths and nothing is lost.
package main

import (
	"bytes"
	"encoding/binary"
	"encoding/gob"
	"fmt"
	"log"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// model is what the module's three files hold.
type model struct {
	weights map[string]map[string]float64 // feature, then tag
	known   map[string]string             // words with one tag only
	classes []string
}

func main() {
	log.SetFlags(0)
	if len(os.Args) != 2 {
		log.Fatal("usage: gen FILE")
	}
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/jdkato/prose/v2").Output()
	if err != nil {
		log.Fatalf("find the module prose/v2: %v", err)
	}
	m, err := read(filepath.Join(strings.TrimSpace(string(dir)), "model", "AveragedPerceptron"))
	if err != nil {
		log.Fatal(err)
	}
	table, err := m.table()
	if err != nil {
		log.Fatal(err)
	}
	if err := os.WriteFile(os.Args[1], table, 0o644); err != nil {
		log.Fatal(err)
	}
}

func read(dir string) (*model, error) {
	m := &model{}
	for name, into := range map[string]any{"weights.gob": &m.weights, "tags.gob": &m.known, "classes.gob": &m.classes} {
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			return nil, err
		}
		err = gob.NewDecoder(f).Decode(into)
		f.Close()
		if err != nil {
			return nil, fmt.Errorf("read %s: %w", name, err)
		}
	}
	slices.Sort(m.classes) // the order in which ties are broken
	return m, nil
}

// writer writes the numbers and strings of the table.
type writer struct {
	bytes.Buffer
	class map[string]int
	used  int // features written
}

func (w *writer) number(n int) { w.Write(binary.AppendUvarint(nil, uint64(n))) }
func (w *writer) text(s string) {
	w.number(len(s))
	w.WriteString(s)
}

// row writes the weights of one feature, in the order of the tags.
func (w *writer) row(m *model, feature string) error {
	row := m.weights[feature]
	w.number(len(row))
	for _, tag := range slices.Sorted(maps.Keys(row)) {
		n := math.Round(row[tag] * 1000)
		if math.Abs(n-row[tag]*1000) > 1e-6 || math.Abs(n) >= 1<<25 {
			return fmt.Errorf("weight %v of %q is not in thousandths", row[tag], feature)
		}
		c, ok := w.class[tag]
		if !ok {
			return fmt.Errorf("%q has the unknown tag %q", feature, tag)
		}
		w.WriteByte(byte(c))
		w.Write(binary.AppendVarint(nil, int64(n)))
	}
	if row != nil {
		w.used++
	}
	return nil
}

// table lays the model out as tag/table.go reads it.
func (m *model) table() ([]byte, error) {
	w := &writer{class: map[string]int{}}
	for i, c := range m.classes {
		w.class[c] = i
	}
	tags := append(slices.Clone(m.classes), "-START-", "-START2-")
	w.WriteString("feltpage tags 1\n")
	w.number(len(m.classes))
	for _, c := range m.classes {
		w.text(c)
	}
	w.number(len(m.known))
	for _, word := range slices.Sorted(maps.Keys(m.known)) {
		w.text(word)
		w.number(w.class[m.known[word]])
	}

	// Which strings each group of features speaks of.
	suffixes, words := map[string]bool{}, map[string]bool{}
	pairs := map[string][]int{} // word to tags before it
	firsts := map[string]bool{}
	for f := range m.weights {
		if rest, ok := strings.CutPrefix(f, "i-1 tag+i word "); ok {
			tag, word, ok := strings.Cut(rest, " ")
			t := slices.Index(tags, tag)
			if !ok || t < 0 {
				return nil, fmt.Errorf("unknown feature %q", f)
			}
			pairs[word] = append(pairs[word], t)
			words[word] = true
		}
		for _, p := range suffixFeatures {
			if s, ok := strings.CutPrefix(f, p); ok {
				suffixes[s] = true
			}
		}
		for _, p := range wordFeatures {
			if s, ok := strings.CutPrefix(f, p); ok {
				words[s] = true
			}
		}
		if s, ok := strings.CutPrefix(f, "i pref1 "); ok {
			firsts[s] = true
		}
	}

	var rows []string
	add := func(features ...string) { rows = append(rows, features...) }
	flush := func() error {
		for _, f := range rows {
			if err := w.row(m, f); err != nil {
				return err
			}
		}
		rows = rows[:0]
		return nil
	}

	add("bias")
	for _, p1 := range tags {
		add("i-1 tag "+p1, "i-2 tag "+p1)
		for _, p2 := range tags {
			add("i tag+i-2 tag " + p1 + " " + p2)
		}
	}
	if err := flush(); err != nil {
		return nil, err
	}
	w.number(len(firsts))
	for _, s := range slices.Sorted(maps.Keys(firsts)) {
		w.text(s)
		if err := w.row(m, "i pref1 "+s); err != nil {
			return nil, err
		}
	}
	w.number(len(suffixes))
	for _, s := range slices.Sorted(maps.Keys(suffixes)) {
		w.text(s)
		for _, p := range suffixFeatures {
			add(p + s)
		}
		if err := flush(); err != nil {
			return nil, err
		}
	}
	w.number(len(words))
	for _, s := range slices.Sorted(maps.Keys(words)) {
		w.text(s)
		before := pairs[s]
		slices.Sort(before)
		for _, p := range wordFeatures {
			add(p + s)
		}
		w.number(len(before))
		for _, t := range before {
			w.number(t)
			add("i-1 tag+i word " + tags[t] + " " + s)
		}
		if err := flush(); err != nil {
			return nil, err
		}
	}
	if w.used != len(m.weights) {
		return nil, fmt.Errorf("wrote %d features of %d", w.used, len(m.weights))
	}
	return w.Bytes(), nil
}

// The templates in the order in which tag adds their weights.
var (
	suffixFeatures = []string{"i suffix ", "i-1 suffix ", "i+1 suffix "}
	wordFeatures   = []string{"i word ", "i-1 word ", "i-2 word ", "i+1 word ", "i+2 word "}
)
