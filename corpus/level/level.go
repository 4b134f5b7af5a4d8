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
)

// WordsPerMinute is the pace of Minutes: calm reading aloud. Own judgement,
// between the winter and spring medians of third graders reading aloud (97
// and 112 words correct a minute; Hasbrouck & Tindal 2017).
const WordsPerMinute = 100

// Of measures a text. A text without words gives zeroes.
func Of(text string) corpus.Level {
	words := Words(text)
	syll := 0
	for _, w := range words {
		syll += Syllables(w)
	}
	return From(len(words), Sentences(text), syll)
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

// Sentences counts the sentences of a text: stretches with a word that end at
// a full stop, question or exclamation mark before a capital, or at a blank
// line. A reporting clause stays with its quote.
func Sentences(text string) int {
	n := 0
	for _, para := range strings.Split(text, "\n\n") {
		runes := []rune(para)
		word := false
		for i := 0; i < len(runes); i++ {
			r := runes[i]
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				word = true
			}
			if !strings.ContainsRune(".!?…", r) || !word {
				continue
			}
			j := i + 1
			for j < len(runes) && strings.ContainsRune(".!?…\"'”’)]»", runes[j]) {
				j++
			}
			if j < len(runes) && !unicode.IsSpace(runes[j]) || r == '.' && abbreviation(runes[:i]) {
				continue
			}
			for j < len(runes) && (unicode.IsSpace(runes[j]) || strings.ContainsRune("\"'“‘([«_", runes[j])) {
				j++
			}
			if j < len(runes) && unicode.IsLower(runes[j]) {
				continue
			}
			n++
			word = false
			i = j - 1
		}
		if word {
			n++
		}
	}
	return n
}

// abbreviation reports whether a full stop after before is no sentence end.
func abbreviation(before []rune) bool {
	i := len(before)
	for i > 0 && unicode.IsLetter(before[i-1]) {
		i--
	}
	switch string(before[i:]) {
	case "Mr", "Mrs", "Ms", "Dr", "St", "Rev", "Capt", "Prof", "Sr", "Jr":
		return true
	}
	return len(before)-i == 1 && unicode.IsUpper(before[i]) && before[i] != 'I' // an initial
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
