// Package segment cuts a text into paragraphs, sentences and tokens with exact
// byte spans. It changes nothing in the text and knows no grammar: typography
// alone decides, in one pass, in time linear in the length of the text. Any
// bytes are accepted; every invalid byte counts as a character of its own.
package segment

import "feltpage/nlp"

// Split cuts text. Tokens come with Lower and without Lemma; their Tag is
// empty but for marks that only typography tells apart: "“" for an opening
// and "”" for a closing quote, single or double, and "POS" for the bare
// apostrophe of "the dogs' ears".
//
// Paragraphs end at blank lines, at a line break that was made on purpose
// after the end of a sentence, and after a first line in capitals. Sentences
// never cross paragraphs. A reporting clause stays with its quote. Words are
// cut as in the Penn Treebank: do|n't, he|'s, can|not, 't|was, the boy|'s;
// hyphenated words are one token, dashes ("--", "—") and quotes are their
// own. Marks of emphasis that touch a word (_so_, *so*) are in no token.
func Split(text string) *nlp.Document {
	d := &nlp.Document{Text: text, Paragraphs: paragraphs(text)}
	s := scanner{text: text, tokens: make([]nlp.Token, 0, len(text)/4+4)}
	for p, span := range d.Paragraphs {
		first := len(s.tokens)
		s.scan(span)
		d.Sentences = sentences(d.Sentences, s.tokens, first, p, text)
	}
	d.Tokens = s.tokens
	for i, sent := range d.Sentences {
		for t := sent.First; t < sent.End; t++ {
			d.Tokens[t].Sentence = i
		}
	}
	return d
}
