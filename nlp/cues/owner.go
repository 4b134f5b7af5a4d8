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
		return r.doer(f)
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
		return r.doer(f)
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
	who, keep = r.doer(f)
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
		return r.doer(f)
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
func (r *reader) doer(f *found) (int, bool) {
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
