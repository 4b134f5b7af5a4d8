package segment

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// longLine is the length in bytes beyond which nobody wraps lines by hand: a
// line as long as this ends where its writer wanted it to end.
const longLine = 120

// line is one line without its line break and outer blanks; empty if blank.
type line struct{ nlp.Span }

// paragraphs gives the paragraphs of text, without blanks around them.
func paragraphs(text string) []nlp.Span {
	var out []nlp.Span
	var block []line
	flush := func() {
		out = splitBlock(out, text, block)
		block = block[:0]
	}
	for start := 0; start < len(text); {
		end, next := lineEnd(text, start)
		span := trim(text, nlp.Span{Start: start, End: end})
		if span.Len() == 0 {
			flush()
		} else {
			block = append(block, line{span})
		}
		start = next
	}
	flush()
	return out
}

// lineEnd finds the end of the line at start and the start of the next one.
func lineEnd(text string, start int) (end, next int) {
	for i := start; i < len(text); i++ {
		switch c := text[i]; {
		case c == '\n':
			return i, i + 1
		case c == '\r':
			if strings.HasPrefix(text[i:], "\r\n") {
				return i, i + 2
			}
			return i, i + 1
		case c == 0xc2 && strings.HasPrefix(text[i:], "\u0085"):
			return i, i + 2
		case c == 0xe2 && (strings.HasPrefix(text[i:], "\u2028") || strings.HasPrefix(text[i:], "\u2029")):
			return i, i + 3
		}
	}
	return len(text), len(text)
}

// trim takes blanks off both ends.
func trim(text string, s nlp.Span) nlp.Span {
	for s.Start < s.End {
		r, size := utf8.DecodeRuneInString(text[s.Start:s.End])
		if !blank(r) {
			break
		}
		s.Start += size
	}
	for s.Start < s.End {
		r, size := utf8.DecodeLastRuneInString(text[s.Start:s.End])
		if !blank(r) {
			break
		}
		s.End -= size
	}
	return s
}

// blank reports a character that separates words and shows nothing.
func blank(r rune) bool {
	return r <= ' ' || r == 0x7f || r >= 0x80 && (unicode.IsSpace(r) || r == '\ufeff' ||
		r == '\u200b' || r >= 0x80 && r < 0xa0)
}

// splitBlock cuts the lines between two blank lines into paragraphs. A line
// that was wrapped ends because the next word did not fit into the width; if
// it would have fitted, the break was made on purpose. After the end of a
// sentence such a break starts a new paragraph; elsewhere it is verse.
func splitBlock(out []nlp.Span, text string, block []line) []nlp.Span {
	if len(block) == 0 {
		return out
	}
	width := 0
	for _, l := range block {
		width = max(width, l.Len())
	}
	start := block[0].Start
	for i := 0; i+1 < len(block); i++ {
		this, next := block[i], block[i+1]
		room := this.Len() + 1 + firstWord(text, next.Span)
		meant := this.Len() > longLine || room <= width
		if meant && endsSentence(this.Of(text)) || i == 0 && capitals(this.Of(text)) && !capitals(next.Of(text)) {
			out = append(out, nlp.Span{Start: start, End: this.End})
			start = next.Start
		}
	}
	return append(out, nlp.Span{Start: start, End: block[len(block)-1].End})
}

// firstWord gives the length in bytes of the first word of a line.
func firstWord(text string, s nlp.Span) int {
	if i := strings.IndexAny(s.Of(text), " \t"); i >= 0 {
		return i
	}
	return s.Len()
}

// endsSentence reports whether a line ends in a full stop, question or
// exclamation mark, or colon, with closing marks after it.
func endsSentence(s string) bool {
	s = strings.TrimRight(s, "\"'\u201d\u2019)]_*")
	return s != "" && strings.ContainsRune(".!?:", rune(s[len(s)-1])) || strings.HasSuffix(s, "\u2026")
}

// capitals reports a line of at least two capital letters and no small one.
func capitals(s string) bool {
	n := 0
	for _, r := range s {
		if unicode.IsLower(r) {
			return false
		}
		if unicode.IsUpper(r) {
			n++
		}
	}
	return n >= 2
}
