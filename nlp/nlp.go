// Package nlp holds what the reading engine says about a text: a Document of
// sentences and tokens, the people in it, the quotes, and the cues that show
// what a character feels.
//
// The work is done by small stages in the packages below (segment, tag,
// clauses, quotes, characters, cues, situations, feelings); package pipeline
// joins them. Every position is a Span of UTF-8 byte offsets into the text
// exactly as given; no stage edits the text. The package knows nothing of
// learners, files or screens.
package nlp

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Span is a half-open range of UTF-8 byte offsets [Start, End) into the text.
type Span struct{ Start, End int }

// Len gives the length in bytes.
func (s Span) Len() int { return s.End - s.Start }

// Of cuts the span out of text.
func (s Span) Of(text string) string { return text[s.Start:s.End] }

// Overlaps reports whether the two spans share a byte.
func (s Span) Overlaps(o Span) bool { return s.Start < o.End && o.Start < s.End }

// Contains reports whether o lies wholly inside s.
func (s Span) Contains(o Span) bool { return s.Start <= o.Start && o.End <= s.End }

// None is the index used wherever the text does not tell: no character, no
// speaker, no subject.
const None = -1

// Token is one word or mark of punctuation.
type Token struct {
	Span     Span
	Lower    string // lower case; quotes, hyphens, dashes ("--") and ellipses ("...") made plain; length may differ from the span's
	Lemma    string // dictionary form, lower case
	Tag      string // Penn Treebank tag
	Sentence int    // index into Document.Sentences
}

// Sentence is one sentence. Reporting clauses stay with their quote
// ("Oh!" he cried. is one sentence).
type Sentence struct {
	Span      Span
	First     int // first token
	End       int // one past the last token
	Paragraph int // index into Document.Paragraphs
}

// NounPhrase is a base noun phrase: "the old fisher", "his knees", "she".
// Phrases overlap only by possession: "his" and "the king" inside "his knees"
// and "the king's daughter" have phrases of their own.
type NounPhrase struct {
	First, End int // token range, half-open
	Head       int // token of the head noun or pronoun
	Possessor  int // token of "his" or of the noun before "'s", or None
	Of         int // noun phrase after "of" ("the mother of the boy"), or None
	Conjunct   int // next noun phrase joined by "and", "or" or a comma list, or None
	Pronoun    bool
}

// VerbGroup is a verb with its auxiliaries: "had not been frightened".
type VerbGroup struct {
	First, End int    // token range, half-open, adverbs inside included
	Head       int    // token of the main verb
	Subject    int    // noun phrase (the first of a list), or None; of a passive it is the one acted on
	Object     int    // noun phrase, or None
	Indirect   int    // noun phrase, or None
	By         int    // noun phrase of a passive's "by", or None
	Governor   int    // verb group this participle or infinitive hangs on, or None
	Complement int    // token of a predicate ("was [afraid]", "was a [king]", "made him [sad]"); the participle of a passive; or None
	Modal      string // lemma of a modal, or ""
	Passive    bool
	Negated    bool // by "not", "never", "no longer", "without", or a subject or object with "no"
	Participle bool // "Trembling, the boy ..."
	Infinitive bool
	Copular    bool // be, feel, seem, look, grow, turn ...
}

// Document is a text cut into paragraphs, sentences and tokens, with phrases.
// It is built once by segment, tag and clauses and not changed afterwards.
type Document struct {
	Text       string
	Paragraphs []Span
	Sentences  []Sentence
	Tokens     []Token
	Phrases    []NounPhrase // in order of First, longer ones first
	Verbs      []VerbGroup  // in order of Head
}

// Predicates gives the complement of verb group v and the adjectives and
// participles joined to it ("was [tired], [cold] and very [hungry]"), or nothing
// where it has none.
func (d *Document) Predicates(v int) []int {
	g := &d.Verbs[v]
	if g.Complement == None {
		return nil
	}
	out := []int{g.Complement}
	end := d.Sentences[d.Tokens[g.Complement].Sentence].End
	joined := false
	for i := g.Complement + 1; i < end && i < g.Complement+12; i++ {
		switch tag := d.Tokens[i].Tag; tag {
		case ",":
			joined = true
		case "CC":
			if d.Tokens[i].Lower == "but" {
				return out // "was tired but glad": the other half may be denied
			}
			joined = true
		case "RB":
			if d.Tokens[i].Lower == "not" {
				return out
			}
		case "JJ", "JJR", "JJS", "VBN":
			if !joined || i+1 < end && len(d.Tokens[i+1].Tag) > 1 && d.Tokens[i+1].Tag[:2] == "NN" {
				return out
			}
			out = append(out, i)
			joined = false
		default:
			return out
		}
	}
	return out
}

// Word gives the text of token i as written.
func (d *Document) Word(i int) string { return d.Tokens[i].Span.Of(d.Text) }

// Whole gives the span of tokens [first, end), widened where it would cut a
// word as it is written: the pieces of "don't" stay together.
func (d *Document) Whole(first, end int) Span {
	for i := 0; i < 2 && first > 0 && d.joined(first-1); i++ {
		first--
	}
	for i := 0; i < 2 && end < len(d.Tokens) && d.joined(end-1); i++ {
		end++
	}
	return Span{d.Tokens[first].Span.Start, d.Tokens[end-1].Span.End}
}

// joined reports whether letters or digits of tokens i and i+1 touch.
func (d *Document) joined(i int) bool {
	at := d.Tokens[i].Span.End
	if at != d.Tokens[i+1].Span.Start {
		return false
	}
	before, _ := utf8.DecodeLastRuneInString(d.Text[:at])
	after, _ := utf8.DecodeRuneInString(d.Text[at:])
	return isWordRune(before) && isWordRune(after)
}

// WordCount counts the tokens that hold a letter or a digit.
func (d *Document) WordCount() int {
	n := 0
	for i := range d.Tokens {
		if strings.IndexFunc(d.Tokens[i].Lower, isWordRune) >= 0 {
			n++
		}
	}
	return n
}

func isWordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// Quote is one stretch of direct speech (or thought), marks included.
type Quote struct {
	Span       Span
	First, End int // token range, marks included
	Speaker    int // character id, or None
	Listener   int // character id, or None
}

// Character kinds.
const (
	Person = "person"
	Animal = "animal"
	Being  = "being" // giant, fairy, troll, ghost ...
	Thing  = "thing" // a talking pot, the wind as somebody
	Group  = "group"
)

// Genders learned from the text.
const (
	GenderUnknown = ""
	Female        = "f"
	Male          = "m"
	Neuter        = "n"
)

// Mention is one place where a character is named, described or meant by a
// pronoun.
type Mention struct {
	Span       Span
	First, End int // token range
	Head       int // head token
	Pronoun    bool
}

// Character is somebody who feels, acts or speaks in the text.
type Character struct {
	ID       int // index in Analysis.Characters
	Name     string
	Aliases  []string // other names, each once, in order of first use
	Kind     string
	Gender   string
	Plural   bool
	Narrator bool      // the "I" outside quotes
	Mentions []Mention // in text order
}

// Cue kinds, from easy to hard.
const (
	Named     = "named"
	Body      = "body"
	FaceVoice = "face-voice"
	Action    = "action"
	Speech    = "speech"
	Situation = "situation"
)

// Weight is a feeling family with how much speaks for it, 0 to 1.
type Weight struct {
	Family string  `json:"family"`
	Weight float64 `json:"weight"`
}

// Reason is why something was found: a code of the sentence catalogue with
// its slots, so that it can be said in any language.
type Reason struct {
	Code  string            `json:"code"`
	Slots map[string]string `json:"slots"`
}

// Strengths of a cue.
const (
	Slight = "slight" // a little afraid
	Plain  = "plain"
	Strong = "strong" // beyond measure, terrified
)

// Cue is words of the text that show a state of one character.
type Cue struct {
	Span      Span
	Kind      string
	Character int      // or None where the text does not tell
	Feelings  []Weight // heaviest first; ties by family name
	Places    []string
	Strength  string
	Denied    bool  // the text says the feeling is not there
	Pretended bool  // shown but not felt
	Event     *Span // of a situation cue: the event it rests on
	Rule      string
	Reason    Reason
}

// Unread is a stretch the engine could not read, with why (a catalogue code).
type Unread struct {
	Span Span
	Code string
}

// Analysis is all that the engine says about one text.
type Analysis struct {
	Engine     string // engine version
	Doc        *Document
	Characters []Character
	Quotes     []Quote
	Cues       []Cue // in text order
	Unread     []Unread
}
