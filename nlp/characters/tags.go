package characters

import (
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/quotes"
)

func mark(w string) bool {
	switch w {
	case ",", "-", "--", "—", "–", ";", "”", "\"", "'", "''", "’", "_":
		return true
	}
	return false
}

// tagAfter looks for "said Moss", "Moss said" right after quote i.
func (r *reading) tagAfter(i int) {
	q := &r.q[i]
	at := q.End
	for at < len(r.d.Tokens) && at < q.End+3 && mark(r.d.Tokens[at].Lower) {
		at++
	}
	if at >= len(r.d.Tokens) || r.paragraph(at) != r.turns[i].paragraph || !r.sameLevel(at, i) {
		return
	}
	limit := min(at+12, len(r.d.Tokens))
	for t := at; t < limit; t++ {
		if !r.sameLevel(t, i) || r.paragraph(t) != r.turns[i].paragraph {
			limit = t
			break
		}
		if w := r.d.Tokens[t].Lower; t > at && (w == "." || w == ";" || w == "!" || w == "?" || w == ":") {
			limit = t
			break
		}
	}
	// "said Moss", "then cried the old baker", "and said Moss"
	for t := at; t < limit && t < at+3; t++ {
		w := r.d.Tokens[t].Lower
		if !r.reports(t) {
			if adverbs[w] {
				continue
			}
			break
		}
		if v := r.verbAt[t]; v != nlp.None && (r.d.Verbs[v].Participle || strings.HasSuffix(w, "ing")) {
			break
		}
		for s := t + 1; s < limit && s <= t+4; s++ {
			if m := r.starts(s); m != nlp.None {
				if s > t+1 && listening[r.d.Tokens[s-1].Lower] {
					r.turns[i].to = m
					break
				}
				r.setTag(i, m, t, false)
				return
			}
			if w := r.d.Tokens[s].Lower; w == "," {
				break
			}
		}
		return
	}
	// "Moss said", "the old baker then cried", "she said"
	start := at
	for start < limit && start < at+3 && adverbs[r.d.Tokens[start].Lower] {
		start++
	}
	m := r.starts(start)
	if m == nlp.None {
		return
	}
	own := r.mentions[m].phrase
	for t := r.mentions[m].end; t < limit && t < r.mentions[m].end+9; t++ {
		v := r.verbAt[t]
		if v == nlp.None || !r.reports(t) {
			continue
		}
		g := &r.d.Verbs[v]
		if g.Subject != own && !(t <= r.mentions[m].end+2 && g.Subject == nlp.None) {
			continue
		}
		if g.Infinitive {
			continue
		}
		// A new sentence that brings the next quote is the tag of that one.
		if r.capital(at) && r.newSentence(q.End) && r.bringsQuote(i, t) {
			return
		}
		if r.newSentence(q.End) && r.capital(at) && r.mentions[m].kind != pronoun && r.d.Tokens[q.End-1].Lower != "," && !r.commaInside(i) && !r.saidShort(t, limit) {
			return
		}
		r.setTag(i, m, t, false)
		return
	}
}

// reports reports whether the word at t can bring speech: a reporting verb, or
// "went on", "put in", "broke in".
func (r *reading) reports(t int) bool {
	w := r.d.Tokens[t].Lower
	if quotes.Reports(w) {
		return true
	}
	if t+1 >= len(r.d.Tokens) {
		return false
	}
	switch next := r.d.Tokens[t+1].Lower; w {
	case "went", "goes", "go":
		return next == "on"
	case "put", "puts", "broke", "breaks", "struck", "chimed":
		return next == "in"
	case "burst", "spoke":
		return next == "out" || next == "up"
	}
	return false
}

// saidShort reports whether the reporting verb at t ends its clause.
func (r *reading) saidShort(t, limit int) bool { return limit-t <= 5 }

func (r *reading) commaInside(i int) bool {
	q := &r.q[i]
	return q.End-2 >= q.First && r.d.Tokens[q.End-2].Lower == ","
}

// newSentence reports whether the quote that ends at token end closed its
// sentence.
func (r *reading) newSentence(end int) bool {
	for t := end - 1; t >= 0 && t >= end-3; t-- {
		switch r.d.Tokens[t].Lower {
		case ".", "!", "?", "...":
			return true
		case ",", ";", ":", "-", "--", "—":
			return false
		}
	}
	return false
}

// bringsQuote reports whether after the verb at t a quote follows after a
// comma or colon.
func (r *reading) bringsQuote(i, t int) bool {
	for n := i + 1; n < len(r.q) && n < i+3; n++ {
		if r.turns[i].outer != nlp.None || r.q[n].First < r.q[i].End {
			continue
		}
		f := r.q[n].First
		if f-t > 14 || r.paragraph(f) != r.turns[i].paragraph && !(r.d.Tokens[f-1].Lower == ":" && f-t < 14) {
			return false
		}
		w := r.d.Tokens[f-1].Lower
		for s := t; s < f-1; s++ {
			switch r.d.Tokens[s].Lower {
			case ".", "!", "?":
				return false
			}
		}
		return w == "," || w == ":" || f-1 == t
	}
	return false
}

// setTag takes mention m as the speaker of quote i, and reads from the clause
// of the verb at token t to whom it is said.
func (r *reading) setTag(i, m, t int, before bool) {
	tn := &r.turns[i]
	x := &r.mentions[m]
	if x.kind == pronoun && (x.form.possessive && x.place == rolePossessor) {
		return
	}
	tn.tag, tn.before = m, before
	if x.place == roleNone {
		x.place = roleSubject
		x.verb = r.verbAt[t]
	}
	x.acts = true
	if tn.to == nlp.None {
		tn.to = r.toWhom(m, t, i)
	}
}

// toWhom finds "to the baker", "asked the baker" in the clause of the verb at t.
func (r *reading) toWhom(speaker, t, i int) int {
	if v := r.verbAt[t]; v != nlp.None {
		g := &r.d.Verbs[v]
		lemma := lemmaOf(&r.d.Tokens[g.Head])
		for _, o := range []int{g.Indirect, g.Object} {
			if o >= 0 && r.byPhrase[o] != nlp.None && r.byPhrase[o] != speaker && (o == g.Indirect || asking[lemma]) {
				if m := r.byPhrase[o]; r.mayListen(m) {
					return m
				}
			}
		}
	}
	from := max(t, r.mentions[speaker].end-1)
	for s := t + 1; s < len(r.d.Tokens) && s <= from+6; s++ {
		w := r.d.Tokens[s].Lower
		if r.quoteAt[s] != r.turns[i].outer || w == "." || w == ";" {
			break
		}
		if listening[w] {
			if m := r.starts(s + 1); m != nlp.None && m != speaker && r.mayListen(m) {
				return m
			}
		}
	}
	return nlp.None
}

// mayListen reports whether a mention can be somebody, pronouns included; it
// runs before the acting nouns
// are known.
func (r *reading) mayListen(i int) bool {
	m := &r.mentions[i]
	return m.kind == pronoun && !m.form.reflexive || m.kind == proper || m.noun.kind != ""
}

// tagBefore looks for "Moss said:" right before quote i.
func (r *reading) tagBefore(i int) {
	q := &r.q[i]
	if q.First == 0 {
		return
	}
	at := q.First - 1
	lead := r.d.Tokens[at].Lower
	for at > 0 && (mark(r.d.Tokens[at].Lower) || r.d.Tokens[at].Lower == ":" || r.d.Tokens[at].Tag == "“") {
		at--
	}
	if !r.sameLevel(at, i) {
		return
	}
	if r.paragraph(at) != r.turns[i].paragraph && lead != ":" && lead != "," {
		return
	}
	switch r.d.Tokens[at].Lower {
	case ".", "!", "?", ";":
		return
	}
	far := 16
	if lead == ":" {
		far = 30
	}
	for t := at; t >= 0 && t > at-far; t-- {
		if !r.sameLevel(t, i) {
			return
		}
		switch r.d.Tokens[t].Lower {
		case ".", "!", "?":
			return
		}
		if !quotes.Reports(r.d.Tokens[t].Lower) {
			continue
		}
		v := r.verbAt[t]
		if v == nlp.None {
			continue
		}
		if lead != ":" && at-t > 8 && !r.plainlySaid(t) {
			continue
		}
		if m := r.subjectOf(v); m != nlp.None {
			r.setTag(i, m, t, true)
			return
		}
		// "Then said the baker:", "quoth she,"
		if m := r.starts(t + 1); m != nlp.None && r.mayListen(m) && !isObject(r, t, m) {
			r.setTag(i, m, t, true)
			return
		}
	}
}

// isObject reports whether mention m is what the verb at t acts on, and so not
// who speaks.
func isObject(r *reading, t, m int) bool {
	g := &r.d.Verbs[r.verbAt[t]]
	return asking[lemmaOf(&r.d.Tokens[g.Head])] || g.Object >= 0 && r.byPhrase[g.Object] == m && g.Subject >= 0
}

func (r *reading) plainlySaid(t int) bool {
	switch lemmaOf(&r.d.Tokens[t]) {
	case "say", "cry", "ask", "answer", "call", "reply", "exclaim", "shout", "whisper", "speak", "tell", "think":
		return true
	}
	return false
}

// subjectOf gives the mention that is subject of verb group v, going up from
// a participle or infinitive to the verb it hangs on.
func (r *reading) subjectOf(v int) int {
	for n := 0; v >= 0 && n < 4; n++ {
		g := &r.d.Verbs[v]
		if g.Passive && !g.Participle {
			return nlp.None
		}
		if g.Subject >= 0 {
			return r.byPhrase[g.Subject]
		}
		v = g.Governor
	}
	return nlp.None
}
