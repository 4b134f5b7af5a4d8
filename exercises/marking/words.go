package marking

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// word is one word of a text in lower case, apostrophes plain.
type word struct {
	text string
	span nlp.Span
}

// words cuts the words out of a stretch of text. Spans are in the text.
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

// littleWords carry no meaning of their own here.
var littleWords = func() map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(`a an the and or but if of to in on at by for from with as into out up down
		he she it they we i you him her them me us his hers its their theirs my mine your yours our ours
		is are was were be been being am has have had do does did done will would can could shall should may might must
		this that these those there here then than so very too also just not no nor yes who whom whose which what when
		where why how all any some one because 'cause cos cuz he's she's it's says said say like feel feels felt feeling
		himself herself itself themselves`) {
		m[w] = true
	}
	return m
}()

// contentLemmas gives the words that carry meaning in a rough dictionary form.
func contentLemmas(text string) map[string]bool {
	out := map[string]bool{}
	for _, w := range words(text, nlp.Span{End: len(text)}) {
		if !littleWords[w.text] {
			out[stem(w.text)] = true
		}
	}
	return out
}

func shares(a, b map[string]bool) bool {
	for w := range a {
		if b[w] {
			return true
		}
	}
	return false
}

// stem takes off the commonest endings, enough to compare two words.
func stem(w string) string {
	for _, end := range []string{"'s", "ing", "ed", "es", "s"} {
		if s, ok := strings.CutSuffix(w, end); ok && len(s) >= 3 {
			if n := len(s); n > 3 && s[n-1] == s[n-2] && end != "s" {
				s = s[:n-1]
			}
			return strings.TrimSuffix(s, "e")
		}
	}
	return strings.TrimSuffix(w, "e")
}
