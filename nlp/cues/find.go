package cues

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"feltpage/nlp"
)

// Find gives the cues of a document in text order. The document must be tagged
// and have its phrases; cast and quotes are those of characters.Resolve.
// Situation cues are not looked for here.
func (lx *Lexicon) Find(d *nlp.Document, cast []nlp.Character, quotes []nlp.Quote) []nlp.Cue {
	r := &reader{lx: lx, d: d, cast: cast, quotes: quotes}
	r.view = newView(d, cast, quotes)
	r.wordIDs()
	out := r.choose(r.match())
	slices.SortStableFunc(out, func(a, b nlp.Cue) int { return a.Span.Start - b.Span.Start })
	return out
}

// least is the weight below which a find says too little to be called a cue.
const least = 0.1

// choose makes the cues; of finds that share a word it takes the one that asks
// for most and tells a state of somebody.
func (r *reader) choose(fs []found) []nlp.Cue {
	live := fs[:0]
	for i := range fs {
		if r.applies(&fs[i]) {
			live = append(live, fs[i])
		}
	}
	slices.SortFunc(live, func(a, b found) int {
		return cmp.Or(b.p.weight-a.p.weight, a.start-b.start, b.end-a.end, a.p.index-b.p.index)
	})
	taken := make([]bool, len(r.d.Tokens))
	var out []nlp.Cue
next:
	for i := range live {
		f := &live[i]
		for t := f.start; t < f.end; t++ {
			if taken[t] {
				continue next
			}
		}
		if f.p.row.use == "whole" && !r.widen(f, taken) {
			continue
		}
		if f.p.row.class != classStop {
			if !r.holds(f) {
				continue
			}
			who, keep := r.owner(f)
			if !keep {
				continue
			}
			ctx := r.surround(f)
			if ctx.unreal {
				continue // wished, asked, supposed; a part of it may yet be told
			}
			// Something that was not done shows nothing.
			if c := r.cue(f, who, ctx); c.Feelings[0].Weight < least {
				continue
			} else if !(ctx.denied && f.p.row.kind == nlp.Action) {
				out = append(out, c)
			}
		}
		for t := f.start; t < f.end; t++ {
			taken[t] = true
		}
	}
	return out
}

// widen stretches a find of an end mark to the words said before it. It is
// false where they are many, none, or hold a cue already.
func (r *reader) widen(f *found, taken []bool) bool {
	const most = 16
	q := r.view.quote[f.anchor]
	k := f.anchor
	for k-1 >= 0 && f.anchor-k <= most && r.view.quote[k-1] == q && !r.boundary(k-1) && r.d.Tokens[k-1].Sentence == r.d.Tokens[f.anchor].Sentence {
		k--
		if taken[k] || f.anchor-k > most {
			return false
		}
	}
	if f.anchor-k < 2 {
		return false
	}
	f.start = k
	return true
}

// applies checks what can be told without knowing the owner: speech in quotes,
// exclamations, the right place in the sentence.
func (r *reader) applies(f *found) bool {
	v, d := r.view, r.d
	row := f.p.row
	if v.quote[f.start] != v.quote[f.end-1] {
		return false
	}
	if row.class == classSpeech && v.quote[f.anchor] < 0 {
		return false
	}
	if row.kind == nlp.Action && f.anchor == f.start && len(row.whose) == 0 && f.p.anchor == 0 && r.plainNoun(f) {
		return false
	}
	switch row.use {
	case "exclaim":
		// Alone between marks, or with an exclamation mark close after.
		return r.freeBefore(f.start) && (r.marked(f.end, 4, "!") || r.marked(f.end, 0, ",", ".", "?", ";", "--"))
	case "at-start":
		return r.freeBefore(f.start)
	case "question":
		return r.marked(f.end, 8, "?")
	case "angry-you":
		return true
	case "report":
		return v.reporter(f.anchor) != nlp.None || v.quote[f.anchor] < 0 && v.talk[d.Tokens[f.anchor].Sentence]
	case "subject-only":
		t := d.Tokens[f.anchor]
		return r.intransitive(f) && strings.HasPrefix(t.Tag, "V")
	}
	return true
}

// plainNoun reports whether the first word of a find, which the pattern has as
// something done, stands here as a noun: "his rush through the air".
func (r *reader) plainNoun(f *found) bool {
	i := f.anchor
	t := &r.d.Tokens[i]
	if (t.Tag == "VBN" || t.Tag == "JJ") && f.end-f.start == 1 && i > 0 {
		// "a ruined bridge"
		if p := r.d.Tokens[i-1].Tag; p == "DT" || p == "PRP$" || p == "JJ" || p == "RBS" || p == "RBR" {
			return r.nounAfter(i, r.d.Sentences[t.Sentence]) >= 0
		}
	}
	if !strings.HasPrefix(t.Tag, "NN") || r.ids[i][2] != 0 && !strings.HasSuffix(t.Lower, "ing") || i == 0 {
		return false
	}
	for _, a := range f.p.elements[0].alts {
		if a.tag == "NN" {
			return false
		}
	}
	switch p := &r.d.Tokens[i-1]; p.Tag {
	case "DT", "PRP$", "JJ", "POS", "IN":
		return true
	}
	return false
}

// freeBefore reports whether nothing of the clause stands before token i.
func (r *reader) freeBefore(i int) bool {
	s := r.d.Sentences[r.d.Tokens[i].Sentence]
	if i == s.First {
		return true
	}
	p := &r.d.Tokens[i-1]
	return isQuoteMark(p) || r.boundary(i-1) || p.Lower == "," || p.Lower == "oh" || p.Lower == "ah" || p.Lower == "o" || r.view.quote[i-1] != r.view.quote[i]
}

// marked reports whether one of the marks stands at token i or at most reach
// tokens after it.
func (r *reader) marked(i, reach int, marks ...string) bool {
	for t := i; t <= i+reach && t < len(r.d.Tokens); t++ {
		for _, m := range marks {
			if r.d.Tokens[t].Lower == m {
				return true
			}
		}
		if r.boundary(t) {
			return false
		}
	}
	return false
}

// holds is the last check before a find takes its words.
func (r *reader) holds(f *found) bool {
	t := &r.d.Tokens[f.anchor]
	switch f.p.row.class {
	case classAdj:
		if r.active(f.anchor) {
			return false
		}
		return !strings.HasPrefix(t.Tag, "NN") && t.Tag != "VB" && t.Tag != "VBP" || t.Tag == "NN" && r.predicate(f.anchor)
	case classAdv:
		return !strings.HasPrefix(t.Tag, "NN") || strings.HasSuffix(t.Lower, "ly")
	case classVerb, classObject:
		return true
	}
	return true
}

// active reports whether the participle at token i is a verb in the active:
// "had satisfied his hunger", "he amused the boy".
func (r *reader) active(i int) bool {
	g := r.view.verb[i]
	if g < 0 {
		return false
	}
	vg := &r.d.Verbs[g]
	if vg.Head != i || vg.Passive || vg.Participle || vg.Infinitive {
		return false
	}
	for t := vg.First; t < i; t++ {
		switch r.d.Tokens[t].Lemma {
		case "be", "get":
			return false
		case "have":
			return true
		}
	}
	return vg.Object != nlp.None && r.d.Tokens[i].Tag == "VBD"
}

// predicate reports whether a copula stands right before token i, adverbs
// aside.
func (r *reader) predicate(i int) bool {
	s := r.d.Sentences[r.d.Tokens[i].Sentence]
	_, at := r.copulaBefore(i, s)
	return at >= 0
}

// cue turns a find into a cue.
func (r *reader) cue(f *found, who int, ctx context) nlp.Cue {
	row := f.p.row
	feelings := row.feelings
	kind := row.kind
	sign, places := row.sign, row.places
	if row.use == "cry" {
		feelings, sign, places = r.crying(f, feelings, sign, places)
	}
	span := r.d.Whole(f.start, f.end)
	c := nlp.Cue{
		Span: span, Kind: kind, Character: who,
		Feelings: append([]nlp.Weight(nil), feelings...),
		Places:   append([]string(nil), places...),
		Strength: ctx.strength, Denied: ctx.denied, Pretended: ctx.pretended,
		Rule: row.name(),
	}
	if row.use == "weak-cue" {
		for i := range c.Feelings {
			c.Feelings[i].Weight = math.Round(c.Feelings[i].Weight*60) / 100
		}
	}
	if by := degree[ctx.strength]; by != 1 {
		for i := range c.Feelings {
			c.Feelings[i].Weight = math.Round(c.Feelings[i].Weight*by*100) / 100
		}
	}
	c.Reason = reason(row, &c, span.Of(r.d.Text), sign)
	return c
}

// degree is how much a cue weighs by its strength: "a little afraid" says less
// for fear than "sore afraid". Own judgement.
var degree = map[string]float64{nlp.Slight: 0.7, nlp.Plain: 0.9, nlp.Strong: 1}

// crying tells tears from calling out: "cried" beside a quote says only that
// it was said loudly.
func (r *reader) crying(f *found, ws []nlp.Weight, sign string, places []string) ([]nlp.Weight, string, []string) {
	v := r.view
	t := &r.d.Tokens[f.anchor]
	next := ""
	if f.end < len(r.d.Tokens) {
		next = r.d.Tokens[f.end].Lower
	}
	// A quote may begin in the next paragraph: he cried, / "Open the door!"
	opens := f.end+1 < len(r.d.Tokens) && (next == "," || next == ":") && v.quote[f.end+1] >= 0 && v.quote[f.anchor] < 0
	if opens || v.talk[t.Sentence] && v.quote[f.anchor] < 0 && t.Tag != "VBG" || next == "out" || next == "aloud" {
		return ws, "crying-out", []string{"mouth"}
	}
	return []nlp.Weight{{Family: "sadness", Weight: 0.9}, {Family: "pain", Weight: 0.2}}, sign, places
}
