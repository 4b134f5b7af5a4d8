package clauses

import "feltpage/nlp"

// longest is the number of tokens that a noun phrase may have; what is longer
// is cut, so that no run of words is read more than a fixed number of times.
const longest = 24

// chunk finds the noun phrases of the tokens [first, end).
func (p *parser) chunk(first, end int) {
	for i := first; i < end; {
		p.starts[i] = 0
		n := p.phrase(i, end)
		for j := i + 1; j < max(n, i+1); j++ {
			p.starts[j] = 0
		}
		i = max(n, i+1)
	}
}

// phrase reads the noun phrase at i, if there is one, adds it, and gives the
// place after it.
func (p *parser) phrase(i, end int) int {
	if i > 0 && (p.word(i-1) == "at" && atTimes[p.word(i)] || p.word(i-1) == "in" && inManners[p.word(i)]) {
		return i // "at last one of them", "in vain Moss called"
	}
	switch p.kinds[i] {
	case pronoun:
		n := i + 1
		if n < end && (p.word(n) == "all" || p.word(n) == "both") && p.kinds[n] != adverb && !(n+1 < end && p.chunkable(n+1)) {
			n++ // "they all"
		}
		p.add(nlp.NounPhrase{First: i, End: n, Head: i, Possessor: nlp.None, Pronoun: true})
		return n
	case det, predet, possPronoun, whose, number, noun, adjective:
	case verbIng, verbEn:
		// "trembling hands" only after something that opens a phrase, or as
		// the subject of a verb: "Trembling hands held it."
		if !p.participleSubject(i, end) {
			return i
		}
	case adverb:
		// "so great a king"
		if !(i+2 < end && p.kinds[i+1] == adjective && p.kinds[i+2] == det && p.indefinite(i+2) && graded[p.word(i)]) {
			return i
		}
	case whPronoun:
		// "what joy", "what a day"
		if !(i+1 < end && p.word(i) == "what" && (p.kinds[i+1] == det && p.indefinite(i+1) || p.kinds[i+1] == noun)) {
			return i
		}
	default:
		return i
	}

	at := len(p.d.Phrases) // where the whole phrase goes, before what it holds
	possessor := nlp.None
	head, good := nlp.None, i // last noun so far, and the place after it
	mod := nlp.None           // last modifier without a noun after it
	opened := false           // a determiner or possessor has been seen
	var inner []nlp.NounPhrase
	var room [4]nlp.NounPhrase
	inner = room[:0]
	j := i
	end = min(end, i+longest)
scan:
	for j < end {
		switch k := p.kinds[j]; k {
		case noun:
			if head != nlp.None && p.breaksNouns(head, j) {
				break scan
			}
			head, mod = j, nlp.None
			good = j + 1
		case det, predet, possPronoun, whose:
			if j > i && p.kinds[j-1] == possMark {
				break scan
			}
			if head != nlp.None || opened && k != det && k != possPronoun || mod != nlp.None && !(p.indefinite(j) && graded[p.word(i)]) {
				break scan
			}
			if opened && j > i && p.kinds[j-1] == det && k != possPronoun && !quantifier[p.word(j-1)] {
				break scan
			}
			if k == possPronoun || k == whose {
				possessor = j
				inner = append(inner, nlp.NounPhrase{First: j, End: j + 1, Head: j, Possessor: nlp.None, Pronoun: true})
			}
			opened = true
			mod = nlp.None
		case adjective, number:
			if head != nlp.None {
				break scan
			}
			mod = j
		case verbIng, verbEn:
			if head != nlp.None || j > i && !opened && mod == nlp.None || j+1 >= end {
				break scan
			}
			if next := p.kinds[j+1]; next != noun && next != adjective && next != comma && next != conjunction && next != verbIng && next != verbEn {
				if opened && (k == verbIng || k == verbEn) && p.word(max(j-1, i)) == "the" && !next.verb() {
					mod = j // "the wounded", "the drowning"
					j++
				}
				break scan
			}
			mod = j
		case adverb:
			if p.word(j) == "very" && opened && head == nlp.None && j+1 < end && p.kinds[j+1] == noun {
				break // "that very moment"
			}
			if head != nlp.None || j+1 >= end || !opened && j > i || p.kinds[j+1] != adjective && p.kinds[j+1] != verbEn && p.kinds[j+1] != verbIng && p.kinds[j+1] != adverb {
				break scan
			}
		case comma, conjunction:
			// "a cold, dark wood", "a poor and lonely boy"
			if head != nlp.None || !opened || mod != j-1 || !p.adjectivesGoOn(j+1, end) {
				break scan
			}
		case whPronoun:
			if j > i {
				break scan
			}
		case possMark:
			if head != j-1 || head == nlp.None {
				break scan
			}
			inner = append(inner, nlp.NounPhrase{First: i, End: j, Head: head, Possessor: possessor})
			possessor, head, mod, opened = head, nlp.None, nlp.None, true
		default:
			break scan
		}
		j++
	}
	whole := nlp.NounPhrase{First: i, End: good, Head: head, Possessor: possessor}
	if head == nlp.None {
		h, e := p.headless(i, j, mod, opened)
		if h == nlp.None || len(inner) > 0 && h < inner[len(inner)-1].End {
			// No phrase but what it holds: "at the baker's".
			for _, in := range inner {
				p.add(in)
			}
			if len(inner) > 0 {
				last := inner[len(inner)-1].End
				if p.kinds[last] == possMark {
					last++
				}
				return last
			}
			return i
		}
		whole.Head, whole.End = h, e
		whole.Pronoun = p.kinds[h] == det
	}
	p.add(whole)
	// "The king's son's": inner phrases, longest first where they start together.
	for n := len(inner) - 1; n >= 0; n-- {
		p.add(inner[n])
	}
	p.order(at)
	return whole.End
}

// participleSubject reports a participle at the start of a clause before a
// common noun that has its verb right after it.
func (p *parser) participleSubject(i, end int) bool {
	if i > 0 && p.d.Tokens[i-1].Sentence == p.d.Tokens[i].Sentence {
		switch p.kinds[i-1] {
		case comma, stop, openQuote:
		default:
			return false
		}
	}
	j := i + 1
	for j < end && j < i+4 && p.kinds[j] == noun {
		if p.proper(j) {
			return false
		}
		j++
	}
	return j > i+1 && j < end && p.kinds[j].finite()
}

// headless finds the head of a phrase without a noun: "the youngest", "this",
// "two", "one". It gives the head and the place after the phrase.
func (p *parser) headless(i, j, mod int, opened bool) (head, end int) {
	if mod != nlp.None && (opened && mod > i || p.kinds[mod] == number) {
		if p.kinds[mod] == adjective && p.kinds[i] == det && p.word(i) != "the" && !pointing[p.word(i)] && p.word(mod) != "other" &&
			!ordinals[p.word(mod)] {
			return nlp.None, i // "a little", "all alone"
		}
		return mod, mod + 1
	}
	if mod == i && quantities[p.word(i)] && i+1 < len(p.kinds) && (p.word2(i+1) == "of" || p.kinds[i+1].finite()) {
		return i, i + 1 // "many of them", "few came"
	}
	last := i
	for last+1 < j && (p.kinds[last+1] == det || p.kinds[last+1] == predet) {
		last++
	}
	if k := p.kinds[last]; (k == det || k == predet) && pronominal[p.word(last)] {
		return last, last + 1
	}
	return nlp.None, i
}

// adjectivesGoOn reports whether, after a comma or "and" inside a phrase,
// another adjective and later its noun follow.
func (p *parser) adjectivesGoOn(j, end int) bool {
	seen := false
	for n := 0; j < end && n < 8; n++ {
		switch p.kinds[j] {
		case adjective, verbEn, verbIng:
			seen = true
		case adverb:
		case comma, conjunction:
			if !seen {
				return false
			}
		case noun:
			return seen
		default:
			return false
		}
		j++
	}
	return false
}

// breaksNouns reports whether the noun j starts a phrase of its own though it
// follows a noun: "that day Moss ran", "drove the cows home".
func (p *parser) breaksNouns(head, j int) bool {
	return p.word(j) == "home" || p.d.Tokens[head].Tag == "NNS" && p.proper(j) || times[p.d.Tokens[head].Lemma] && p.proper(j) && !p.proper(head)
}

func (p *parser) proper(i int) bool {
	t := p.d.Tokens[i].Tag
	return t == "NNP" || t == "NNPS"
}

func (p *parser) word(i int) string { return p.d.Tokens[i].Lower }

// word2 is word, or "" after the last token.
func (p *parser) word2(i int) string {
	if i < len(p.d.Tokens) {
		return p.word(i)
	}
	return ""
}

func (p *parser) indefinite(i int) bool {
	w := p.word(i)
	return w == "a" || w == "an"
}

// chunkable reports a token that may open a phrase with a noun.
func (p *parser) chunkable(i int) bool {
	switch p.kinds[i] {
	case det, possPronoun, noun, adjective, number:
		return true
	}
	return false
}

// add adds a phrase and notes where it starts.
func (p *parser) add(n nlp.NounPhrase) {
	n.Of, n.Conjunct = nlp.None, nlp.None
	p.d.Phrases = append(p.d.Phrases, n)
	if s := &p.starts[n.First]; *s == 0 {
		*s = int32(len(p.d.Phrases))
	}
}

// order puts the phrases from at on in order of First, longer ones first, and
// notes anew where they start.
func (p *parser) order(at int) {
	ps := p.d.Phrases[at:]
	for a := 1; a < len(ps); a++ {
		for b := a; b > 0 && (ps[b].First < ps[b-1].First || ps[b].First == ps[b-1].First && ps[b].End > ps[b-1].End); b-- {
			ps[b], ps[b-1] = ps[b-1], ps[b]
		}
	}
	for n := len(ps) - 1; n >= 0; n-- {
		p.starts[ps[n].First] = int32(at + n + 1)
	}
}
