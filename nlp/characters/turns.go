package characters

import (
	"strings"

	"feltpage/nlp"
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
