// Package typeset lays out running text glyph by glyph: letter, word and line
// spacing, line breaks, pages, and what a point on the page means. It computes
// positions from measured advances and draws nothing; it knows no screen and
// no Fyne. The same input gives the same layout.
//
// Lengths are in the unit of Style.Size; positions run from the top left of a
// page. Spans are bytes of the whole text that was given.
package typeset

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Face tells how wide letters are.
type Face interface {
	// Advance gives the width of a letter at size 1.
	Advance(r rune) float64
	// Kern gives what is added between two letters at size 1, mostly negative.
	Kern(a, b rune) float64
}

// Style is how text is set.
type Style struct {
	Size   float64 // of the type
	Letter float64 // added after every letter, in em
	Word   float64 // added to every blank, in em
	Line   float64 // line height over size
	Para   float64 // added between paragraphs, over line height
	Width  float64 // of the page
	Height float64 // of the page
	Chars  int     // most characters a line, on average; 0 sets no limit
}

// Span is a half-open range of bytes.
type Span struct{ Start, End int }

// Glyph is one letter in its place on a line.
type Glyph struct {
	Rune rune
	X    float64 // of its origin
	W    float64 // its advance
	Line int
}

// Word is what a reader chooses: a run of letters and digits with what joins
// them inside ("don't", "well-worn"), without the marks around it.
type Word struct {
	Span     Span
	Sentence int // index of the sentence it lies in, or -1
	Boxes    []Box
}

// Box is a stretch of a line.
type Box struct {
	Line   int
	X0, X1 float64
}

// Line is one line of a page.
type Line struct {
	Page     int
	Top      float64 // from the top of its page
	Baseline float64
	Span     Span // of the text set on it
}

// Page is one page.
type Page struct {
	First, End int // lines
	Span       Span
}

// Set is text laid out.
type Set struct {
	Style     Style
	Measure   float64 // width the lines were broken to
	LineH     float64
	Glyphs    []Glyph // in text order
	Words     []Word  // in text order
	Lines     []Line
	Pages     []Page
	Sentences []Span

	text    string
	ascent  float64
	firstOf []int // first glyph of each line
	starts  []int // byte offset of each glyph
}

// piece is text that is not broken: from one place where a line may break to
// the next.
type piece struct {
	span  Span
	blank bool // a blank follows
	para  bool // begins a paragraph
}

// Lay sets the part of text in span. Sentences and paragraphs are spans of
// the whole text in order; where paragraphs is nil, a line of its own that is
// empty parts them.
func Lay(text string, span Span, sentences, paragraphs []Span, st Style, f Face) *Set {
	s := &Set{Style: st, text: text, LineH: st.Size * st.Line, Measure: st.Width}
	for _, x := range sentences {
		if x.Start < span.End && span.Start < x.End {
			s.Sentences = append(s.Sentences, Span{max(x.Start, span.Start), min(x.End, span.End)})
		}
	}
	pieces := cut(text, span, paragraphs)
	if st.Chars > 0 {
		s.Measure = min(st.Width, float64(st.Chars)*s.average(pieces, f))
	}
	s.ascent = s.LineH/2 + st.Size*0.34 // the middle of small letters stands in the middle of the line
	b := breaker{s: s, f: f, em: st.Size}
	for _, p := range pieces {
		b.put(p)
	}
	b.end()
	s.page()
	s.words()
	return s
}

// average gives the width of a character of this text, blanks included.
func (s *Set) average(pieces []piece, f Face) float64 {
	total, n := 0.0, 0
	for _, p := range pieces {
		for _, r := range p.span.of(s.text) {
			total += f.Advance(r) + s.Style.Letter
			n++
		}
		if p.blank {
			total += f.Advance(' ') + s.Style.Letter + s.Style.Word
			n++
		}
	}
	if n == 0 {
		return s.Style.Size
	}
	return total / float64(n) * s.Style.Size
}

func (x Span) of(text string) string { return text[x.Start:x.End] }

// cut parts text at blanks, and after dashes that join two words.
func cut(text string, span Span, paragraphs []Span) []piece {
	var out []piece
	begins := map[int]bool{}
	for _, p := range paragraphs {
		begins[p.Start] = true
	}
	para, start := true, -1
	newlines := 0
	end := func(i int, blank bool) {
		if start >= 0 {
			out = append(out, piece{span: Span{start, i}, blank: blank, para: para})
			start, para = -1, false
		} else if blank && len(out) > 0 {
			out[len(out)-1].blank = true
		}
	}
	for i, r := range text[span.Start:span.End] {
		i += span.Start
		if unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f' {
			end(i, true)
			if r == '\n' {
				if newlines++; newlines > 1 && paragraphs == nil {
					para = true
				}
			}
			continue
		}
		newlines = 0
		if begins[i] {
			para = true
		}
		if start < 0 {
			start = i
		}
		if r == '—' || r == '–' {
			end(i+utf8.RuneLen(r), false)
		}
	}
	end(span.End, false)
	if len(out) > 0 {
		out[len(out)-1].blank = false
	}
	return out
}

// breaker sets pieces line after line.
type breaker struct {
	s    *Set
	f    Face
	em   float64
	x    float64 // where the next piece would begin
	ink  float64 // where the ink of the line ends
	open bool
	last rune
	from int
	to   int
}

func (b *breaker) width(p Span) float64 {
	w, last := 0.0, rune(0)
	for _, r := range norm.NFC.String(p.of(b.s.text)) {
		w += (b.f.Kern(last, r) + b.f.Advance(r) + b.s.Style.Letter) * b.em
		last = r
	}
	return w - b.s.Style.Letter*b.em
}

func (b *breaker) put(p piece) {
	s := b.s
	if p.para && b.open {
		b.end()
	}
	if p.para && len(s.Lines) > 0 {
		s.Lines[len(s.Lines)-1].Page = 1 // marks the end of a paragraph until pages are made
	}
	w := b.width(p.span)
	const slack = 1e-6
	if b.open && b.x+w > s.Measure+slack {
		b.end()
	}
	if w > s.Measure+slack { // a word longer than a line is cut where the line ends
		rest := p.span
		for b.width(rest) > s.Measure+slack {
			n := rest.Start
			for n < rest.End {
				_, k := utf8.DecodeRuneInString(s.text[n:])
				if n > rest.Start && b.width(Span{rest.Start, n + k}) > s.Measure+slack {
					break
				}
				n += k
			}
			if n >= rest.End {
				break
			}
			b.set(Span{rest.Start, n})
			b.end()
			rest.Start = n
		}
		p.span = rest
	}
	b.set(p.span)
	if p.blank {
		b.x = b.ink + (b.f.Advance(' ')+s.Style.Letter+s.Style.Word)*b.em
		b.last = ' '
	}
}

func (b *breaker) set(p Span) {
	s := b.s
	if !b.open {
		b.open, b.x, b.ink, b.from, b.last = true, 0, 0, p.Start, 0
		s.firstOf = append(s.firstOf, len(s.Glyphs))
	}
	x := b.x
	line := len(s.Lines)
	for i, r := range p.of(s.text) {
		if unicode.Is(unicode.Mn, r) && len(s.Glyphs) > 0 && i > 0 {
			g := &s.Glyphs[len(s.Glyphs)-1]
			if joined := []rune(norm.NFC.String(string([]rune{g.Rune, r}))); len(joined) == 1 {
				w := b.f.Advance(joined[0]) * b.em
				x += w - g.W
				b.ink += w - g.W
				g.Rune, g.W, b.last = joined[0], w, joined[0]
				continue
			}
		}
		x += b.f.Kern(b.last, r) * b.em
		s.Glyphs = append(s.Glyphs, Glyph{Rune: r, X: x, W: b.f.Advance(r) * b.em, Line: line})
		s.starts = append(s.starts, p.Start+i)
		x += b.f.Advance(r) * b.em
		b.ink = x
		x += s.Style.Letter * b.em
		b.last = r
	}
	b.x, b.to = x, p.End
}

func (b *breaker) end() {
	if !b.open {
		return
	}
	s := b.s
	s.Lines = append(s.Lines, Line{Span: Span{b.from, b.to}})
	b.open, b.x = false, 0
}

// page puts the lines on pages. A page holds at least one line; a paragraph's
// last line does not stand alone on a new page where another can go with it.
func (s *Set) page() {
	n := len(s.Lines)
	last := make([]bool, n)
	for i := range s.Lines {
		last[i] = s.Lines[i].Page == 1 || i == n-1
		s.Lines[i].Page = 0
	}
	gap := s.LineH * s.Style.Para
	y, first := 0.0, 0
	close := func(end int) {
		if end > first {
			s.Pages = append(s.Pages, Page{First: first, End: end, Span: Span{s.Lines[first].Span.Start, s.Lines[end-1].Span.End}})
		}
		first, y = end, 0
	}
	for i := 0; i < n; i++ {
		if i > first && s.Style.Height > 0 && y+s.LineH > s.Style.Height+1e-6 {
			if last[i] && !last[i-1] && i-1 > first && (i < 2 || !last[i-2]) {
				i--
			}
			close(i)
		}
		s.Lines[i].Page, s.Lines[i].Top, s.Lines[i].Baseline = len(s.Pages), y, y+s.ascent
		y += s.LineH
		if last[i] {
			y += gap
		}
	}
	close(n)
	s.evenOut(last, gap)
	if len(s.Pages) == 0 {
		s.Pages = []Page{{}}
	}
}

// fewLines is what a last page should not be shorter than.
const fewLines = 3

// evenOut gives a short last page lines of the page before it, from the start
// of a paragraph where one is near.
func (s *Set) evenOut(last []bool, gap float64) {
	n := len(s.Pages)
	if n < 2 {
		return
	}
	p, q := &s.Pages[n-2], &s.Pages[n-1]
	if q.End-q.First >= fewLines || p.End-p.First < 3*fewLines {
		return
	}
	from := q.End - fewLines
	for i := q.First - 1; i > p.First+fewLines && i >= q.First-2*fewLines; i-- {
		if last[i-1] && i <= from {
			from = i
			break
		}
	}
	p.End, q.First = from, from
	p.Span.End, q.Span.Start = s.Lines[from-1].Span.End, s.Lines[from].Span.Start
	y := 0.0
	for i := from; i < q.End; i++ {
		s.Lines[i].Page, s.Lines[i].Top, s.Lines[i].Baseline = n-1, y, y+s.ascent
		y += s.LineH
		if last[i] {
			y += gap
		}
	}
}

// words finds the words and their boxes.
func (s *Set) words() {
	sentence := 0
	for i := 0; i < len(s.Glyphs); {
		if !letter(s.Glyphs[i].Rune) {
			i++
			continue
		}
		j := i + 1
		for j < len(s.Glyphs) {
			adjacent := s.starts[j] == s.starts[j-1]+s.bytes(j-1)
			if adjacent && letter(s.Glyphs[j].Rune) {
				j++
				continue
			}
			if adjacent && joins(s.Glyphs[j].Rune) && j+1 < len(s.Glyphs) && s.starts[j+1] == s.starts[j]+s.bytes(j) && letter(s.Glyphs[j+1].Rune) {
				j += 2
				continue
			}
			break
		}
		w := Word{Span: Span{s.starts[i], s.starts[j-1] + s.bytes(j-1)}, Sentence: -1}
		for sentence < len(s.Sentences) && s.Sentences[sentence].End <= w.Span.Start {
			sentence++
		}
		if sentence < len(s.Sentences) && s.Sentences[sentence].Start <= w.Span.Start {
			w.Sentence = sentence
		}
		w.Boxes = s.boxes(i, j)
		s.Words = append(s.Words, w)
		i = j
	}
}

// bytes gives the length of the text of glyph i, joined marks included.
func (s *Set) bytes(i int) int {
	end := s.Lines[s.Glyphs[i].Line].Span.End
	if i+1 < len(s.starts) && s.starts[i+1] < end {
		end = s.starts[i+1]
	}
	_, n := utf8.DecodeRuneInString(s.text[s.starts[i]:])
	for s.starts[i]+n < end {
		r, k := utf8.DecodeRuneInString(s.text[s.starts[i]+n:])
		if !unicode.Is(unicode.Mn, r) {
			break
		}
		n += k
	}
	return n
}

// boxes gives the stretches of lines that glyphs [i, j) cover.
func (s *Set) boxes(i, j int) []Box {
	var out []Box
	for i < j {
		k := i
		for k < j && s.Glyphs[k].Line == s.Glyphs[i].Line {
			k++
		}
		out = append(out, Box{Line: s.Glyphs[i].Line, X0: s.Glyphs[i].X, X1: s.right(k - 1)})
		i = k
	}
	return out
}

func (s *Set) right(i int) float64 { return s.Glyphs[i].X + s.Glyphs[i].W }

func letter(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r)
}

func joins(r rune) bool { return r == '\'' || r == '’' || r == '-' || r == '‐' || r == '‑' }

// String gives the lines with their breaks and a rule between pages, for
// tests and for people.
func (s *Set) String() string {
	var b strings.Builder
	for i, p := range s.Pages {
		if i > 0 {
			b.WriteString("----\n")
		}
		for l := p.First; l < p.End; l++ {
			b.WriteString(strings.Join(strings.Fields(s.Lines[l].Span.of(s.text)), " "))
			b.WriteByte('\n')
		}
	}
	return b.String()
}
