package clauses

import "feltpage/nlp"

// kind is a part of speech as far as the parser tells them apart.
type kind uint8

const (
	other kind = iota
	det
	predet
	possPronoun
	possMark
	number
	adjective
	noun
	pronoun
	existential
	whPronoun // who, which, that as a relative
	whose
	whAdverb
	modal
	verbBase
	verbPast
	verbIng
	verbEn
	verbPresent
	to
	preposition // or subordinating conjunction
	particle
	adverb
	conjunction
	comma
	stop // . : ; dash
	bracket
	openQuote
	closeQuote
	interjection
)

func kindOf(t *nlp.Token) kind {
	tag := t.Tag
	if tag == "" {
		return other
	}
	switch tag {
	case "NN", "NNS", "NNP", "NNPS":
		return noun
	case "PRP":
		return pronoun
	case "PRP$":
		return possPronoun
	case "DT":
		return det
	case "PDT":
		return predet
	case "JJ", "JJR", "JJS":
		return adjective
	case "VBD":
		return verbPast
	case "VB":
		return verbBase
	case "VBG":
		return verbIng
	case "VBN":
		return verbEn
	case "VBP", "VBZ":
		return verbPresent
	case "MD":
		return modal
	case "IN":
		return preposition
	case "TO":
		return to
	case "RB", "RBR", "RBS":
		return adverb
	case "RP":
		return particle
	case "CC":
		return conjunction
	case "CD":
		return number
	case "POS":
		return possMark
	case "EX":
		return existential
	case "WP", "WDT":
		return whPronoun
	case "WP$":
		return whose
	case "WRB":
		return whAdverb
	case ",":
		return comma
	case ".", ":":
		return stop
	case "(", ")":
		return bracket
	case "``":
		return openQuote
	case "''":
		return closeQuote
	case "UH":
		return interjection
	}
	return other
}

func (k kind) verb() bool { return k >= modal && k <= verbPresent }

// finite reports a form that needs a subject.
func (k kind) finite() bool { return k == modal || k == verbPast || k == verbPresent }
