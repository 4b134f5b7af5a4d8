package cues

import (
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/lemma"
)

// found is one place where a pattern matches.
type found struct {
	p          *pattern
	start, end int // tokens, half-open
	anchor     int // token of the word it was found by
	poss       int // token that names the possessor, or None
	obj        int // head token of OBJ, or None
	self       bool
}

// reader holds what the stages of Find share about one document.
type reader struct {
	lx     *Lexicon
	d      *nlp.Document
	cast   []nlp.Character
	quotes []nlp.Quote
	ids    [][4]int32 // per token: written form, lemma, lemma as a verb, lemma as a noun
	view   *view
}

// wordIDs looks the forms of every token up once.
func (r *reader) wordIDs() {
	toks := r.d.Tokens
	r.ids = make([][4]int32, len(toks))
	for i := range toks {
		t := &toks[i]
		low, lem := t.Lower, t.Lemma
		switch low {
		case "n't", "n’t":
			low, lem = "not", "not"
		case "'m", "'re":
			lem = "be"
		case "'ll":
			lem = "will"
		case "'tis", "'twas":
			lem = "be"
		}
		r.ids[i][0] = r.lx.words[low]
		if lem != low {
			r.ids[i][1] = r.lx.words[lem]
		}
		// Tags err most on what was said long ago: participles and old past
		// forms taken for nouns or adjectives are verbs all the same, and a
		// noun taken for one thing may be several.
		if len(t.Tag) < 2 || t.Tag[0] == 'V' || t.Tag[0] == 'P' || len(low) < 3 || low[0] < 'a' {
			continue
		}
		switch {
		case strings.HasSuffix(low, "ing"):
			r.ids[i][2] = r.lx.words[lemma.Of(low, "VBG")]
		case t.Tag[0] == 'N' || t.Tag[0] == 'J' || t.Tag[0] == 'R':
			if v := lemma.Of(low, "VBD"); v != low {
				r.ids[i][2] = r.lx.words[v]
			}
		}
		if t.Tag[0] == 'N' && low[len(low)-1] == 's' {
			if n := lemma.Of(low, "NNS"); n != lem {
				r.ids[i][3] = r.lx.words[n]
			}
		}
	}
}

// accepts reports whether token i fits the element.
func (r *reader) accepts(e *element, i int) bool {
	id := &r.ids[i]
	for k := range e.alts {
		a := &e.alts[k]
		if a.exact {
			if id[0] == a.id {
				return true
			}
			continue
		}
		if id[0] != a.id && id[1] != a.id && id[2] != a.id && id[3] != a.id {
			continue
		}
		if a.tag == "NN" && id[0] != a.id && id[1] != a.id && id[3] != a.id {
			continue // "bit" is a bite only as a verb
		}
		if a.tag == "" || strings.HasPrefix(r.d.Tokens[i].Tag, a.tag) || (a.tag == "VB" && (id[2] == a.id || r.verbPlace(i))) || (a.tag == "NN" && id[3] == a.id) {
			return true
		}
	}
	return false
}

// verbPlace reports whether the word before token i makes it a verb whatever
// its tag: "to despair", "did pity".
func (r *reader) verbPlace(i int) bool {
	if i == 0 || r.d.Tokens[i-1].Sentence != r.d.Tokens[i].Sentence {
		return false
	}
	switch r.d.Tokens[i-1].Lower {
	case "to":
		return i > 1 && (strings.HasPrefix(r.d.Tokens[i-2].Tag, "V") || r.d.Tokens[i-2].Tag == "JJ")
	case "did", "does", "do", "would", "could", "should", "will", "shall", "might", "must", "may", "can", "not", "n't":
		return true
	}
	return false
}

// match finds every pattern in the document, in the order of its anchors.
func (r *reader) match() []found {
	var out []found
	for i := range r.ids {
		for k, id := range r.ids[i] {
			if id == 0 || (k > 0 && id == r.ids[i][0]) || (k > 1 && id == r.ids[i][1]) || (k > 2 && id == r.ids[i][2]) {
				continue
			}
			for _, p := range r.lx.byAnchor[id] {
				if !r.accepts(&p.elements[p.anchor], i) {
					continue
				}
				f := found{p: p, start: i, end: i + 1, anchor: i, poss: nlp.None, obj: nlp.None}
				s := r.d.Sentences[r.d.Tokens[i].Sentence]
				if r.right(p, p.anchor+1, i+1, s.End, &f) && r.left(p, p.anchor-1, i-1, s.First, &f) {
					out = append(out, f)
				}
			}
		}
	}
	return out
}

// right matches elements e.. from token i on.
func (r *reader) right(p *pattern, e, i, end int, f *found) bool {
	if e >= len(p.elements) {
		f.end = i
		return true
	}
	el := &p.elements[e]
	switch el.kind {
	case elGap:
		for n := 0; n <= gapMax && i+n < end; n++ {
			if n > 0 && (r.boundary(i+n-1) || p.row.class != classSpeech && r.d.Tokens[i+n-1].Lower == "," || !p.negative && denies[r.d.Tokens[i+n-1].Lower]) {
				return false
			}
			if r.afterGap(p, e+1, i+n, end, f) {
				return true
			}
		}
		return false
	default:
		for n := 0; n <= skipMax && i+n < end; n++ {
			if n > 0 && (el.tight || !r.skippable(i+n-1)) {
				break
			}
			if r.rightAt(p, e, i+n, end, f) {
				return true
			}
		}
		if el.optional {
			return r.right(p, e+1, i, end, f)
		}
		return false
	}
}

// afterGap matches the element after a gap at token i, or leaves it out where
// it may be missing.
func (r *reader) afterGap(p *pattern, e, i, end int, f *found) bool {
	return r.rightAt(p, e, i, end, f) || p.elements[e].optional && r.rightAt(p, e+1, i, end, f)
}

func (r *reader) beforeGap(p *pattern, e, i, first int, f *found) bool {
	return r.leftAt(p, e, i, first, f) || p.elements[e].optional && e > 0 && r.leftAt(p, e-1, i, first, f)
}

// rightAt matches element e exactly at token i and goes on.
func (r *reader) rightAt(p *pattern, e, i, end int, f *found) bool {
	el := &p.elements[e]
	keep := *f
	switch el.kind {
	case elWord:
		if r.accepts(el, i) && r.right(p, e+1, i+1, end, f) {
			return true
		}
	case elSelf:
		if reflexive[r.d.Tokens[i].Lower] && r.right(p, e+1, i+1, end, f) {
			f.self = true
			return true
		}
	case elPoss:
		if n, who := r.possRight(i, end); n > 0 && r.right(p, e+1, i+n, end, f) {
			f.poss = who
			return true
		}
	case elObj:
		if n, head := r.phraseRight(i, end); n > 0 && r.right(p, e+1, i+n, end, f) {
			f.obj = head
			return true
		}
	}
	*f = keep
	return false
}

// left matches elements e..0 from token i back to first.
func (r *reader) left(p *pattern, e, i, first int, f *found) bool {
	if e < 0 {
		f.start = i + 1
		return true
	}
	el := &p.elements[e]
	switch el.kind {
	case elGap:
		for n := 0; n <= gapMax && i-n >= first; n++ {
			if n > 0 && (r.boundary(i-n+1) || p.row.class != classSpeech && r.d.Tokens[i-n+1].Lower == "," || !p.negative && denies[r.d.Tokens[i-n+1].Lower]) {
				return false
			}
			if r.beforeGap(p, e-1, i-n, first, f) {
				return true
			}
		}
		return false
	default:
		for n := 0; n <= skipMax && i-n >= first; n++ {
			if n > 0 && (el.tight || !r.skippable(i-n+1)) {
				break
			}
			if r.leftAt(p, e, i-n, first, f) {
				return true
			}
		}
		if el.optional {
			return r.left(p, e-1, i, first, f)
		}
		return false
	}
}

func (r *reader) leftAt(p *pattern, e, i, first int, f *found) bool {
	el := &p.elements[e]
	keep := *f
	switch el.kind {
	case elWord:
		if r.accepts(el, i) && r.left(p, e-1, i-1, first, f) {
			return true
		}
	case elSelf:
		if reflexive[r.d.Tokens[i].Lower] && r.left(p, e-1, i-1, first, f) {
			f.self = true
			return true
		}
	case elPoss:
		if n, who := r.possLeft(i, first); n > 0 && r.left(p, e-1, i-n, first, f) {
			f.poss = who
			return true
		}
	case elObj:
		if n, head := r.phraseLeft(i, first); n > 0 && r.left(p, e-1, i-n, first, f) {
			f.obj = head
			return true
		}
	}
	*f = keep
	return false
}

// boundary reports whether no gap may cross the token.
func (r *reader) boundary(i int) bool {
	switch r.d.Tokens[i].Lower {
	case ".", ";", ":", "!", "?", "\"", "''", "``", "“", "”", "--", "—", "(", ")":
		return true
	}
	return isQuoteMark(&r.d.Tokens[i])
}

func isQuoteMark(t *nlp.Token) bool {
	return t.Tag == "“" || t.Tag == "”" || t.Tag == "``" || t.Tag == "''"
}

// skippable reports whether the token may stand between two elements.
func (r *reader) skippable(i int) bool {
	t := &r.d.Tokens[i]
	if denies[t.Lower] {
		return false
	}
	switch t.Tag {
	case "RB", "RBR", "RBS", "DT", "PDT", "PRP$", "JJ", "JJR", "JJS":
		return true
	}
	switch t.Lower {
	case "so", "very", "all", "quite", "own", "poor":
		return true
	case "to":
		return i > 0 && beginning[r.d.Tokens[i-1].Lemma] // "began to shake"
	}
	return beginning[t.Lemma] && strings.HasPrefix(t.Tag, "V")
}

// beginning are verbs that only say how far what follows has come.
var beginning = set("begin start commence continue")
