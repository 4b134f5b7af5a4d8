// Package tag gives every token its part of speech, as in the Penn Treebank,
// and its lemma.
//
// Load once, then call Tag for each document; a Tagger may be shared. The
// tagger is an averaged perceptron (Collins 2002) with the weights of the Go
// module prose/v2, which embeds those of the Python tagger of Matthew
// Honnibal; NOTICE has their licences. Sums are whole numbers, added in a
// fixed order, and ties go to the tag first by name, so the same text always
// gets the same tags. A thin second pass (mend.go) puts right what weights
// trained on newspapers get wrong in old storybooks.
package tag

//go:generate go run ./gen perceptron.bin

import (
	_ "embed"
	"fmt"
	"strings"
	"unicode/utf8"

	"feltpage/nlp"
	"feltpage/nlp/lemma"
)

//go:embed perceptron.bin
var embedded []byte

// Tagger tags documents. It holds no state between calls.
type Tagger struct {
	table *table
}

// Load reads the embedded weights.
func Load() (*Tagger, error) {
	t, err := read(embedded)
	if err != nil {
		return nil, fmt.Errorf("tagger weights: %w", err)
	}
	return &Tagger{table: t}, nil
}

// Tag fills Tag and Lemma of every token of a document that segment made.
func (t *Tagger) Tag(d *nlp.Document) {
	t.weigh(d)
	var m mender
	for _, sent := range d.Sentences {
		m.mend(d, sent)
	}
	for i := range d.Tokens {
		d.Tokens[i].Lemma = lemma.Of(d.Tokens[i].Lower, d.Tokens[i].Tag)
	}
}

// weigh gives every token the tag that the weights speak for.
func (t *Tagger) weigh(d *nlp.Document) {
	var s state
	for _, sent := range d.Sentences {
		s.start(t.table, sent.End-sent.First)
		for i := sent.First; i < sent.End; i++ {
			s.add(t.table, plain(d, i), d.Tokens[i].Lower, t.table.fixed(&d.Tokens[i]))
		}
		s.tag(t.table)
		for i := sent.First; i < sent.End; i++ {
			d.Tokens[i].Tag = t.table.tags[s.words[i-sent.First+2].tag]
		}
	}
}

// plain gives token i in its own case, typographic marks made plain. A word
// all in capitals is emphasis or a heading, no name: it is given in small
// letters.
func plain(d *nlp.Document, i int) string {
	w, lower := d.Word(i), d.Tokens[i].Lower
	if len(w) > 1 && capitals(w) {
		return lower
	}
	for j := 0; j < len(w); j++ {
		if w[j] < utf8.RuneSelf {
			continue
		}
		if len(w) == len(lower) {
			break // letters only: a plain apostrophe is shorter
		}
		if !strings.ContainsAny(w, "\u2019\u02bc\u2018\u2010\u2011") {
			if r, _ := utf8.DecodeRuneInString(w); len(lower) <= 3 && lower[0] < utf8.RuneSelf && r >= '\u2010' {
				return lower // a dash, an ellipsis, a quote
			}
			break
		}
		return strings.NewReplacer("\u2019", "'", "\u02bc", "'", "\u2018", "'", "\u2010", "-", "\u2011", "-").Replace(w)
	}
	return w
}

// capitals reports a word of capital ASCII letters and nothing else.
func capitals(w string) bool {
	for i := 0; i < len(w); i++ {
		if w[i] < 'A' || w[i] > 'Z' {
			return false
		}
	}
	return true
}

// fixed gives the tag of a mark whose tag needs no context, or "".
func (t *table) fixed(tok *nlp.Token) string {
	// The segmenter tags quotes and the bare possessive apostrophe.
	if t := tok.Tag; tok.Lower == "'" && t == "POS" || (tok.Lower == "'" || tok.Lower == "\"") && (t == "``" || t == "''") {
		return t
	}
	switch tok.Lower {
	case ".", "!", "?":
		return "."
	case ",":
		return ","
	case ":", ";", "--", "...", "-":
		return ":"
	case "(", "[", "{", "<":
		return "("
	case ")", "]", "}", ">":
		return ")"
	}
	if _, known := t.known[tok.Lower]; !known && !letters(tok.Lower) {
		return "SYM"
	}
	return ""
}
