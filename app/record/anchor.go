package record

import (
	"strings"
	"unicode/utf8"

	"feltpage/nlp"
)

// AnchorContext is how many characters are kept on either side of a quote.
const AnchorContext = 32

// Anchor fastens a note to words of a text so that it can be found again after
// the engine, or even the text around it, has changed.
type Anchor struct {
	TextHash  string // of the text it was made on
	Quote     string // the exact words
	Before    string // up to AnchorContext characters before them
	After     string // up to AnchorContext characters after them
	Character string // whose clue it is, by name, or ""
}

// AnchorAt makes the anchor of a span of text.
func AnchorAt(text, hash string, at nlp.Span, character string) Anchor {
	before, after := text[:at.Start], text[at.End:]
	start := len(before)
	for range AnchorContext {
		_, n := utf8.DecodeLastRuneInString(before[:start])
		start -= n
	}
	end := 0
	for range AnchorContext {
		_, n := utf8.DecodeRuneInString(after[end:])
		end += n
	}
	return Anchor{TextHash: hash, Quote: text[at.Start:at.End], Before: before[start:],
		After: after[:end], Character: character}
}

// In finds the anchored words. Where they stand more than once, the place whose
// surroundings agree longest wins; it is false where they are gone, or where
// two places agree equally well: then a person must look.
func (a Anchor) In(text string) (nlp.Span, bool) {
	if a.Quote == "" {
		return nlp.Span{}, false
	}
	best, second, at := -1, -1, nlp.Span{}
	for from := 0; ; {
		i := strings.Index(text[from:], a.Quote)
		if i < 0 {
			break
		}
		start := from + i
		end := start + len(a.Quote)
		agree := commonSuffix(text[:start], a.Before) + commonPrefix(text[end:], a.After)
		if agree > best {
			best, second, at = agree, best, nlp.Span{Start: start, End: end}
		} else if agree > second {
			second = agree
		}
		_, n := utf8.DecodeRuneInString(text[start:])
		from = start + n
	}
	return at, best >= 0 && best != second
}

func commonPrefix(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

func commonSuffix(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[len(a)-1-n] == b[len(b)-1-n] {
		n++
	}
	return n
}
