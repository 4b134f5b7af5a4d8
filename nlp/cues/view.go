package cues

import "feltpage/nlp"

// view answers, for any token, what the earlier stages said about it.
type view struct {
	d      *nlp.Document
	cast   []nlp.Character
	quotes []nlp.Quote
	verb   []int32 // verb group that holds the token, or -1
	phrase []int32 // noun phrase that holds the token, or -1
	who    []int32 // character whose mention's head is the token, or -1
	inside []int32 // character whose innermost mention holds the token, or -1
	joint  []joint // by token: the longest mention of several that begins there
	quote  []int32 // innermost quote that holds the token, or -1
	acted  []bool  // by phrase: the object of a verb
	talk   []bool  // by sentence: some of it is quoted
}

// joint is a mention of several together: "the boy and the girl".
type joint struct{ who, end int32 }

func newView(d *nlp.Document, cast []nlp.Character, quotes []nlp.Quote) *view {
	n := len(d.Tokens)
	v := &view{d: d, cast: cast, quotes: quotes,
		verb: nones(n), phrase: nones(n), who: nones(n), inside: nones(n), quote: nones(n),
		joint: make([]joint, n), acted: make([]bool, len(d.Phrases)), talk: make([]bool, len(d.Sentences))}
	for i, g := range d.Verbs {
		for t := g.First; t < g.End && t < n; t++ {
			v.verb[t] = int32(i)
		}
		if g.Object >= 0 && g.Object < len(v.acted) {
			v.acted[g.Object] = true
		}
	}
	for i, g := range d.Verbs {
		if g.Head < n {
			v.verb[g.Head] = int32(i)
		}
	}
	for i, p := range d.Phrases {
		for t := p.First; t < p.End && t < n; t++ {
			v.phrase[t] = int32(i)
		}
	}
	size := nones(n)
	// A thing is somebody only where it talks or has a mind: the wind that
	// sighs is none, the pot that thinks is one.
	talks := make([]bool, len(cast))
	minds := make([]bool, n)
	for _, q := range quotes {
		if q.Speaker >= 0 && q.Speaker < len(cast) {
			talks[q.Speaker] = true
		}
	}
	for i := range d.Verbs {
		g := &d.Verbs[i]
		mind := minding[d.Tokens[g.Head].Lemma] || moved[d.Tokens[g.Head].Lower] ||
			g.Complement >= 0 && g.Complement < n && moved[d.Tokens[g.Complement].Lower]
		if s := g.Subject; s >= 0 && s < len(d.Phrases) && mind {
			minds[d.Phrases[s].Head] = true
		}
	}
	for c := range cast {
		for _, m := range cast[c].Mentions {
			if m.Head >= 0 && m.Head < n && minds[m.Head] {
				talks[c] = true
			}
		}
	}
	somebody := func(c int) bool { return cast[c].Kind != nlp.Thing || talks[c] }
	for c := range cast {
		if !somebody(c) {
			continue
		}
		for _, m := range cast[c].Mentions {
			for t := m.First; t < m.End && t < n; t++ {
				if size[t] < 0 || int32(m.End-m.First) <= size[t] {
					size[t], v.inside[t] = int32(m.End-m.First), int32(c)
				}
			}
		}
	}
	for c := range cast {
		if !somebody(c) {
			continue
		}
		for _, m := range cast[c].Mentions {
			if (cast[c].Plural || cast[c].Kind == nlp.Group) && m.First >= 0 && m.First < n && v.joint[m.First].end < int32(m.End) {
				v.joint[m.First] = joint{int32(c), int32(m.End)}
			}
			if m.Head >= 0 && m.Head < n {
				v.who[m.Head] = int32(c)
			}
		}
	}
	length := nones(n)
	for i, q := range quotes {
		for t := q.First; t < q.End && t < n; t++ {
			if length[t] < 0 || int32(q.End-q.First) <= length[t] {
				length[t], v.quote[t] = int32(q.End-q.First), int32(i)
			}
		}
	}
	for i := range d.Tokens {
		if v.quote[i] >= 0 {
			v.talk[d.Tokens[i].Sentence] = true
		}
	}
	return v
}

func nones(n int) []int32 {
	s := make([]int32, n)
	for i := range s {
		s[i] = nlp.None
	}
	return s
}

// person gives the character that token i names, "I" and "you" in speech
// included.
func (v *view) person(i int) int {
	if c := v.who[i]; c >= 0 {
		return int(c)
	}
	t := &v.d.Tokens[i]
	if q := v.quote[i]; q >= 0 {
		switch t.Lower {
		case "i", "me", "my", "mine", "myself", "we", "us", "our", "ours":
			return v.quotes[q].Speaker
		case "you", "your", "yours", "yourself", "thou", "thee", "thy", "thine", "ye":
			return v.quotes[q].Listener
		}
	}
	return nlp.None
}

// phrasePerson gives the character a noun phrase stands for. "His heart" and
// "her thoughts" stand for their owner. ok is false where the phrase names a
// thing or an unknown somebody.
func (v *view) phrasePerson(p int) (c int, ok bool) {
	if p < 0 || p >= len(v.d.Phrases) {
		return nlp.None, false
	}
	ph := &v.d.Phrases[p]
	if j := v.joint[ph.First]; ph.Conjunct != nlp.None && int(j.end) > ph.End {
		return int(j.who), true
	}
	if c := v.person(ph.Head); c != nlp.None {
		return c, true
	}
	t := &v.d.Tokens[ph.Head]
	if ph.Possessor != nlp.None && ofSelf[t.Lemma] {
		return v.person(ph.Possessor), true
	}
	if ph.Of != nlp.None && ph.Of != p && ofSelf[t.Lemma] {
		if c := v.person(v.d.Phrases[ph.Of].Head); c != nlp.None {
			return c, true
		}
	}
	if pronounOfPerson[t.Lower] || t.Tag == "NNP" {
		return nlp.None, true // somebody, but who is not told
	}
	return nlp.None, false
}

// ofSelf are the nouns that stand for the one who has them.
var ofSelf = set(`heart mind soul spirit spirits thought thoughts feeling feelings conscience face eye eyes head hand hands
	body voice lip lips mouth countenance limb limbs knee knees leg legs foot feet arm arms breast bosom chest cheek cheeks
	brow stomach belly blood brain look looks glance manner mood temper nerve nerves ear ears finger fingers throat back
	tongue beak bill paw paws claw claws tail wing wings fist fists tooth teeth jaws flesh skin hair tear tears cry majesty highness grace lordship ladyship`)

var pronounOfPerson = set(`he she they i we you who everybody everyone somebody someone nobody none all each both others
	one thou ye anybody anyone him her them me us`)

// subject gives the character that does or feels what the verb group at
// token i says. known is false where the text names a thing or says nothing;
// thing is true where it plainly names a thing.
func (v *view) subject(i int) (c int, known, thing bool) {
	g := int(v.verb[i])
	for depth := 0; g >= 0 && depth < 5; depth++ {
		vg := &v.d.Verbs[g]
		if vg.Subject != nlp.None {
			c, ok := v.phrasePerson(vg.Subject)
			if ok {
				return c, true, false
			}
			return nlp.None, false, !v.vague(vg.Subject)
		}
		up := vg.Governor
		if up == nlp.None || up == g {
			return nlp.None, false, false
		}
		if m := &v.d.Verbs[up]; m.Object != nlp.None && !m.Passive && handsOn[v.d.Tokens[m.Head].Lemma] && (vg.Infinitive || !vg.Participle || seeing[v.d.Tokens[m.Head].Lemma]) {
			if c, ok := v.phrasePerson(m.Object); ok {
				return c, true, false
			}
			return nlp.None, false, true
		}
		g = up
	}
	return nlp.None, false, false
}

// moved are words that are said of somebody only.
var moved = set(`afraid frightened scared glad ashamed angry jealous delighted astonished surprised amazed pleased excited
	grateful thankful offended anxious unhappy hungry thirsty proud alarmed terrified`)

// minding are verbs that only somebody does.
var minding = set("say think hear know want wish believe hope remember dream ask answer reply decide love hate fear understand learn")

// subjectOr is subject, but takes an "it" that no stage could resolve for the
// last animal or being named in the sentence or the two before.
func (v *view) subjectOr(i int) (c int, known, thing bool) {
	c, known, thing = v.subject(i)
	if !thing || v.verb[i] < 0 {
		return c, known, thing
	}
	s := v.d.Verbs[v.verb[i]].Subject
	if s < 0 || v.d.Tokens[v.d.Phrases[s].Head].Lower != "it" {
		return c, known, thing
	}
	from := v.d.Tokens[i].Sentence - 2
	if from < 0 {
		from = 0
	}
	for t := v.d.Phrases[s].Head - 1; t >= max(v.d.Sentences[from].First, v.d.Phrases[s].Head-2*reach); t-- {
		if p := v.who[t]; p >= 0 && (v.cast[p].Kind == nlp.Animal || v.cast[p].Kind == nlp.Being || v.cast[p].Kind == nlp.Thing) {
			return int(p), true, false
		}
	}
	return c, known, thing
}

// vague reports whether a phrase may well be somebody though no character was
// found for it: relative pronouns and the like.
func (v *view) vague(p int) bool {
	switch v.d.Tokens[v.d.Phrases[p].Head].Lower {
	case "who", "which", "that", "what", "whom":
		return true
	}
	return false
}

// handsOn are verbs whose object does what the verb after it says; seeing are
// those with a participle ("found her weeping").
var (
	handsOn = set(`make let cause bid help see hear find leave ask tell beg order command force compel watch feel have
		set keep send allow permit persuade notice catch observe behold perceive teach want bring drive`)
	seeing = set("see hear find leave watch feel set keep catch notice observe behold perceive send")
)

// reach is how many tokens a look around may go: sentences without an end are
// read in pieces, so that time stays linear.
const reach = 120

// nearest gives the character most likely meant at token i where the syntax
// does not tell: the closest one before it in the sentence that can be a
// subject, else the first after it, else the last subject of the sentence
// before.
func (v *view) nearest(i int) int {
	s := v.d.Sentences[v.d.Tokens[i].Sentence]
	first, end := max(s.First, i-reach), min(s.End, i+reach)
	zone := v.quote[i]
	for t := i - 1; t >= first; t-- {
		if v.quote[t] == zone && v.canBeSubject(t, s.First) {
			return v.person(t)
		}
	}
	for t := i + 1; t < end; t++ {
		if v.quote[t] == zone && v.canBeSubject(t, s.First) {
			return v.person(t)
		}
	}
	if zone >= 0 {
		return v.quotes[zone].Speaker
	}
	for t := i; t >= first; t-- {
		if v.quote[t] == zone && v.person(t) != nlp.None {
			return v.person(t)
		}
	}
	if k := v.d.Tokens[i].Sentence; k > 0 && v.d.Sentences[k-1].Paragraph == s.Paragraph {
		p := v.d.Sentences[k-1]
		for t := p.First; t < min(p.End, p.First+reach); t++ {
			if v.quote[t] == zone && v.canBeSubject(t, p.First) {
				return v.person(t)
			}
		}
	}
	return nlp.None
}

// canBeSubject reports whether token t names a character and is neither a
// possessive nor an object pronoun nor right after a preposition.
func (v *view) canBeSubject(t, first int) bool {
	if v.person(t) == nlp.None {
		return false
	}
	tok := &v.d.Tokens[t]
	switch tok.Lower {
	case "him", "me", "them", "us", "thee", "himself", "herself", "themselves", "itself", "myself":
		return false
	case "her":
		return false
	}
	if possessives[tok.Lower] {
		return false
	}
	if t+1 < len(v.d.Tokens) && v.d.Tokens[t+1].Tag == "POS" {
		return false
	}
	begin := t
	if p := v.phrase[t]; p >= 0 {
		if v.acted[p] {
			return false
		}
		begin = v.d.Phrases[p].First
	} else {
		for begin > first {
			switch v.d.Tokens[begin-1].Tag {
			case "DT", "JJ", "PRP$", "NN", "NNP", "CD":
				begin--
				continue
			}
			break
		}
	}
	if begin > first {
		switch v.d.Tokens[begin-1].Tag {
		case "IN", "TO":
			switch v.d.Tokens[begin-1].Lower {
			case "when", "as", "while", "that", "if", "because", "though", "although", "till", "until", "than", "before", "after", "since", "where", "so":
				return true
			}
			return false
		}
	}
	return true
}

// reporter gives the speaker of the quote that the words at token i report,
// or None: "..." she sobbed.
func (v *view) reporter(i int) int {
	if v.quote[i] >= 0 {
		return nlp.None
	}
	s := v.d.Sentences[v.d.Tokens[i].Sentence]
	best, dist := nlp.None, 1<<30
	for t := i; t >= max(s.First, i-reach); t-- {
		if q := v.quote[t]; q >= 0 && q != v.quote[i] {
			best, dist = v.quotes[q].Speaker, i-t
			break
		}
	}
	for t := i; t < min(s.End, i+reach) && t-i < dist; t++ {
		if q := v.quote[t]; q >= 0 && q != v.quote[i] {
			best = v.quotes[q].Speaker
			break
		}
	}
	return best
}
