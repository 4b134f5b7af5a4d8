// Package level measures how hard a text is to read: Flesch Reading Ease,
// Flesch-Kincaid grade and reading time. The formulas see only the length of
// sentences and words, so they are a first hint for choosing a story and say
// nothing about what it asks a reader to infer.
package level

import (
	"math"
	"strings"
	"unicode"

	"feltpage/corpus"
	"feltpage/nlp"
	"feltpage/nlp/segment"
)

// WordsPerMinute is the pace of Minutes: calm reading aloud. Own judgement,
// between the winter and spring medians of third graders reading aloud (97
// and 112 words correct a minute; Hasbrouck & Tindal 2017).
const WordsPerMinute = 100

// Of measures a text. A text without words gives zeroes.
func Of(text string) corpus.Level { return Measure(segment.Split(text)) }

// Measure measures a text that has been segmented already.
func Measure(d *nlp.Document) corpus.Level {
	words := Words(d.Text)
	syll := 0
	for _, w := range words {
		syll += Syllables(w)
	}
	return From(len(words), sentences(d), syll)
}

// From computes the level from counts of words, sentences and syllables.
// Zero words give zeroes; zero sentences count as one.
func From(words, sentences, syllables int) corpus.Level {
	if words == 0 {
		return corpus.Level{}
	}
	sentences = max(1, sentences)
	l := corpus.Level{Words: words, Sentences: sentences, Minutes: float64(words) / WordsPerMinute}
	l.Ease, l.Grade = Flesch(words, sentences, syllables)
	return l
}

// Flesch gives Reading Ease (Flesch 1948) and the Flesch-Kincaid grade
// (Kincaid et al. 1975). Both counts below must be above zero.
func Flesch(words, sentences, syllables int) (ease, grade float64) {
	perSentence := float64(words) / float64(sentences)
	perWord := float64(syllables) / float64(words)
	return 206.835 - 1.015*perSentence - 84.6*perWord, 0.39*perSentence + 11.8*perWord - 15.59
}

// Words lists the words of a text as written, without punctuation around
// them; a word holds letters, digits, inner apostrophes and inner hyphens.
func Words(text string) []string {
	var out []string
	for _, field := range strings.FieldsFunc(strings.ReplaceAll(text, "--", " "), func(r rune) bool {
		return unicode.IsSpace(r) || r == '—' || r == '–' || r == '…' || r == '/'
	}) {
		w := strings.TrimFunc(field, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// Sentences counts the sentences of a text that hold a letter or digit. A
// reporting clause stays with its quote.
func Sentences(text string) int { return sentences(segment.Split(text)) }

func sentences(d *nlp.Document) int {
	n := 0
	for _, s := range d.Sentences {
		if strings.ContainsFunc(s.Span.Of(d.Text), func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
			n++
		}
	}
	return n
}

// Band gives the catalogue key of a plain sentence about the text, by its
// Flesch-Kincaid grade; it names sentences and words, never a school year.
func Band(l corpus.Level) string {
	switch g := math.Round(l.Grade); {
	case l.Words == 0:
		return "level.band.none"
	case g <= 2:
		return "level.band.short"
	case g <= 4:
		return "level.band.plain"
	case g <= 6:
		return "level.band.middle"
	case g <= 9:
		return "level.band.long"
	}
	return "level.band.hard"
}
