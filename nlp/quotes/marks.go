package quotes

import (
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

type kind byte

const (
	double kind = iota
	single
)

// A mark is one quotation mark, or an apostrophe that might be one.
type mark struct {
	kind       kind
	at, end    int  // byte offsets
	prev, next rune // the neighbours, or 0 at the ends of the text
	side       int8 // +1 only opens, -1 only closes, 0 tells nothing (straight marks)
}

// scan lists the marks of the text in order. Two backticks and two
// apostrophes, as in plain typescript, count as double marks.
func scan(d *nlp.Document) []mark {
	var out []mark
	t := d.Text
	prev := rune(0)
	for i := 0; i < len(t); {
		r, n := rune(t[i]), 1
		if r >= utf8.RuneSelf {
			r, n = utf8.DecodeRuneInString(t[i:])
		}
		m := mark{at: i, end: i + n, prev: prev}
		is := true
		switch r {
		case '"':
			m.kind = double
		case '“', '«', '„':
			m.kind, m.side = double, 1
		case '”', '»':
			m.kind, m.side = double, -1
		case '\'':
			m.kind = single
			if i+1 < len(t) && t[i+1] == '\'' && !letterAt(t, i+2) {
				m.kind, m.end = double, i+2
			}
		case '’':
			m.kind = single // also the typographic apostrophe
			m.side = -1
		case '‘', '‹':
			m.kind, m.side = single, 1
		case '›':
			m.kind, m.side = single, -1
		case '`':
			m.kind, m.side = single, 1
			if i+1 < len(t) && t[i+1] == '`' {
				m.kind, m.end = double, i+2
			}
		default:
			is = false
		}
		if is {
			if m.end < len(t) {
				m.next, _ = utf8.DecodeRuneInString(t[m.end:])
			}
			out = append(out, m)
			i, prev = m.end, r
			continue
		}
		i, prev = i+n, r
	}
	return out
}

// A style is how the text quotes: how many double marks it has, and how many
// single ones that look like quotation marks and not like apostrophes.
type style struct{ doubles, singles int }

func styleOf(text string, marks []mark) style {
	var s style
	for _, m := range marks {
		switch {
		case m.kind == double:
			s.doubles++
		case m.side > 0 || m.side == 0 && blank(m.prev) && !blank(m.next),
			stop(m.prev) && !word(m.next),
			m.side == 0 && blank(m.prev) && stop(prevSolid(text, m.at)):
			s.singles++
		}
	}
	return s
}

func letterAt(t string, i int) bool {
	r, _ := utf8.DecodeRuneInString(t[i:])
	return unicode.IsLetter(r)
}

func blank(r rune) bool { return r == 0 || unicode.IsSpace(r) }
func word(r rune) bool  { return unicode.IsLetter(r) || unicode.IsDigit(r) }
func dash(r rune) bool  { return r == '-' || r == '–' || r == '—' || r == '―' }

// stop is punctuation that stands at the end of speech.
func stop(r rune) bool {
	switch r {
	case '.', ',', '!', '?', ';', ':', '…', '-', '–', '—', ')', ']', '_':
		return true
	}
	return false
}

// opener is what stands right before an opening mark.
func opener(r rune) bool {
	switch r {
	case '(', '[', '{', '_', '*', '"', '\'', '“', '‘', '„', '«', '`':
		return true
	}
	return blank(r) || dash(r)
}

// closer is what stands right after a closing mark.
func closer(r rune) bool {
	return blank(r) || stop(r) || !word(r) && !opener(r) || r == '"' || r == '\''
}

func onlySpace(s string) bool {
	for _, r := range s {
		if !unicode.IsSpace(r) {
			return false
		}
	}
	return true
}
