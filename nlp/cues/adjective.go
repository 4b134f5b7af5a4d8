package cues

import (
	"strings"

	"feltpage/nlp"
)

var copulas = set("be feel seem look appear become grow get remain stand sit lie go turn wax stay keep fall")

// shown are nouns that an adjective of feeling may stand before while the
// feeling is their owner's: "an angry voice".
var shown = set(`face eye eyes voice look looks heart tone glance countenance mood mind spirit spirits cry tear tears smile
	expression soul manner temper humour humor word words head feeling feelings thought thoughts breast air`)

// times are nouns that an adjective of feeling may stand before while the
// feeling is that of the one who spends them.
var (
	times    = set("night day evening morning hour time life year week month journey moment childhood")
	spending = set("pass spend have live lead")
)

// looks are those of them that show in the face and the voice.
var looks = set("voice tone look glance smile countenance expression air manner face eye eyes")

// ofAdjective is for "was afraid", "the frightened boy", "sad and weary, he".
func (r *reader) ofAdjective(f *found) (int, bool) {
	v, d := r.view, r.d
	i := f.anchor
	use := f.p.row.use
	s := d.Sentences[d.Tokens[i].Sentence]
	// Before a noun?
	if head := r.nounAfter(i, s); head >= 0 {
		t := &d.Tokens[head]
		if shown[t.Lemma] || shown[t.Lower] {
			if (use == "weak" || use == "state") && !looks[t.Lemma] {
				return nlp.None, false
			}
			if c, ok := r.phraseOwner(head); ok {
				return c, true
			}
			return r.near(&found{p: f.p, start: f.start, end: f.end, anchor: head, poss: nlp.None, obj: nlp.None})
		}
		if use == "weak" || use == "state" {
			return nlp.None, false
		}
		if times[t.Lemma] {
			// "passed an unhappy night": of the one who passed it
			if a := r.clauseVerb(f); a >= 0 && spending[d.Tokens[d.Verbs[v.verb[a]].Head].Lemma] {
				return r.doer(f)
			}
			return nlp.None, false
		}
		if c := v.person(head); c != nlp.None {
			return c, true
		}
		return nlp.None, false
	}
	cop, at := r.copulaBefore(i, s)
	if at < 0 {
		// "how glad the boy was", "very sorrowful was the king"
		cop, at = r.copulaAfter(f.end, i, s)
	}
	if use == "state" && cop == "" {
		return nlp.None, false
	}
	if use == "weak" && (cop == "" || cop == "be" && !r.degreeBefore(i)) {
		return nlp.None, false
	}
	if at >= 0 && v.verb[at] >= 0 {
		c, known, thing := v.subject(at)
		if use == "" {
			c, known, thing = v.subjectOr(at)
		}
		if known {
			if c != nlp.None {
				return c, true
			}
			return r.guessAt(at, f), true
		}
		// "made him glad", "found her asleep and sad"
		if thing {
			if vg := &d.Verbs[v.verb[at]]; vg.Subject != nlp.None && d.Tokens[d.Phrases[vg.Subject].Head].Lower == "there" {
				return nlp.None, false
			}
			return nlp.None, false
		}
		return r.guess(f), true
	}
	// After an object: "made the boy happy", "kept her warm".
	for t := i - 1; t >= s.First && t >= i-3; t-- {
		tok := &d.Tokens[t]
		if strings.HasPrefix(tok.Tag, "RB") || tok.Lower == "so" || tok.Lower == "very" {
			continue
		}
		if c := v.person(t); c != nlp.None && (t == i-1 || strings.HasPrefix(d.Tokens[t+1].Tag, "RB")) {
			if possessives[tok.Lower] && tok.Lower != "her" {
				break
			}
			return c, true
		}
		break
	}
	if a := r.clauseVerb(f); a >= 0 {
		c, known, thing := v.subject(a)
		if known && c != nlp.None {
			return c, true
		}
		if thing {
			return nlp.None, false
		}
	}
	return r.guess(f), true
}

// degreeBefore reports whether "very", "so" or the like stands before token i.
func (r *reader) degreeBefore(i int) bool {
	if i == 0 {
		return false
	}
	switch r.d.Tokens[i-1].Lower {
	case "very", "so", "quite", "much", "greatly", "deeply", "all", "truly", "too", "rather", "most", "half", "almost", "dreadfully", "terribly", "exceedingly", "extremely":
		return true
	}
	return false
}

// nounAfter gives the head noun that the adjective at token i stands before,
// or -1.
func (r *reader) nounAfter(i int, s nlp.Sentence) int {
	if p := r.view.phrase[i]; p >= 0 {
		if h := r.d.Phrases[p].Head; h > i {
			return h
		}
		if r.d.Phrases[p].Head == i {
			return -1
		}
	}
	for t := i + 1; t < s.End && t < i+5; t++ {
		tag := r.d.Tokens[t].Tag
		switch {
		case strings.HasPrefix(tag, "JJ"), t == i+1 && r.d.Tokens[t].Lower == ",", tag == "CC" && t < i+3 && r.d.Tokens[t].Lower == "and":
			continue
		case strings.HasPrefix(tag, "NN"):
			if r.d.Tokens[i+1].Lower == "," || r.d.Tokens[i+1].Lower == "and" {
				return -1
			}
			for t+1 < s.End && strings.HasPrefix(r.d.Tokens[t+1].Tag, "NN") {
				t++
			}
			return t
		}
		return -1
	}
	return -1
}

// copulaBefore gives the copula that the predicate at token i hangs on.
func (r *reader) copulaBefore(i int, s nlp.Sentence) (string, int) {
	d := r.d
	for t := i - 1; t >= s.First && t >= i-9; t-- {
		tok := &d.Tokens[t]
		switch {
		case strings.HasPrefix(tok.Tag, "V"):
			if copulas[tok.Lemma] {
				return tok.Lemma, t
			}
			if tok.Tag == "VBN" || tok.Tag == "VBG" {
				continue // "was tired and worried"
			}
			return "", -1
		case strings.HasPrefix(tok.Tag, "RB"), strings.HasPrefix(tok.Tag, "JJ"), tok.Tag == "CC", tok.Lower == ",", tok.Lower == "so", tok.Lower == "a", tok.Lower == "little", tok.Lower == "half", tok.Lower == "all", tok.Lower == "both", tok.Lower == "either", tok.Lower == "as":
			continue
		case r.view.person(t) != nlp.None && t > s.First && (d.Tokens[t-1].Lemma == "be" || i-t <= 2):
			continue // "how is he sad", "was the boy glad"
		}
		return "", -1
	}
	return "", -1
}

// copulaAfter gives the copula after a predicate that was moved to the front:
// right after it, or after "how" and a short subject.
func (r *reader) copulaAfter(end, i int, s nlp.Sentence) (string, int) {
	d := r.d
	k := i - 1
	for k >= s.First && (strings.HasPrefix(d.Tokens[k].Tag, "RB") || d.Tokens[k].Lower == "so") {
		k--
	}
	fronted := k < s.First || r.boundary(k) || d.Tokens[k].Lower == ","
	how := i > s.First && d.Tokens[i-1].Lower == "how" || k >= s.First && d.Tokens[k].Lower == "how"
	for t := end; t < s.End && t < end+6; t++ {
		tok := &d.Tokens[t]
		if strings.HasPrefix(tok.Tag, "V") {
			if copulas[tok.Lemma] && (how || fronted && t == end) {
				return tok.Lemma, t
			}
			break
		}
		if !how || tok.Lower == "," {
			break
		}
	}
	return "", -1
}
