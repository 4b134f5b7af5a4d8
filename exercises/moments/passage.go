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

// inScene reports whether the window lies inside one scene.
func (l *layout) inScene(w window) bool { return l.scene[w.from] == l.scene[w.to-1] }

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

// grow makes the passage around sentences from to to: back to a sentence that
// names the character, then out to the wished number of words, first back,
// then on. ok is false where the name is out of reach.
func (l *layout) grow(w window, names []int, wish int) (window, bool) {
	w = l.whole(w)
	if !l.inScene(w) || l.count(w) > mostWords {
		return w, false
	}
	if !named(w, names) {
		back := -1
		for _, n := range names {
			if n < w.from {
				back = n
			}
		}
		if back < 0 {
			// The name may come after: "She wept. So did Ann, her sister."
			return w, false
		}
		v := l.whole(window{back, w.to})
		if !l.inScene(v) || l.count(v) > mostWords {
			return w, false
		}
		w = v
	}
	back := true
	for l.count(w) < wish {
		grew := false
		for range 2 {
			v := w
			if back && w.from > 0 {
				v = l.whole(window{w.from - 1, w.to})
			} else if !back && w.to < len(l.words) {
				v = l.whole(window{w.from, w.to + 1})
			}
			back = !back
			if v != w && l.inScene(v) && l.count(v) <= mostWords {
				w, grew = v, true
				break
			}
		}
		if !grew {
			break
		}
	}
	return w, true
}

func named(w window, names []int) bool {
	for _, n := range names {
		if n >= w.from && n < w.to {
			return true
		}
	}
	return false
}
