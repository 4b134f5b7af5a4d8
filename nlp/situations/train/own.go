package main

import (
	_ "embed"
	"fmt"
	"strings"

	"feltpage/nlp/situations"
)

//go:embed events.txt
var ownEvents string

// ownEvents reads our own invented events.
func (g *gatherer) ownEvents() error {
	return readOwn(ownEvents, func(text string, want []float32) {
		d := g.parse(text)
		r := situations.Read(d, pronounCast(d, ""), nil, nil, g.count)
		g.add(r.Evidence(0, 0), want, 1, invented, -1)
	}, g.labels.class)
}

// readOwn reads lines "sentence | family weight, family weight"; in the
// sentence the one who feels it is every pronoun. "none" is no feeling.
func readOwn(text string, f func(text string, want []float32), class map[string]int) error {
	if !strings.Contains(text, "# Source:") || !strings.Contains(text, "# Licence:") {
		return fmt.Errorf("events.txt does not state its source and licence")
	}
	for n, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		event, says, ok := strings.Cut(line, "|")
		if !ok {
			return fmt.Errorf("events.txt:%d: no \"|\"", n+1)
		}
		want := make([]float32, len(situations.Classes))
		sum := float32(0)
		for _, s := range strings.Split(says, ",") {
			fields := strings.Fields(s)
			w := float32(1)
			if len(fields) == 2 {
				if _, err := fmt.Sscan(fields[1], &w); err != nil {
					return fmt.Errorf("events.txt:%d: %q: %w", n+1, s, err)
				}
			}
			if len(fields) == 0 || len(fields) > 2 || w <= 0 {
				return fmt.Errorf("events.txt:%d: %q is not \"family weight\"", n+1, s)
			}
			k, known := class[fields[0]]
			if fields[0] == "none" {
				k, known = len(want)-1, true
			}
			if !known {
				return fmt.Errorf("events.txt:%d: %q is no family", n+1, fields[0])
			}
			want[k] += w
			sum += w
		}
		for i := range want {
			want[i] /= sum
		}
		f(strings.TrimSpace(event), want)
	}
	return nil
}

//go:embed words.txt
var ownWords string

// parts of words.txt with the slots that they speak for.
var parts = map[string][]situations.Slot{
	"does":  {situations.DoesVerb},
	"meets": {situations.MeetsVerb},
	"owns":  {situations.Owns},
	"hears": {situations.Hears},
	"says":  {situations.Says},
	"scene": {situations.Scene, situations.DoesRest, situations.MeetsRest, situations.Sees},
}

// singleWords reads what single words let one expect, as examples of one word.
func (g *gatherer) singleWords() error {
	if !strings.Contains(ownWords, "# Source:") || !strings.Contains(ownWords, "# Licence:") {
		return fmt.Errorf("words.txt does not state its source and licence")
	}
	type key struct {
		part, word string
	}
	want := map[key][]float32{}
	var order []key
	part := ""
	for n, line := range strings.Split(ownWords, "\n") {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || line[0] == '#':
			continue
		case line[0] == '[':
			if part = strings.Trim(line, "[]"); parts[part] == nil {
				return fmt.Errorf("words.txt:%d: no part %q", n+1, part)
			}
			continue
		}
		family, words, ok := strings.Cut(line, ":")
		class, known := g.labels.class[family]
		if family == "none" {
			class, known = len(situations.Classes)-1, true
		}
		if !ok || !known || part == "" {
			return fmt.Errorf("words.txt:%d: not \"family: words\" inside a part", n+1)
		}
		for _, w := range strings.Fields(words) {
			k := key{part, strings.Replace(w, "not-", "not ", 1)}
			if want[k] == nil {
				want[k] = make([]float32, len(situations.Classes))
				order = append(order, k)
			}
			want[k][class] = 1
		}
	}
	for _, k := range order {
		sum := float32(0)
		for _, x := range want[k] {
			sum += x
		}
		for i := range want[k] {
			want[k][i] /= sum
		}
		for _, s := range parts[k.part] {
			var n int32
			for range 3 { // one word of our own is enough to be known
				n = g.count(k.word)
			}
			g.add([]situations.Evidence{{Slot: s, Word: n, Weight: 1}}, want[k], 1, single, -1)
		}
	}
	return nil
}
