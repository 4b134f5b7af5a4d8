package cues

import (
	"strings"

	"feltpage/nlp"
)

// ofVerb is for verbs whose subject feels.
func (r *reader) ofVerb(f *found) (int, bool) {
	t := &r.d.Tokens[f.anchor]
	if !strings.HasPrefix(t.Tag, "V") {
		// "the weeping boy", "a loving heart": as an adjective; else as a noun.
		if strings.HasPrefix(t.Tag, "JJ") {
			return r.ofAdjective(f)
		}
		if strings.HasPrefix(t.Tag, "NN") {
			return r.ofNoun(f)
		}
	}
	if t.Tag == "VBN" && r.passiveAt(f.anchor) {
		// "was hated by all": the one who feels is after "by", if told.
		if g := r.view.verb[f.anchor]; g >= 0 && r.d.Verbs[g].By != nlp.None {
			return r.view.phrasePerson(r.d.Verbs[g].By)
		}
		return nlp.None, false
	}
	if f.p.row.use == "verb-weak" && f.end < len(r.d.Tokens) {
		if n := r.d.Tokens[f.end].Lower; n == "to" {
			return nlp.None, false
		}
	}
	return r.doer(f)
}

// passiveAt reports whether the participle at token i follows a form of "be".
func (r *reader) passiveAt(i int) bool {
	if g := r.view.verb[i]; g >= 0 {
		return r.d.Verbs[g].Passive
	}
	for t := i - 1; t >= 0 && t >= i-4; t-- {
		tok := &r.d.Tokens[t]
		if tok.Lemma == "be" || copulas[tok.Lemma] {
			return true
		}
		if !strings.HasPrefix(tok.Tag, "RB") {
			return false
		}
	}
	return false
}

// experiencer is for verbs that make somebody feel: the object feels, or the
// subject of the passive, or the one a participle describes.
func (r *reader) experiencer(f *found) (int, bool) {
	v, d := r.view, r.d
	i := f.anchor
	t := &d.Tokens[i]
	low := t.Lower
	ing := strings.HasSuffix(low, "ing")
	if strings.HasPrefix(t.Tag, "NN") && !ing && !r.verbPlace(i) {
		return nlp.None, false
	}
	next := func() (int, bool) {
		s := d.Sentences[t.Sentence]
		for k := f.end; k < s.End && k < f.end+2; k++ {
			if n, head := r.phraseRight(k, s.End); n > 0 {
				return head, true
			}
			if d.Tokens[k].Tag != "RB" && d.Tokens[k].Tag != "RP" {
				break
			}
		}
		// "puzzled and bewildered the boy": the object of the verb joined on.
		if f.end+2 < s.End && d.Tokens[f.end].Lower == "and" && strings.HasPrefix(d.Tokens[f.end+1].Tag, "V") {
			if n, head := r.phraseRight(f.end+2, s.End); n > 0 {
				return head, true
			}
		}
		return nlp.None, false
	}
	if ing {
		if head, ok := next(); ok && strings.HasPrefix(t.Tag, "V") {
			return r.feeler(head, f)
		}
		return nlp.None, false
	}
	participle := t.Tag == "VBN" || strings.HasPrefix(t.Tag, "JJ") || t.Tag == "VBD" && strings.HasSuffix(low, "d")
	if participle {
		if r.passiveAt(i) || strings.HasPrefix(t.Tag, "JJ") {
			return r.ofAdjective(f)
		}
		if g := v.verb[i]; g >= 0 {
			vg := &d.Verbs[g]
			if vg.Passive {
				return r.doer(f)
			}
			if vg.Object != nlp.None {
				return r.feeler(d.Phrases[vg.Object].Head, f)
			}
			if vg.Participle {
				return r.doer(f)
			}
		}
		if head, ok := next(); ok {
			return r.feeler(head, f)
		}
		if t.Tag == "VBN" {
			return r.ofAdjective(f)
		}
		return nlp.None, false
	}
	if g := v.verb[i]; g >= 0 && d.Verbs[g].Object != nlp.None {
		return r.feeler(d.Phrases[d.Verbs[g].Object].Head, f)
	}
	if head, ok := next(); ok {
		return r.feeler(head, f)
	}
	return nlp.None, false
}

// feeler gives the character at the head of an object phrase.
func (r *reader) feeler(head int, f *found) (int, bool) {
	v := r.view
	low := r.d.Tokens[head].Lower
	if reflexive[low] {
		return r.doer(f)
	}
	if c := v.person(head); c != nlp.None {
		return c, true
	}
	if personal[low] && low != "it" || strings.HasPrefix(r.d.Tokens[head].Tag, "NNP") {
		return nlp.None, true
	}
	if p := v.phrase[head]; p >= 0 {
		if c, ok := v.phrasePerson(int(p)); ok {
			return c, true
		}
	}
	return nlp.None, false
}
