package segment

import (
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// sentences adds the sentences of one paragraph, whose tokens start at first.
func sentences(out []nlp.Sentence, tokens []nlp.Token, first, paragraph int, text string) []nlp.Sentence {
	add := func(end int) {
		if end > first {
			out = append(out, nlp.Sentence{
				Span:  nlp.Span{Start: tokens[first].Span.Start, End: tokens[end-1].Span.End},
				First: first, End: end, Paragraph: paragraph,
			})
			first = end
		}
	}
	for i := first; i < len(tokens); i++ {
		stop := tokens[i].Lower
		if !terminator(stop) {
			if !abbreviationEnds(tokens, i, text) {
				continue
			}
			stop = "."
		}
		if stop == "." && i == first+1 && numeral(tokens[first].Lower) {
			continue // "1. The Fox", "IV. The Goat": the number of a heading
		}
		end, quoted := i+1, false
		for end < len(tokens) {
			if t := tokens[end]; terminator(t.Lower) {
				stop = t.Lower
			} else if t.Tag == closeQuote {
				quoted = true
			} else if t.Lower != ")" && t.Lower != "]" && t.Lower != "}" {
				break
			}
			end++
		}
		if end == len(tokens) || startsSentence(tokens, end, stop, quoted, text) {
			add(end)
		}
		i = max(i, end-1)
	}
	add(len(tokens))
	return out
}

func terminator(s string) bool { return s == "." || s == "!" || s == "?" || s == "..." }

// abbreviationEnds reports an abbreviation that may end a sentence and is
// followed by what looks like the start of one.
func abbreviationEnds(tokens []nlp.Token, i int, text string) bool {
	w := tokens[i].Span.Of(text)
	if len(w) < 3 || w[len(w)-1] != '.' || titles[w[:len(w)-1]] || !endings[w[:len(w)-1]] {
		return false
	}
	return i+1 < len(tokens) && (tokens[i+1].Tag == openQuote || upper(tokens[i+1], text))
}

// startsSentence reports whether a sentence starts at token i, after the mark
// stop and, if quoted, a closing quote.
func startsSentence(tokens []nlp.Token, i int, stop string, quoted bool, text string) bool {
	t := tokens[i]
	switch t.Lower {
	case ",", ";", ":", "-":
		return false
	case "--":
		// A dash goes on with the sentence, but not after a full stop and
		// before a capital.
		return stop == "." && i+1 < len(tokens) && (tokens[i+1].Tag == openQuote || upper(tokens[i+1], text))
	}
	if t.Tag == openQuote {
		if stop == "..." && i+1 < len(tokens) && lowerCase(tokens[i+1], text) {
			return false
		}
		return true
	}
	if t.Lower == "(" || t.Lower == "[" {
		return i+1 < len(tokens) && !lowerCase(tokens[i+1], text)
	}
	if lowerCase(t, text) {
		return false
	}
	if stop == "..." && t.Lower == "i" {
		return false
	}
	if quoted && stop != "." && reports(tokens, i) {
		return false
	}
	return true
}

// reports reports whether a reporting clause starts at token i, written with
// a capital because it starts with a name ("Oh!" Juniper cried.) or because
// the writer held the quote for a sentence ("Oh!" Cried the boy.).
func reports(tokens []nlp.Token, i int) bool {
	if reporting[tokens[i].Lower] {
		return true
	}
	if notNames[tokens[i].Lower] {
		return false
	}
	for j := i + 1; j < len(tokens) && j <= i+3; j++ {
		if reporting[tokens[j].Lower] {
			return true
		}
	}
	return false
}

func first(t nlp.Token, text string) rune {
	r, _ := utf8.DecodeRuneInString(t.Span.Of(text))
	if apostrophe(r) && t.Span.Len() > 2 {
		_, n := utf8.DecodeRuneInString(t.Span.Of(text))
		r, _ = utf8.DecodeRuneInString(t.Span.Of(text)[n:])
	}
	return r
}

func upper(t nlp.Token, text string) bool     { return unicode.IsUpper(first(t, text)) }
func lowerCase(t nlp.Token, text string) bool { return unicode.IsLower(first(t, text)) }

// numeral reports a number in digits or a small Roman one.
func numeral(w string) bool {
	if w == "" || len(w) > 5 {
		return false
	}
	roman, arabic := true, true
	for _, r := range w {
		roman = roman && (r == 'i' || r == 'v' || r == 'x' || r == 'l')
		arabic = arabic && digit(r)
	}
	return roman || arabic
}
