// Package cues finds the words of a text that show a state of one character:
// that name a feeling, or show it in the body, the face and voice, in what is
// done and what is said.
//
// The knowledge lies in readable files (lexicon/en); the code knows no feeling
// and no word of one. Load once and share the Lexicon; Find reads one document
// with its cast and quotes. Find is deterministic and takes time linear in the
// length of the text.
package cues

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"sort"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/lemma"
	"feltpage/nlp/segment"
)

//go:embed lexicon
var files embed.FS

// Lexicon is the compiled patterns. It is not changed after it was made and
// may be used by several goroutines at once.
type Lexicon struct {
	patterns []*pattern
	words    map[string]int32 // every word of a pattern
	byAnchor [][]*pattern     // by word id
}

// Load compiles the shipped lexicon. An error means a file of it is broken.
func Load() (*Lexicon, error) {
	rows, err := readAll(files, "lexicon/en")
	if err != nil {
		return nil, fmt.Errorf("loading the cue lexicon: %w", err)
	}
	lx, err := build(rows)
	if err != nil {
		return nil, fmt.Errorf("loading the cue lexicon: %w", err)
	}
	return lx, nil
}

func readAll(fsys fs.FS, dir string) ([]row, error) {
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		return nil, err
	}
	var rows []row
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		b, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		rs, err := parse(name, string(b))
		if err != nil {
			return nil, err
		}
		rows = append(rows, rs...)
	}
	return rows, nil
}

func build(rows []row) (*Lexicon, error) {
	lx := &Lexicon{}
	for i := range rows {
		p, err := compile(&rows[i])
		if err != nil {
			return nil, &ParseError{rows[i].file, rows[i].line, err.Error()}
		}
		lx.patterns = append(lx.patterns, p)
	}
	lx.index()
	return lx, nil
}

// index numbers the words and sorts the patterns under their anchors.
func (lx *Lexicon) index() {
	lx.words = map[string]int32{}
	id := func(w string) int32 {
		n, ok := lx.words[w]
		if !ok {
			n = int32(len(lx.words) + 1)
			lx.words[w] = n
		}
		return n
	}
	for i, p := range lx.patterns {
		p.index = i
		for e := range p.elements {
			for a := range p.elements[e].alts {
				alt := &p.elements[e].alts[a]
				alt.id = id(alt.word)
			}
		}
	}
	lx.byAnchor = make([][]*pattern, len(lx.words)+1)
	for _, p := range lx.patterns {
		seen := map[int32]bool{}
		for _, a := range p.elements[p.anchor].alts {
			if !seen[a.id] {
				seen[a.id] = true
				lx.byAnchor[a.id] = append(lx.byAnchor[a.id], p)
			}
		}
	}
}

// Expression is a household's own way of saying how someone feels. Phrase is
// plain words ("his tummy did flips"); possessives in it stand for anybody's.
// Kind and Place may be empty.
type Expression struct {
	Phrase string
	Family string
	Place  string
	Kind   string
}

// With gives a new lexicon that knows the expressions too. An expression
// without a word or without a family is left out.
func (lx *Lexicon) With(own []Expression) *Lexicon {
	n := &Lexicon{}
	for _, p := range lx.patterns {
		c := *p
		c.elements = make([]element, len(p.elements))
		for i, e := range p.elements {
			e.alts = append([]alternative(nil), e.alts...)
			c.elements[i] = e
		}
		n.patterns = append(n.patterns, &c)
	}
	for _, x := range own {
		if p := compileOwn(x); p != nil {
			n.patterns = append(n.patterns, p)
		}
	}
	n.index()
	return n
}

// compileOwn makes a pattern of plain words: each matches in all its forms.
func compileOwn(x Expression) *pattern {
	if strings.TrimSpace(x.Family) == "" {
		return nil
	}
	r := &row{file: "own", kind: x.Kind, class: classPattern, pattern: strings.ToLower(strings.TrimSpace(x.Phrase)),
		feelings: []nlp.Weight{{Family: x.Family, Weight: 1}}, code: "own-words", source: "the household"}
	if r.kind == "" {
		r.kind = nlp.Body
		if x.Place == "" {
			r.kind = nlp.Named
		}
	}
	if r.kind == nlp.Speech {
		r.class = classSpeech
	}
	if x.Place != "" {
		r.places = []string{x.Place}
	}
	p := &pattern{row: r, anchor: -1}
	best := 0
	d := segment.Split(x.Phrase)
	for _, t := range d.Tokens {
		if possessives[t.Lower] {
			p.elements = append(p.elements, element{kind: elPoss})
			p.weight += 10
			continue
		}
		if reflexive[t.Lower] {
			p.elements = append(p.elements, element{kind: elSelf})
			p.weight += 10
			continue
		}
		if t.Tag == "POS" || !wordlike(t.Lower) {
			continue
		}
		e := element{kind: elWord}
		for _, w := range forms(t.Lower) {
			e.alts = append(e.alts, alternative{word: w})
		}
		if c := commonness(t.Lower); p.anchor < 0 || c < best {
			p.anchor, best = len(p.elements), c
		}
		p.elements = append(p.elements, e)
		p.weight += 13
	}
	if p.anchor < 0 {
		return nil
	}
	return p
}

func wordlike(w string) bool {
	for _, c := range w {
		if c >= 'a' && c <= 'z' || c > 127 {
			return true
		}
	}
	return false
}

// forms gives a word and its possible lemmas.
func forms(w string) []string {
	out := []string{w}
	for _, tag := range []string{"VBD", "VBN", "VBG", "VBZ", "NNS"} {
		l := lemma.Of(w, tag)
		if l != "" && !contains(out, l) {
			out = append(out, l)
		}
	}
	return out
}

func contains(ss []string, s string) bool {
	for _, x := range ss {
		if x == s {
			return true
		}
	}
	return false
}

// Rules lists the names of all rules in order, for reports on how often each
// is met.
func (lx *Lexicon) Rules() []string {
	var out []string
	for _, p := range lx.patterns {
		if p.row.class != classStop {
			out = append(out, p.row.name())
		}
	}
	sort.Strings(out)
	return out
}
