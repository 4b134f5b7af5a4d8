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

// better gives a better tag for token i, or "". Each function it calls looks at
// one kind of mistake; the first that finds one decides.
func (m *mender) better(i int, w, tag string) string {
	if t, done := m.byWord(i, w, tag); done {
		return t
	}
	if form, ok := auxiliaries[w]; ok && tag[0] != 'V' {
		return form
	}
	if words, closed := closedTags[tag]; closed && !words[w] {
		return m.anyNoun(i)
	}
	switch tag {
	case "CC":
		// The weights know no end of "and" and "or".
		if use, ok := lemma.UseOf(w); ok && use.Verb > 0 {
			return "VB"
		}
		return "NN"
	case "DT":
		return m.determiner(i, w)
	case "VBD", "VBN":
		return m.pastForm(i, w, tag)
	case "VBG":
		return m.ingForm(i, w)
	case "VBZ":
		return m.thirdPerson(i, w)
	case "NN", "NNS", "NNPS", "JJ", "JJR", "JJS", "VB", "VBP", "RB", "RBR", "IN", "FW", "UH", "CD":
	case "NNP":
		if !m.clauseStart(i) {
			return m.name(i, w)
		}
	default:
		return ""
	}
	if tag == "NN" && lemma.IrregularPlural(w) {
		return "NNS" // mice
	}
	for _, look := range firstLooks {
		if t := look(m, i, w, tag); t != "" {
			return t
		}
	}
	if strings.HasSuffix(w, "ing") && len(w) > 4 {
		return m.ing(i, w, tag)
	}
	if t := m.noSuchAdjective(i, w, tag); t != "" {
		return t
	}
	return m.byUse(i, w, tag)
}

// firstLooks come before the words on -ing and the counts of use.
var firstLooks = []func(m *mender, i int, w, tag string) string{
	(*mender).afterHave, (*mender).noAdverb, (*mender).nounOrVerb, (*mender).notBase, (*mender).pastTense,
}

// anyNoun is the tag of a word that is a noun for want of anything better.
func (m *mender) anyNoun(i int) string {
	if m.capital(i) {
		return "NNP"
	}
	return "NN"
}

// determiner looks at "no" as an answer and at "neither ... nor".
func (m *mender) determiner(i int, w string) string {
	switch {
	case w == "no" && (m.tag(i+1) == "," || m.tag(i+1) == "."):
		return "UH"
	case (w == "either" || w == "neither") && i > 0 && m.tag(i-1) != "``" && m.verb(i+1):
		return "CC"
	}
	return ""
}

// pastForm looks at a word that was taken for a past form: some are none.
func (m *mender) pastForm(i int, w, tag string) string {
	if strings.HasSuffix(w, "ed") {
		if base := lemma.Of(w, "VBD"); base != w && !isVerb(base) {
			return "JJ" // skilled, beloved
		}
	} else if _, ok := lemma.Irregular(w); !ok && !sameAsBase[w] && !strings.HasSuffix(w, "'d") {
		if use, known := lemma.UseOf(w); known && use.Adjective > 0 {
			return "JJ" // "was dark as the night"
		} else if tag == "VBN" && (!known || use.Noun > 0) {
			return "NN" // "there had been rain"
		}
	}
	return m.past(i, w, tag)
}

// ingForm looks at a word that was taken for a present participle.
func (m *mender) ingForm(i int, w string) string {
	switch {
	case !strings.HasSuffix(w, "ing") && !strings.HasSuffix(w, "in'") || baseOnIng[w]:
		if m.opened(i) {
			return "NN" // "let the ring fall"
		}
		return "VB" // "to laugh and sing"
	case plainIngNouns[w]:
		return "NN"
	}
	return ""
}

// thirdPerson looks at a word that was taken for a third person singular.
func (m *mender) thirdPerson(i int, w string) string {
	if strings.HasSuffix(w, "s") {
		if len(w) > 3 && !isVerb(lemma.Of(w, "VBZ")) {
			if m.capital(i) {
				return "NNP"
			}
			return "NNS" // windows
		}
		if use, ok := lemma.UseOf(lemma.Of(w, "NNS")); ok && use.Noun > use.Verb && (m.noun(i-1) || m.opened(i)) && (m.tag(i+1) == "WDT" || m.verb(i+1)) {
			return "NNS" // "the stone steps that led"
		}
		return ""
	}
	if strings.HasSuffix(w, "th") {
		return ""
	}
	if _, ok := lemma.Irregular(w); ok {
		return "VBD"
	}
	if lemma.Of(w, "NNS") != w {
		return "NNS" // teeth
	}
	if use, ok := lemma.UseOf(w); ok && use.Adjective > 0 {
		return "JJ"
	}
	return ""
}

// afterHave finds a participle after "had", or after "had he".
func (m *mender) afterHave(i int, w, tag string) string {
	if p := m.back(i); participleOnly[w] && (has[m.word(p)] || m.nominative(p) && has[m.word(p-1)]) {
		return "VBN"
	}
	return ""
}

// noAdverb looks at words that were taken for adverbs: names and nouns that
// the weights never met, prepositions, and adjectives on -ly.
func (m *mender) noAdverb(i int, w, tag string) string {
	if tag != "RB" && tag != "JJ" {
		return ""
	}
	if next := m.tag(i + 1); placeWords[w] && (next == "DT" || next == "PRP$" || next == "PRP" || next == "NNP") {
		return "IN" // "fell down before the king"
	}
	if tag == "JJ" {
		return ""
	}
	if m.verb(i+1) && !adverbs[w] && !adverbEnding(w) && !m.nominative(i-1) && !m.noun(i-1) {
		if use, known := lemma.UseOf(w); !known || use.Adverb < 0 && use.Noun > 0 {
			return m.anyNoun(i)
		}
	}
	if lyAdjectives[w] && (m.opened(i) && (m.noun(i+1) || strings.HasPrefix(m.tag(i+1), "JJ")) || seems[m.word(m.back(i))] && !m.verb(i+1) && m.tag(i+1) != "VBN") {
		return "JJ"
	}
	return ""
}

func adverbEnding(w string) bool {
	return strings.HasSuffix(w, "ly") || strings.HasSuffix(w, "ward") || strings.HasSuffix(w, "wards") || strings.HasSuffix(w, "wise")
}

// nounOrVerb looks at nouns that are verbs where they stand.
func (m *mender) nounOrVerb(i int, w, tag string) string {
	switch {
	case tag == "NNS" && strings.HasSuffix(w, "s") && (m.noun(i-1) || m.tag(i-1) == "PRP"):
		if use, ok := lemma.UseOf(lemma.Of(w, "VBZ")); ok && use.Noun < 0 && use.Verb > 0 {
			return "VBZ" // "the moon sits"
		}
	case tag == "NN" && saidVerbs[w] && notVerbs[w] && (m.noun(i-1) || strings.HasPrefix(m.tag(i-1), "JJ")):
		if next := m.tag(i + 1); next == "PRP" || next == "DT" || next == "PRP$" {
			return "VBD" // "The top saw it"
		}
	}
	return ""
}

// pastTense finds past forms that were taken for something else.
func (m *mender) pastTense(i int, w, tag string) string {
	if base, ok := lemma.Irregular(w); ok && !notVerbs[w] {
		use, also := lemma.UseOf(w)
		verb, _ := lemma.UseOf(base)
		switch {
		case !also, m.nominative(m.back(i)) && lemmaIsCommon(base),
			(tag == "JJ" || tag == "VBP" || tag == "NN" && use.Noun < 0) && m.noun(i-1) && verb.Verb > 10*(use.Adjective+max(use.Noun, 0)): // "the brothers heard this"
			return m.irregular(i, w, base)
		}
	}
	if strings.HasSuffix(w, "ed") && len(w) > 4 && !m.opened(i) {
		if base := lemma.Of(w, "VBD"); base != w && isVerb(base) && (tag != "JJ" || m.nominative(m.back(i))) {
			return m.past(i, w, "VBD")
		}
	}
	return ""
}

// noSuchAdjective looks at words that were taken for adjectives: "the nest",
// "a maiden sat", "the shepherd-lad", "and continued driving".
func (m *mender) noSuchAdjective(i int, w, tag string) string {
	if tag == "JJR" || tag == "JJS" {
		if m.noAdjective(w, tag) {
			return "NN" // the nest, the forest
		}
		return ""
	}
	if tag != "JJ" {
		return ""
	}
	if m.capital(i) && m.clauseStart(i) && m.verb(i+1) && !is[m.word(i+1)] {
		return "NNP" // "Faithful rode on"
	}
	if m.opened(i) && !strings.HasPrefix(m.tag(i-1), "JJ") && m.closedNoun(i+1) {
		use, known := lemma.UseOf(w)
		switch {
		case strings.Contains(w, "-") && !strings.HasSuffix(w, "ed") && len(w) > 4:
			return "NN" // "the shepherd-lad"
		case m.capital(i) && i > 1:
			return "NNP"
		case known && use.Noun > 0 && use.Noun >= use.Adjective:
			return "NN" // "a maiden sat"
		case !known && m.tag(i-1) != "CD" && !strings.HasSuffix(w, "ed"):
			return "NN" // "a magician or"
		}
	}
	if next := m.tag(i + 1); strings.HasSuffix(w, "ed") && m.tag(i-1) == "CC" && isVerb(lemma.Of(w, "VBD")) &&
		(next == "VBG" || next == "PRP" || next == "DT" || next == "PRP$" || next == "RP") {
		return "VBD" // "and continued driving"
	}
	return ""
}

// byUse decides by how often a word is a noun, a verb, an adjective or an
// adverb, and by what stands beside it.
func (m *mender) byUse(i int, w, tag string) string {
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
func (m *mender) notBase(i int, w, tag string) string {
	if tag != "VB" && tag != "VBP" {
		return ""
	}
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
