package quotes

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// dashSpeech finds speech opened by a dash at the start of a paragraph or
// after the end of a sentence. Such speech has no closing mark: it runs to
// its reporting clause, or to the end of its paragraph; where the paragraph
// goes on with other dashes, to the end of its sentence.
func dashSpeech(d *nlp.Document) []nlp.Span {
	var starts []int // tokens
	for i := range d.Tokens {
		if isDash(d, i) && (i == 0 || opensAfter(d, i)) && i+1 < len(d.Tokens) && upper(d, i+1) {
			starts = append(starts, i)
		}
	}
	if len(starts) < 2 { // one dash is only a pause
		return nil
	}
	var out []nlp.Span
	for k, s := range starts {
		limit := len(d.Tokens)
		if k+1 < len(starts) {
			limit = starts[k+1]
		}
		out = append(out, dashRun(d, s, limit, paragraphStart(d, s))...)
	}
	return out
}

func dashRun(d *nlp.Document, s, limit int, wholeParagraph bool) []nlp.Span {
	par := paragraphOf(d, s)
	var out []nlp.Span
	from := s
	for i := s + 1; i <= limit; i++ {
		done := i == limit || paragraphOf(d, i) != par
		tag := !done && i > from+1 && reportsAfter(d, i)
		sentence := !done && !wholeParagraph && d.Tokens[i].Sentence != d.Tokens[s].Sentence
		if !done && !tag && !sentence {
			continue
		}
		out = append(out, nlp.Span{Start: d.Tokens[from].Span.Start, End: d.Tokens[i-1].Span.End})
		if !tag || !wholeParagraph {
			break
		}
		// Past the reporting clause speech goes on with the next sentence.
		for i++; i < limit && paragraphOf(d, i) == par && !ends(d, i-1); i++ {
		}
		if i >= limit || paragraphOf(d, i) != par || d.Tokens[i-1].Lower == "," {
			break
		}
		from = i
	}
	return out
}

// reportsAfter reports whether a reporting clause starts at token i: after
// punctuation, "he said", "said Moss", "the baker cried".
func reportsAfter(d *nlp.Document, i int) bool {
	switch d.Tokens[i-1].Lower {
	case ",", "!", "?", ".":
	default:
		return false
	}
	for j := i; j < i+4 && j < len(d.Tokens); j++ {
		w := d.Tokens[j].Lower
		if Reports(w) {
			return j > i || !upper(d, i)
		}
		if !word(rune(w[0])) {
			return false
		}
		if j == i && upper(d, j) && d.Tokens[i-1].Lower != "," {
			return false // a new sentence, not a clause that hangs on
		}
	}
	return false
}

func ends(d *nlp.Document, i int) bool {
	switch d.Tokens[i].Lower {
	case ".", "!", "?":
		return true
	}
	return false
}

func isDash(d *nlp.Document, i int) bool {
	w := d.Word(i)
	return strings.Trim(w, "-–—―") == "" && w != "-" || w == "-" && paragraphStart(d, i)
}

func opensAfter(d *nlp.Document, i int) bool {
	if paragraphStart(d, i) {
		return true
	}
	switch d.Tokens[i-1].Lower {
	case ".", "!", "?", ":":
		return true
	}
	return false
}

func upper(d *nlp.Document, i int) bool {
	r, _ := utf8.DecodeRuneInString(d.Text[d.Tokens[i].Span.Start:])
	return unicode.IsUpper(r)
}

func paragraphOf(d *nlp.Document, i int) int {
	if s := d.Tokens[i].Sentence; s >= 0 && s < len(d.Sentences) {
		return d.Sentences[s].Paragraph
	}
	return 0
}

func paragraphStart(d *nlp.Document, i int) bool {
	return i == 0 || paragraphOf(d, i) != paragraphOf(d, i-1)
}
