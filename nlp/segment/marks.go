package segment

import (
	"strings"

	"feltpage/nlp"
)

// Tags that the segmenter gives, because only typography tells them.
const (
	openQuote  = "``"
	closeQuote = "''"
	possessive = "POS"
)

// mark reads what is no word at i and gives the place after it.
func (s *scanner) mark(i int, r rune, size, start int) int {
	end := i + size
	switch r {
	case '.':
		return s.points(i)
	case '\u2026':
		s.add(i, end, "...", "")
	case '-', '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2015', '\u2e3a', '\u2e3b':
		for end < s.end {
			next, n := s.rune(end)
			if next != r {
				break
			}
			end += n
		}
		if r == '-' && end == i+1 || r == '\u2010' || r == '\u2011' {
			s.add(i, end, "-", "")
		} else {
			s.add(i, end, "--", "")
		}
	case '_', '*':
		for end < s.end && s.text[end] == byte(r) {
			end++
		}
		if !wordRune(s.after(end)) && !wordRune(s.before(i, start)) && !s.closesEmphasis(i, start) {
			s.add(i, end, s.text[i:end], "")
		}
	case '"', '\u201c', '\u201d', '\u201e', '\u00ab', '\u00bb':
		s.doubleQuote(i, end, r, start)
	case '\'', '\u2018', '\u2019', '\u201a', '`', '\u02bc', '\u00b4':
		return s.singleQuote(i, end, r, start)
	default:
		s.add(i, end, lower(s.text[i:end]), "")
	}
	return end
}

// closesEmphasis reports whether the mark at i follows the end of a sentence
// without a blank, as in "_No!_".
func (s *scanner) closesEmphasis(i, start int) bool {
	return strings.ContainsRune(".,;:!?", s.before(i, start))
}

// points reads a full stop, or an ellipsis of two points or more, with single
// blanks between them or none.
func (s *scanner) points(i int) int {
	end, n := i+1, 1
	for end < s.end {
		if s.text[end] == '.' {
			end++
		} else if s.text[end] == ' ' && end+1 < s.end && s.text[end+1] == '.' {
			end += 2
		} else {
			break
		}
		n++
	}
	if n == 1 {
		s.add(i, end, ".", "")
	} else {
		s.add(i, end, "...", "")
	}
	return end
}

// doubleQuote adds a double quote and tells whether it opens or closes.
func (s *scanner) doubleQuote(i, end int, r rune, start int) {
	opens := s.double == nlp.None
	switch r {
	case '\u201c', '\u201e', '\u00ab':
		opens = true
		if r == '\u201c' && s.double != nlp.None && s.text[s.tokens[s.double].Span.Start:][:3] == "\u201e" {
			opens = false // German style
		}
	case '\u201d', '\u00bb':
		opens = false
	default:
		before, after := s.before(i, start), s.after(end)
		left := blank(before) || opener(before) || dash(before)
		right := blank(after) || closer(after) || dash(after)
		if left && !right {
			opens = s.double == nlp.None || !s.closesBeforeReport(end)
		} else if right && !left {
			opens = false
		}
	}
	if opens {
		s.double = len(s.tokens)
		s.add(i, end, "\"", openQuote)
		return
	}
	s.double = nlp.None
	s.add(i, end, "\"", closeQuote)
}

// closesBeforeReport reports a quote that was set a blank too late, as in
// "Oh! "said he: what stands before ends a speech, and what follows reports it.
func (s *scanner) closesBeforeReport(end int) bool {
	if n := len(s.tokens); n == 0 || !terminator(s.tokens[n-1].Lower) && s.tokens[n-1].Lower != "," {
		return false
	}
	w := end
	for w < s.end && w-end < 12 && s.text[w] >= 'a' && s.text[w] <= 'z' {
		w++
	}
	return reporting[s.text[end:w]]
}

// singleQuote reads an apostrophe or a single quote at i, where no word runs
// into it, and gives the place after it.
func (s *scanner) singleQuote(i, end int, r rune, start int) int {
	// Two of them side by side are one double quote.
	if (r == '\'' || r == '`') && end < s.end && s.text[end] == byte(r) {
		end++
		opens := r == '`' || s.double == nlp.None && !blank(s.after(end))
		if opens {
			s.double = len(s.tokens)
			s.add(i, end, "\"", openQuote)
		} else {
			s.double = nlp.None
			s.add(i, end, "\"", closeQuote)
		}
		return end
	}
	before, after := s.before(i, start), s.after(end)
	if wordRune(after) && s.single != nlp.None && r == '\'' && blank(before) && s.closesBeforeReport(end) {
		s.single = nlp.None
		s.add(i, end, "'", closeQuote)
		return end
	}
	if wordRune(after) {
		wordEnd := s.wordEnd(end)
		w := s.text[end:wordEnd]
		if r != '`' && r != '\u201a' && elided(w, r == '\u2018') {
			s.cut(i, wordEnd)
			return wordEnd
		}
		if wordRune(before) && r != '`' && r != '\u2018' {
			// Between letters, yet not part of the word before it.
			s.add(i, end, "'", closeQuote)
			return end
		}
		if r == '\u2019' || r == '\u00b4' {
			// A closing mark before a word: an elision we do not know.
			s.cut(i, wordEnd)
			return wordEnd
		}
		s.single = len(s.tokens)
		s.add(i, end, "'", openQuote)
		return end
	}
	switch {
	case r == '\u2018' || r == '\u201a' || r == '`':
		s.single = len(s.tokens)
		s.add(i, end, "'", openQuote)
	case r == '\'' && (blank(before) || opener(before)) && !blank(after) && !closer(after):
		s.single = len(s.tokens)
		s.add(i, end, "'", openQuote)
	case (before == 's' || before == 'z' || before == 'x' || before == 'S') && s.ownsNext(end):
		s.add(i, end, "'", possessive)
	case s.single != nlp.None:
		s.single = nlp.None
		s.add(i, end, "'", closeQuote)
	case before == 's' || before == 'S':
		s.add(i, end, "'", possessive)
	default:
		s.add(i, end, "'", closeQuote)
	}
	return end
}

// ownsNext reports whether the mark that ends at end after an s is the
// possessive one: a word follows, and no single quote was opened just before
// (as in: the 'birds' sang).
func (s *scanner) ownsNext(end int) bool {
	if s.single != nlp.None && len(s.tokens)-s.single <= 4 {
		return false
	}
	return end+1 < s.end && s.text[end] == ' ' && letter(s.after(end+1))
}

// elided reports a word that lost its beginning: 'tis, 'em. A capital, or a
// mark that can only open a quote, speaks for a quote that starts there.
func elided(w string, opens bool) bool {
	if len(w) > 12 {
		return false
	}
	lo, capital := lower(w), w[0] >= 'A' && w[0] <= 'Z'
	switch {
	case lo[0] == 't' && afterIt[lo[1:]], lo == "em":
		return !opens || !capital
	case len(w) == 3 && digit(rune(w[0])) && w[2] == 's':
		return true // '90s
	}
	return elidedWords[lo] && !capital
}

func opener(r rune) bool {
	return strings.ContainsRune("([{\u201c\u2018\u201e\u00ab_*\"'`", r)
}

func closer(r rune) bool {
	return strings.ContainsRune(".,;:!?)]}\u201d\u2019\u2026\u00bb_*\"'", r)
}

func dash(r rune) bool {
	return r == '-' || r >= '\u2010' && r <= '\u2015'
}
