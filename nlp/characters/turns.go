package characters

import (
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/quotes"
)

// A turn is what is known of one quote.
type turn struct {
	tag       int  // mention that the reporting clause names as speaker, or nlp.None
	to        int  // mention it names as listener
	before    bool // the clause stands before the quote
	beat      int  // mention whose action stands next to the quote, or nlp.None
	follows   int  // quote this one carries on, or nlp.None
	paragraph int
	outer     int // quote around this one, or nlp.None
	speaker   int // entity, or nlp.None
	listener  int
	sure      bool // told by a reporting clause
}

// findTurns reads the clauses around each quote; nothing is resolved yet.
func (r *reading) findTurns() {
	r.turns = make([]turn, len(r.q))
	r.tags = map[int]bool{}
	r.flow = r.inFlow()
	prev := nlp.None // last quote that is in no other
	for i := range r.q {
		t := &r.turns[i]
		*t = turn{tag: nlp.None, to: nlp.None, beat: nlp.None, follows: nlp.None, outer: nlp.None, speaker: nlp.None, listener: nlp.None}
		q := &r.q[i]
		t.paragraph = r.paragraph(q.First)
		if prev != nlp.None && r.q[prev].Span.Contains(q.Span) {
			t.outer = r.outerOf(i)
			r.tagBefore(i)
			if t.tag == nlp.None {
				r.tagAfter(i)
			}
			r.note(i)
			continue
		}
		r.tagAfter(i)
		if t.tag == nlp.None {
			r.tagBefore(i)
		}
		if prev != nlp.None {
			r.carriesOn(prev, i)
		}
		if t.tag == nlp.None && t.follows == nlp.None {
			r.findBeat(i)
		}
		r.note(i)
		prev = i
	}
}

func (r *reading) note(i int) {
	// "The sign said" reports without speaking; "said the sign" speaks.
	if t := &r.turns[i]; t.tag != nlp.None && !(t.before && neverSomebody[r.mentions[t.tag].lemma]) {
		r.tags[t.tag] = true
	}
}

// inFlow reports whether the text comes without the paragraphs of speech.
func (r *reading) inFlow() bool {
	n := len(r.d.Paragraphs)
	return n == 0 || len(r.q) > 4 && len(r.d.Tokens)/n > 400
}

func (r *reading) paragraph(token int) int {
	if token >= len(r.d.Tokens) {
		return len(r.d.Paragraphs)
	}
	if s := r.d.Tokens[token].Sentence; s >= 0 && s < len(r.d.Sentences) {
		return r.d.Sentences[s].Paragraph
	}
	return 0
}

func (r *reading) outerOf(i int) int {
	for j := i - 1; j >= 0 && j >= i-8; j-- {
		if r.q[j].Span.Contains(r.q[i].Span) {
			return j
		}
	}
	return nlp.None
}

// sameLevel reports whether token t stands where quote i stands: outside all
// quotes, or in the quote around it, so that a reporting clause is not looked
// for in somebody else's speech.
func (r *reading) sameLevel(t, i int) bool {
	return r.quoteAt[t] == r.turns[i].outer
}

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

// carriesOn links quote i to the quote before it in one breath: after the
// tag between the halves, or in a new paragraph that opens its mark again.
func (r *reading) carriesOn(prev, i int) {
	p, q := &r.q[prev], &r.q[i]
	tp, t := &r.turns[prev], &r.turns[i]
	gap := q.First - p.End
	if t.tag != nlp.None && (t.before || t.tag != tp.tag) {
		return
	}
	if t.paragraph != tp.paragraph {
		if gap == 0 && t.paragraph == tp.paragraph+1 && !closedQuote(r.d.Text, p.Span) {
			t.follows = prev
		}
		return
	}
	if gap <= 0 || tp.tag == nlp.None || tp.before {
		return
	}
	// In the gap stands the tag of the first half and no new sentence.
	stops := 0
	for s := p.End; s < q.First-1; s++ {
		switch r.d.Tokens[s].Lower {
		case ".", "!", "?":
			stops++
		}
	}
	if stops == 0 && r.mentions[tp.tag].first >= p.End {
		t.follows = prev
	}
}

// closedQuote reports whether the quote ends with a closing mark.
func closedQuote(text string, s nlp.Span) bool {
	in := s.Of(text)
	for _, end := range []string{`"`, "”", "»", "'", "’", "›", "“"} {
		if len(in) > len(end) && strings.HasSuffix(in, end) {
			return true
		}
	}
	return false
}

// findBeat notes who acts right before or after an untagged quote in its
// paragraph: "Moss sat down. 'I am tired.'"
func (r *reading) findBeat(i int) {
	q := &r.q[i]
	t := &r.turns[i]
	if s := r.sentenceBefore(q.First); s >= 0 && (r.d.Sentences[s].Paragraph == t.paragraph) {
		sent := r.d.Sentences[s]
		if m := r.actor(sent.First, min(q.First, sent.End), i); m != nlp.None {
			t.beat = m
			if !r.flow {
				return
			}
		}
	}
	if t.beat != nlp.None {
		return
	}
	at := q.End
	if at < len(r.d.Tokens) && r.paragraph(at) == t.paragraph {
		s := r.d.Sentences[r.d.Tokens[at].Sentence]
		if m := r.actor(at, s.End, i); m != nlp.None {
			t.beat = m
		}
	}
}

func (r *reading) sentenceBefore(token int) int {
	if token == 0 {
		return -1
	}
	return r.d.Tokens[token-1].Sentence
}

// actor gives the subject of the first finite verb between the tokens that is
// told outside quotes.
func (r *reading) actor(from, to, i int) int {
	for s := from; s < to && s < from+30; s++ {
		if !r.sameLevel(s, i) {
			if from == r.q[i].End {
				return nlp.None
			}
			continue
		}
		p := r.phraseAt[s]
		if p == nlp.None || r.role[p] != roleSubject {
			continue
		}
		m := r.byPhrase[p]
		if m != nlp.None && r.mayListen(m) && r.mentions[m].form.class != neuter && !(r.mentions[m].kind == nominal && r.mentions[m].noun.kind == nlp.Thing) {
			return m
		}
	}
	return nlp.None
}

var (
	adverbs   = set("then and so again at last once more thus but now only quickly softly quietly suddenly presently finally there here also")
	listening = set("to unto at with")
	asking    = set("ask tell beg answer call address assure inform advise warn entreat implore beseech remind greet question urge scold thank bid order command interrupt comfort")
)
