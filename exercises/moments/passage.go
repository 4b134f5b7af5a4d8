package moments

import (
	"strings"
	"unicode"

	"feltpage/nlp"
)

// Lengths of a passage in words. A passage may be shorter where its scene is,
// but never shorter than leastWords.
const (
	leastWords = 15
	goodWords  = 40
	mostWords  = 150
)

// layout is what choosing needs to know of a text's sentences.
type layout struct {
	doc   *nlp.Document
	words []int  // words of each sentence
	scene []int  // scene number of each sentence
	glue  []bool // sentence may not be cut from the next: a quote runs over both
}

func layOut(a *nlp.Analysis) *layout {
	d := a.Doc
	l := &layout{doc: d, words: make([]int, len(d.Sentences)), scene: make([]int, len(d.Sentences)), glue: make([]bool, len(d.Sentences))}
	for i, s := range d.Sentences {
		for _, t := range d.Tokens[s.First:s.End] {
			if isWord(t.Lower) {
				l.words[i]++
			}
		}
	}
	scene, before := 0, -1
	for i, s := range d.Sentences {
		if s.Paragraph != before {
			if i > 0 && sceneBreak(d, d.Sentences[i-1].Paragraph, s.Paragraph) {
				scene++
			}
			before = s.Paragraph
		}
		l.scene[i] = scene
	}
	s := 0
	for _, q := range a.Quotes {
		for s > 0 && d.Sentences[s].Span.Start > q.Span.Start {
			s--
		}
		for s < len(d.Sentences) && d.Sentences[s].Span.End <= q.Span.Start {
			s++
		}
		for k := s; k < len(d.Sentences)-1 && d.Sentences[k].Span.End < q.Span.End; k++ {
			l.glue[k] = true
		}
	}
	return l
}

func isWord(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) >= 0
}

// sceneBreak reports whether a scene ends between two paragraphs: where one of
// those from a to b holds no word (a line of stars) or is a heading, a short
// line without an end mark.
func sceneBreak(d *nlp.Document, a, b int) bool {
	for p := a; p <= b && p < len(d.Paragraphs); p++ {
		text := strings.TrimSpace(d.Paragraphs[p].Of(d.Text))
		if !isWord(text) || heading(text) && p > a {
			return true
		}
	}
	// Stars may lie between paragraphs without being one.
	if a >= 0 && b < len(d.Paragraphs) && d.Paragraphs[a].End <= d.Paragraphs[b].Start {
		return strings.TrimSpace(d.Text[d.Paragraphs[a].End:d.Paragraphs[b].Start]) != ""
	}
	return false
}

func heading(text string) bool {
	return !strings.ContainsAny(text, ".!?\"'\u201c\u201d\u2019:,;") && len(strings.Fields(text)) <= 8
}

// window is a run of sentences, half-open.
type window struct{ from, to int }

func (l *layout) span(w window) nlp.Span {
	return nlp.Span{Start: l.doc.Sentences[w.from].Span.Start, End: l.doc.Sentences[w.to-1].Span.End}
}

func (l *layout) count(w window) (n int) {
	for i := w.from; i < w.to; i++ {
		n += l.words[i]
	}
	return n
}

// whole widens a window so that it cuts no quote.
func (l *layout) whole(w window) window {
	for w.from > 0 && l.glue[w.from-1] {
		w.from--
	}
	for w.to < len(l.glue) && l.glue[w.to-1] {
		w.to++
	}
	return w
}

// sentenceAt finds the sentence that holds the byte, or the last one before it.
func (l *layout) sentenceAt(b int) int {
	lo, hi := 0, len(l.doc.Sentences)
	for lo < hi {
		m := (lo + hi) / 2
		if l.doc.Sentences[m].Span.End <= b {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return min(lo, len(l.doc.Sentences)-1)
}

// grow makes the passage around a window: back to a sentence that names the
// character, then out to the wished number of words, a sentence back and one
// on in turn. ok is false where the name is out of reach or the window alone
// is too long.
func (l *layout) grow(w window, names []int, wish int) (_ window, ok bool) {
	w = l.whole(w)
	if !l.allowed(w) {
		return w, false
	}
	// The name should come before what is shown, or with it.
	if before := lastBefore(names, w.to); before >= 0 && before < w.from {
		if v := l.whole(window{before, w.to}); l.allowed(v) {
			w = v
		}
	}
	for back := true; l.count(w) < wish; back = !back {
		v := l.step(w, back)
		if v == w {
			if v = l.step(w, !back); v == w {
				break
			}
		}
		w = v
	}
	return l.tidy(w, wish), named(w, names)
}

// tidy takes a passage back to the beginning of its paragraph and on to its
// end, where that costs few words: a talk is not joined in the middle.
func (l *layout) tidy(w window, wish int) window {
	most := min(mostWords, wish+wish/2+20)
	for _, back := range []bool{true, false} {
		v := w
		for !l.atEdge(v, back) {
			n := l.step(v, back)
			if n == v {
				break
			}
			v = n
		}
		if l.atEdge(v, back) && l.count(v) <= most {
			w = v
		}
	}
	return w
}

// atEdge reports whether the window begins, or ends, with a paragraph.
func (l *layout) atEdge(w window, begin bool) bool {
	s := l.doc.Sentences
	if begin {
		return w.from == 0 || s[w.from-1].Paragraph != s[w.from].Paragraph
	}
	return w.to == len(s) || s[w.to].Paragraph != s[w.to-1].Paragraph
}

// step takes one more sentence in, back or on, or gives the window unchanged.
func (l *layout) step(w window, back bool) window {
	v := w
	switch {
	case back && w.from > 0:
		v.from--
	case !back && w.to < len(l.words):
		v.to++
	}
	if v = l.whole(v); l.allowed(v) {
		return v
	}
	return w
}

// allowed reports whether the window lies inside one scene and is not too long.
func (l *layout) allowed(w window) bool {
	return l.scene[w.from] == l.scene[w.to-1] && l.count(w) <= mostWords
}

// lastBefore gives the last of the sentences before the given one, or -1.
func lastBefore(names []int, end int) int {
	for i := len(names) - 1; i >= 0; i-- {
		if names[i] < end {
			return names[i]
		}
	}
	return -1
}

func named(w window, names []int) bool {
	for _, n := range names {
		if n >= w.from && n < w.to {
			return true
		}
	}
	return false
}
