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
	c := context{strength: r.strength(f)}
	row := f.p.row
	if row.class == classSpeech {
		return c
	}
	b := r.lookBack(f)
	c.unreal, c.pretended = b.unreal, b.pretended || r.putOn(f)
	c.denied = b.gone && !f.p.negative || row.class == classNoun && r.fades(f)
	litotes := b.kept
	if b.negation >= 0 && !f.p.negative && !litotes {
		c.denied, litotes = r.readNegation(b.negation, f, c.denied)
	}
	if litotes {
		c.denied = false
		if c.strength == nlp.Slight {
			c.strength = nlp.Strong // "not a little afraid"
		}
	}
	// A modal, an infinitive, a command or a question tells no state.
	s := r.d.Sentences[r.d.Tokens[f.start].Sentence]
	zone := r.view.quote[f.anchor]
	if !r.presupposed(f) && r.unrealVerb(f, s, zone) || r.supposed(f, s, zone) {
		c.unreal = true
	}
	if litotes && r.view.verb[f.start] < 0 {
		c.unreal = false // "could not hide his joy"
	}
	return c
}

// strength reads the words of degree close by.
func (r *reader) strength(f *found) string {
	d := r.d
	out := nlp.Plain
	if s := f.p.row.strength; s != "" {
		out = s
	}
	s := d.Sentences[d.Tokens[f.start].Sentence]
	for t := f.start - 1; t >= s.First && t >= f.start-3; t-- {
		low := d.Tokens[t].Lower
		if low == "," || low == "and" || low == "but" || r.boundary(t) {
			break
		}
		if slightWords[low] {
			out = nlp.Slight
		} else if strongWords[low] && out != nlp.Slight {
			out = nlp.Strong
		}
	}
	for t := f.start; t < f.end; t++ {
		if t != f.anchor && strongWords[d.Tokens[t].Lower] && out == nlp.Plain {
			out = nlp.Strong
		}
	}
	if f.end+1 >= s.End {
		return out
	}
	switch a, b := d.Tokens[f.end].Lower, d.Tokens[f.end+1].Lower; {
	case a == "beyond", a == "indeed", a == "at" && b == "heart", a == "out" && b == "of", a == "to" && b == "death":
		return nlp.Strong
	case strongWords[a] && strings.HasSuffix(a, "ly"):
		return nlp.Strong
	case a == "a" && (b == "little" || b == "bit"):
		return nlp.Slight
	}
	return out
}

// behind is what the words of the clause before a find say.
type behind struct {
	negation  int  // the nearest token that may deny it, or None
	gone      bool // "lost all fear", "far from sad"
	kept      bool // "could not hide his joy": there all the more
	unreal    bool
	pretended bool
}

// lookBack reads the clause before a find, from right to left, at most twelve
// tokens.
func (r *reader) lookBack(f *found) behind {
	b := behind{negation: nlp.None}
	d, row := r.d, f.p.row
	s := d.Sentences[d.Tokens[f.start].Sentence]
	zone := r.view.quote[f.anchor]
	lower := func(t int) string {
		if t < s.First || t >= s.End {
			return ""
		}
		return d.Tokens[t].Lower
	}
	otherVerb := false // a full verb between: what stands before it denies that verb
	for t, n := f.start-1, 0; t >= s.First && n < 12; t, n = t-1, n+1 {
		tok := &d.Tokens[t]
		low, last, next := tok.Lower, lower(t-1), lower(t+1)
		if r.view.quote[t] != zone || r.boundary(t) {
			return b
		}
		if low == "but" && (last == "not" || last == "n't" || last == "nothing") {
			b.negation, b.kept = nlp.None, true // "could not but weep"
			return b
		}
		if low == "as" && last == "much" {
			continue // "without so much as a shudder"
		}
		if n > 0 && r.opensClause(t) || low == "but" {
			return b
		}
		verb := strings.HasPrefix(tok.Tag, "V") || tok.Tag == "MD"
		if verb && !otherVerb {
			if holding[tok.Lemma] && r.negatedBefore(t, s.First) {
				b.kept = true
			} else if losing[tok.Lemma] && n <= 3 && (row.class == classNoun || tok.Lemma == "cease" || tok.Lemma == "stop" && n <= 1) {
				b.gone = true
			}
		}
		b.pretended = b.pretended || pretending[tok.Lemma] && n <= 8
		if (low == "if" || low == "though") && last == "as" {
			if t-2 >= s.First && acting[d.Tokens[t-2].Lemma] {
				b.pretended = true // "made as if"
			} else if row.kind == nlp.Named {
				b.unreal = true
			}
			return b
		}
		if (low == "if" || low == "lest" || low == "unless" || low == "whether") && n <= 8 {
			b.unreal = true
		}
		if low == "instead" && next == "of" && n <= 4 || low == "far" && next == "from" && n <= 3 ||
			low == "free" && (next == "from" || next == "of") && n <= 3 {
			b.gone = true
		}
		if !otherVerb && b.negation < 0 && n <= 6 && (negatives[low] || low == "longer" && last == "no") {
			b.negation = t
		}
		if verb && wishing[tok.Lemma] && n <= 8 && row.kind == nlp.Named && f.anchor != t && !(tok.Lemma == "like" && n > 1) && r.clauseBetween(t+1, f.start) {
			b.unreal = true
		}
		if verb && !lightVerbs[tok.Lemma] && !modals[low] && tok.Tag != "VBG" {
			otherVerb = true
		}
		if low == "," && (n > 3 || n > 0 && t > s.First && !listed(d.Tokens[t-1].Tag)) {
			return b // a clause ends here, not an item of a list
		}
		if n > 0 && joining[low] {
			otherVerb = true
		}
	}
	return b
}

// opensClause reports whether the clause of what follows begins at token t.
func (r *reader) opensClause(t int) bool {
	switch r.d.Tokens[t].Lower {
	case "who", "whom", "which", "whose":
		return true
	case "for":
		tag := r.d.Tokens[t+1].Tag
		return tag != "DT" && tag != "NN"
	}
	return false
}

var (
	acting  = set("make act behave")
	joining = set("and when that because as")
)

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
		if fading[l] || vg.Passive && losing[l] || l == "go" && vg.First < vg.Head && r.d.Tokens[vg.First].Lemma == "be" {
			return true // "his fear vanished", "his pain was gone"
		}
		return l == "be" && vg.End < len(r.d.Tokens) && over[r.d.Tokens[vg.End].Lower]
	}
	return false
}

// over are what a feeling that is past is said to be.
var over = set("gone over past forgotten")

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
		if next(1) == "anything" || next(1) == "anybody" || next(1) == "anyone" || next(1) == "ever" {
			return true, false // "hardly anything surprised her"
		}
		return already, true
	}
	return true, false
}

// showy are words that call a sign put on: "false tears", "a forced smile".
var showy = set("false feigned forced crocodile pretended mock sham fake painted make-believe")

// putOn reports whether the words about a find say that it is only shown: "put
// on a sad face", "forced a smile", "false tears", "only seemed angry", "played
// at being hungry".
func (r *reader) putOn(f *found) bool {
	d := r.d
	s := d.Sentences[d.Tokens[f.start].Sentence]
	shown := false
	for t := max(s.First, f.start-4); t < f.end; t++ {
		tok := &d.Tokens[t]
		before, after := "", ""
		if t > s.First {
			before = d.Tokens[t-1].Lower
		}
		if t+1 < s.End {
			after = d.Tokens[t+1].Lower
		}
		near := f.start - t
		switch {
		case t < f.start && (tok.Tag == "CC" || tok.Lower == ","):
			shown = false // what was put on belongs to another thing
		case showy[tok.Lower] && near <= 1,
			tok.Lemma == "put" && after == "on" && near > 0,
			tok.Lemma == "force" && strings.HasPrefix(tok.Tag, "V") && near <= 2 && near > 0 && f.p.row.kind == nlp.FaceVoice,
			(tok.Lemma == "seem" || tok.Lemma == "appear") && (before == "only" || before == "just") && near > 0,
			tok.Lemma == "play" && after == "at" && near > 0:
			shown = true
		}
	}
	return shown
}
