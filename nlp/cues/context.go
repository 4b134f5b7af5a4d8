package cues

import (
	"strings"

	"feltpage/nlp"
)

// context is what the words around a find say about it.
type context struct {
	unreal    bool // a wish, a condition, a command, a question: no state is told
	denied    bool
	pretended bool
	strength  string
}

var (
	negatives = set("not n't never no nor neither without nothing nobody none cannot scarcely hardly")
	// lightVerbs may stand between a negation and what it denies.
	lightVerbs = set(`be have do feel seem look appear show know grow become get let give find take make turn go come
		remain betray express can dare need`)
	// losing are verbs after which the feeling is no longer there.
	losing = set(`lose forget banish overcome conquer dispel lack cease stop cure calm quiet allay quench appease
		dismiss subdue`)
	// holding are verbs that say a feeling is there by saying it could not be kept in.
	holding = set(`hide conceal contain restrain control suppress repress keep help hinder stop refrain forbear bear check
		master withhold express tell describe`)
	pretending = set("pretend feign sham simulate affect counterfeit pretence pretense")
	wishing    = set(`wish hope want desire expect promise pray intend mean try endeavour plan prefer advise warn
		forbid refuse threaten order command beg ask bid teach offer like`)
	modals = set("would should could might may must shall will can ought 'll 'd wo ca sha")
	// telling are verbs whose infinitive is told as happening.
	telling = set(`begin start seem appear fall come cease continue have be make cause see hear grow learn let get stop go
		proceed use burst help feel watch happen chance set turn find run sit stand commence use leave pretend feign affect`)
	strongWords = set(`very greatly exceedingly sore sorely deeply so terribly dreadfully bitterly utterly extremely
		intensely violently mightily awfully heartily passionately wildly madly overwhelmingly desperately most great
		deep bitter wild mad mortal utter extreme terrible violent boundless unbounded dreadful immense intense burning
		quite too such exceeding completely thoroughly furiously half-dead loudly unspeakable indescribable infinite keen
		perfectly excessively beside much`)
	slightWords = set("slightly somewhat rather little half almost nearly bit faintly slight faint mildly scarcely partly")
)

// surround reads the clause around tokens [start, end) of a find.
func (r *reader) surround(f *found) context {
	c := context{strength: nlp.Plain}
	d, v := r.d, r.view
	row := f.p.row
	if row.strength != "" {
		c.strength = row.strength
	}
	s := d.Sentences[d.Tokens[f.start].Sentence]
	zone := v.quote[f.anchor]

	// Strength: words close by.
	for t := f.start - 1; t >= s.First && t >= f.start-3; t-- {
		tok := &d.Tokens[t]
		if tok.Lower == "," || r.boundary(t) || tok.Lower == "and" || tok.Lower == "but" {
			break
		}
		if slightWords[tok.Lower] {
			c.strength = nlp.Slight
		} else if strongWords[tok.Lower] && c.strength != nlp.Slight {
			c.strength = nlp.Strong
		}
	}
	for t := f.start; t < f.end; t++ {
		if t != f.anchor && strongWords[d.Tokens[t].Lower] && c.strength == nlp.Plain {
			c.strength = nlp.Strong
		}
	}
	if f.end+1 < s.End {
		switch a, b := d.Tokens[f.end].Lower, d.Tokens[f.end+1].Lower; {
		case a == "beyond", a == "indeed", a == "at" && b == "heart", a == "out" && b == "of", a == "to" && b == "death":
			c.strength = nlp.Strong
		case strongWords[a] && strings.HasSuffix(a, "ly"):
			c.strength = nlp.Strong
		case a == "a" && (b == "little" || b == "bit"):
			c.strength = nlp.Slight
		}
	}
	if row.class == classSpeech {
		return c
	}

	sayNo := !f.p.negative
	litotes, negAt := false, -1
	stopVerb := false
	for t, n := f.start-1, 0; t >= s.First && n < 12; t, n = t-1, n+1 {
		tok := &d.Tokens[t]
		if v.quote[t] != zone || r.boundary(t) {
			break
		}
		low := tok.Lower
		if low == "but" && t > s.First && (d.Tokens[t-1].Lower == "not" || d.Tokens[t-1].Lower == "n't" || d.Tokens[t-1].Lower == "nothing") {
			negAt, litotes = -1, true
			break // "could not but weep"
		}
		if n > 0 && (low == "who" || low == "whom" || low == "which" || low == "whose") {
			break
		}
		if low == "but" || low == "for" && n > 0 && d.Tokens[t+1].Tag != "DT" && d.Tokens[t+1].Tag != "NN" {
			break
		}
		verb := strings.HasPrefix(tok.Tag, "V") || tok.Tag == "MD"
		if verb && !stopVerb {
			switch {
			case holding[tok.Lemma] && r.negatedBefore(t, s.First):
				litotes = true
			case losing[tok.Lemma] && n <= 3 && (row.class == classNoun || tok.Lemma == "cease" || tok.Lemma == "stop" && n <= 1):
				if sayNo {
					c.denied = true
				}
			}
		}
		if pretending[tok.Lemma] && n <= 8 {
			c.pretended = true
		}
		if low == "if" || low == "though" {
			if t > s.First && d.Tokens[t-1].Lower == "as" {
				if t-1 > s.First && (d.Tokens[t-2].Lemma == "make" || d.Tokens[t-2].Lemma == "act" || d.Tokens[t-2].Lemma == "behave") {
					c.pretended = true
				} else if row.kind == nlp.Named {
					c.unreal = true
				}
				break
			}
		}
		if (low == "if" || low == "lest" || low == "unless" || low == "whether") && n <= 8 {
			c.unreal = true
		}
		if low == "instead" && n <= 4 && t+1 < s.End && d.Tokens[t+1].Lower == "of" || low == "far" && t+1 < s.End && d.Tokens[t+1].Lower == "from" && n <= 3 {
			c.denied = sayNo
		}
		if low == "free" && t+1 < s.End && (d.Tokens[t+1].Lower == "from" || d.Tokens[t+1].Lower == "of") && n <= 3 {
			c.denied = sayNo
		}
		if !stopVerb && (negatives[low] || low == "longer" && t > s.First && d.Tokens[t-1].Lower == "no") && negAt < 0 && n <= 6 {
			negAt = t
		}
		if wishing[tok.Lemma] && verb && n <= 8 && row.kind == nlp.Named && f.anchor != t && !(tok.Lemma == "like" && n > 1) && r.clauseBetween(t+1, f.start) {
			c.unreal = true
		}
		if verb && !lightVerbs[tok.Lemma] && !modals[low] && tok.Tag != "VBG" {
			stopVerb = true
		}
		if low == "," && n > 0 && t > s.First && !listed(d.Tokens[t-1].Tag) {
			break // a clause ends here, not an item of a list
		}
		if (low == "," || low == "and" || low == "who" || low == "which" || low == "when" || low == "that" || low == "because" || low == "as") && n > 0 {
			if low != "," || n > 3 {
				if low == "," {
					break
				}
				stopVerb = true
			}
		}
	}
	if row.class == classNoun && r.fades(f) {
		c.denied = true
	}
	if negAt >= 0 && sayNo && !litotes {
		c.denied, litotes = r.readNegation(negAt, f, c.denied)
	}
	if litotes {
		c.denied = false
		if c.strength == nlp.Slight {
			c.strength = nlp.Strong
		}
	}

	// A modal, an infinitive, a command or a question tells no state.
	if !r.presupposed(f) && r.unrealVerb(f, s, zone) {
		c.unreal = true
	}
	if litotes && c.unreal && r.view.verb[f.start] < 0 {
		c.unreal = false
	}
	return c
}

// fades reports whether the noun of a find is said to be gone: "his fear
// vanished", "all doubts were dispelled".
func (r *reader) fades(f *found) bool {
	p := r.view.phrase[f.anchor]
	if p < 0 {
		return false
	}
	for t := f.end; t < len(r.d.Tokens) && t < f.end+12; t++ {
		g := r.view.verb[t]
		if g < 0 {
			continue
		}
		vg := &r.d.Verbs[g]
		if vg.Subject != int(p) || vg.Negated {
			return false
		}
		l := r.d.Tokens[vg.Head].Lemma
		return fading[l] || vg.Passive && losing[l]
	}
	return false
}

var fading = set("vanish disappear cease fade subside abate")

// listed reports whether a comma after such a word may be one of a list: "not
// sad, angry or tired".
func listed(tag string) bool {
	return strings.HasPrefix(tag, "JJ") || strings.HasPrefix(tag, "NN") || tag == "VBN" || tag == "VBG"
}

// clauseBetween reports whether tokens [a, b) begin another clause: "to be",
// "that he was".
func (r *reader) clauseBetween(a, b int) bool {
	for t := a; t < b; t++ {
		switch tok := &r.d.Tokens[t]; {
		case tok.Lower == "that", tok.Lower == "if", tok.Lower == "whether", tok.Tag == "MD":
			return true
		case strings.HasPrefix(tok.Tag, "V") && tok.Tag != "VBN" && tok.Tag != "VBG":
			return true
		}
	}
	return b < len(r.d.Tokens) && a <= b && b > 0 && r.d.Tokens[b-1].Lower == "to"
}

// negatedBefore reports whether a negation stands shortly before token t.
func (r *reader) negatedBefore(t, first int) bool {
	for k := t - 1; k >= first && k >= t-4; k-- {
		if low := r.d.Tokens[k].Lower; negatives[low] || low == "n't" {
			return true
		}
	}
	return false
}

// readNegation tells what a negation before a find means: the feeling is
// denied, or all the stronger ("not a little", "never so happy").
func (r *reader) readNegation(neg int, f *found, already bool) (denied, litotes bool) {
	d := r.d
	low := d.Tokens[neg].Lower
	next := func(k int) string {
		if neg+k < len(d.Tokens) {
			return d.Tokens[neg+k].Lower
		}
		return ""
	}
	switch {
	case low == "not" || low == "n't":
		if next(1) == "a" && (next(2) == "little") || next(1) == "without" || next(1) == "only" || next(1) == "merely" || next(1) == "unlike" {
			return already, true
		}
	case low == "no" && (next(1) == "little" || next(1) == "small" || next(1) == "sooner"):
		return already, true
	case low == "no" && (next(1) == "doubt" || next(1) == "wonder"):
		return already, true
	case low == "never" || low == "nothing" || low == "nobody":
		for t := neg + 1; t < f.end+3 && t < len(d.Tokens); t++ {
			switch d.Tokens[t].Lower {
			case "so", "more", "such", "half", "greater", "happier", "gladder":
				return already, true
			}
		}
	case low == "hardly" || low == "scarcely":
		return already, true
	}
	return true, false
}
