package tag

import (
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/lemma"
)

// The weights were trained on newspapers of the 1980s. In storybooks they go
// wrong in a few regular ways, which the rules below put right: old words they
// never met ("thou", "wroth"), past forms that newspapers lack ("wept"), verbs
// after pronouns and auxiliaries, commands, and adjectives after "felt" or
// "grew". Each rule is about English, not about a text: it asks what forms a
// word can have (lemma's table) and how often it is a noun or a verb (counts
// of SemCor), and looks a few words to either side.

// mender looks at one sentence.
type mender struct {
	d      *nlp.Document
	tokens []nlp.Token // of the sentence
	fixed  []bool      // tokens of oldWords
}

// mend puts right the tags of one sentence.
func (m *mender) mend(d *nlp.Document, s nlp.Sentence) {
	m.d, m.tokens = d, d.Tokens[s.First:s.End]
	m.fixed = m.fixed[:0]
	for i := range m.tokens {
		t := &m.tokens[i]
		tag, ok := oldWords[t.Lower]
		if ok {
			t.Tag = tag
		}
		m.fixed = append(m.fixed, ok)
	}
	for i := range m.tokens {
		t := &m.tokens[i]
		if m.fixed[i] || len(t.Tag) < 2 || t.Tag == "``" || t.Tag == "''" || t.Tag == "CC" && joiners[t.Lower] || t.Tag == "PRP$" && t.Lower != "her" {
			continue
		}
		if tag := m.better(i, t.Lower, t.Tag); tag != "" {
			t.Tag = tag
		}
	}
}

// better gives a better tag for token i, or "".
func (m *mender) better(i int, w, tag string) string {
	switch w {
	case "art", "wert", "wast", "canst", "hast", "dost", "wilt", "shalt":
		if m.word(i-1) == "thou" || m.word(i+1) == "thou" {
			return oldAfterThou[w]
		}
	case "that":
		if m.tag(i-1) == "CC" && m.verb(i+1) && (tag == "IN" || tag == "WDT") {
			return "DT" // "and that pleased her"
		}
		if tag == "IN" && i > 0 && m.noun(i-1) && m.verb(i+1) {
			return "WDT"
		}
		if next := m.tag(i + 1); tag == "IN" && (next == "," || next == "." || m.verb(i+1) && (i == 0 || m.tag(i-1) == ":" || m.tag(i-1) == "``")) {
			return "DT" // "asked him that, and", "that suited him"
		}
		if next := m.tag(i + 2); tag == "IN" && m.tag(i+1) == "PRP" && (next == "," || next == "." || next == "") {
			return "DT" // "Is that you?"
		}
		if b := m.tag(i - 2); tag == "IN" && is[m.word(i-1)] && (b == "" || b == "``" || b == "CC" && i == 2) {
			return "DT" // "Is that your father?"
		}
		if next := m.tag(i + 1); tag == "DT" && (next == "DT" || next == "PRP$" || next == "EX" || m.nominative(i+1)) {
			return "IN" // "saw that the boy"
		}
		return ""
	case "round":
		if next := m.tag(i + 1); next == "DT" || next == "PRP$" || next == "PRP" {
			return "IN"
		}
	case "while":
		if m.opened(i) {
			return "NN" // "a little while"
		}
	case "half":
		if next := m.tag(i + 1); next == "JJ" || next == "VBN" || next == "RB" {
			return "RB"
		}
	case "being":
		if next := m.tag(i + 1); m.opened(i) && (next == "," || next == "." || next == "CC" || next == "IN") {
			return "NN"
		}
	case "needs":
		if m.tag(i-1) == "MD" {
			return "RB"
		}
	case "am":
		return "VBP"
	case "up", "down", "out", "away", "off", "back":
		if tag == "NN" {
			return "RP"
		}
	case "her":
		if next := m.tag(i + 1); tag == "PRP$" && (next == "RP" || next == "IN" || next == "DT" || next == "TO" || next == "," ||
			next == "." || next == "PRP" || next == "CC" || next == "WP" || next == "WRB" || particles[m.word(i+1)]) {
			return "PRP"
		} else if tag == "PRP" && m.tag(i-1) == "IN" && m.noun(i+1) {
			return "PRP$"
		}
		if tag == "PRP$" && perceives[m.word(i-1)] && strings.HasSuffix(m.word(i+1), "ing") && stemIsVerb(m.word(i+1)) && !m.noun(i+2) {
			return "PRP"
		}
		return ""
	}
	if form, ok := auxiliaries[w]; ok && tag[0] != 'V' {
		return form
	}
	if words, closed := closedTags[tag]; closed && !words[w] {
		if m.capital(i) {
			return "NNP"
		}
		return "NN"
	}
	if tag == "CC" {
		// The weights know no end of "and" and "or".
		if use, ok := lemma.UseOf(w); ok && use.Verb > 0 {
			return "VB"
		}
		return "NN"
	}
	switch tag {
	case "NN", "NNP", "NNS", "JJ", "VB", "VBP", "RB", "IN", "FW", "UH", "RBR", "JJR", "JJS", "NNPS", "VBG", "VBN", "VBD", "VBZ", "CD", "RP", "DT", "MD":
	default:
		return ""
	}
	switch {
	case tag == "DT" && w == "no" && (m.tag(i+1) == "," || m.tag(i+1) == "."):
		return "UH"
	case tag == "DT" && (w == "either" || w == "neither") && i > 0 && m.tag(i-1) != "``" && m.verb(i+1):
		return "CC"
	case tag == "DT" || tag == "MD" || tag == "RP":
		return ""
	}
	if tag == "VBD" || tag == "VBN" {
		if !strings.HasSuffix(w, "ed") && !strings.HasSuffix(w, "'d") {
			if _, ok := lemma.Irregular(w); !ok && !sameAsBase[w] {
				if use, known := lemma.UseOf(w); known && use.Adjective > 0 {
					return "JJ" // "was dark as the night"
				} else if tag == "VBN" && (!known || use.Noun > 0) {
					return "NN" // "there had been rain"
				}
			}
		}
		if base := lemma.Of(w, "VBD"); strings.HasSuffix(w, "ed") && base != w && !isVerb(base) {
			return "JJ" // skilled, beloved
		}
		return m.past(i, w, tag)
	}
	if tag == "VBZ" && strings.HasSuffix(w, "s") && len(w) > 3 && !isVerb(lemma.Of(w, "VBZ")) {
		if m.capital(i) {
			return "NNP"
		}
		return "NNS" // windows
	}
	if tag == "NNS" && strings.HasSuffix(w, "s") && (m.noun(i-1) || m.tag(i-1) == "PRP") {
		if use, ok := lemma.UseOf(lemma.Of(w, "VBZ")); ok && use.Noun < 0 && use.Verb > 0 {
			return "VBZ" // "the moon sits"
		}
	}
	if p := m.back(i); participleOnly[w] && (has[m.word(p)] || m.nominative(p) && has[m.word(p-1)]) {
		return "VBN"
	}
	if tag == "VBZ" && !strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "th") {
		if _, ok := lemma.Irregular(w); ok {
			return "VBD"
		}
		if lemma.Of(w, "NNS") != w {
			return "NNS" // teeth
		}
		if use, ok := lemma.UseOf(w); ok && use.Adjective > 0 {
			return "JJ"
		}
	}
	if tag == "RB" && m.verb(i+1) && !adverbs[w] && !strings.HasSuffix(w, "ly") && !strings.HasSuffix(w, "ward") && !strings.HasSuffix(w, "wards") &&
		!strings.HasSuffix(w, "wise") && !m.nominative(i-1) && !m.noun(i-1) {
		if use, known := lemma.UseOf(w); !known || use.Adverb < 0 && use.Noun > 0 {
			if m.capital(i) {
				return "NNP" // a name the weights never met
			}
			return "NN"
		}
	}
	if (tag == "RB" || tag == "JJ") && placeWords[w] {
		if next := m.tag(i + 1); next == "DT" || next == "PRP$" || next == "PRP" || next == "NNP" {
			return "IN" // "fell down before the king"
		}
	}
	if tag == "RB" && lyAdjectives[w] && (m.opened(i) && (m.noun(i+1) || strings.HasPrefix(m.tag(i+1), "JJ")) || seems[m.word(m.back(i))] && !m.verb(i+1) && m.tag(i+1) != "VBN") {
		return "JJ"
	}
	if tag == "NN" && notVerbs[w] && saidVerbs[w] && (m.noun(i-1) || strings.HasPrefix(m.tag(i-1), "JJ")) {
		if next := m.tag(i + 1); next == "PRP" || next == "DT" || next == "PRP$" {
			return "VBD" // "The top saw it"
		}
	}
	if tag == "NNP" && !m.clauseStart(i) && m.tokens[i].Span.Len() > 0 && tag != "NN" {
		return m.name(i, w)
	}
	if tag == "VB" || tag == "VBP" {
		if t := m.notBase(i, w); t != "" {
			return t
		}
	}
	if tag == "VBG" {
		if !strings.HasSuffix(w, "ing") && !strings.HasSuffix(w, "in'") || baseOnIng[w] {
			if m.opened(i) {
				return "NN" // "let the ring fall"
			}
			return "VB" // "to laugh and sing"
		}
		if plainIngNouns[w] {
			return "NN"
		}
		return ""
	}
	if base, ok := lemma.Irregular(w); ok && !notVerbs[w] && (tag != "VBZ" || !strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "th")) {
		if _, also := lemma.UseOf(w); !also || m.nominative(m.back(i)) && lemmaIsCommon(base) {
			return m.irregular(i, w, base)
		}
	}
	if strings.HasSuffix(w, "ed") && len(w) > 4 && tag != "VBZ" && !m.opened(i) {
		if base := lemma.Of(w, "VBD"); base != w && isVerb(base) && (tag != "JJ" || m.nominative(m.back(i))) {
			return m.past(i, w, "VBD")
		}
	}
	if strings.HasSuffix(w, "ing") && len(w) > 4 {
		return m.ing(i, w, tag)
	}
	if tag == "VBZ" {
		if use, ok := lemma.UseOf(lemma.Of(w, "NNS")); ok && use.Noun > use.Verb && (m.noun(i-1) || m.opened(i)) && (m.tag(i+1) == "WDT" || m.verb(i+1)) {
			return "NNS" // "the stone steps that led"
		}
		return ""
	}
	if (tag == "JJR" || tag == "JJS") && m.noAdjective(w, tag) {
		return "NN" // the nest, the forest
	}
	if tag == "JJ" && m.capital(i) && m.clauseStart(i) && m.verb(i+1) && !is[m.word(i+1)] {
		return "NNP" // "Faithful rode on"
	}
	if tag == "JJ" && m.opened(i) && !strings.HasPrefix(m.tag(i-1), "JJ") && m.closedNoun(i+1) {
		switch word := m.tokens[i]; {
		case strings.Contains(w, "-") && !strings.HasSuffix(w, "ed") && word.Span.Len() > 4:
			return "NN" // "the shepherd-lad"
		case m.capital(i) && i > 1:
			return "NNP"
		default:
			if use, known := lemma.UseOf(w); known && use.Noun > 0 && use.Noun >= use.Adjective {
				return "NN" // "a maiden sat"
			} else if !known && m.tag(i-1) != "CD" && !strings.HasSuffix(w, "ed") {
				return "NN" // "a magician or"
			}
		}
	}
	if tag == "JJ" && strings.HasSuffix(w, "ed") && m.tag(i-1) == "CC" {
		if next := m.tag(i + 1); (next == "VBG" || next == "PRP" || next == "DT" || next == "PRP$" || next == "RP") && isVerb(lemma.Of(w, "VBD")) {
			return "VBD" // "and continued driving"
		}
	}
	use, known := lemma.UseOf(w)
	if !known {
		if (tag == "VB" || tag == "VBP") && (m.tag(i-1) == "PRP$" || m.tag(i-1) == "DT" && !loneDeterminers[m.word(i-1)]) {
			return "NN" // "our King"
		}
		return m.pluralVerb(i, w, tag)
	}
	p := m.back(i)
	prev := m.word(p)
	switch {
	case use.Adjective > 0 && use.Verb < 0 && (tag == "VB" || tag == "VBP" || tag == "NNS" && !strings.HasSuffix(w, "s") && use.Noun < use.Adjective):
		return "JJ"
	case tag == "NNS" && !strings.HasSuffix(w, "s") && use.Noun < 0 && use.Verb > 0:
		if m.tag(i-1) == "CC" {
			return "VB"
		}
		return "VBP"
	case (tag == "NN" || tag == "VBP" || tag == "VB") && prev == "how" && use.Adjective > use.Verb && use.Adjective > use.Noun:
		return "JJ" // "how brave they are"
	case tag == "NN" && use.Verb > 0 && (m.word(i-1) == "not" || m.word(i-1) == "n't") && !is[m.word(i-2)] && m.word(i-2) != "'s":
		return "VB" // "and not cry"
	case (tag == "NN" || tag == "NNP") && use.Verb > 0 && m.clauseStart(i) && m.word(i+1) == "not":
		return "VB" // "Fear not!"
	case tag == "VBP" && m.clauseStart(i) && i+1 < len(m.tokens) && !m.nominative(i+1):
		return "VB" // "Shoot the gull!"
	case tag == "VB" || tag == "VBP":
		if (m.tag(i-1) == "DT" && !loneDeterminers[m.word(i-1)] || m.tag(i-1) == "PRP$") && use.Noun >= 0 {
			return "NN"
		}
		if tag == "VBP" && (m.tag(p) == "MD" || does[prev] && p < i-1 || m.causeBefore(i) || m.noun(i-1) && m.askedBefore(i)) {
			return "VB"
		}
		if tag == "VB" && use.Noun > 0 && (m.tag(i-1) == "VBP" || m.tag(i-1) == "VBD" || m.tag(i-1) == "VBZ") && !causes[m.word(i-1)] &&
			!does[m.word(i-1)] && !has[m.word(i-1)] && !dares[m.word(i-1)] && m.word(i-1) != "need" && m.word(i-1) != "go" {
			return "NN" // "bring ruin to"
		}
		if tag == "VB" && m.tag(i-1) == "CC" && m.noun(i-2) && m.verb(i+1) && use.Noun >= 0 {
			return "NN" // "the chaff and straw flew"
		}
		if tag == "VB" && m.nominative(p) && !m.inverted(p) {
			return "VBP"
		}
		return ""
	case use.Verb >= 0 && (m.tag(p) == "MD" || does[prev]):
		if (use.Verb > 0 || use.Noun < 0) && (tag != "RB" || use.Verb > use.Adverb) {
			return "VB"
		}
	case use.Verb > 0 && dares[m.word(p)] && (tag == "NN" || tag == "JJ"):
		return "VB" // "did not dare refuse"
	case tag == "NN" && sameAsBase[w] && has[prev]:
		return "VBN" // "what had become of her"
	case tag == "NN" && sameAsBase[w] && use.Verb > use.Noun && m.noun(i-1) && m.tag(i+1) != "NN":
		return "VBD" // "the news spread"
	case tag == "NN" && use.Noun < 0 && use.Verb > 0 && use.Adjective <= 0 && m.noun(i-1) && !m.askedBefore(i) && !m.causeBefore(i):
		return "VBP" // "the stars belong to him"
	case use.Verb > 0 && (m.nominative(p) || prev == "you" || prev == "it") && m.inverted(p):
		return "VB" // "Did he cry?"
	case use.Verb > 0 && (tag == "NN" || tag == "JJ" || tag == "IN") && m.nominative(p) && prev != "he" && prev != "she" && tag != "IN":
		return "VBP" // "I fear"
	case use.Verb > use.Noun && (tag == "NN" || tag == "JJ") && m.tag(i-1) == "TO":
		return "VB"
	case use.Verb > 0 && objects[m.word(i-1)] && causes[m.word(i-2)] && use.Verb > use.Adjective:
		return "VB" // "made him tremble"
	case tag == "NN" && use.Verb >= max(use.Noun, 1) && m.noun(i-1) && m.causeBefore(i):
		return "VB" // "saw the boy shiver"
	case tag == "NN" && use.Verb > use.Noun && m.noun(i-1) && m.askedBefore(i):
		return "VB" // "Did the gull frighten you?"
	case (tag == "NN" || tag == "NNP" || tag == "JJ" || tag == "RB" || tag == "UH") && m.clauseStart(i) && use.Verb >= 3 &&
		use.Verb > use.Noun+use.Adjective+use.Adverb && !m.verb(i+1) && m.tag(i+1) != "NNP":
		return "VB" // "Come here!"
	}
	if use.Adjective > max(use.Noun, use.Verb, use.Adverb) && (tag == "NN" || tag == "RB" || tag == "IN" || tag == "VB") {
		switch {
		case use.Adverb < 0 && tag == "RB":
			return "JJ" // lonely, ugly
		case seems[prev] && m.tag(i-1) != "DT" && m.tag(i-1) != "PRP$" && !m.noun(i+1):
			return "JJ" // "looked pale"
		case tag == "NN" && (m.tag(i+1) == "," || m.tag(i+1) == "CC") && strings.HasPrefix(m.tag(i+2), "JJ") && m.opened(i):
			return "JJ" // "the cold, dark wood"
		case tag == "NN" && m.noun(i-1) && m.closedNoun(i+1) && !m.verb(i+1):
			return "JJ" // "found the room empty"
		case tag == "NN" && m.tag(i-1) == "CC" && strings.HasPrefix(m.tag(i-2), "JJ") && !m.noun(i+1):
			return "JJ" // "tired and pale"
		}
	}
	return m.pluralVerb(i, w, tag)
}

// past chooses between past tense and past participle.
func (m *mender) past(i int, w, tag string) string {
	p := m.back(i)
	prev := m.word(p)
	switch {
	case pastAsBase[w] && m.tag(i-1) == "CC" && m.lastVerb(i) == "VB":
		return "VB" // "Open the door and put"
	case sameAsBase[w] && m.clauseStart(i) && !m.noun(i+1) && m.tag(i+1) != "PRP":
		return "VB" // "But come in!"
	case sameAsBase[w] && p >= 0 && (m.tag(p) == "MD" || does[prev]):
		return "VB"
	case tag == "VBD" && m.tag(m.back(i)) == "," && strings.HasSuffix(w, "ed") && m.aside(i):
		return "VBN" // "She ran off, frightened, to the oven."
	case tag == "VBD" && (has[prev] || is[prev]) && p >= 0 && !pastOnly[w]:
		return "VBN"
	case tag == "VBN" && m.tag(p) == "EX" && !participleOnly[w] && !is[m.word(p-1)] && !has[m.word(p-1)]:
		return "VBD" // "there lived a fisher"
	case tag == "VBN" && m.nominative(p) && !participleOnly[w] && !m.helpedBefore(p):
		return "VBD"
	}
	return tag
}

// notBase looks at a word taken for a base form or a present tense that is
// none: a past form ("he put on his coat and let her in", "there lay two
// loaves"), a participle, or no verb at all.
func (m *mender) notBase(i int, w string) string {
	p := m.back(i)
	helped := m.tag(p) == "TO" || m.tag(p) == "MD" || does[m.word(p)] || m.inverted(p) || m.causeBefore(i) || objects[m.word(i-1)] && causes[m.word(i-2)]
	switch {
	case strings.HasSuffix(w, "in'") && len(w) > 5 && isVerb(lemma.Of(w, "VBG")):
		return "VBG" // givin'
	case helped:
		return ""
	case participleOnly[w]:
		return "VBN"
	case pastAsBase[w]:
		if third := m.word(p); third == "he" || third == "she" || third == "it" || m.lastVerb(i) == "VBD" && !m.nominative(p) {
			return "VBD"
		}
		return ""
	}
	if base, ok := lemma.Irregular(w); ok && base != w && (saidVerbs[w] || w == "drove" || w == "lay" || w == "fell") {
		if pre := m.word(p); w == "lay" && (pre == "i" || pre == "you" || pre == "we" || pre == "they" || m.lastVerb(i) != "VBD" && m.clauseStart(i)) {
			return ""
		}
		return "VBD"
	}
	if _, known := lemma.UseOf(w); !known && !isVerb(lemma.Of(w, "VBP")) && !isVerb(lemma.Of(w, "VBZ")) {
		if _, irregular := lemma.Irregular(w); !irregular && !m.fixed[i] {
			if strings.HasSuffix(w, "ly") {
				return "RB"
			}
			return "NN" // the curds and whey
		}
	}
	return ""
}

// lastVerb gives the tag of the verb before i, a few words back; "TO" or "MD"
// where that verb hangs on one.
func (m *mender) lastVerb(i int) string {
	for j := i - 1; j >= 0 && j >= i-14; j-- {
		switch t := m.tag(j); t {
		case "VBD", "VBZ", "VBP", "VBG", "VBN", "MD", "TO", "``", "''":
			return t
		case "VB":
			return t
		}
	}
	return ""
}

// aside reports that a comma or "by" follows the past form at i, and no list
// of verbs goes on.
func (m *mender) aside(i int) bool {
	switch {
	case m.word(i+1) == "by":
		return true
	case m.tag(i+1) == ",":
		return m.tag(i+2) != "CC" && !strings.HasPrefix(m.tag(i+2), "VB") && m.tag(i+2) != "RB"
	}
	return false
}

// irregular gives the tag of an irregular verb form that was not taken for a
// verb in the past.
func (m *mender) irregular(i int, w, base string) string {
	switch {
	case strings.HasSuffix(w, "ing"):
		return ""
	case strings.HasSuffix(w, "s") || strings.HasSuffix(w, "th"):
		return "VBZ"
	case strings.HasSuffix(w, "st"):
		return "VBP"
	case participleOnly[w]:
		return "VBN"
	}
	return m.past(i, w, "VBD")
}

// name looks at a capitalised word inside a sentence: only forms that can be
// nothing but verbs are taken back.
func (m *mender) name(i int, w string) string {
	if _, ok := lemma.Irregular(w); ok && m.tokens[i].Lower == w && !notVerbs[w] && m.tag(i-1) == "''" {
		if _, also := lemma.UseOf(w); !also {
			return "VBD"
		}
	}
	return ""
}

// ing looks at a word on -ing that was not taken for a participle.
func (m *mender) ing(i int, w, tag string) string {
	if ingNouns[w] || baseOnIng[w] || !stemIsVerb(w) || tag != "NN" && tag != "JJ" && tag != "NNP" && tag != "VB" && tag != "VBP" && tag != "RB" {
		return ""
	}
	prev, next := m.tag(i-1), m.tag(i+1)
	open := next == "," || next == "." || next == "IN" || next == "DT" || next == "PRP" || next == "PRP$" || next == "RB" ||
		next == "TO" || next == "CC" || next == "" || next == "RP" || next == ":" || next == "''"
	switch {
	case m.clauseStart(i) && open && next != "." && next != "":
		return "VBG" // "Trembling, the boy"
	case is[m.word(m.back(i))] && tag == "NN", objects[m.word(i-1)] && open && m.word(i-1) != "her":
		return "VBG"
	case tag == "NN" && open && m.noun(i-1) && m.causeBefore(i):
		return "VBG" // "saw the sheep waiting for him"
	case m.word(i-1) == "her" && prev == "PRP" && open:
		return "VBG"
	case (prev == "," || prev == "CC") && open && tag == "NN" && m.tag(i-2) != "JJ":
		return "VBG"
	case (prev == "IN" || prev == "RP" || strings.HasPrefix(prev, "VB")) && open && tag == "NN" && m.word(i-1) != "of":
		return "VBG" // "kept on crying", "without weeping"
	}
	return ""
}

// pluralVerb takes a plural after "he" for a verb, and old forms on -eth.
func (m *mender) pluralVerb(i int, w, tag string) string {
	if strings.HasSuffix(w, "eth") && len(w) > 4 && tag != "CD" {
		if base := lemma.Of(w, "VBZ"); base != w && isVerb(base) {
			return "VBZ"
		}
	}
	if strings.HasSuffix(w, "est") && m.word(m.back(i)) == "thou" {
		if base := lemma.Of(w, "VBP"); base != w && isVerb(base) {
			return "VBP"
		}
	}
	if tag == "NNS" && singular[m.word(m.back(i))] {
		if base := lemma.Of(w, "VBZ"); base != w && isVerb(base) {
			return "VBZ"
		}
	}
	return ""
}

// back gives the place of the last token before i that is no adverb, nor "all"
// or "both" after an auxiliary, or -1. It looks at most eight tokens back.
func (m *mender) back(i int) int {
	n := 0
	for i--; i >= 0; i-- {
		t := &m.tokens[i]
		if n++; n > 8 {
			return -1
		}
		floats := i > 0 && (t.Lower == "all" || t.Lower == "both") && (is[m.tokens[i-1].Lower] || has[m.tokens[i-1].Lower])
		if t.Tag != "RB" && t.Tag != "RBR" && !floats {
			break
		}
	}
	return i
}

func (m *mender) in(i int) bool { return i >= 0 && i < len(m.tokens) }

func (m *mender) word(i int) string {
	if m.in(i) {
		return m.tokens[i].Lower
	}
	return ""
}

func (m *mender) tag(i int) string {
	if m.in(i) {
		return m.tokens[i].Tag
	}
	return ""
}

func (m *mender) noun(i int) bool { return strings.HasPrefix(m.tag(i), "NN") }

func (m *mender) verb(i int) bool {
	for n := 0; n < 8 && m.tag(i) == "RB"; n++ {
		i++
	}
	t := m.tag(i)
	return t == "MD" || t == "VBD" || t == "VBZ" || t == "VBP"
}

func (m *mender) nominative(i int) bool { return m.in(i) && nominatives[m.tokens[i].Lower] }

// opened reports a determiner, possessor or adjective right before i.
func (m *mender) opened(i int) bool {
	t := m.tag(i - 1)
	return t == "DT" || t == "PRP$" || t == "POS" || strings.HasPrefix(t, "JJ") || t == "CD"
}

// closedNoun reports that no noun and no adjective stands at i, so that what
// comes before ends its phrase.
func (m *mender) closedNoun(i int) bool {
	t := m.tag(i)
	return !strings.HasPrefix(t, "NN") && !strings.HasPrefix(t, "JJ") && t != "VBN" && t != "VBG" && t != "CD" && t != "POS"
}

// noAdjective reports a word taken for a comparative or superlative of what is
// no adjective.
func (m *mender) noAdjective(w, tag string) bool {
	base := lemma.Of(w, tag)
	if base == "good" || base == "bad" || base == "much" || base == "little" || base == "far" {
		return false
	}
	use, ok := lemma.UseOf(base)
	return (!ok || use.Adjective < 0) && (base == w || len(w) < 8)
}

func (m *mender) capital(i int) bool {
	c := m.d.Text[m.tokens[i].Span.Start]
	return c >= 'A' && c <= 'Z'
}

// clauseStart reports the first word of a sentence or quote.
func (m *mender) clauseStart(i int) bool {
	return i == 0 || m.tag(i-1) == "``" || i == 1 && m.tag(0) == "CC"
}

// inverted reports an auxiliary before the subject at p, and nothing before it
// that could be its subject: "Did he", "Why should she".
func (m *mender) inverted(p int) bool {
	q := p - 1
	if m.word(q) == "n't" || m.word(q) == "not" {
		q--
	}
	if q < 0 || !does[m.word(q)] && m.tag(q) != "MD" {
		return false
	}
	b := m.tag(q - 1)
	return b == "" || b == "``" || b == "," || b == "CC" || b == "WRB" || b == "WP" || b == "RB" || b == ":" || b == "UH" || b == "''"
}

// helpedBefore reports an auxiliary before the subject at p: "Had he wept".
func (m *mender) helpedBefore(p int) bool {
	return has[m.word(p-1)] || is[m.word(p-1)]
}

// causeBefore reports "saw", "made" and the like before a short phrase that
// ends at i.
func (m *mender) causeBefore(i int) bool {
	for j := i - 1; j >= 0 && j >= i-5; j-- {
		if causes[m.word(j)] {
			return true
		}
		if t := m.tag(j); !strings.HasPrefix(t, "NN") && !strings.HasPrefix(t, "JJ") && t != "DT" && t != "PRP$" && t != "CD" {
			return false
		}
	}
	return false
}

// askedBefore reports "did" at the start of a clause before a short phrase
// that ends at i, with others joined to it: "did the boy and the gull on the
// wall".
func (m *mender) askedBefore(i int) bool {
	for j := i - 1; j >= 0 && j >= i-9; j-- {
		if does[m.word(j)] || m.tag(j) == "MD" {
			b := m.tag(j - 1)
			return b == "" || b == "``" || b == "," || b == "WRB" || b == "WP" || b == "CC"
		}
		switch t := m.tag(j); t {
		case "DT", "PRP$", "CD", "CC", "IN", "POS":
		default:
			if !strings.HasPrefix(t, "NN") && !strings.HasPrefix(t, "JJ") {
				return false
			}
		}
	}
	return false
}

func isVerb(base string) bool {
	u, ok := lemma.UseOf(base)
	return ok && u.Verb >= 0
}

func lemmaIsCommon(base string) bool {
	u, ok := lemma.UseOf(base)
	return ok && u.Verb > 0
}

func stemIsVerb(w string) bool {
	base := lemma.Of(w, "VBG")
	return base != w && isVerb(base)
}
