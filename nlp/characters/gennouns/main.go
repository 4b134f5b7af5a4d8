// Command gennouns writes nouns.txt, the nouns of persons, animals and other
// beings, from the noun files of WordNet 3.0 (Debian package wordnet-base).
//
// A noun is kept when its most frequent sense, or most of its counted use in
// WordNet's sense-tagged texts, is a person, an animal or an imaginary being.
// Its gender is that of the WordNet concepts above it (female, male).
package main

import (
	"bufio"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
)

type synset struct {
	file  string // lexicographer file: 18 person, 05 animal
	words []string
	above []string // hypernyms
}

func main() {
	dir := "/usr/share/wordnet"
	if len(os.Args) > 1 {
		dir = os.Args[1]
	}
	if err := write(dir, "nouns.txt"); err != nil {
		log.Fatal(err)
	}
}

func write(dir, to string) error {
	synsets, err := readData(filepath.Join(dir, "data.noun"))
	if err != nil {
		return err
	}
	senses, err := readIndex(filepath.Join(dir, "index.noun"))
	if err != nil {
		return err
	}
	counts, err := readCounts(filepath.Join(dir, "cntlist.rev"))
	if err != nil {
		return err
	}
	k := kinds{synsets: synsets, memo: map[string]map[string]bool{}}
	var lines []string
	for lemma, ids := range senses {
		if strings.ContainsAny(lemma, "_.'0123456789") || len(lemma) < 3 && lemma != "ox" {
			continue
		}
		if line := k.line(lemma, ids, counts[lemma]); line != "" {
			lines = append(lines, line)
		}
	}
	sort.Strings(lines)
	f, err := os.Create(to)
	if err != nil {
		return err
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	fmt.Fprint(w, header)
	for _, l := range lines {
		fmt.Fprintln(w, l)
	}
	return w.Flush()
}

const header = `# Nouns of persons (p), animals (a) and other beings (b), with gender f or m where WordNet tells it.
# Source: WordNet 3.0, noun files, through gennouns (see its comment for the choice); Debian package wordnet-base.
# Licence: WordNet 3.0 Copyright 2006 by Princeton University. All rights reserved. Permission to use, copy, modify
# and distribute this software and database and its documentation for any purpose and without fee or royalty is
# hereby granted, provided that you agree to comply with the following copyright notice and statements, including
# the disclaimer, and that the same appear on ALL copies: THIS SOFTWARE AND DATABASE IS PROVIDED "AS IS" AND
# PRINCETON UNIVERSITY MAKES NO REPRESENTATIONS OR WARRANTIES, EXPRESS OR IMPLIED.
# Generated; mend by people.txt, which is read after it.
`

type kinds struct {
	synsets map[string]synset
	memo    map[string]map[string]bool
}

// above is the words of all concepts above a synset, itself included.
func (k kinds) above(id string) map[string]bool {
	if m, ok := k.memo[id]; ok {
		return m
	}
	m := map[string]bool{}
	k.memo[id] = m
	s := k.synsets[id]
	if len(s.words) > 0 {
		m[s.words[0]] = true
	}
	for _, a := range s.above {
		for w := range k.above(a) {
			m[w] = true
		}
	}
	return m
}

func (k kinds) line(lemma string, ids []string, count map[int]int) string {
	total, alive := 0, 0
	first := ""
	for i, id := range ids {
		n := count[i+1]
		total += n
		if kd := k.kind(id); kd != "" {
			alive += n
			if first == "" {
				first = id
			}
		}
	}
	if first == "" || k.kind(ids[0]) == "" && (total < 3 || alive*2 < total) || total > 0 && alive*3 < total {
		return ""
	}
	lower := false
	for _, w := range k.synsets[first].words {
		lower = lower || w == lemma
	}
	if !lower {
		return "" // a proper name
	}
	up := k.above(first)
	g := ""
	switch f, m := up["female"] || up["female_person"], up["male"] || up["male_person"]; {
	case f && !m:
		g = " f"
	case m && !f:
		g = " m"
	}
	return lemma + " " + k.kind(first) + g
}

func (k kinds) kind(id string) string {
	s := k.synsets[id]
	up := k.above(id)
	switch {
	case up["spiritual_being"] || up["imaginary_being"] || up["mythical_being"]:
		return "b"
	case s.file == "18" && up["person"]:
		return "p"
	case s.file == "05" && (up["animal"]):
		return "a"
	}
	return ""
}

func lines(path string, each func([]string)) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<20)
	for sc.Scan() {
		if t := sc.Text(); !strings.HasPrefix(t, "  ") {
			each(strings.Fields(t))
		}
	}
	return sc.Err()
}

func readData(path string) (map[string]synset, error) {
	out := map[string]synset{}
	err := lines(path, func(f []string) {
		s := synset{file: f[1]}
		n, _ := strconv.ParseInt(f[3], 16, 0)
		for i := 0; i < int(n); i++ {
			s.words = append(s.words, f[4+2*i])
		}
		at := 4 + 2*int(n)
		p, _ := strconv.Atoi(f[at])
		for i := 0; i < p; i++ {
			if sym := f[at+1+4*i]; sym == "@" || sym == "@i" {
				s.above = append(s.above, f[at+2+4*i])
			}
		}
		out[f[0]] = s
	})
	return out, err
}

func readIndex(path string) (map[string][]string, error) {
	out := map[string][]string{}
	err := lines(path, func(f []string) {
		n, _ := strconv.Atoi(f[2])
		out[f[0]] = f[len(f)-n:]
	})
	return out, err
}

// readCounts gives how often each noun sense was tagged: lemma, sense number.
func readCounts(path string) (map[string]map[int]int, error) {
	out := map[string]map[int]int{}
	err := lines(path, func(f []string) {
		lemma, rest, ok := strings.Cut(f[0], "%")
		if !ok || !strings.HasPrefix(rest, "1:") {
			return
		}
		sense, _ := strconv.Atoi(f[1])
		n, _ := strconv.Atoi(f[2])
		if out[lemma] == nil {
			out[lemma] = map[int]int{}
		}
		out[lemma][sense] = n
	})
	return out, err
}
