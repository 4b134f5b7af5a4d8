package cues

import (
	"strings"

	"feltpage/nlp"
)

// unrealVerb reports whether the verb of the find stands in a form that does
// not tell what happens.
func (r *reader) unrealVerb(f *found, s nlp.Sentence, zone int32) bool {
	d, v := r.d, r.view
	row := f.p.row
	// The verb that carries the find: its own, or the copula before it.
	at := -1
	for t := f.start; t < f.end; t++ {
		if v.verb[t] >= 0 || strings.HasPrefix(d.Tokens[t].Tag, "V") {
			at = t
			break
		}
	}
	if at < 0 {
		for t := f.start - 1; t >= s.First && t >= f.start-5; t-- {
			if r.boundary(t) || d.Tokens[t].Lower == "," {
				break
			}
			if strings.HasPrefix(d.Tokens[t].Tag, "V") {
				at = t
				break
			}
		}
	}
	if at < 0 {
		return false
	}
	if f.p.negative || row.use == "need-can" || f.p.modal {
		return false
	}
	// Walk left over the auxiliaries of this verb.
	first, lead := true, at
	for t := at - 1; t >= s.First && t >= at-5; t-- {
		tok := &d.Tokens[t]
		if tok.Tag == "MD" || modals[tok.Lower] {
			if tok.Lower == "would" && r.habit(t, s, zone, row.kind) {
				return false
			}
			if t > s.First && (d.Tokens[t-1].Lower == "nothing" || d.Tokens[t-1].Lower == "nobody") {
				return false // "nothing could frighten him": denied, not supposed
			}
			if tok.Lower == "could" || tok.Lower == "can" {
				// "could feel his heart", "could see her weeping" tell what is.
				return row.kind != nlp.Body && d.Tokens[at].Lemma != "feel" && d.Tokens[at].Lemma != "see" && d.Tokens[at].Lemma != "hear"
			}
			return true
		}
		if tok.Lower == "to" && first {
			return r.unrealInfinitive(t, s)
		}
		if tok.Tag == "RB" || tok.Tag == "RBR" || tok.Lower == "not" || tok.Lower == "n't" {
			continue
		}
		if tok.Lemma == "be" || tok.Lemma == "have" || tok.Lemma == "do" {
			first, lead = false, t
			if tok.Lower == "be" || tok.Lower == "have" {
				first = true
			}
			continue
		}
		// "will she be glad": the subject between.
		if v.person(t) != nlp.None && t > s.First && d.Tokens[t-1].Tag == "MD" {
			return true
		}
		break
	}
	if zone >= 0 {
		// "do not be frightened", "be not afraid": a command all the same.
		if l := d.Tokens[lead].Lower; r.command(at, s) || (l == "do" || l == "be") && (lead == s.First || v.quote[lead-1] != zone || r.freeBefore(lead)) {
			return true
		}
		if row.kind != nlp.Body && r.asked(at, s, zone) {
			return true
		}
	}
	return false
}

// presupposed reports whether a find is a noun with its possessor: "to end his
// griefs" says that there are griefs.
func (r *reader) presupposed(f *found) bool {
	if f.p.row.class != classNoun || f.anchor == 0 {
		return false
	}
	for t := f.anchor - 1; t >= 0 && t >= f.anchor-3; t-- {
		tok := &r.d.Tokens[t]
		if possessives[tok.Lower] || tok.Tag == "POS" {
			return true
		}
		if !strings.HasPrefix(tok.Tag, "JJ") {
			return false
		}
	}
	return false
}

// habit reports whether the "would" at token t tells what somebody used to do:
// in the telling, not under a condition, and nobody says, thinks or hopes it.
func (r *reader) habit(t int, s nlp.Sentence, zone int32, kind string) bool {
	d := r.d
	if t+1 >= s.End || d.Tokens[t+1].Lower == "have" || zone >= 0 || kind == nlp.Named {
		return false
	}
	for k := max(s.First, t-reach); k < min(s.End, t+reach); k++ {
		tok := &d.Tokens[k]
		switch tok.Lower {
		case "if", "unless", "lest", "whether", "rather", "until", "till", "only":
			return false
		case "that":
			if k < t {
				return false
			}
		}
		if k < t && strings.HasPrefix(tok.Tag, "V") && (wishing[tok.Lemma] || minding[tok.Lemma] || tok.Lemma == "tell" || tok.Lemma == "declare" || tok.Lemma == "swear") {
			return false
		}
	}
	return true
}

// unrealInfinitive reads what stands before the "to" at token t.
func (r *reader) unrealInfinitive(t int, s nlp.Sentence) bool {
	d := r.d
	k := t - 1
	for k >= s.First && (d.Tokens[k].Tag == "RB" || d.Tokens[k].Lower == "not") {
		if d.Tokens[k].Lower == "not" {
			return true
		}
		k--
	}
	if k < s.First {
		return true
	}
	p := &d.Tokens[k]
	if strings.HasPrefix(p.Tag, "V") {
		return !telling[p.Lemma]
	}
	if strings.HasPrefix(p.Tag, "JJ") {
		switch p.Lower {
		case "glad", "happy", "sorry", "surprised", "amazed", "astonished", "delighted", "pleased", "compelled", "forced", "heard", "seen":
			return false
		}
		return true
	}
	if personal[p.Lower] || strings.HasPrefix(p.Tag, "NN") {
		// "caused him to tremble", "began, poor man, to weep"
		for j := k - 1; j >= s.First && j >= k-5; j-- {
			if q := &d.Tokens[j]; strings.HasPrefix(q.Tag, "V") {
				switch q.Lemma {
				case "cause", "make", "see", "hear", "force", "begin", "bring", "compel", "drive":
					return false
				}
				return true
			}
		}
	}
	return true
}

// command reports whether the verb at token t is a command: the bare form
// first in its clause, or after "do not", with nobody before it.
func (r *reader) command(t int, s nlp.Sentence) bool {
	d, v := r.d, r.view
	if d.Tokens[t].Tag != "VB" && d.Tokens[t].Tag != "VBP" && d.Tokens[t].Tag != "NN" && d.Tokens[t].Tag != "NNP" {
		return false
	}
	if d.Tokens[t].Lower != d.Tokens[t].Lemma {
		return false
	}
	for k := t - 1; k >= max(s.First, t-reach); k-- {
		if v.quote[k] != v.quote[t] || r.boundary(k) || d.Tokens[k].Lower == "," || d.Tokens[k].Lower == "and" {
			return true
		}
		switch d.Tokens[k].Lower {
		case "do", "not", "n't", "never", "let", "pray", "please", "only", "just", "oh", "then", "now", "so":
			continue
		}
		if d.Tokens[k].Tag == "RB" {
			continue
		}
		return false
	}
	return true
}

// asked reports whether the sentence asks whether something is so.
func (r *reader) asked(at int, s nlp.Sentence, zone int32) bool {
	d, v := r.d, r.view
	first, last := -1, -1
	for t := max(s.First, at-reach); t < min(s.End, at+reach); t++ {
		if v.quote[t] != zone || isQuoteMark(&d.Tokens[t]) {
			continue
		}
		if first < 0 {
			first = t
		}
		last = t
		if d.Tokens[t].Lower == "?" {
			break
		}
	}
	if first < 0 || d.Tokens[last].Lower != "?" {
		return false
	}
	switch d.Tokens[first].Lemma {
	case "be", "do", "have", "can", "will", "shall", "would", "could", "may", "art", "dost":
		return true
	}
	return false
}

// supposing are words that open a sentence about what is not.
var supposing = set("suppose supposing imagine imagining")

// supposed reports whether the clause of a find opens as a supposition: "Should
// you be hungry, ...", "Had he been angry, ...", "Suppose a giant were lonely".
func (r *reader) supposed(f *found, s nlp.Sentence, zone int32) bool {
	d := r.d
	open := f.start
	for t := f.start - 1; t >= s.First && t > f.start-12; t-- {
		if r.view.quote[t] != zone || r.boundary(t) {
			break
		}
		if d.Tokens[t].Lower == "," {
			return false // the supposition ended before
		}
		open = t
	}
	if open+1 >= f.start {
		return false
	}
	first, next := &d.Tokens[open], &d.Tokens[open+1]
	switch {
	case supposing[first.Lower]:
		return true
	case first.Lower == "should" || first.Lower == "had" || first.Lower == "were":
		// A question has the same order and an end mark of its own.
		return (next.Tag == "PRP" || next.Tag == "DT" || next.Tag == "NNP" || next.Tag == "PRP$") && d.Tokens[s.End-1].Lower != "?"
	}
	return false
}
