package typeset

import "math"

// PageOf gives the page that a byte of the text lies on.
func (s *Set) PageOf(at int) int {
	for i, p := range s.Pages {
		if at < p.Span.End {
			return i
		}
	}
	return len(s.Pages) - 1
}

// WordPage gives the page that a word begins on.
func (s *Set) WordPage(w int) int { return s.Lines[s.Words[w].Boxes[0].Line].Page }

// Nearest gives the word of a page that is nearest to a point, or -1 on a page
// without words. On the line that the point is nearest to, the nearest word
// wins; a tap between the lines goes to the nearer one.
func (s *Set) Nearest(page int, x, y float64) int {
	best, bestD := -1, math.Inf(1)
	for w := range s.Words {
		for _, b := range s.Words[w].Boxes {
			l := s.Lines[b.Line]
			if l.Page != page {
				continue
			}
			dx := max(b.X0-x, x-b.X1, 0)
			dy := max(l.Top-y, y-(l.Top+s.LineH), 0)
			// a step to another line weighs more than the width of a line,
			// so that the far end of the right line beats the next line
			if d := dx + dy*1000; d < bestD {
				best, bestD = w, d
			}
		}
	}
	return best
}

// Above and Below give the word nearest above or below a word, over page ends
// too; the word itself at the first or last line.
func (s *Set) Above(w int) int { return s.step(w, -1) }

// Below is the other direction of Above.
func (s *Set) Below(w int) int { return s.step(w, 1) }

func (s *Set) step(w, by int) int {
	from := s.Words[w].Boxes[0]
	mid := (from.X0 + from.X1) / 2
	for line := from.Line + by; line >= 0 && line < len(s.Lines); line += by {
		best, bestD := -1, math.Inf(1)
		for i := range s.Words {
			for _, b := range s.Words[i].Boxes {
				if b.Line == line {
					if d := max(b.X0-mid, mid-b.X1, 0); d < bestD {
						best, bestD = i, d
					}
				}
			}
		}
		if best >= 0 {
			return best
		}
	}
	return w
}

// SentenceWords gives the words of a sentence as a range [first, end).
func (s *Set) SentenceWords(sentence int) (first, end int) {
	first = len(s.Words)
	for i := range s.Words {
		if s.Words[i].Sentence == sentence {
			first = min(first, i)
			end = i + 1
		}
	}
	if end == 0 {
		first = 0
	}
	return first, end
}

// Cover gives the boxes that glyphs inside a span cover, one for each line, to
// be tinted or underlined as one run.
func (s *Set) Cover(sp Span) []Box {
	var out []Box
	for i := 0; i < len(s.Glyphs); {
		if s.starts[i] < sp.Start || s.starts[i] >= sp.End {
			i++
			continue
		}
		j := i
		for j < len(s.Glyphs) && s.starts[j] >= sp.Start && s.starts[j] < sp.End && s.Glyphs[j].Line == s.Glyphs[i].Line {
			j++
		}
		out = append(out, s.boxes(i, j)...)
		i = j
	}
	return out
}

// WordsIn gives the words that a span overlaps, as a range [first, end).
func (s *Set) WordsIn(sp Span) (first, end int) {
	first = len(s.Words)
	for i, w := range s.Words {
		if w.Span.Start < sp.End && sp.Start < w.Span.End {
			first = min(first, i)
			end = i + 1
		}
	}
	if end == 0 {
		first = 0
	}
	return first, end
}

// Runs joins chosen words into spans: neighbours of one sentence become one.
func (s *Set) Runs(chosen func(w int) bool) []Span {
	var out []Span
	for i := 0; i < len(s.Words); i++ {
		if !chosen(i) {
			continue
		}
		j := i
		for j+1 < len(s.Words) && chosen(j+1) && s.Words[j+1].Sentence == s.Words[i].Sentence {
			j++
		}
		out = append(out, Span{s.Words[i].Span.Start, s.Words[j].Span.End})
		i = j
	}
	return out
}
