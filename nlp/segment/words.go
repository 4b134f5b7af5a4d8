package segment

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// scanner turns the text of one paragraph after another into tokens.
type scanner struct {
	text   string
	tokens []nlp.Token
	end    int // end of the paragraph being scanned
	double int // token of the open double quote, or nlp.None
	single int // token of the open single quote, or nlp.None
}

// scan adds the tokens of one paragraph. Quotes are matched within it: a
// speech of several paragraphs opens its quote anew in each.
func (s *scanner) scan(p nlp.Span) {
	s.end, s.double, s.single = p.End, nlp.None, nlp.None
	for i := p.Start; i < p.End; {
		r, size := s.rune(i)
		switch {
		case blank(r):
			i += size
		case wordRune(r):
			i = s.word(i)
		default:
			i = s.mark(i, r, size, p.Start)
		}
	}
}

// rune decodes the character at i, which lies inside the paragraph.
func (s *scanner) rune(i int) (rune, int) {
	if c := s.text[i]; c < utf8.RuneSelf {
		return rune(c), 1
	}
	return utf8.DecodeRuneInString(s.text[i:s.end])
}

// after gives the character at i, or a blank at the end of the paragraph.
func (s *scanner) after(i int) rune {
	if i >= s.end {
		return ' '
	}
	r, _ := s.rune(i)
	return r
}

// before gives the character that ends at i, or a blank at start.
func (s *scanner) before(i, start int) rune {
	if i <= start {
		return ' '
	}
	r, _ := utf8.DecodeLastRuneInString(s.text[start:i])
	return r
}

// wordRune reports a character of which words are made.
func wordRune(r rune) bool {
	if r < utf8.RuneSelf {
		return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9'
	}
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) ||
		r == '\u200d' || r == '\u00ad')
}

func digit(r rune) bool  { return '0' <= r && r <= '9' }
func letter(r rune) bool { return wordRune(r) && !digit(r) }
func hyphen(r rune) bool { return r == '-' || r == '\u2010' || r == '\u2011' }
func apostrophe(r rune) bool {
	return r == '\'' || r == '\u2019' || r == '\u02bc'
}

// add appends a token.
func (s *scanner) add(start, end int, lower, tag string) {
	s.tokens = append(s.tokens, nlp.Token{Span: nlp.Span{Start: start, End: end}, Lower: lower, Tag: tag})
}

// word reads the word at start, cuts it and gives the place after it.
func (s *scanner) word(start int) int {
	end := s.wordEnd(start)
	if end < s.end && s.text[end] == '.' && s.after(end+1) != '.' && s.abbreviation(start, end) {
		end++
		s.add(start, end, lower(s.text[start:end]), "")
		return end
	}
	if end < s.end {
		if r, size := s.rune(end); apostrophe(r) && !wordRune(s.after(end+size)) && s.clipped(start, end) {
			end += size
			s.add(start, end, lower(s.text[start:end]), "")
			return end
		}
	}
	s.cut(start, end)
	return end
}

// wordEnd finds the end of the word at start: letters and digits, hyphens and
// apostrophes between them, points and commas inside numbers, and points
// inside abbreviations such as "a.m".
func (s *scanner) wordEnd(start int) int {
	part := start // where the stretch since the last point began
	var last rune
	for i := start; ; {
		if i >= s.end {
			return s.end
		}
		r, size := s.rune(i)
		switch {
		case wordRune(r):
			last = r
			i += size
			continue
		case hyphen(r), apostrophe(r):
			if i == start && !apostrophe(r) || !wordRune(s.after(i+size)) {
				return i
			}
		case r == '.' && i-part == 1 && letter(last):
			next, n := ' ', 0
			if i+1 < s.end {
				next, n = s.rune(i + 1)
			}
			if !letter(next) || n != 1 || s.after(i+1+n) != '.' {
				return i
			}
			part = i + 1
		case r == '.' || r == ',' || r == ':':
			if !digit(last) || !digit(s.after(i+1)) {
				return i
			}
		default:
			return i
		}
		last = r
		i += size
	}
}

// abbreviation reports whether the point at end belongs to the word before it.
func (s *scanner) abbreviation(start, end int) bool {
	w := s.text[start:end]
	if strings.IndexByte(w, '.') >= 0 {
		return letter(s.before(end, start))
	}
	if len(w) == 1 {
		// An initial: "J. Alder". "I." is the pronoun or a numeral.
		return 'A' <= w[0] && w[0] <= 'Z' && w != "I" && s.nextUpper(end+1)
	}
	if len(w) > 6 {
		return false
	}
	if titles[w] || endings[w] {
		return true
	}
	return numbered[w] && digit(s.nextShown(end+1))
}

// nextShown gives the next character that is not blank.
func (s *scanner) nextShown(i int) rune {
	for n := 0; i < s.end && n < 4; n++ {
		r, size := s.rune(i)
		if !blank(r) {
			return r
		}
		i += size
	}
	return ' '
}

func (s *scanner) nextUpper(i int) bool { return unicode.IsUpper(s.nextShown(i)) }

// clipped reports a word that is written with an apostrophe for its lost end:
// "o' the", "goin' home". Inside an open single quote of few words the mark
// is taken for the closing one.
func (s *scanner) clipped(start, end int) bool {
	if end-start > 12 {
		return false
	}
	w := strings.ToLower(s.text[start:end])
	if s.single != nlp.None && len(s.tokens)-s.single <= 3 {
		return false
	}
	if clippedWords[w] {
		return true
	}
	return len(w) > 4 && strings.HasSuffix(w, "in") && !endsInIn[w]
}

// cut splits contractions and possessives off a word and adds the tokens.
func (s *scanner) cut(start, end int) {
	w := s.text[start:end]
	if len(w) > 40 {
		s.add(start, end, lower(w), "")
		return
	}
	var at [4]int // starts of the pieces cut off, last one first
	n := 0
	lo := lower(w)
	if len(lo) != len(w) {
		// Some character changed its length; cut only plain text, so that
		// offsets in lo are offsets in w.
		at[0], n = typographic(w), 0
		if at[0] < 0 {
			s.add(start, end, lo, "")
			return
		}
		s.cutTypographic(start, end)
		return
	}
	rest := lo
	for n < len(at) {
		i := splitPoint(rest)
		if i <= 0 || i == len(rest) {
			break
		}
		at[n] = i
		n++
		rest = rest[:i]
	}
	from := 0
	for k := n - 1; k >= -1; k-- {
		to := len(w)
		if k >= 0 {
			to = at[k]
		}
		s.add(start+from, start+to, lo[from:to], "")
		from = to
	}
}

// typographic gives the place of the first apostrophe that is not ASCII.
func typographic(w string) int { return strings.IndexAny(w, "\u2019\u02bc") }

// cutTypographic is cut for a word with typographic apostrophes.
func (s *scanner) cutTypographic(start, end int) {
	w := s.text[start:end]
	lo := lower(w)
	// back maps an offset in lo to one in w: both have the same characters.
	back := func(i int) int {
		j := 0
		for range lo[:i] {
			_, size := utf8.DecodeRuneInString(w[j:])
			j += size
		}
		return j
	}
	var cuts []int
	rest := lo
	for len(cuts) < 4 {
		i := splitPoint(rest)
		if i <= 0 || i == len(rest) {
			break
		}
		cuts = append(cuts, i)
		rest = rest[:i]
	}
	from := 0
	for k := len(cuts) - 1; k >= -1; k-- {
		to := len(lo)
		if k >= 0 {
			to = cuts[k]
		}
		s.add(start+back(from), start+back(to), lo[from:to], "")
		from = to
	}
}

// splitPoint gives the place in a lower-case word where its last contracted
// or possessive piece begins, or 0.
func splitPoint(w string) int {
	i := strings.LastIndexByte(w, '\'')
	if i < 0 {
		return fused[w]
	}
	if i >= 2 && w[i-1] == 'n' && w[i:] == "'t" {
		return i - 1
	}
	switch w[i+1:] {
	case "s", "m", "re", "ve", "ll", "d", "rt", "lt", "st", "dst":
		return i
	}
	switch w[:i] {
	case "d", "y": // d'ye, y'all
		return i + 1
	case "":
		if t := w[1:]; len(t) > 2 && t[0] == 't' && afterIt[t[1:]] {
			return 2 // 't|was
		}
	case "t": // t'was
		if afterIt[w[2:]] {
			return 1
		}
	}
	return 0
}

// lower gives a word in lower case with plain apostrophes and hyphens. It
// returns w itself where nothing changes. Invalid bytes become U+FFFD.
func lower(w string) string {
	for i := 0; i < len(w); i++ {
		if c := w[i]; 'A' <= c && c <= 'Z' || c >= utf8.RuneSelf {
			return strings.Map(plain, w)
		}
	}
	return w
}

func plain(r rune) rune {
	switch {
	case r < utf8.RuneSelf:
		if 'A' <= r && r <= 'Z' {
			r += 'a' - 'A'
		}
		return r
	case apostrophe(r), r == '\u2018':
		return '\''
	case hyphen(r):
		return '-'
	}
	return unicode.ToLower(r)
}
