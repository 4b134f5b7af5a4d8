package feelings

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParseError tells what is wrong with a family file and where.
type ParseError struct {
	File string
	Line int // from 1
	What string
}

func (e *ParseError) Error() string { return fmt.Sprintf("%s:%d: %s", e.File, e.Line, e.What) }

// parse reads a family file. A file must state its source and licence in
// comments before its first family.
func parse(name, text string) (*Table, error) {
	t := &Table{byID: map[string]*Family{}, own: map[string][]Word{}}
	var f *Family
	var source, licence bool
	for n, line := range strings.Split(text, "\n") {
		fail := func(format string, args ...any) error {
			return &ParseError{name, n + 1, fmt.Sprintf(format, args...)}
		}
		line = strings.TrimSpace(line)
		switch {
		case line == "":
			continue
		case line[0] == '#':
			source = source || strings.HasPrefix(line, "# Source:")
			licence = licence || strings.HasPrefix(line, "# Licence:")
			continue
		case !source || !licence:
			return nil, fail("the file must first state \"# Source:\" and \"# Licence:\"")
		case line[0] == '[':
			id := strings.Trim(line, "[]")
			if id == "" || t.byID[id] != nil {
				return nil, fail("family id %q is empty or stands twice", id)
			}
			f = &Family{ID: id, Line: "line." + id}
			t.order, t.byID[id] = append(t.order, id), f
			continue
		}
		key, value, ok := strings.Cut(line, "=")
		if !ok || f == nil {
			return nil, fail("not \"key = value\" inside a family")
		}
		var err error
		switch key = strings.TrimSpace(key); key {
		case "valence":
			f.Valence, err = unit(value, -1)
		case "arousal":
			f.Arousal, err = unit(value, -1)
		case "near":
			f.Near = list(value)
		case "plain":
			f.Plain = list(value)
		case "rich":
			f.Rich = list(value)
		case "also":
			for _, w := range list(value) {
				word := Word{w, 1}
				if i := strings.LastIndexByte(w, ' '); i > 0 && w[i+1] >= '0' && w[i+1] <= '9' {
					word.Text = w[:i]
					if word.Weight, err = unit(w[i+1:], 0); err != nil {
						break
					}
				}
				f.Also = append(f.Also, word)
			}
		case "signs":
			for _, s := range list(value) {
				place, sign, two := strings.Cut(s, " ")
				if !two {
					return nil, fail("sign %q is not \"place sign\"", s)
				}
				f.Signs = append(f.Signs, Sign{place, sign})
			}
		default:
			return nil, fail("unknown key %q", key)
		}
		if err != nil {
			return nil, fail("%s: %v", key, err)
		}
	}
	if len(t.order) == 0 {
		return nil, &ParseError{name, 1, "no family in the file"}
	}
	for id, f := range t.byID {
		t.own[id] = words(f)
	}
	if err := t.link(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return t, nil
}

// unit reads a number from low to 1.
func unit(s string, low float64) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil {
		return 0, fmt.Errorf("%q is no number", strings.TrimSpace(s))
	}
	if math.IsNaN(v) || v < low || v > 1 {
		return 0, fmt.Errorf("%v lies outside %v to 1", v, low)
	}
	return v, nil
}

// list cuts a comma list and drops empty places.
func list(s string) []string {
	var out []string
	for _, p := range strings.Split(s, ",") {
		if p = strings.Join(strings.Fields(p), " "); p != "" {
			out = append(out, p)
		}
	}
	return out
}
