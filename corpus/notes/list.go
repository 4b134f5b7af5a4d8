package notes

import (
	_ "embed"
	"fmt"
	"sort"
	"strings"
	"sync"
	"unicode"

	"feltpage/corpus"
	"feltpage/nlp"
)

//go:embed data/en.txt
var file string

var english = sync.OnceValue(func() *list {
	l, err := parse("en.txt", file)
	if err != nil {
		panic(err) // a broken embedded file is caught by this package's tests
	}
	return l
})

// Kinds of note, in the order of the list; a note's code is "note." and kind.
var Kinds = []string{"death", "violence", "self-harm", "cruelty", "abandonment", "fear", "drink", "dated"}

// gap stands in a phrase for one or two words of any kind.
const gap = "_"

type entry struct {
	kind    string
	words   []string
	without [][]string
}

// list is the entries by first word.
type list struct{ by map[string][]*entry }

func parse(name, text string) (*list, error) {
	l := &list{by: map[string][]*entry{}}
	source, licence, kind := false, false, ""
	seen := map[string]bool{}
	var last *entry
	for n, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		bad := func(why string) (*list, error) { return nil, fmt.Errorf("%s:%d: %s", name, n+1, why) }
		switch {
		case strings.HasPrefix(line, "#"):
			source = source || strings.HasPrefix(line, "# Source: ")
			licence = licence || strings.HasPrefix(line, "# Licence: ")
		case line == "":
		case strings.HasPrefix(line, "[") && strings.HasSuffix(line, "]"):
			kind, last = line[1:len(line)-1], nil
			if !known(kind) {
				return bad("unknown kind " + kind)
			}
		case strings.HasPrefix(line, "- "):
			if last == nil {
				return bad("an exception without its entry")
			}
			last.without = append(last.without, strings.Fields(line[2:]))
		default:
			words := strings.Fields(line)
			if kind == "" || words[0] == gap || words[len(words)-1] == gap {
				return bad("an entry without kind, or one that begins or ends with a gap")
			}
			if seen[kind+" "+line] {
				return bad("twice: " + line)
			}
			seen[kind+" "+line] = true
			last = &entry{kind: kind, words: words}
			l.by[words[0]] = append(l.by[words[0]], last)
		}
	}
	if !source || !licence {
		return nil, fmt.Errorf("%s: no source or licence line", name)
	}
	return l, nil
}

func known(kind string) bool {
	for _, k := range Kinds {
		if k == kind {
			return true
		}
	}
	return false
}

// word is a word of the text: its span, its lower-case form and the forms it
// may be a regular form of.
type word struct {
	span  nlp.Span
	bases []string // the first is the word itself
}

func (w word) is(s string) bool {
	for _, b := range w.bases {
		if b == s {
			return true
		}
	}
	return false
}

// find gives at most one note of a kind for each place; the longest phrase
// wins.
func (l *list) find(text string) []corpus.Note {
	words := split(text)
	var out []corpus.Note
	until := map[string]int{} // kind to end of its last note
	for i, w := range words {
		best := map[string]nlp.Span{}
		for _, b := range w.bases {
			for _, e := range l.by[b] {
				end, ok := match(words, i, e.words)
				if !ok || e.excused(words, i) {
					continue
				}
				s := nlp.Span{Start: w.span.Start, End: words[end-1].span.End}
				if s.Start >= until[e.kind] && s.Len() > best[e.kind].Len() {
					best[e.kind] = s
				}
			}
		}
		for _, k := range Kinds {
			if s, ok := best[k]; ok {
				out = append(out, corpus.Note{Code: "note." + k, Span: s})
				until[k] = s.End
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Span.Start < out[j].Span.Start })
	return out
}

// match reports whether the phrase stands at word i, and the word after it.
func match(words []word, i int, phrase []string) (end int, ok bool) {
	if len(phrase) == 0 {
		return i, true
	}
	if phrase[0] == gap {
		for skip := 1; skip <= 2; skip++ {
			if i+skip <= len(words) {
				if end, ok := match(words, i+skip, phrase[1:]); ok {
					return end, true
				}
			}
		}
		return 0, false
	}
	if i >= len(words) || !words[i].is(phrase[0]) {
		return 0, false
	}
	return match(words, i+1, phrase[1:])
}

// excused reports whether one of the entry's exceptions stands around word i.
func (e *entry) excused(words []word, i int) bool {
	for _, x := range e.without {
		for back := 0; back < len(x); back++ {
			if i-back < 0 || !words[i].is(x[back]) {
				continue
			}
			if _, ok := match(words, i-back, x); ok {
				return true
			}
		}
	}
	return false
}

// split cuts a text into words with letters, inner hyphens and apostrophes.
func split(text string) []word {
	var out []word
	start := -1
	flush := func(end int) {
		if start < 0 {
			return
		}
		s := strings.TrimRight(text[start:end], "-'’")
		if s != "" {
			lower := strings.ToLower(strings.ReplaceAll(s, "’", "'"))
			out = append(out, word{nlp.Span{Start: start, End: start + len(s)}, bases(lower)})
		}
		start = -1
	}
	for i, r := range text {
		inside := unicode.IsLetter(r) || unicode.Is(unicode.Mn, r) || start >= 0 && (r == '\'' || r == '’' || r == '-' && !strings.HasPrefix(text[i+1:], "-"))
		switch {
		case inside && start < 0:
			start = i
		case !inside:
			flush(i)
		}
	}
	flush(len(text))
	return out
}

// bases lists the word and what it may be a regular form of.
func bases(w string) []string {
	w = strings.TrimSuffix(w, "'s")
	out := []string{w}
	add := func(s string) {
		if len(s) > 2 {
			out = append(out, s)
		}
	}
	for _, e := range []string{"s", "es", "ed", "d", "ing", "er", "ers"} {
		stem, ok := strings.CutSuffix(w, e)
		if !ok || len(stem) < 3 || e == "d" && stem[len(stem)-1] != 'e' {
			continue
		}
		add(stem)
		if e == "ing" || e == "er" || e == "ers" {
			add(stem + "e")
		}
		if n := len(stem); e != "s" && e != "d" && n > 3 && stem[n-1] == stem[n-2] {
			add(stem[:n-1]) // stabbed
		}
		if s, ok := strings.CutSuffix(stem, "i"); ok && (e == "es" || e == "ed") {
			add(s + "y")
		}
	}
	return out
}
