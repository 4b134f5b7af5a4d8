package cues

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"feltpage/nlp"
)

// A ParseError says which line of a lexicon file cannot be read, and why.
type ParseError struct {
	File string
	Line int // from 1
	Why  string
}

func (e *ParseError) Error() string { return fmt.Sprintf("%s:%d: %s", e.File, e.Line, e.Why) }

// Classes of rows: how the owner of a cue is found and which uses count.
const (
	classAdj     = "adj"     // "was afraid", "the frightened boy"
	classAdv     = "adv"     // "said sadly"
	classNoun    = "noun"    // "with joy", "his grief"
	classVerb    = "verb"    // the one who feels is the subject: "grieved"
	classObject  = "object"  // the one who feels is the object: "frightened him"
	classPattern = "pattern" // several words, or a verb that is done
	classSpeech  = "speech"  // inside quotes; the speaker's
	classStop    = "stop"    // words that look like a cue and are none
)

// Whose the cue is, where a row says more than its class.
const (
	whoseSubject = "subject"
	whosePoss    = "possessor"
	whoseObject  = "object"
	whoseNear    = "near"
	whoseAfter   = "after" // the next one named after the words
)

// row is one line of a lexicon file.
type row struct {
	file     string
	line     int
	kind     string
	class    string
	pattern  string
	feelings []nlp.Weight
	places   []string
	sign     string
	whose    string
	strength string
	code     string
	source   string
	use      string // narrower use: weak, report, cry, exclaim ...
	hits     []string
	misses   []string
}

// name is the rule's name: the words of the pattern.
func (r *row) name() string { return r.kind + ":" + r.pattern }

// parse reads one lexicon file. A file must give its language, kind, source,
// licence and reason code before its first row.
func parse(file, text string) ([]row, error) {
	head := map[string]string{}
	var rows []row
	for n, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		fail := func(why string, a ...any) error { return &ParseError{file, n + 1, fmt.Sprintf(why, a...)} }
		if line == "" || line[0] == '#' {
			continue
		}
		if line[0] == '@' {
			key, value, _ := strings.Cut(line[1:], " ")
			value = strings.TrimSpace(value)
			if value == "" {
				return nil, fail("@%s has no value", key)
			}
			head[key] = value
			continue
		}
		for _, key := range []string{"language", "kind", "source", "licence", "code", "class"} {
			if head[key] == "" {
				return nil, fail("row before @%s", key)
			}
		}
		r, why := parseRow(line)
		if why != "" {
			return nil, fail("%s", why)
		}
		r.file, r.line, r.kind = file, n+1, head["kind"]
		if r.class == "" {
			r.class = head["class"]
		}
		if r.source == "" {
			r.source = head["source"]
		}
		if r.code == "" {
			r.code = head["code"]
		}
		if s := head["scale"]; s != "" {
			by, err := strconv.ParseFloat(s, 64)
			if err != nil || !(by > 0 && by <= 1) {
				return nil, fail("@scale %q is not above 0 to 1", s)
			}
			for i := range r.feelings {
				r.feelings[i].Weight = math.Round(r.feelings[i].Weight*by*100) / 100
			}
		}
		rows = append(rows, r)
	}
	return rows, nil
}

// parseRow reads "pattern ; families ; attributes ; + hit ; - miss".
func parseRow(line string) (row, string) {
	var r row
	for i, f := range strings.Split(line, ";") {
		f = strings.TrimSpace(f)
		switch {
		case i == 0:
			r.pattern = f
		case strings.HasPrefix(f, "+ "):
			r.hits = append(r.hits, strings.TrimSpace(f[2:]))
		case strings.HasPrefix(f, "- "):
			r.misses = append(r.misses, strings.TrimSpace(f[2:]))
		case i == 1:
			ws, why := parseWeights(f)
			if why != "" {
				return r, why
			}
			r.feelings = ws
		case i == 2:
			if why := r.attributes(f); why != "" {
				return r, why
			}
		case f != "":
			return r, fmt.Sprintf("cannot read %q: an example begins with + or -", f)
		}
	}
	if r.pattern == "" {
		return r, "no pattern"
	}
	return r, ""
}

func parseWeights(s string) ([]nlp.Weight, string) {
	var out []nlp.Weight
	for _, f := range strings.Split(s, ",") {
		if f = strings.TrimSpace(f); f == "" {
			continue
		}
		name, num, _ := strings.Cut(f, " ")
		w, err := strconv.ParseFloat(strings.TrimSpace(num), 64)
		if err != nil || !(w > 0 && w <= 1) {
			return nil, fmt.Sprintf("%q is not a family and a weight above 0 to 1", f)
		}
		for _, o := range out {
			if o.Family == name {
				return nil, fmt.Sprintf("family %q stands twice", name)
			}
		}
		out = append(out, nlp.Weight{Family: name, Weight: w})
	}
	heaviestFirst(out)
	return out, ""
}

func heaviestFirst(ws []nlp.Weight) {
	sort.SliceStable(ws, func(i, j int) bool {
		if ws[i].Weight != ws[j].Weight {
			return ws[i].Weight > ws[j].Weight
		}
		return ws[i].Family < ws[j].Family
	})
}

func (r *row) attributes(s string) string {
	for _, f := range strings.Fields(s) {
		key, value, ok := strings.Cut(f, "=")
		if !ok || value == "" {
			return fmt.Sprintf("%q is not key=value", f)
		}
		switch key {
		case "at":
			r.places = strings.Split(value, ",")
		case "sign":
			r.sign = value
		case "whose":
			r.whose = value
		case "strength":
			r.strength = value
		case "code":
			r.code = value
		case "source":
			r.source = strings.ReplaceAll(value, "_", " ")
		case "class":
			r.class = value
		case "as":
			r.use = value
		default:
			return fmt.Sprintf("unknown attribute %q", key)
		}
	}
	return ""
}
