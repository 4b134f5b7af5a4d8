package quotes

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
	"unicode"

	"feltpage/nlp"
)

//go:embed speech-verbs.txt
var speechVerbs string

// forms is every form of the reporting verbs.
var forms = sync.OnceValue(func() map[string]bool {
	m, err := parseVerbs(speechVerbs)
	if err != nil {
		panic(err) // a test reads the same embedded file
	}
	return m
})

// Reports tells whether the lower-case word is a form of a verb that can
// report speech or thought (said, cried, thought).
func Reports(word string) bool { return forms()[word] }

func parseVerbs(text string) (map[string]bool, error) {
	if !strings.Contains(text, "# Source:") || !strings.Contains(text, "# Licence:") {
		return nil, fmt.Errorf("speech verbs: the file states no source or licence")
	}
	m := map[string]bool{}
	for n, line := range strings.Split(text, "\n") {
		f := strings.Fields(line)
		if len(f) == 0 || strings.HasPrefix(line, "#") {
			continue
		}
		for _, w := range f {
			if w != strings.ToLower(w) {
				return nil, fmt.Errorf("speech verbs: line %d: %q is not lower case", n+1, w)
			}
			m[w] = true
		}
		if len(f) == 1 {
			m[f[0]+"s"], m[f[0]+"ed"], m[f[0]+"ing"] = true, true, true
		}
	}
	return m, nil
}

// speechOnly leaves out words in marks that nobody speaks: names, titles and
// words held at arm's length ("the so-called 'bakery'"). Those are short,
// stand inside a sentence, end without punctuation and have no reporting
// verb next to them.
func speechOnly(d *nlp.Document, spans []nlp.Span) []nlp.Span {
	out := spans[:0:0]
	first := 0
	for _, s := range spans {
		for first < len(d.Tokens) && d.Tokens[first].Span.End <= s.Start {
			first++
		}
		end := first
		words := 0
		for end < len(d.Tokens) && d.Tokens[end].Span.Start < s.End && words <= 4 {
			if word(firstRune(d.Tokens[end].Lower)) {
				words++
			}
			end++
		}
		if words == 0 {
			continue
		}
		if words > 4 || !mention(d, s, first, end, words) {
			out = append(out, s)
		}
	}
	return out
}

// mention reports whether the few words in marks are named and not said.
func mention(d *nlp.Document, s nlp.Span, first, end, words int) bool {
	in := strings.TrimRight(s.Of(d.Text), "\"'“”’»› \t\r\n")
	aside := lowerStart(in) && first > 0 && word(firstRune(d.Tokens[first-1].Lower))
	if i := wordBefore(d, first); i == first-1 && i >= 0 && d.Tokens[i].Lower == "called" && words <= 3 && (lastRune(in) == '.' || lastRune(in) == ',') {
		return true // "a house called 'Gull's Rest.'"
	}
	if last := lastRune(in); in != "" && stop(last) && !(aside && words <= 3 && (last == ',' || last == '.')) {
		return false
	}
	if words > 3 && !upper(d, min(first+1, len(d.Tokens)-1)) {
		return false
	}
	if i := wordBefore(d, first); i >= 0 && Reports(d.Tokens[i].Lower) && d.Tokens[i].Lower != "called" {
		return false
	}
	for i := end; i < len(d.Tokens) && i < end+4; i++ {
		if Reports(d.Tokens[i].Lower) {
			return false
		}
	}
	// Alone in its paragraph, or a sentence of its own: said.
	before := first == 0 || paragraphStart(d, first) || ends(d, first-1) || d.Tokens[first-1].Lower == ":" || d.Tokens[first-1].Lower == ","
	after := end >= len(d.Tokens) || paragraphStart(d, end) || upper(d, end)
	return !(before && after)
}

// wordBefore gives the token before i that is no punctuation, or -1.
func wordBefore(d *nlp.Document, i int) int {
	for i--; i >= 0; i-- {
		if word(firstRune(d.Tokens[i].Lower)) {
			return i
		}
		switch d.Tokens[i].Lower {
		case ",", ":":
		default:
			return -1
		}
	}
	return -1
}

// lowerStart reports whether the first letter after the mark is small.
func lowerStart(s string) bool {
	for _, r := range s {
		if unicode.IsLetter(r) {
			return unicode.IsLower(r)
		}
	}
	return false
}

func firstRune(s string) rune {
	for _, r := range s {
		return r
	}
	return 0
}

func lastRune(s string) rune {
	var last rune
	for _, r := range s {
		last = r
	}
	return last
}
