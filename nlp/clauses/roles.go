package clauses

import (
	"slices"
	"strings"

	"feltpage/nlp"
)

// phrase gives the noun phrase n its role and gives the place after it.
func (w *walker) phrase(n int) int {
	s, c := w.here(), w.top()
	ph := &w.d.Phrases[n]
	next := ph.End
	if next < w.end && w.kinds[next] == possMark {
		next++
	}
	if ph.Possessor != nlp.None && w.kinds[ph.Possessor] == whose {
		if w.lastNoun != nlp.None {
			ph.Possessor = w.d.Phrases[w.lastNoun].Head
			cl := newClause()
			cl.relative, cl.pending = true, n
			w.push(cl)
			w.prep, w.conjunct, w.lastNoun = nlp.None, nlp.None, n
			w.met(aPhrase)
			return next
		}
	}
	if n == w.taken {
		w.taken = nlp.None
		w.lastNoun = n
		w.met(aPhrase)
		return next
	}
	root := n
	defer func() { w.lastNoun, w.prep, w.conjunct, w.root = n, nlp.None, nlp.None, root }()

	if w.prep != nlp.None && !nominative[w.word(ph.Head)] {
		w.prepPhrase(n)
		w.met(aPrepPhrase)
		return next
	}
	verbNext := w.finiteFollows(ph.End)
	time := times[w.d.Tokens[ph.Head].Lemma]
	switch {
	case c.late != nlp.None && !time && !verbNext && s.prev != aConjunction:
		w.d.Verbs[c.late].Subject, c.subject = n, n // "There lived by the sea a fisher."
		c.late = nlp.None
	case s.prev == aConjunction && w.conjunct != nlp.None:
		if verbNext && w.root != c.pending || nominative[w.word(ph.Head)] {
			w.close()
			w.top().pending = n // a new clause
		} else {
			w.d.Phrases[w.conjunct].Conjunct = n
			root = w.root
			if s.before == aPrepPhrase {
				w.met(aPrepPhrase)
				return next
			}
		}
	case s.prev == aConjunction:
		w.close()
		w.top().pending = n
	case s.prev == aComma && (s.before == aPhrase || s.before == aPrepPhrase) && w.lastNoun != nlp.None && w.listGoesOn(ph.End) && !verbNext:
		w.d.Phrases[w.lastNoun].Conjunct = n
		root = w.root
		if s.before == aPrepPhrase {
			w.met(aPrepPhrase)
			return next
		}
	case s.prev == aComma:
		// "Moss, the baker's boy, ran": the first one waits on.
		if c.pending == nlp.None || verbNext {
			c.pending = n
		}
	case s.prev == aPhrase && s.before == aVerb && c.last != nlp.None && w.d.Verbs[c.last].Object == w.lastNoun && givers[w.verbLemma(c.last)] && !nominative[w.word(ph.Head)]:
		v := &w.d.Verbs[c.last]
		if !time {
			v.Indirect, v.Object = v.Object, n
		}
	case s.prev == aPrepPhrase && verbNext && c.verb == nlp.None && c.pending == nlp.None:
		c.pending = n // "Cheered by his words the hare told"
	case s.prev == aPrepPhrase && verbNext && c.verb != nlp.None:
		// "When she ran to them the boy wept": back to the clause that still
		// lacks its verb, or on to a new one.
		if k := len(s.clauses); k > 1 && s.clauses[k-2].verb == nlp.None && s.clauses[k-2].pending == nlp.None {
			s.clauses = s.clauses[:k-1]
		} else {
			w.push(newClause())
		}
		w.top().pending = n
	case (s.prev == aPhrase || s.prev == aPrepPhrase) && w.lastNoun != nlp.None && times[w.d.Tokens[w.d.Phrases[w.lastNoun].Head].Lemma]:
		c.pending = n
	case s.prev == aPhrase && verbNext && c.verb != nlp.None && w.lastNoun != nlp.None && w.subjectAgain(n):
		s.clauses = s.clauses[:len(s.clauses)-1]
		w.top().pending = n
	case s.prev == aPhrase && w.lastNoun != nlp.None && verbNext && w.reduced(n):
		cl := newClause()
		cl.relative, cl.antecedent, cl.pending = true, w.lastNoun, n
		w.push(cl)
	case s.prev == aPhrase:
		// Apposition ("Moss the baker") or something we do not know.
		if verbNext && c.pending == nlp.None {
			if c.verb != nlp.None {
				w.push(newClause())
			}
			w.top().pending = n
		}
	case c.last != nlp.None && (s.prev == aVerb || s.prev == aPrepPhrase || s.prev == anOther) && !nominative[w.word(ph.Head)]:
		w.object(n, time, verbNext)
	case nominative[w.word(ph.Head)] && c.verb != nlp.None:
		cl := newClause()
		cl.pending = n
		w.push(cl)
	default:
		c.pending = n
	}
	w.met(aPhrase)
	return next
}

// close ends the inner clauses that have their verb, before "and he".
func (w *walker) close() {
	s := w.here()
	for n := len(s.clauses); n > 1 && s.clauses[n-1].verb != nlp.None && s.clauses[n-1].relative; n-- {
		s.clauses = s.clauses[:n-1]
	}
}

// finiteFollows reports a finite verb at i, past adverbs.
func (w *walker) finiteFollows(i int) bool {
	for n := 0; i < w.end && n < 4; n++ {
		if w.kinds[i].finite() {
			return true
		}
		if w.kinds[i] != adverb {
			return false
		}
		i++
	}
	return false
}

// listGoesOn reports ", x and y" or "and y" at i: the phrase before it is part
// of a list.
func (w *walker) listGoesOn(i int) bool {
	for n := 0; i < w.end && n < 8; n++ {
		switch k := w.kinds[i]; {
		case k == conjunction:
			return i+1 < w.end && w.starts[i+1] != 0
		case k == comma && i+1 < w.end && w.kinds[i+1] == conjunction:
			return i+2 < w.end && w.starts[i+2] != 0 && !w.finiteFollows(w.d.Phrases[w.starts[i+2]-1].End)
		case k == comma && i+1 < w.end && w.starts[i+1] != 0:
			i = w.d.Phrases[w.starts[i+1]-1].End
		default:
			return false
		}
	}
	return false
}

// subjectAgain reports "he" after a clause about "he" that comes before the
// main one: "When he saw the wolf he ran".
func (w *walker) subjectAgain(n int) bool {
	s := w.here()
	k := len(s.clauses)
	if k < 2 || s.clauses[k-2].verb != nlp.None || s.clauses[k-2].pending != nlp.None || s.clauses[k-1].subject == nlp.None {
		return false
	}
	a, b := w.d.Phrases[s.clauses[k-1].subject], w.d.Phrases[n]
	return b.First > w.d.Phrases[w.lastNoun].End && b.Pronoun || a.Pronoun && b.Pronoun && w.word(a.Head) == w.word(b.Head)
}

// reduced reports a phrase that opens a relative clause without "that":
// "the loaf she baked".
func (w *walker) reduced(n int) bool {
	last := w.d.Phrases[w.lastNoun]
	if last.Pronoun {
		return false
	}
	return w.d.Phrases[n].First == last.End && (w.d.Phrases[n].Pronoun || !w.proper(last.Head))
}

// prepPhrase gives a phrase after a preposition its role.
func (w *walker) prepPhrase(n int) {
	c := w.top()
	prep := w.word(w.prep)
	switch {
	case prep == "of" && w.lastNoun != nlp.None && w.d.Phrases[w.lastNoun].End == w.prep:
		w.d.Phrases[w.lastNoun].Of = n
	case prep == "for":
		w.forPhrase = n
	case c.last == nlp.None:
	case prep == "by" && w.d.Verbs[c.last].Passive && w.d.Verbs[c.last].By == nlp.None:
		w.d.Verbs[c.last].By = n
	case (prep == "to" || prep == "unto") && givers[w.verbLemma(c.last)] && w.d.Verbs[c.last].Indirect == nlp.None:
		w.d.Verbs[c.last].Indirect = n
	}
}

func (w *walker) verbLemma(v int) string { return w.d.Tokens[w.d.Verbs[v].Head].Lemma }

// object gives a phrase after a verb its role.
func (w *walker) object(n int, time, verbNext bool) {
	s, c := w.here(), w.top()
	v := &w.d.Verbs[c.last]
	ph := &w.d.Phrases[n]
	switch {
	case v.Object != nlp.None || s.prev != aVerb && v.Complement != nlp.None:
		if verbNext {
			cl := newClause()
			cl.pending = n
			w.push(cl)
		}
		return
	case equatives[w.verbLemma(c.last)] && !v.Passive && s.prev == aVerb, v.Passive && naming[w.verbLemma(c.last)] && s.prev == aVerb:
		if v.Complement == nlp.None || v.Passive {
			v.Complement = ph.Head
			v.Copular = !v.Passive
		}
		v.Negated = v.Negated || w.denies(n)
		return
	case time && !w.d.Phrases[n].Pronoun && w.verbLemma(c.last) != "pass" && w.verbLemma(c.last) != "spend":
		return
	case v.Passive && s.prev != aVerb:
		return
	}
	v.Object = n
	v.Negated = v.Negated || w.denies(n)
	if objectAdjective[w.verbLemma(c.last)] && v.Complement == nlp.None {
		if a := w.complement(ph.End, w.end); a != nlp.None && (w.kinds[a] != verbPast || w.pastPredicate(a)) {
			v.Complement = a
		}
	}
}

// pastPredicate reports whether the past form at i, after an object, is its
// predicate ("found it locked") and not the verb of another subject ("thought
// the fox slept", "the roof that kept out the rain fell").
func (w *walker) pastPredicate(i int) bool {
	s := w.here()
	lemma := w.verbLemma(w.top().last)
	if !strings.HasSuffix(w.word(i), "ed") || clauseTakers[lemma] && lemma != "find" {
		return false
	}
	for n := len(s.clauses) - 2; n >= 0; n-- {
		if s.clauses[n].pending != nlp.None {
			return false
		}
	}
	return true
}

// denies reports a phrase with "no", or "nothing".
func (w *walker) denies(n int) bool {
	ph := w.d.Phrases[n]
	first := w.word(ph.First)
	if first == "no" || first == "neither" || nothings[w.word(ph.Head)] {
		return !(ph.End < w.end && w.word(ph.End) == "but")
	}
	return false
}

// verb reads the verb group at i, gives it its roles, and gives the place
// after it.
func (w *walker) verb(i int) int {
	s, c := w.here(), w.top()
	invert := c.pending == nlp.None && c.antecedent == nlp.None && (s.prev != aConjunction || c.verb == nlp.None || i > 0 && inverters[w.word(i-1)]) && s.prev != aVerb && w.kinds[i].finite()
	if c.relative && c.pending == nlp.None && c.antecedent != nlp.None && c.verb == nlp.None {
		invert = false
	}
	g := w.group(i, w.end, invert)
	inverted := g.Subject
	n := len(w.d.Verbs)
	k := w.kinds[i]
	switch {
	case c.last != nlp.None && w.d.Verbs[c.last].Complement == i && w.d.Verbs[c.last].Head != i:
		g.Participle, g.Passive = true, true
		if g.Complement == nlp.None {
			g.Complement = g.Head
		}
		v := w.d.Verbs[c.last]
		g.Governor, g.Subject = c.last, v.Subject
		if v.Object != nlp.None {
			g.Subject = v.Object // "made her contented"
		}
	case k == to:
		w.bindInfinitive(&g, n)
	case k == verbBase && w.bareInfinitive(&g):
	case k == verbIng || k == verbEn && w.participle(&g):
		g.Participle = true
		w.bindParticiple(&g, n)
	default:
		g.Participle = false
		if g.Subject == nlp.None {
			g.Subject = w.subject(&g)
		}
		c = w.top()
		if c.verb != nlp.None {
			c.predicate = nlp.None
		}
		c.verb, c.subject, c.pending, c.joined, c.late = n, g.Subject, nlp.None, false, nlp.None
		if g.Subject != nlp.None {
			if w.d.Phrases[g.Subject].Head >= 0 && w.denies(g.Subject) {
				g.Negated = true
			}
			w.settle(g.Subject)
		}
	}
	c = w.top()
	if c.verb == n && g.Subject == nlp.None && !c.question && (c.exists || c.fronted) && appearing[w.d.Tokens[g.Head].Lemma] {
		c.late = n
	}
	if c.verb == n {
		c.exists, c.fronted = false, false
	}
	c.last = n
	if c.relative && c.antecedent != nlp.None && g.Subject != c.antecedent && !g.Passive && g.Object == nlp.None &&
		!copulas[w.d.Tokens[g.Head].Lemma] && !g.Infinitive && c.verb == n {
		g.Object = c.antecedent
	}
	at := g.End
	if g.Subject != nlp.None && w.d.Phrases[g.Subject].First == at {
		at = w.d.Phrases[g.Subject].End
	}
	if lemma := w.d.Tokens[g.Head].Lemma; copulas[lemma] && !g.Passive {
		if a := w.complement(at, w.end); a != nlp.None {
			g.Complement, g.Copular = a, true
		} else if c.predicate != nlp.None && c.predicate < g.First && c.verb == n && (lemma == "be" || w.phraseAt(g.End) == nlp.None) {
			g.Complement, g.Copular = c.predicate, true // "how cold it was"
		} else if equatives[lemma] || lemma == "appear" {
			g.Copular = lemma == "be" || lemma == "become" || lemma == "seem"
		}
	}
	w.d.Verbs = append(w.d.Verbs, g)
	w.prep, w.conjunct = nlp.None, nlp.None
	w.met(aVerb)
	if inverted != nlp.None {
		w.lastNoun = inverted
	}
	return g.End
}

// subject finds the subject of a finite verb.
func (w *walker) subject(g *nlp.VerbGroup) int {
	s, c := w.here(), w.top()
	lemma := w.d.Tokens[g.Head].Lemma
	imperative := w.kinds[g.First] == verbBase
	if c.relative && c.verb == nlp.None && c.pending == nlp.None {
		if c.question && lemma == "be" {
			if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
				w.taken = n // "Who are you?", "what was the matter"
				return n
			}
		}
		if c.antecedent != nlp.None || c.question {
			return c.antecedent
		}
	}
	if !c.relative && c.question && c.verb == nlp.None && c.pending == nlp.None {
		if n := w.phraseAt(g.End); lemma == "be" && n != nlp.None && !w.oblique(n) {
			w.taken = n
			return n
		}
		return nlp.None
	}
	if c.exists && (lemma == "be" || appearing[lemma]) {
		if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
			w.taken = n // "There was a fox"
			return n
		}
		if lemma == "be" {
			return nlp.None // "there was not enough of it"
		}
	}
	if c.pending != nlp.None {
		// "Girls, is this the way?": who is spoken to stands before.
		if s.prev == aComma && c.verb == nlp.None && (lemma == "be" || lemma == "have") && g.First == g.Head {
			if n := w.phraseAt(g.End); n != nlp.None && w.d.Phrases[n].Pronoun && !w.oblique(n) {
				w.taken = n
				return n
			}
		}
		return c.pending
	}
	if s.prev == aConjunction && g.First > 0 && inverters[w.word(g.First-1)] && (auxiliary[lemma] || g.Modal != "") {
		if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
			w.taken = n // "and so is the pot"
			return n
		}
	}
	if c.joined && c.fronted && (s.prev == aPrepPhrase || s.prev == aPreposition || s.prev == anOther) && appearing[lemma] {
		if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
			w.taken = n // "and out of it streamed a light"
			return n
		}
	}
	// Right after a quote: "Oh!" cried the boy.
	if s.afterIt && (reporting[lemma] || c.verb == nlp.None && w.kinds[g.First] == verbPast) {
		if n := w.phraseAt(g.End); n != nlp.None {
			w.taken = n
			return n
		}
	}
	if s.prev == aConjunction || s.prev == aComma && c.verb != nlp.None {
		if c.subject != nlp.None && !(imperative && c.verb != nlp.None && w.kinds[w.d.Verbs[c.verb].First] != verbBase) {
			return c.subject
		}
	}
	if c.verb != nlp.None {
		for n := len(s.clauses) - 2; n >= 0; n-- {
			if p := s.clauses[n].pending; p != nlp.None {
				s.clauses = s.clauses[:n+1]
				return p
			}
		}
		// "He thought the fox slept": the object was a subject.
		if s.prev == aPhrase && w.lastNoun != nlp.None && !imperative {
			if v := &w.d.Verbs[c.last]; v.Object == w.lastNoun {
				v.Object = nlp.None
				w.push(newClause())
				return w.lastNoun
			}
		}
	}
	placed := (s.prev == aPrepPhrase || s.prev == aPreposition) && !imperative && c.subject == nlp.None
	if c.fronted && c.verb == nlp.None && (appearing[lemma] || placed) || c.fronted && reporting[lemma] && s.prev != aPrepPhrase && c.verb == nlp.None {
		if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
			w.taken = n
			return n
		}
	}
	if (lemma == "be" || lemma == "have") && (s.prev == nothing || (s.prev == aConjunction || s.prev == aComma) && c.verb == nlp.None) && !imperative {
		if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
			w.taken = n // "Is he afraid?"
			return n
		}
	}
	if s.prev == nothing && c.verb == nlp.None && w.kinds[g.First].finite() && (reporting[lemma] || appearing[lemma]) && !auxiliary[lemma] {
		if n := w.phraseAt(g.End); n != nlp.None && !w.oblique(n) {
			w.taken = n // "Bang! went the oven."
			return n
		}
	}
	if imperative || s.prev == nothing && w.kinds[g.First] != verbPast {
		return nlp.None
	}
	return c.subject // "He sat down; wept; slept."
}

// phraseAt gives the phrase at i, past adverbs and particles.
func (w *walker) phraseAt(i int) int {
	for n := 0; i < w.end && n < 3; n++ {
		if w.starts[i] != 0 {
			return int(w.starts[i] - 1)
		}
		if w.kinds[i] != adverb && w.kinds[i] != particle && w.kinds[i] != existential {
			return nlp.None
		}
		i++
	}
	return nlp.None
}

// oblique reports a pronoun that is no subject.
func (w *walker) oblique(n int) bool {
	switch w.word(w.d.Phrases[n].Head) {
	case "him", "them", "me", "us", "himself", "herself", "themselves", "itself", "thee", "her", "'em":
		return true
	case "each", "one":
		return w.d.Phrases[n].End == w.d.Phrases[n].First+1
	}
	return times[w.d.Tokens[w.d.Phrases[n].Head].Lemma]
}

// isTime reports a phrase that says when.
func (w *walker) isTime(n int) bool { return times[w.d.Tokens[w.d.Phrases[n].Head].Lemma] }

// bindInfinitive gives "to weep" its governor and subject.
func (w *walker) bindInfinitive(g *nlp.VerbGroup, n int) {
	c, s := w.top(), w.here()
	g.Infinitive = true
	if s.prev == aPrepPhrase && w.forPhrase == w.lastNoun && w.lastNoun != nlp.None {
		g.Governor, g.Subject = c.last, w.lastNoun // "too dark for him to see"
		return
	}
	if c.last == nlp.None {
		g.Subject = c.pending
		return
	}
	if s.prev == aConjunction {
		if v := w.d.Verbs[c.last]; v.Infinitive {
			g.Governor, g.Subject = v.Governor, v.Subject
			return
		}
	}
	g.Governor = c.last
	v := w.d.Verbs[c.last]
	g.Subject = v.Subject
	if v.Object != nlp.None {
		lemma := w.verbLemma(c.last)
		if nounControl[lemma] || w.d.Phrases[v.Object].Pronoun && objectControl[lemma] {
			g.Subject = v.Object
		}
	}
	if g.Subject == nlp.None && slices.ContainsFunc(s.dangling, func(l loose) bool { return l.verb == c.last }) {
		w.wait(n) // "Stooping to look, he saw"
	}
}

// bareInfinitive binds a base form without "to": after another infinitive or a
// modal ("to weep and wail"), or after "made him". Otherwise it reports false:
// an imperative, or a present tense with a wrong tag.
func (w *walker) bareInfinitive(g *nlp.VerbGroup) bool {
	c, s := w.top(), w.here()
	if c.last == nlp.None {
		return false
	}
	v := w.d.Verbs[c.last]
	switch {
	case s.prev == aConjunction || s.prev == aComma:
		if c.pending != nlp.None || !v.Infinitive && v.Modal == "" && w.kinds[v.Head] != verbBase {
			return false
		}
		g.Governor, g.Subject, g.Infinitive, g.Modal = v.Governor, v.Subject, v.Infinitive, v.Modal
		g.Negated = g.Negated || v.Negated && v.Modal != "" && s.prev == aConjunction && w.orBefore(g.First)
		return v.Infinitive
	case s.prev == aPhrase && w.lastNoun != nlp.None && v.Object == w.lastNoun && bareInfinitive[w.verbLemma(c.last)]:
		g.Governor, g.Subject, g.Infinitive = c.last, v.Object, true
		return true
	case s.prev == aVerb && (bareInfinitive[w.verbLemma(c.last)] || w.verbLemma(c.last) == "go" || w.verbLemma(c.last) == "dare" || w.verbLemma(c.last) == "need"):
		g.Governor, g.Subject, g.Infinitive = c.last, v.Subject, true
		return true
	}
	return false
}

func (w *walker) orBefore(i int) bool {
	return i > 0 && (w.word(i-1) == "or" || w.word(i-1) == "nor")
}

// participle reports whether a group that starts with a past participle is
// one, and not a past tense with a wrong tag.
func (w *walker) participle(g *nlp.VerbGroup) bool {
	s, c := w.here(), w.top()
	switch {
	case c.relative && c.verb == nlp.None && c.pending == nlp.None && c.antecedent != nlp.None && s.prev != aComma:
		return false // "a stone, which at once turned"
	case s.prev == aConjunction && c.pending == nlp.None:
		return c.last != nlp.None && (w.d.Verbs[c.last].Participle || w.d.Verbs[c.last].Passive || w.kinds[w.d.Verbs[c.last].Head] == verbEn)
	case c.pending == nlp.None || s.prev == aComma || s.prev == aVerb || s.prev == nothing:
		return true
	case w.d.Phrases[c.pending].Pronoun || g.End < w.end && w.word(g.End) == "by":
		return !w.d.Phrases[c.pending].Pronoun
	}
	// Another verb of the clause makes it a participle.
	for j, n := g.End, 0; j < w.end && n < 15; j, n = j+1, n+1 {
		switch k := w.kinds[j]; {
		case k.finite():
			return true
		case k == conjunction, k == stop, k == whPronoun, k == openQuote, k == closeQuote, k == whAdverb:
			return false
		case k == comma:
			return j+1 < w.end && w.kinds[j+1].finite()
		}
	}
	return false
}

// bindParticiple gives a participle its subject and governor.
func (w *walker) bindParticiple(g *nlp.VerbGroup, n int) {
	s, c := w.here(), w.top()
	if w.kinds[g.First] == verbEn {
		g.Passive = true
	}
	if w.prep != nlp.None {
		g.Negated = g.Negated || w.word(w.prep) == "without"
		if w.word(w.prep) == "without" {
			g.Negated = true
		}
	}
	if c.last != nlp.None {
		v := w.d.Verbs[c.last]
		if s.prev == aPhrase && w.lastNoun != nlp.None && v.Object == w.lastNoun {
			g.Governor, g.Subject = c.last, w.lastNoun // "saw him weeping"
			return
		}
		if c.pending != nlp.None && !(c.subject != nlp.None && w.isTime(c.pending)) {
			g.Subject = c.pending // "and his son, calling"
			return
		}
		switch {
		case s.prev == aVerb, w.prep != nlp.None:
			g.Governor, g.Subject = c.last, v.Subject
			if v.Subject == nlp.None && w.prep != nlp.None {
				g.Subject = c.subject
			}
			return
		case s.prev == aConjunction:
			if v.Participle || w.kinds[v.Head] == w.kinds[g.Head] {
				g.Governor, g.Subject = v.Governor, v.Subject
				g.Participle = v.Participle // "was tired and frightened" has none
				if g.Passive && g.Complement == nlp.None {
					g.Complement = g.Head
				}
				g.Negated = g.Negated || v.Negated && w.orBefore(g.First)
				if v.Subject == nlp.None {
					w.wait(n)
				}
				return
			}
		case s.prev == aPhrase && w.lastNoun != nlp.None:
			g.Governor, g.Subject = c.last, w.lastNoun
			return
		case s.prev == aPrepPhrase && w.lastNoun != nlp.None && (w.kinds[g.First] == verbEn || !lingering[w.verbLemma(c.last)]):
			g.Subject = w.lastNoun
			return
		}
		if c.subject != nlp.None {
			g.Governor, g.Subject = c.verb, c.subject
			return
		}
	}
	if c.pending != nlp.None {
		g.Subject = c.pending
		return
	}
	if s.prev == aPrepPhrase && w.lastNoun != nlp.None {
		g.Subject = w.lastNoun
		return
	}
	w.wait(n)
}

// wait notes that verb n waits for the subject of the present clause.
func (w *walker) wait(n int) {
	s := w.here()
	if len(s.dangling) < 2*maxDepth {
		s.dangling = append(s.dangling, loose{n, len(s.clauses)})
	}
}

// settle gives the subject of the present clause to what waits for it.
func (w *walker) settle(subject int) {
	s := w.here()
	keep := s.dangling[:0]
	for _, l := range s.dangling {
		if l.depth >= len(s.clauses) {
			w.d.Verbs[l.verb].Subject = subject
		} else {
			keep = append(keep, l)
		}
	}
	s.dangling = keep
}
