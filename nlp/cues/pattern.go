package cues

import (
	"fmt"
	"strings"
)

// Kinds of pattern elements.
const (
	elWord = iota // one token out of several alternatives
	elPoss        // POSS: his, the boy's
	elObj         // OBJ: a noun phrase or pronoun
	elSelf        // SELF: himself
	elGap         // ...: up to gapMax tokens
)

const (
	gapMax  = 5 // tokens a gap may skip
	skipMax = 2 // adverbs and adjectives that may stand between two elements
)

// alternative is one word an element accepts.
type alternative struct {
	word  string
	id    int32
	exact bool   // the form as written in lower case, not the lemma
	tag   string // prefix of the tag, or ""
}

// element is one place of a pattern.
type element struct {
	kind     int
	optional bool
	alts     []alternative
	tight    bool // a mark: nothing may stand before it
}

// pattern is a compiled row.
type pattern struct {
	row      *row
	index    int
	elements []element
	anchor   int  // element by which it is found
	weight   int  // how much it asks for; the more asking of two wins
	negative bool // a negation is part of it: "could not bear"
	modal    bool // so is a modal
	being    bool // so is a form of "be", so the subject is the one it is said of
}

// compile reads the pattern language:
//
//	word       the lemma, or the word as written
//	=word      only the word as written, in lower case
//	word/VB    with a tag that begins with VB
//	a|b        either
//	POSS OBJ SELF   a possessor, a noun phrase, a reflexive pronoun
//	...        up to five tokens of the same clause
//	x?         may be missing
//
// Adverbs, adjectives and articles may stand between two elements.
func compile(r *row) (*pattern, error) {
	p := &pattern{row: r, anchor: -1}
	fields := strings.Fields(r.pattern)
	if len(fields) == 0 {
		return nil, fmt.Errorf("an empty pattern")
	}
	best := 0
	for i, f := range fields {
		var e element
		if len(f) > 1 && f[len(f)-1] == '?' && (f[0] != '=' || len(f) > 2) && !strings.HasSuffix(f, "|=?") {
			e.optional, f = true, f[:len(f)-1]
		}
		switch f {
		case "POSS":
			e.kind = elPoss
		case "OBJ":
			e.kind = elObj
		case "SELF":
			e.kind = elSelf
		case "...":
			e.kind = elGap
		default:
			for _, a := range strings.Split(f, "|") {
				alt := alternative{word: a}
				if strings.HasPrefix(a, "=") && len(a) > 1 {
					alt.exact, alt.word = true, a[1:]
				} else if w, tag, ok := strings.Cut(a, "/"); ok && w != "" && tag != "" {
					alt.word, alt.tag = w, tag
				}
				if alt.word == "" {
					return nil, fmt.Errorf("an empty word in %q", f)
				}
				if alt.word == "..." || alt.word == "POSS" || alt.word == "OBJ" {
					return nil, fmt.Errorf("%s cannot be an alternative in %q", alt.word, f)
				}
				e.alts = append(e.alts, alt)
			}
		}
		if len(e.alts) > 0 {
			e.tight = !wordlike(e.alts[0].word)
		}
		if e.kind == elGap && (i == 0 || i == len(fields)-1 || p.elements[i-1].kind == elGap) {
			return nil, fmt.Errorf("a gap must stand between two words")
		}
		if e.kind != elGap && !e.optional {
			p.weight += 10
			if e.kind == elWord {
				p.weight += 2
			}
		}
		if e.kind == elWord && !e.optional {
			cost := 0
			for _, a := range e.alts {
				cost += commonness(a.word)
			}
			if p.anchor < 0 || cost < best {
				p.anchor, best = i, cost
			}
		}
		p.elements = append(p.elements, e)
	}
	if p.anchor < 0 {
		return nil, fmt.Errorf("no word to find the pattern by")
	}
	switch r.class {
	case classSpeech:
		p.weight += 3 // what is said is first of all speech
	case classStop:
		p.weight++ // of two that ask for as much, the one that says no cue
	}
	for _, e := range p.elements {
		for _, a := range e.alts {
			p.negative = p.negative || negatives[a.word] && !e.optional
			p.being = p.being || a.word == "be" || a.word == "get"
			p.modal = p.modal || modals[a.word]
		}
	}
	return p, nil
}

// commonness is a rough count of how often a word is met, for choosing the
// word by which a pattern is found.
func commonness(w string) int {
	if len(w) == 1 && (w[0] < 'a' || w[0] > 'z') {
		return 2000
	}
	if common[w] {
		return 1000
	}
	if len(w) <= 4 {
		return 4
	}
	return 1
}

var common = func() map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(`the a an and or but nor of to in on at by for with from into upon out up
		down off away back over about round through under as so if that this it he she they i you we me him her
		us them my his your our their its thee thou be have do go come take make get give say see look know will
		shall would should can could must may not n't no all one other how what why who where when which never
		very own man good great old little let put run fall turn hold keep tell hand eye head face heart foot`) {
		m[w] = true
	}
	return m
}()
