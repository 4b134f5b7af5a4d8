package cues

import (
	"strings"

	"feltpage/nlp"
)

// near is for nouns such as "a smile": their possessor, else whom the clause
// is about.
func (r *reader) near(f *found) (int, bool) {
	v := r.view
	if c, ok := r.phraseOwner(f.anchor); ok {
		return c, true
	}
	if g := v.verb[f.anchor]; g < 0 {
		if a := r.clauseVerb(f); a >= 0 {
			vg := &r.d.Verbs[v.verb[a]]
			if a < f.anchor && f.anchor-a < 8 && perceiving[r.d.Tokens[vg.Head].Lemma] && !r.passiveAt(vg.Head) {
				return nlp.None, true // "he heard a sigh": somebody's, not his
			}
			if p := v.phrase[f.anchor]; p < 0 || vg.Subject != int(p) {
				if c, known, thing := v.subject(a); known || thing {
					if known {
						return c, true
					}
				}
			} else {
				// The words are the subject themselves: "a smile crossed her face".
				if c, ok := r.target(vg, f); ok {
					return c, true
				}
			}
		}
	}
	return v.nearest(f.start), true
}

var perceiving = set("hear see notice perceive observe listen find")

// target gives the character that a verb group acts on, by object or by the
// first person named after it in the clause.
func (r *reader) target(vg *nlp.VerbGroup, f *found) (int, bool) {
	v := r.view
	for _, p := range []int{vg.Object, vg.Indirect} {
		if p != nlp.None {
			if c, ok := v.phrasePerson(p); ok && c != nlp.None {
				return c, true
			}
			ph := r.d.Phrases[p]
			if ph.Possessor != nlp.None {
				if c := v.person(ph.Possessor); c != nlp.None {
					return c, true
				}
			}
		}
	}
	s := r.d.Sentences[r.d.Tokens[vg.Head].Sentence]
	for t := vg.End; t < s.End && t < vg.End+10; t++ {
		if r.boundary(t) || v.quote[t] != v.quote[f.anchor] {
			break
		}
		if c := v.person(t); c != nlp.None {
			return c, true
		}
	}
	return nlp.None, false
}

// phraseOwner gives the possessor of the noun phrase that holds token i: "his
// grief", "the grief of the mother".
func (r *reader) phraseOwner(i int) (int, bool) {
	v := r.view
	if p := v.phrase[i]; p >= 0 {
		ph := &r.d.Phrases[p]
		if ph.Possessor != nlp.None && ph.Possessor <= i {
			if c := v.person(ph.Possessor); c != nlp.None {
				return c, true
			}
			if possessives[r.d.Tokens[ph.Possessor].Lower] {
				c := v.nearest(i)
				return c, c != nlp.None
			}
		}
		if ph.Of != nlp.None && ph.Of != int(p) && ph.Head == i {
			if c := v.person(r.d.Phrases[ph.Of].Head); c != nlp.None {
				return c, true
			}
		}
		return nlp.None, false
	}
	for t := i - 1; t >= 0 && t >= i-3; t-- {
		tok := &r.d.Tokens[t]
		if possessives[tok.Lower] {
			if c := v.person(t); c != nlp.None {
				return c, true
			}
			return v.nearest(i), true
		}
		if !strings.HasPrefix(tok.Tag, "JJ") && !strings.HasPrefix(tok.Tag, "NN") {
			break
		}
	}
	return nlp.None, false
}

// nounPlace reports whether what stands before token i makes it a noun
// whatever its tag: a preposition, an article or a possessive.
func (r *reader) nounPlace(i, first int) bool {
	if i == first {
		return false
	}
	switch p := &r.d.Tokens[i-1]; p.Lower {
	case "of", "with", "in", "from", "without", "the", "a", "an", "such", "great", "no", "much":
		return true
	default:
		return possessives[p.Lower] && p.Lower != "her"
	}
}

// ofNoun is for "with joy", "his grief", "fear seized him".
func (r *reader) ofNoun(f *found) (int, bool) {
	v, d := r.view, r.d
	i := f.anchor
	t := &d.Tokens[i]
	weak := f.p.row.use == "noun-weak"
	s := d.Sentences[t.Sentence]
	if !strings.HasPrefix(t.Tag, "NN") && !r.nounPlace(i, s.First) {
		return nlp.None, false
	}
	// The noun of feeling before another noun ("joy bells") is none.
	if i+1 < s.End && strings.HasPrefix(d.Tokens[i+1].Tag, "NN") && v.phrase[i] >= 0 && v.phrase[i] == v.phrase[i+1] {
		return nlp.None, false
	}
	if v.quote[i] >= 0 && i > s.First && d.Tokens[i-1].Lower == "my" && (t.Lower == "love" || t.Lower == "joy" || t.Lower == "pride" || t.Lower == "delight") && i+1 < s.End && (d.Tokens[i+1].Lower == "," || d.Tokens[i+1].Lower == "!") {
		return nlp.None, false // said to somebody
	}
	if c, ok := r.phraseOwner(i); ok {
		return c, true
	}
	// What stands before the noun phrase?
	k := i - 1
	if p := v.phrase[i]; p >= 0 {
		k = d.Phrases[p].First - 1
	} else {
		for k >= s.First && (strings.HasPrefix(d.Tokens[k].Tag, "JJ") || d.Tokens[k].Tag == "DT" || d.Tokens[k].Tag == "PDT" || strings.HasPrefix(d.Tokens[k].Tag, "RB")) {
			k--
		}
	}
	for k > s.First && (d.Tokens[k].Lower == "and" || d.Tokens[k].Lower == "or" || strings.HasPrefix(d.Tokens[k].Tag, "JJ") || d.Tokens[k].Tag == "PDT" || d.Tokens[k].Lower == "such" || d.Tokens[k].Lower == ",") && !strings.HasPrefix(d.Tokens[k].Tag, "V") {
		// "fear and wonder", "his grief and anger"
		if d.Tokens[k].Lower == "and" || d.Tokens[k].Lower == "or" || d.Tokens[k].Lower == "," {
			if !strings.HasPrefix(d.Tokens[k-1].Tag, "NN") {
				break
			}
			j := k - 1
			if c, ok := r.phraseOwner(j); ok {
				return c, true
			}
			if p := v.phrase[j]; p >= 0 {
				j = d.Phrases[p].First
			}
			k = j - 1
			continue
		}
		k--
	}
	prep := ""
	if k >= s.First && (d.Tokens[k].Tag == "IN" || d.Tokens[k].Tag == "TO") {
		prep = d.Tokens[k].Lower
	}
	a := r.clauseVerb(f)
	var vg *nlp.VerbGroup
	if a >= 0 {
		vg = &d.Verbs[v.verb[a]]
	}
	switch {
	case prep == "with" || prep == "in" || prep == "for" || prep == "from" || prep == "of" || prep == "without" || prep == "through" || prep == "out" || prep == "by" || prep == "into":
		if weak && prep != "with" && prep != "of" && prep != "in" && prep != "without" {
			return nlp.None, false
		}
		// "filled her with joy": the object of an active verb.
		if vg != nil && a < i && !vg.Passive && filling[d.Tokens[vg.Head].Lemma] {
			if c, ok := r.target(vg, f); ok {
				return c, true
			}
		}
		// "found the people in fear": the object's.
		if prep == "in" && vg != nil && a < i && !vg.Passive && vg.Object != nlp.None && placing[d.Tokens[vg.Head].Lemma] {
			if c, ok := v.phrasePerson(vg.Object); ok && c != nlp.None {
				return c, true
			}
		}
		return r.doer(f)
	case prep != "":
		if weak || prep == "like" || prep == "as" || prep == "than" {
			return nlp.None, false
		}
		return r.doer(f)
	}
	if vg != nil {
		p := v.phrase[i]
		head := d.Tokens[vg.Head].Lemma
		if p >= 0 && vg.Subject == int(p) || a > i && (k < s.First || d.Tokens[k].Lower == "," || d.Tokens[k].Tag == "CC" || d.Tokens[k].Tag == "WRB" || isQuoteMark(&d.Tokens[k])) {
			// The feeling is the subject: whom does it come to?
			if weak && !seizing[head] {
				return nlp.None, false
			}
			if c, ok := r.target(vg, f); ok {
				return c, true
			}
			return nlp.None, !weak
		}
		if a < i && (head == "give" || head == "cause" || head == "bring" || head == "do" || head == "inspire" || head == "afford") {
			if c, ok := r.target(vg, f); ok {
				return c, true
			}
		}
		if weak && !having[head] {
			return nlp.None, false
		}
		if a < i && (vg.Subject != nlp.None && d.Tokens[d.Phrases[vg.Subject].Head].Lower == "there" || vg.First > s.First && d.Tokens[vg.First-1].Lower == "there") {
			// "there was great fear on the king", "there was joy in the house"
			for t := f.end; t < s.End && t < f.end+6; t++ {
				if c := v.person(t); c != nlp.None {
					return c, true
				}
				if r.boundary(t) || d.Tokens[t].Lower == "," {
					break
				}
			}
			return nlp.None, !weak
		}
		if c, known, thing := v.subject(a); known && c != nlp.None {
			return c, true
		} else if thing {
			if c, ok := r.target(vg, f); ok {
				return c, true
			}
			return nlp.None, false
		}
	} else if weak {
		return nlp.None, false
	}
	return r.guess(f), true
}

var (
	filling = set("fill strike seize inspire overwhelm pierce transport throw drive leave touch move thrill smite fire hold behold")
	placing = set("find see leave keep put throw behold set plunge hold")
	seizing = set("seize come overcome fill take overpower strike overtake fall possess steal grip enter rise grow leave")
	having  = set("have feel find show know take get enjoy suffer seek lose express give")
)
