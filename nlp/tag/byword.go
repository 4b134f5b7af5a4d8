package tag

import "strings"

// byWord has the rules about single words. It reports done where no other rule
// should look at the word.
func (m *mender) byWord(i int, w, tag string) (better string, done bool) {
	switch w {
	case "art", "wert", "wast":
		if m.word(i-1) == "thou" || m.word(i+1) == "thou" {
			return oldAfterThou[w], true
		}
	case "that":
		if m.tag(i-1) == "CC" && m.verb(i+1) && (tag == "IN" || tag == "WDT") {
			return "DT", true // "and that pleased her"
		}
		if tag == "IN" && i > 0 && m.noun(i-1) && m.verb(i+1) {
			return "WDT", true
		}
		if next := m.tag(i + 1); tag == "IN" && (next == "," || next == "." || m.verb(i+1) && (i == 0 || m.tag(i-1) == ":" || m.tag(i-1) == "``")) {
			return "DT", true // "asked him that, and", "that suited him"
		}
		if next := m.tag(i + 2); tag == "IN" && m.tag(i+1) == "PRP" && (next == "," || next == "." || next == "") {
			return "DT", true // "Is that you?"
		}
		if b := m.tag(i - 2); tag == "IN" && is[m.word(i-1)] && (b == "" || b == "``" || b == "CC" && i == 2) {
			return "DT", true // "Is that your father?"
		}
		if next := m.tag(i + 1); tag == "DT" && (next == "DT" || next == "PRP$" || next == "EX" || m.nominative(i+1)) {
			return "IN", true // "saw that the boy"
		}
		return "", true
	case "round":
		if next := m.tag(i + 1); next == "DT" || next == "PRP$" || next == "PRP" {
			return "IN", true
		}
	case "while":
		if m.opened(i) {
			return "NN", true // "a little while"
		}
	case "half":
		if next := m.tag(i + 1); next == "JJ" || next == "VBN" || next == "RB" {
			return "RB", true
		}
	case "being":
		if next := m.tag(i + 1); m.opened(i) && (next == "," || next == "." || next == "CC" || next == "IN") {
			return "NN", true
		}
	case "needs":
		if m.tag(i-1) == "MD" {
			return "RB", true
		}
	case "up", "down", "out", "away", "off", "back":
		if tag == "NN" {
			return "RP", true
		}
	case "her":
		if next := m.tag(i + 1); tag == "PRP$" && (next == "RP" || next == "IN" || next == "DT" || next == "TO" || next == "," ||
			next == "." || next == "PRP" || next == "CC" || next == "WP" || next == "WRB" || particles[m.word(i+1)]) {
			return "PRP", true
		} else if tag == "PRP" && m.tag(i-1) == "IN" && m.noun(i+1) {
			return "PRP$", true
		}
		if tag == "PRP$" && m.degreeEnds(i+1) {
			return "PRP", true // "pleased her very much."
		}
		if tag == "PRP$" && perceives[m.word(i-1)] && strings.HasSuffix(m.word(i+1), "ing") && stemIsVerb(m.word(i+1)) && !m.noun(i+2) {
			return "PRP", true
		}
		return "", true
	}
	return "", false
}

// degreeEnds reports whether from i on there are only words of degree and then
// no noun: "very much.", "dearly and".
func (m *mender) degreeEnds(i int) bool {
	n := 0
	for ; m.in(i) && (strings.HasPrefix(m.tag(i), "RB") || m.word(i) == "much"); i++ {
		n++
	}
	return n > 0 && !m.noun(i) && !strings.HasPrefix(m.tag(i), "JJ") && m.tag(i) != "VBN" && m.tag(i) != "VBG" && m.tag(i) != "CD"
}
