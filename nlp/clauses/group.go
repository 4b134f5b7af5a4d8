package clauses

import "feltpage/nlp"

// group reads the verb group that starts at i. With invert, a subject may
// stand after the first auxiliary ("Did the boy see?").
func (p *parser) group(i, end int, invert bool) nlp.VerbGroup {
	g := nlp.VerbGroup{First: i, Subject: nlp.None, Object: nlp.None, Indirect: nlp.None, By: nlp.None,
		Governor: nlp.None, Complement: nlp.None}
	if i > 0 && (p.kinds[i-1] == adverb || p.kinds[i-1] == conjunction) && p.d.Tokens[i-1].Sentence == p.d.Tokens[i].Sentence {
		g.Negated = negations[p.word(i-1)] && p.word(i-1) != "n't"
	}
	j := i
	if p.kinds[j] == to {
		g.Infinitive = true
		if i > 0 && p.word(i-1) == "not" {
			g.Negated = true
		}
		for j++; j < end && p.kinds[j] == adverb; j++ {
			g.Negated = g.Negated || negations[p.word(j)]
		}
	}
	for n := 0; n < 12; n++ {
		t := &p.d.Tokens[j]
		k := p.kinds[j]
		if k == modal {
			g.Modal = t.Lemma
		}
		next, negated, subject := p.nextVerb(j, end, invert && j == i)
		if next == nlp.None {
			break
		}
		nk := p.kinds[next]
		join := false
		switch {
		case k == modal:
			join = nk == verbBase || nk == verbPresent && p.d.Tokens[next].Tag == "VBP" || nk == verbPast && bases[p.word(next)]
			if t.Lower == "'d" && (nk == verbEn || nk == verbPast && !join) {
				join, g.Modal = true, "" // he'd gone: had
			}
		case t.Lemma == "need" || t.Lemma == "dare":
			if join = nk == verbBase; join {
				g.Modal = t.Lemma // "needn't fear"
			}
		case t.Lemma == "do":
			join = nk == verbBase || p.d.Tokens[next].Tag == "VBP"
		case t.Lemma == "have":
			join = nk == verbEn || nk == verbPast
		case t.Lemma == "be":
			if t.Lower == "'s" && (p.word(next) == "been" || p.word(next) == "got" || p.word(next) == "had") {
				join = true // he's been: has
				break
			}
			join = nk == verbIng || nk == verbEn || nk == verbPast && next == j+1
			g.Passive = join && nk != verbIng && !(perfectWithBe[p.d.Tokens[next].Lemma])
		}
		if !join {
			break
		}
		if subject != nlp.None {
			g.Subject = subject
		}
		g.Negated = g.Negated || negated
		j = next
	}
	g.Head, g.End = j, j+1
	if g.Passive {
		g.Complement = j
	}
	// "was not", "knew not", "no longer", "was never"
	for k := g.End; k < end && k < g.End+3; k++ {
		if p.kinds[k] != adverb && !(p.word(k) == "no" && k+1 < end && (p.word(k+1) == "longer" || p.word(k+1) == "more")) {
			break
		}
		w := p.word(k)
		if w == "no" {
			g.Negated = true
			g.End = k + 2
			break
		}
		if negations[w] {
			if k+1 < end && (p.word(k+1) == "only" || p.kinds[k+1] == to) {
				break
			}
			g.Negated = true
			g.End = k + 1
		}
	}
	if p.kinds[i] == verbIng || p.kinds[i] == verbEn {
		g.Participle = true
	}
	return g
}

// nextVerb looks past adverbs, and if it may past a subject, for the verb that
// goes on with the auxiliary at j.
func (p *parser) nextVerb(j, end int, invert bool) (next int, negated bool, subject int) {
	subject = nlp.None
	for k, n := j+1, 0; k < end && n < 6; n++ {
		switch kd := p.kinds[k]; {
		case p.word(k) == "no" && k+1 < end && p.word(k+1) == "longer":
			negated = true
			k += 2
		case kd == adverb:
			w := p.word(k)
			if negations[w] && !(k+1 < end && p.word(k+1) == "only") {
				negated = true
			}
			k++
		case p.word(k) == "at" && k+1 < end && atTimes[p.word(k+1)]:
			k += 2 // "was at length persuaded"
		case (kd == det || kd == predet) && quantifier[p.word(k)] && !invert && (p.starts[k] == 0 || p.d.Phrases[p.starts[k]-1].End == k+1):
			k++ // "were all weeping"
		case invert && subject != nlp.None && k+1 < end && (kd == conjunction || kd == preposition) && p.starts[k+1] != 0:
			k = p.d.Phrases[p.starts[k+1]-1].End // "Did the boy and the goat in the wood see"
		case invert && subject == nlp.None && p.starts[k] != 0:
			subject = int(p.starts[k] - 1)
			k = p.d.Phrases[subject].End
		case kd.verb():
			return k, negated, subject
		default:
			return nlp.None, false, nlp.None
		}
	}
	return nlp.None, false, nlp.None
}

// complement finds the predicative adjective or participle that starts at i,
// past what measures it: "[very] afraid", "a little afraid", "more than ever
// afraid". It gives nlp.None where a noun follows.
func (p *parser) complement(i, end int) int {
	word := func(k int) string {
		if k < end {
			return p.word(k)
		}
		return ""
	}
	for n := 0; i < end && n < 6; n++ {
		if p.starts[i] != 0 {
			return nlp.None
		}
		next := other
		if i+1 < end && p.starts[i+1] == 0 {
			next = p.kinds[i+1]
		}
		switch k, w := p.kinds[i], p.word(i); {
		case w == "a" && (word(i+1) == "little" || word(i+1) == "bit" || word(i+1) == "trifle"),
			w == "at" && (word(i+1) == "all" || atTimes[word(i+1)]), w == "than" && word(i+1) == "ever":
			i += 2
		case k == adjective && measures[w] && (next == adjective || next == adverb || next == verbEn), w == "more" && next == preposition:
			i++
		case k == adjective, k == verbEn, predicative[w]:
			return i
		case k == comma && i > 0 && p.word(i-1) == word(i+1):
			i++ // "very, very tired"
		case k == verbPast && i+1 < end && p.kinds[i+1] != noun && p.kinds[i+1] != det && !auxiliary[p.d.Tokens[i].Lemma]:
			return i
		case k == adverb, w == "as", w == "so", w == "both", w == "quite", w == "half", w == "too":
			i++
		default:
			return nlp.None
		}
	}
	return nlp.None
}
