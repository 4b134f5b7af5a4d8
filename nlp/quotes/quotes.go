// Package quotes finds direct speech and thought between quotation marks or
// after a dash. Call Find on a document cut by package segment; nothing but
// its text, paragraphs and tokens is read.
//
// One Quote is one stretch between marks. Speech of several paragraphs, each
// opening with a mark again, gives one quote a paragraph. A mark that is
// never closed ends with its paragraph, so that a slip in the text cannot
// turn the rest of the story inside out.
package quotes

import (
	"sort"

	"feltpage/nlp"
)

// Find gives the quotes of d in order of their start, an outer quote before
// those inside it. Speakers and listeners are None. Time is linear in the
// text.
func Find(d *nlp.Document) []nlp.Quote {
	marks := scan(d)
	style := styleOf(d.Text, marks)
	var spans []nlp.Span
	carry := false
	from := 0
	for pi, p := range paragraphs(d) {
		to := from
		for to < len(marks) && marks[to].at < p.End {
			to++
		}
		here := marks[from:to]
		reopens := to < len(marks) && marks[to].kind == double && onlySpace(d.Text[p.End:marks[to].at])
		doubles, open := pairDoubles(d.Text, p, here, carry, reopens)
		carry = open && !reopens && pi+1 < len(d.Paragraphs)
		spans = append(spans, doubles...)
		spans = append(spans, pairSingles(d.Text, p, here, doubles, style)...)
		from = to
	}
	if style.doubles+style.singles < 2 {
		spans = append(spans, dashSpeech(d)...)
	}
	return tokens(d, speechOnly(d, nest(spans)))
}

func paragraphs(d *nlp.Document) []nlp.Span {
	if len(d.Paragraphs) == 0 {
		return []nlp.Span{{Start: 0, End: len(d.Text)}}
	}
	return d.Paragraphs
}

// nest sorts spans, outer before inner, and drops those that cross an
// earlier one or are empty.
func nest(spans []nlp.Span) []nlp.Span {
	sort.SliceStable(spans, func(i, j int) bool {
		a, b := spans[i], spans[j]
		if a.Start != b.Start {
			return a.Start < b.Start
		}
		return a.End > b.End
	})
	var out, open []nlp.Span
	for _, s := range spans {
		for len(open) > 0 && open[len(open)-1].End <= s.Start {
			open = open[:len(open)-1]
		}
		if s.Len() <= 0 || len(open) > 0 && (s.End > open[len(open)-1].End || s == open[len(open)-1]) {
			continue
		}
		out, open = append(out, s), append(open, s)
	}
	return out
}

// tokens gives each span its token range; spans are sorted by start.
func tokens(d *nlp.Document, spans []nlp.Span) []nlp.Quote {
	var out []nlp.Quote
	first := 0
	for _, s := range spans {
		for first < len(d.Tokens) && d.Tokens[first].Span.End <= s.Start {
			first++
		}
		end := first + sort.Search(len(d.Tokens)-first, func(i int) bool {
			return d.Tokens[first+i].Span.Start >= s.End
		})
		if end > first {
			out = append(out, nlp.Quote{Span: s, First: first, End: end, Speaker: nlp.None, Listener: nlp.None})
		}
	}
	return out
}
