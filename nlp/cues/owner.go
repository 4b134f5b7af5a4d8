package cues

import (
	"strings"

	"feltpage/nlp"
)

// owner tells whose the find is. keep is false where the words are used in
// another sense: of a thing, as a trait, as a name.
func (r *reader) owner(f *found) (who int, keep bool) {
	v := r.view
	row := f.p.row
	if row.use == "intransitive" && !r.intransitive(f) {
		return nlp.None, false
	}
	switch row.whose {
	case whosePoss:
		if f.poss != nlp.None {
			return r.possessor(f)
		}
	case whoseObject:
		if f.obj != nlp.None {
			return r.object(f)
		}
	case whoseAfter:
		return r.after(f)
	case whoseNear:
		return r.near(f)
	case whoseSubject:
		return r.doer(f, false)
	}
	switch row.class {
	case classSpeech:
		q := v.quote[f.anchor]
		if q < 0 {
			return nlp.None, false
		}
		return v.quotes[q].Speaker, true
	case classAdj:
		return r.ofAdjective(f)
	case classAdv:
		if a := r.clauseVerb(f); a >= 0 && r.d.Verbs[v.verb[a]].Passive && handling[r.d.Tokens[r.d.Verbs[v.verb[a]].Head].Lemma] {
			return nlp.None, false // "was kindly received": the kindness is another's
		}
		return r.doer(f, true)
	case classNoun:
		return r.ofNoun(f)
	case classObject:
		return r.experiencer(f)
	case classVerb:
		return r.ofVerb(f)
	}
	// Patterns: the possessor of a body part that does something, else the doer.
	if len(f.p.elements) > 0 && f.p.elements[0].kind == elPoss && f.poss != nlp.None {
		return r.possessor(f)
	}
	if row.use == "person-object" {
		if f.obj == nlp.None || reflexive[r.d.Tokens[f.obj].Lower] || v.person(f.obj) == nlp.None && !r.doll(f.obj) {
			return nlp.None, false
		}
	}
	if row.use == "need-can" && !r.canBefore(f) {
		return nlp.None, false
	}
	if len(f.p.elements) == 1 && strings.HasPrefix(r.d.Tokens[f.anchor].Tag, "NN") {
		return r.near(f) // "with a sigh", "a smile crossed her face"
	}
	if !f.p.being && r.d.Tokens[f.anchor].Tag == "VBN" {
		if g := v.verb[f.anchor]; g >= 0 && r.d.Verbs[g].Passive {
			return nlp.None, false // "was hidden away": somebody else did it
		}
	}
	who, keep = r.doer(f, false)
	if f.poss != nlp.None && (!keep || who == nlp.None) {
		// "the song touched his heart": nobody did it, so it is the heart's owner's.
		return r.possessor(f)
	}
	return who, keep
}

// handling are verbs whose manner, in the passive, is that of another.
var handling = set(`receive treat install welcome entertain greet bury build guard kill beat nurse tend feed cure raise bring
	dress lead carry hold keep put place lay give take seize throw drive ask invite answer punish wound`)

// doll reports whether a noun names somebody though no character was found.
func (r *reader) doll(t int) bool {
	return personal[r.d.Tokens[t].Lower] && r.d.Tokens[t].Lower != "it"
}

func (r *reader) intransitive(f *found) bool {
	if f.end >= len(r.d.Tokens) {
		return true
	}
	t := r.d.Tokens[f.end]
	return !strings.HasPrefix(t.Tag, "NN") && t.Tag != "DT" && t.Tag != "PRP" && t.Tag != "PRP$" && t.Tag != "JJ" && t.Tag != "CD"
}

func (r *reader) canBefore(f *found) bool {
	s := r.d.Sentences[r.d.Tokens[f.start].Sentence]
	for t := f.start - 2; t < f.end; t++ {
		if t >= s.First && modals[r.d.Tokens[t].Lower] {
			return true
		}
		if t >= s.First && (r.d.Tokens[t].Lemma == "able") {
			return true
		}
	}
	return false
}

// possessor gives the character whose body part it is. A thing's "heart" is
// no cue.
func (r *reader) possessor(f *found) (int, bool) {
	v := r.view
	if c := v.person(f.poss); c != nlp.None {
		return c, true
	}
	t := &r.d.Tokens[f.poss]
	if possessives[t.Lower] {
		if v.quote[f.poss] >= 0 && (t.Lower == "my" || t.Lower == "your" || t.Lower == "thy") {
			return v.person(f.poss), true
		}
		if t.Lower == "its" {
			c := v.nearest(f.start)
			return c, c != nlp.None
		}
		return v.nearest(f.start), true
	}
	return nlp.None, false
}

func (r *reader) object(f *found) (int, bool) {
	v := r.view
	if c := v.person(f.obj); c != nlp.None {
		return c, true
	}
	if t := r.d.Tokens[f.obj].Lower; reflexive[t] {
		return r.doer(f, false)
	} else if personal[t] && t != "it" {
		return nlp.None, true
	}
	if p := v.phrase[f.obj]; p >= 0 {
		return v.phrasePerson(int(p))
	}
	return nlp.None, false
}

// after gives the first character named after the words.
func (r *reader) after(f *found) (int, bool) {
	v := r.view
	s := r.d.Sentences[r.d.Tokens[f.start].Sentence]
	for t := f.end; t < s.End && t < f.end+12; t++ {
		if c := v.person(t); c != nlp.None && v.quote[t] == v.quote[f.anchor] {
			return c, true
		}
	}
	return v.nearest(f.start), true
}

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

// clauseVerb gives a token of the verb group whose clause holds the find: the
// nearest before it in the clause, else the nearest after; -1 for none.
func (r *reader) clauseVerb(f *found) int {
	v := r.view
	s := r.d.Sentences[r.d.Tokens[f.start].Sentence]
	zone := v.quote[f.anchor]
	for t := f.start; t < f.end; t++ {
		if v.verb[t] >= 0 {
			return t
		}
	}
	for t := f.start - 1; t >= s.First && t >= f.start-25; t-- {
		if v.quote[t] != zone {
			break
		}
		if l := r.d.Tokens[t].Lower; l == ";" || l == ":" || l == "--" {
			break
		}
		if v.verb[t] >= 0 {
			return t
		}
	}
	for t := f.end; t < s.End && t < f.end+15; t++ {
		if v.quote[t] != zone {
			break
		}
		if v.verb[t] >= 0 {
			return t
		}
	}
	return -1
}

// doer gives the subject of the verb of the find. Of an adverb, it is the
// verb that it goes with, which may come after.
func (r *reader) doer(f *found, adverb bool) (int, bool) {
	v := r.view
	if f.start > 0 && r.d.Tokens[f.start-1].Lower == "there" && (r.freeBefore(f.start-1) || r.d.Tokens[f.start-2].Lower == "it") {
		return nlp.None, false // "there fell upon her a shower"
	}
	a := -1
	for t := f.start; t < f.end; t++ {
		if v.verb[t] >= 0 {
			if c, known, _ := v.subject(t); known && c != nlp.None {
				return c, true
			}
			if a < 0 {
				a = t
			}
		}
	}
	if a < 0 {
		a = r.clauseVerb(f)
	}
	rep := v.reporter(f.anchor)
	if a >= 0 {
		c, known, thing := v.subjectOr(a)
		if known {
			if c != nlp.None {
				return c, true
			}
			if rep != nlp.None {
				return rep, true
			}
			return r.guessAt(a, f), true
		}
		if thing {
			if rep != nlp.None && speaking[r.d.Tokens[a].Lemma] {
				return rep, true
			}
			return nlp.None, false
		}
	}
	if rep != nlp.None && (a < 0 || speaking[r.d.Tokens[a].Lemma] || f.p.row.kind == nlp.FaceVoice) {
		return rep, true
	}
	return r.guess(f), true
}

var speaking = set("say cry answer reply ask call exclaim shout whisper sob sigh think speak return add begin continue go tell")

// guessAt is a guess where the subject of the verb at token a is somebody no
// stage could tell: nobody where it is a name, the nearest where a pronoun.
func (r *reader) guessAt(a int, f *found) int {
	if g := r.view.verb[a]; g >= 0 {
		if s := r.d.Verbs[g].Subject; s >= 0 && strings.HasPrefix(r.d.Tokens[r.d.Phrases[s].Head].Tag, "NNP") {
			return nlp.None
		}
	}
	return r.guess(f)
}

func (r *reader) guess(f *found) int { return r.view.nearest(f.start) }

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
	return r.doer(f, false)
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

var copulas = set("be feel seem look appear become grow get remain stand sit lie go turn wax stay keep fall")

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
				return r.doer(f, false)
			}
			if vg.Object != nlp.None {
				return r.feeler(d.Phrases[vg.Object].Head, f)
			}
			if vg.Participle {
				return r.doer(f, false)
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
		return r.doer(f, false)
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
				return r.doer(f, false)
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
		return r.doer(f, false)
	case prep != "":
		if weak || prep == "like" || prep == "as" || prep == "than" {
			return nlp.None, false
		}
		return r.doer(f, false)
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
