package main

import (
	"math"
	"regexp"
	"strings"

	"feltpage/nlp"
)

var (
	asks      = regexp.MustCompile(`(?i)^(?:how|what|why)\s+(?:did|does|do|will|would|was|were|is|had|has|could|can)\s+(.*?)\s+(?:feel|felt|feeling|become|look|react)\b`)
	feel      = regexp.MustCompile(`\bfe(?:el|lt|eling)\b`)
	plainWord = regexp.MustCompile(`[a-z][a-z'’-]*`)
	notHeads  = set(`the a an of his her their its my your our this that these those and with who whom to in on at for some one two three all every each old young little poor good big great first second third other`)
	pronouns  = set(`he she it they him her them his hers its their theirs i me my mine we us our you your himself herself itself themselves myself`)
)

func set(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// content gives the words of s that tell it from others, lower case.
func content(s string) []string {
	var out []string
	for _, w := range plainWord.FindAllString(strings.ToLower(s), -1) {
		w = strings.TrimSuffix(strings.TrimSuffix(w, "'s"), "’s")
		if !notHeads[w] && !pronouns[w] {
			out = append(out, w)
		}
	}
	return out
}

// who gives what the question calls the character it asks about.
func (q question) who() string {
	if m := asks.FindStringSubmatch(strings.TrimSpace(q.Question)); m != nil {
		return m[1]
	}
	return ""
}

// tail gives what the question says happened: what follows "feel".
func (q question) tail() string {
	p := feel.Split(q.Question, 2)
	return strings.TrimRight(strings.TrimSpace(p[len(p)-1]), "?")
}

// asked lists the characters of a story that a name may mean.
func (s *story) asked(name string) map[int]bool {
	want := content(name)
	if len(want) == 0 {
		return nil
	}
	head, in := want[len(want)-1], set(strings.Join(want, " "))
	out := map[int]bool{}
	for _, c := range s.cast {
		names := append([]string{c.Name}, c.Aliases...)
		for _, m := range c.Mentions {
			if !m.Pronoun {
				names = append(names, m.Span.Of(s.doc.Text))
			}
		}
		for _, n := range names {
			have := content(n)
			if len(have) == 0 {
				continue
			}
			last := have[len(have)-1]
			both := false
			for _, w := range have {
				both = both || w == head
			}
			if last == head || in[last] || both {
				out[c.ID] = true
				break
			}
		}
	}
	return out
}

// near gives for each sentence of the question's sections how near it is to
// the one that shares most words with what the question asks about: 1 there,
// falling with the distance; 1 everywhere where nothing is shared.
func (s *story) near(q question) map[int]float64 {
	stem := func(w string) string { return w[:min(5, len(w))] }
	want := map[string]bool{}
	for _, w := range content(q.tail()) {
		if len(w) > 2 {
			want[stem(w)] = true
		}
	}
	var inside []int
	best, anchor := 0, -1
	for i, x := range s.doc.Sentences {
		ok := false
		for _, n := range q.Sections {
			sec, known := s.sections[n]
			ok = ok || known && sec.Start <= x.Span.Start && x.Span.Start < sec.End
		}
		if !ok {
			continue
		}
		got := map[string]bool{}
		for _, w := range content(x.Span.Of(s.doc.Text)) {
			if want[stem(w)] {
				got[stem(w)] = true
			}
		}
		if len(got) > best {
			best, anchor = len(got), len(inside)
		}
		inside = append(inside, i)
	}
	out := map[int]float64{}
	for k, i := range inside {
		out[i] = 1
		if anchor >= 0 {
			out[i] = 1 / (1 + math.Abs(float64(k-anchor))/2)
		}
	}
	return out
}

// pronounCast makes the pronouns of a short sentence, and the nouns called
// like name, the one character of it.
func pronounCast(d *nlp.Document, name string) []nlp.Character {
	head := ""
	if c := content(name); len(c) > 0 {
		head = c[len(c)-1]
	}
	c := nlp.Character{Name: name}
	for i, t := range d.Tokens {
		p := pronouns[t.Lower] && t.Lower != "it" && t.Lower != "its"
		if p || head != "" && (t.Lower == head || t.Lemma == head) {
			c.Mentions = append(c.Mentions, nlp.Mention{Span: t.Span, First: i, End: i + 1, Head: i, Pronoun: p})
		}
	}
	return []nlp.Character{c}
}
