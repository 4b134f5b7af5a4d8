package characters

import (
	"math"

	"feltpage/nlp"
)

// The window of what a reader keeps in mind: mentions looked back at,
// sentences, and entities weighed for one pronoun.
const (
	windowMentions  = 90
	windowSentences = 20
	windowEntities  = 10
)

// A candidate is an entity that a pronoun may mean, with its latest mention
// before the pronoun.
type candidate struct {
	entity  int
	last    int // mention
	rank    int // how many other candidates were named since
	subject bool
	inner   bool // named as possessor of a later candidate: the king of "the king's son"
	lately  int  // mentions within the last three sentences
}

// candidates lists the entities that agree with pronoun i, the latest named
// first. For a pronoun of the narration those named in speech alone come last:
// a tale goes on where it was before the speech.
func (r *reading) candidates(i int) []candidate {
	r.scratch = r.scratch[:0]
	r.stamp++
	if r.mentions[i].quote != nlp.None {
		r.gather(i, func(*mention) bool { return true })
		return r.scratch
	}
	r.gather(i, func(o *mention) bool { return o.quote == nlp.None })
	r.gather(i, func(o *mention) bool { return o.quote != nlp.None })
	return r.scratch
}

// gather adds the candidates among the mentions that count.
func (r *reading) gather(i int, counts func(*mention) bool) {
	m := &r.mentions[i]
	cs := r.scratch
	for j, n := len(r.recent)-1, 0; j >= 0 && n < windowMentions; j, n = j-1, n+1 {
		o := &r.mentions[r.recent[j]]
		d := m.sentence - o.sentence
		if d > windowSentences {
			break
		}
		e := r.find(o.entity)
		if e == nlp.None || d < -1 || !counts(o) {
			continue
		}
		for e >= len(r.seen) {
			r.seen = append(r.seen, seenMark{})
		}
		s := &r.seen[e]
		if s.stamp == r.stamp {
			if s.at >= 0 {
				c := &cs[s.at]
				if d <= 2 {
					c.lately++
				}
				if d <= 1 && o.place == roleSubject && o.quote == m.quote {
					c.subject = true
				}
			}
			continue
		}
		*s = seenMark{r.stamp, -1}
		if len(cs) >= windowEntities || !r.agrees(e, m) || r.barred(i, e) {
			continue
		}
		s.at = len(cs)
		c := candidate{entity: e, last: r.recent[j], rank: len(cs)}
		if len(cs) > 0 && r.mentions[cs[len(cs)-1].last].possessor == c.last {
			c.inner = true
		}
		if d <= 2 {
			c.lately = 1
		}
		c.subject = d <= 1 && o.place == roleSubject && o.quote == m.quote
		cs = append(cs, c)
	}
	r.scratch = cs
}

type seenMark struct{ stamp, at int }

// The features of a pronoun and a candidate. Their weights lie in
// salience.txt.
const (
	fSame = iota // in the same sentence
	fOne
	fTwo
	fSome // three to five sentences away
	fFar
	fFirst // the latest named
	fSecond
	fRank
	fSubject
	fObject
	fPossessor
	fOther
	fPronoun
	fProper
	fDefinite
	fIndefinite
	fGender
	fVotes
	fAgainst
	fCount
	fLately
	fClause
	fParallelSubject
	fParallelObject
	fLateSubject
	fOutOfQuote
	fIntoQuote
	fSameQuote
	fSpeaker
	fListener
	fTold
	fAnimal
	fThing
	fParagraph
	fGroupPossessor
	fSentenceStart
	fChain
	fChainNear
	fStartSubject
	fStartOther
	fFame
	fShare
	fOnly
	fObjectNear
	fNewest
	fPrevClause
	fPhraseOfSubject
	fInner
	fNobody
	fNamedLater
	fNamedNext
	fAhead
	fSinceNamed
	fLatestNamed
	fUnsure
	features
)

var featureNames = [features]string{"same-sentence", "one-sentence", "two-sentences", "some-sentences", "far",
	"latest", "second-latest", "rank", "was-subject", "was-object", "was-possessor", "was-other",
	"by-pronoun", "by-name", "by-the", "by-a", "gender-known", "gender-votes", "gender-against", "often", "lately", "own-clause",
	"both-subject", "both-object", "late-subject", "out-of-quote", "into-quote", "same-quote", "speaker", "listener", "just-spoke",
	"animal", "thing", "same-paragraph", "only-possessor", "at-sentence-start",
	"last-same-pronoun", "last-same-pronoun-near", "starts-and-was-subject", "starts-and-was-not", "fame", "share", "only-one", "object-of-same-sentence", "just-introduced",
	"subject-of-clause-before", "in-phrase-of-subject", "possessor-of-another", "anybody",
	"named-later-in-sentence", "named-in-next-sentence", "named-ahead", "since-named", "latest-named", "gender-untold-beside-told"}

// Prepositions whose object is seldom the subject itself.
var beside = set("at to of by for upon unto against towards toward than")

var anybody = set("somebody someone nobody anybody anyone everybody everyone one")

// The uses of a pronoun, weighed apart.
const (
	asSubject = iota
	asObject
	asPossessive
	inSpeech
	uses
)

func use(m *mention) int {
	switch {
	case m.quote != nlp.None:
		return inSpeech
	case m.form.possessive:
		return asPossessive
	case m.place == roleSubject || m.lemma == "he" || m.lemma == "she":
		return asSubject
	}
	return asObject
}

// describe fills f with the features of candidate c for pronoun i.
func (r *reading) describe(i int, c *candidate, all *crowd, f *[features]float64) {
	*f = [features]float64{}
	m, o, x := &r.mentions[i], &r.mentions[c.last], &r.entities[c.entity]
	on := func(k int, yes bool) {
		if yes {
			f[k] = 1
		}
	}
	d := m.sentence - o.sentence
	if d < 0 {
		d = 0
	}
	on(fSame, d == 0)
	on(fOne, d == 1)
	on(fTwo, d == 2)
	on(fSome, d > 2 && d <= 5)
	on(fFar, d > 5)
	on(fFirst, c.rank == 0)
	on(fSecond, c.rank == 1)
	f[fRank] = float64(c.rank) / 4
	on(fSubject, o.place == roleSubject)
	on(fObject, o.place == roleObject || o.place == roleIndirect)
	on(fPossessor, o.place == rolePossessor)
	on(fOther, o.place == roleNone || o.place == roleOf || o.place == roleBy)
	on(fPronoun, o.kind == pronoun)
	on(fProper, o.kind == proper)
	on(fDefinite, o.kind == nominal && o.det != indefinite)
	on(fIndefinite, o.kind == nominal && o.det == indefinite)
	on(fUnsure, all.told && x.genderOf() == "")
	on(fGender, x.gender != "")
	pro, against := x.votes[0], x.votes[1]
	if m.gender == nlp.Male {
		pro, against = against, pro
	}
	if x.gender == "" {
		f[fVotes] = math.Min(pro, 4) / 4
		f[fAgainst] = math.Min(against, 4) / 4
	}
	f[fCount] = math.Log1p(float64(len(x.mentions)))
	f[fLately] = math.Min(float64(c.lately), 6) / 3
	own := m.verb
	if own == nlp.None || m.place == roleSubject {
		own = r.clause[m.head]
	}
	if own != nlp.None {
		if s := r.subjectOf(own); s != nlp.None && s != i && r.done[s] && r.who(s) == c.entity {
			on(fClause, m.place != roleSubject && m.verb != nlp.None)
			on(fPhraseOfSubject, m.place != roleSubject && m.verb == nlp.None)
			on(fPrevClause, m.place == roleSubject)
		}
	}
	on(fInner, c.inner)
	if named := x.namedAt; named != nlp.None && named < len(r.handle) {
		f[fSinceNamed] = math.Log1p(float64(max(0, m.sentence-r.mentions[named].sentence))) / 2
		on(fLatestNamed, named == all.named)
		ahead := r.ahead(r.handle[named], i)
		for k, j := range ahead {
			d := r.mentions[j].sentence - m.sentence
			if k == 0 {
				on(fNamedLater, d == 0)
				on(fNamedNext, d == 1 && r.mentions[j].place == roleSubject)
			}
			if d > 6 || k == 8 {
				break
			}
			f[fAhead] = math.Log1p(float64(k+1)) / 2
		}
	}
	on(fNobody, len(x.heads) > 0 && anybody[x.heads[0]])
	on(fParallelSubject, m.place == roleSubject && o.place == roleSubject)
	on(fParallelObject, m.place == roleObject && o.place == roleObject)
	on(fLateSubject, c.subject)
	on(fOutOfQuote, m.quote == nlp.None && o.quote != nlp.None)
	on(fIntoQuote, m.quote != nlp.None && o.quote == nlp.None)
	on(fSameQuote, m.quote != nlp.None && o.quote == m.quote)
	if m.quote != nlp.None {
		t := &r.turns[m.quote]
		on(fSpeaker, r.find(t.speaker) == c.entity)
		on(fListener, r.find(t.listener) == c.entity)
	} else {
		on(fTold, o.quote == nlp.None && r.tags[c.last])
	}
	on(fAnimal, (x.kind == nlp.Animal || x.kind == nlp.Being) && !r.speaking(x.namedAt))
	on(fThing, x.kind == nlp.Group || x.kind == nlp.Thing && !r.speaking(x.namedAt))
	on(fParagraph, r.d.Sentences[m.sentence].Paragraph == r.d.Sentences[o.sentence].Paragraph)
	on(fGroupPossessor, o.place == rolePossessor && x.told <= 1)
	if last := r.chain[level(m)][sex(m.gender)]; last != nlp.None && r.who(last) == c.entity {
		near := m.sentence-r.mentions[last].sentence <= 0
		on(fChain, true)
		on(fChainNear, near)
	}
	starts := m.place == roleSubject && m.head <= r.d.Sentences[m.sentence].First+1
	on(fStartSubject, starts && d == 1 && c.subject)
	on(fStartOther, starts && !c.subject)
	if x.cluster != nlp.None {
		f[fFame] = math.Log1p(float64(r.clusters[x.cluster].mentions)) / 2
	}
	f[fShare] = float64(c.lately) / float64(all.lately+1)
	on(fOnly, all.n == 1)
	on(fObjectNear, d == 0 && o.place != roleSubject && o.place != rolePossessor)
	on(fNewest, len(x.mentions) == 1)
	on(fSentenceStart, o.first == r.d.Sentences[o.sentence].First && d == 1)
}

// A crowd is what is common to all candidates of one pronoun.
type crowd struct {
	n, lately, named int
	told             bool // one at least has a gender that is told
}

func (r *reading) crowdOf(cs []candidate) crowd {
	c := crowd{n: len(cs), named: nlp.None}
	for i := range cs {
		c.lately += cs[i].lately
		c.told = c.told || r.entities[cs[i].entity].gender != ""
		c.named = max(c.named, r.entities[cs[i].entity].namedAt)
	}
	return c
}

// level tells narration from speech, sex she from he; both index chain.
func level(m *mention) int {
	if m.quote == nlp.None {
		return 0
	}
	return 1
}

func sex(gender string) int {
	if gender == nlp.Female {
		return 0
	}
	return 1
}

// weigh is how well candidate c fits pronoun i.
func (r *reading) weigh(i int, c *candidate, all *crowd) float64 {
	var f [features]float64
	r.describe(i, c, all, &f)
	w := &weights()[use(&r.mentions[i])]
	s := 0.0
	for k, v := range f {
		s += v * w[k]
	}
	return s
}
