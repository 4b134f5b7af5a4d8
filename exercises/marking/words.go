package marking

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
	"feltpage/nlp/lemma"
)

// word is one word of a text in lower case, apostrophes plain.
type word struct {
	text string
	span nlp.Span
}

// words cuts the words out of a stretch of text. Spans are in the text. Answers
// are too short and too broken for the reading engine's segmenter; this reads
// letters, digits and apostrophes and nothing else.
func words(text string, in nlp.Span) []word {
	if in.Start < 0 || in.End > len(text) || in.Start >= in.End {
		return nil
	}
	var out []word
	start := -1
	end := func(i int) {
		if start >= 0 {
			w := strings.Trim(strings.ReplaceAll(strings.ToLower(text[start:i]), "\u2019", "'"), "'")
			if w != "" {
				out = append(out, word{w, nlp.Span{Start: start, End: i}})
			}
			start = -1
		}
	}
	for i := in.Start; i < in.End; {
		r, n := utf8.DecodeRuneInString(text[i:in.End])
		if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) || r == '\'' || r == '\u2019' {
			if start < 0 {
				start = i
			}
		} else {
			end(i)
		}
		i += n
	}
	end(in.End)
	return out
}

func set(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// littleWords carry no meaning of their own here.
var littleWords = set(`a an the and or but if of to in on at by for from with as into out up down
	he she it they we i you him her them me us his hers its their theirs my mine your yours our ours
	is are was were be been being am has have had do does did done will would can could shall should may might must
	this that that's these those there there's here then than so very too also just not no nor yes who whom whose which
	what when where why how all any some one because 'cause cause cos cuz he's she's it's i'm they're says said say
	like feel feels felt feeling think thinks thought thing things something get gets got go goes went
	really bit little lot much more most kind sort maybe um uh er
	himself herself itself themselves isn't wasn't don't doesn't didn't couldn't can't won't`)

// tagsToTry are the parts of speech under which a word alone may have another
// dictionary form.
var tagsToTry = []string{"VBD", "VBG", "VBZ", "NNS", "JJR", "JJS"}

// forms gives a word and the dictionary forms it may belong to, itself first.
func forms(w string) []string {
	w = strings.TrimSuffix(w, "'s")
	out := []string{w}
	add := func(x string) {
		if len(x) >= 2 {
			for _, o := range out {
				if o == x {
					return
				}
			}
			out = append(out, x)
		}
	}
	for _, tag := range tagsToTry {
		add(lemma.Of(w, tag))
	}
	for _, end := range []string{"ly", "ness", "ish"} {
		if s, ok := strings.CutSuffix(w, end); ok && len(s) >= 3 {
			if t, ok := strings.CutSuffix(s, "i"); ok {
				s = t + "y"
			}
			add(s)
		}
	}
	return out
}

// meanings gives the words that carry meaning, by dictionary form, each led to
// the word that stands for its synonyms. A word of several forms gives all.
func meanings(text string) map[string]bool {
	out := map[string]bool{}
	for _, w := range words(text, nlp.Span{End: len(text)}) {
		if littleWords[w.text] {
			continue
		}
		for _, f := range forms(w.text) {
			if littleWords[f] {
				continue
			}
			if s, ok := synonyms()[f]; ok {
				f = s
			}
			out[f] = true
		}
	}
	return out
}

// shared counts the words of a that have a meaning in b.
func shared(a string, b map[string]bool) (n int) {
	seen := map[string]bool{}
	for _, w := range words(a, nlp.Span{End: len(a)}) {
		if seen[w.text] {
			continue
		}
		seen[w.text] = true
		for m := range meanings(w.text) {
			if b[m] {
				n++
				break
			}
		}
	}
	return n
}
