package cues

import (
	"strings"

	"feltpage/nlp"
)

var (
	denies      = set("not n't never no neither nor")
	reflexive   = set("himself herself itself themselves myself yourself yourselves ourselves oneself thyself themself")
	possessives = set("his her its their my your our thy thine mine hers theirs yours ours")
)

func set(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// possRight reads a possessor that begins at token i: its length in tokens
// and the token that names it.
func (r *reader) possRight(i, end int) (int, int) {
	toks := r.d.Tokens
	if possessives[toks[i].Lower] {
		return 1, i
	}
	for j := i; j < end && j < i+5; j++ {
		switch t := toks[j].Tag; {
		case t == "POS" && j > i:
			return j - i + 1, j - 1
		case t == "DT" || t == "JJ" || t == "PRP$" || strings.HasPrefix(t, "NN"):
		default:
			return 0, 0
		}
	}
	return 0, 0
}

func (r *reader) possLeft(i, first int) (int, int) {
	toks := r.d.Tokens
	if possessives[toks[i].Lower] {
		return 1, i
	}
	if toks[i].Tag == "POS" && i > first {
		return 2, i - 1
	}
	return 0, 0
}

// phraseRight reads a noun phrase or object pronoun that begins at token i.
func (r *reader) phraseRight(i, end int) (int, int) {
	toks := r.d.Tokens
	if personal[toks[i].Lower] {
		// "her" before a noun is a possessive.
		if toks[i].Lower != "her" || i+1 >= end || !nominal(toks[i+1].Tag) {
			return 1, i
		}
	}
	head := nlp.None
	for j := i; j < end && j < i+6; j++ {
		t := toks[j].Tag
		if strings.HasPrefix(t, "NN") {
			head = j
			continue
		}
		switch t {
		case "DT", "PDT", "PRP$", "CD", "JJ", "JJR", "JJS", "POS", "VBN":
			if head != nlp.None && t != "POS" {
				return head - i + 1, head
			}
			continue
		}
		if possessives[toks[j].Lower] && head == nlp.None {
			continue
		}
		break
	}
	if head == nlp.None {
		return 0, 0
	}
	return head - i + 1, head
}

func nominal(tag string) bool { return strings.HasPrefix(tag, "NN") || strings.HasPrefix(tag, "JJ") }

func (r *reader) phraseLeft(i, first int) (int, int) {
	toks := r.d.Tokens
	if personal[toks[i].Lower] {
		return 1, i
	}
	if !strings.HasPrefix(toks[i].Tag, "NN") {
		return 0, 0
	}
	j := i
	for j > first && j > i-5 {
		switch t := toks[j-1].Tag; {
		case t == "DT" || t == "PDT" || t == "PRP$" || t == "CD" || t == "JJ" || t == "POS" || strings.HasPrefix(t, "NN"):
			j--
			continue
		}
		break
	}
	return i - j + 1, i
}

var personal = set("him her them me us you it thee himself herself themselves everyone everybody he she they i we")
