package lemma

import (
	_ "embed"
	"errors"
	"fmt"
	"strconv"
	"strings"
)

//go:embed irregular.txt
var irregularFile string

//go:embed words.txt
var wordFile string

// key is a part of speech (v, b, n, a, r, m, x) and a form.
type key struct {
	kind byte
	form string
}

var (
	forms = must(parseForms(irregularFile))
	uses  = must(parseUses(wordFile))
)

// must is for embedded files, which a test has read before they are shipped.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// parseForms reads the table of irregular forms.
func parseForms(file string) (map[key]string, error) {
	lines, err := body(file)
	if err != nil {
		return nil, fmt.Errorf("irregular forms: %w", err)
	}
	m := map[key]string{}
	for _, l := range lines {
		f := strings.Fields(l)
		if len(f) < 2 || len(f[0]) != 1 || !strings.Contains("vbnarmx", f[0]) {
			return nil, fmt.Errorf("irregular forms: %q is not a kind, a lemma and its forms", l)
		}
		kind := f[0][0]
		for _, form := range f[2:] {
			if _, ok := m[key{kind, form}]; !ok {
				m[key{kind, form}] = f[1] // the first line that has a form wins
			}
		}
	}
	// A lemma stands for itself unless it is a form of another word too.
	for _, l := range lines {
		f := strings.Fields(l)
		if k := (key{f[0][0], f[1]}); m[k] == "" && k.kind != 'v' {
			m[k] = f[1]
		}
	}
	return m, nil
}

// parseUses reads the list of base forms.
func parseUses(file string) (map[string]Use, error) {
	lines, err := body(file)
	if err != nil {
		return nil, fmt.Errorf("words: %w", err)
	}
	m := make(map[string]Use, len(lines))
	for _, l := range lines {
		word, rest, _ := strings.Cut(l, " ")
		var n [4]int
		for i := range n {
			var field string
			field, rest, _ = strings.Cut(rest, " ")
			if n[i], err = strconv.Atoi(field); err != nil {
				return nil, fmt.Errorf("words: %q: %w", l, err)
			}
		}
		m[word] = Use{n[0], n[1], n[2], n[3]}
	}
	return m, nil
}

// body gives the lines of a data file that are neither blank nor comments. A
// file that does not state its source and licence is refused.
func body(file string) ([]string, error) {
	var out []string
	source, licence := false, false
	for l := range strings.SplitSeq(file, "\n") {
		l = strings.TrimSpace(l)
		if c, ok := strings.CutPrefix(l, "#"); ok {
			source = source || strings.HasPrefix(strings.TrimSpace(c), "Source:")
			licence = licence || strings.HasPrefix(strings.TrimSpace(c), "Licence:")
		} else if l != "" {
			out = append(out, l)
		}
	}
	if !source || !licence {
		return nil, errors.New("the file does not state its source and licence")
	}
	return out, nil
}
