// Package lemma gives the dictionary form of an English word whose part of
// speech is known. Irregular forms, old ones included, come from a readable
// table; the rest follows rules of spelling, which choose between "hop" and
// "hope" by a list of verbs.
package lemma

//go:generate go run ./gen /usr/share/wordnet words.txt

import "strings"

// Of gives the lemma of a word in lower case with a Penn Treebank tag. Words
// that have no other form, and tags that are not known, give the word itself.
// Modals keep their past as a lemma of its own (could, would); "'s" as a verb
// is "be", since spelling cannot tell it from "has".
func Of(lower, tag string) string {
	if len(tag) < 2 || lower == "" {
		return lower
	}
	if l := of(lower, tag); l != "" {
		return l
	}
	return lower // nothing but an ending
}

func of(lower, tag string) string {
	switch tag[0] {
	case 'V':
		if tag[1] == 'B' {
			return verb(lower, tag)
		}
	case 'N':
		if tag == "NNS" || tag == "NNPS" {
			if l, ok := forms[key{'n', lower}]; ok {
				return l
			}
			return noun(lower)
		}
	case 'J', 'R':
		if len(tag) == 3 && (tag[2] == 'R' || tag[2] == 'S') && tag[1] != 'P' {
			kind := byte('a')
			if tag[0] == 'R' {
				kind = 'r'
			}
			if l, ok := forms[key{kind, lower}]; ok {
				return l
			}
			if l, ok := forms[key{'a', lower}]; ok {
				return l
			}
			return adjective(lower)
		}
	case 'M':
		if l, ok := forms[key{'m', lower}]; ok {
			return l
		}
	}
	if len(lower) <= 3 {
		if l, ok := forms[key{'x', lower}]; ok {
			return l
		}
	}
	return lower
}

func verb(w, tag string) string {
	if tag == "VB" || tag == "VBP" {
		if l, ok := forms[key{'b', w}]; ok {
			return l
		}
		if isVerb(w) {
			return w // "they lay the table", "saw it in two"
		}
	}
	if l, ok := forms[key{'v', w}]; ok {
		return l
	}
	if tag == "VB" {
		return w
	}
	if w == "'d" {
		return "have"
	}
	if len(w) > 3 && strings.HasSuffix(w, "ed") && isVerb(w) && !isVerb(stem(w[:len(w)-2])) {
		return w // "need" is no past form
	}
	if l := compound(w); l != "" {
		return l
	}
	if l, ok := forms[key{'m', w}]; ok {
		return l
	}
	switch {
	case strings.HasSuffix(w, "in'") && len(w) > 4:
		return stem(w[:len(w)-3])
	case strings.HasSuffix(w, "ing") && len(w) > 4 && hasVowel(w[:len(w)-3]):
		return stem(w[:len(w)-3])
	case strings.HasSuffix(w, "ied"):
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "'d") && len(w) > 3:
		return stem(w[:len(w)-2])
	case strings.HasSuffix(w, "ed") && len(w) > 3 && hasVowel(w[:len(w)-2]):
		return stem(w[:len(w)-2])
	case strings.HasSuffix(w, "ieth") || strings.HasSuffix(w, "iest"):
		return w[:len(w)-4] + "y"
	case strings.HasSuffix(w, "eth") && len(w) > 4:
		return stem(w[:len(w)-3])
	case tag == "VBP" && strings.HasSuffix(w, "est") && len(w) > 5 && !isVerb(w):
		return stem(w[:len(w)-3])
	case tag == "VBZ" && strings.HasSuffix(w, "s"):
		return third(w)
	}
	return w
}

// prefixes are those that irregular verbs are compounded with.
var prefixes = []string{"over", "out", "under", "un", "re", "fore", "for", "mis", "be", "with", "inter", "back", "up", "in", "hand", "gain"}

// compound gives the lemma of an irregular form after a prefix or a hyphen, as
// "outrun" of "outran", or "".
func compound(w string) string {
	if i := strings.LastIndexByte(w, '-'); i > 0 {
		if l, ok := forms[key{'v', w[i+1:]}]; ok {
			return w[:i+1] + l
		}
	}
	for _, p := range prefixes {
		if rest, ok := strings.CutPrefix(w, p); ok && len(rest) > 2 {
			if l, ok := forms[key{'v', rest}]; ok && isVerb(p+l) {
				return p + l
			}
		}
	}
	return ""
}

// stem restores the base form of a verb from what is left without its ending.
func stem(s string) string {
	n := len(s)
	if n < 2 {
		return s
	}
	last, before := s[n-1], s[n-2]
	if last == 'e' || last == 'y' || last == 'w' || last == 'o' || last == 'x' {
		if isVerb(s+"e") && !isVerb(s) {
			return s + "e" // agre-ed, ow-ed, dy-ed
		}
		return s
	}
	if last == before && !vowel(last) {
		one := s[:n-1]
		switch {
		case isVerb(s) && (!isVerb(one) || uses[s].Verb >= uses[one].Verb):
			return s // pull, pass
		case isVerb(one) || last != 'l' && last != 's' && last != 'f' && last != 'z' || last == 'l' && syllables(one) > 1:
			return one // stop-ped, travel-led
		}
		return s
	}
	if last == 'k' && before == 'c' && !isVerb(s) && isVerb(s[:n-1]) {
		return s[:n-1] // panick-ed
	}
	// A single consonant after a single vowel would have been doubled, so a
	// final e was dropped: hop-ed is hope. Verbs not stressed on their last
	// part have neither, and are in the list as they stand: wonder-ed.
	if isVerb(s + "e") {
		return s + "e"
	}
	if isVerb(s) {
		return s
	}
	switch {
	case last == 'c' || last == 'v' || last == 'z' || last == 'u' || last == 's' && before != 's' && vowel(before):
		return s + "e"
	case (last == 'g' && (before == 'd' || before == 'r')) || last == 'l' && !vowel(before) && before != 'r':
		return s + "e" // judg-ed, tumbl-ed
	case n >= 3 && !vowel(last) && vowel(before) && !vowel(s[n-3]) && syllables(s) == 1:
		return s + "e"
	}
	return s
}

// third gives the verb of a third person singular.
func third(w string) string {
	s := w[:len(w)-1]
	if strings.HasSuffix(w, "ies") && len(w) > 4 {
		return w[:len(w)-3] + "y"
	}
	if !strings.HasSuffix(s, "e") || isVerb(s) {
		return s
	}
	if es := s[:len(s)-1]; isVerb(es) || sibilant(es) {
		return es
	}
	return s
}

// lastParts are irregular plurals that also end compounds: "fishwives".
var lastParts = []string{"women", "men", "feet", "teeth", "geese", "children", "mice", "lice", "wolves", "wives", "knives", "leaves",
	"loaves", "calves", "halves", "shelves", "thieves", "hooves", "elves", "sheaves", "scarves"}

// noun gives the singular of a plural that is not in the table.
func noun(w string) string {
	n := len(w)
	if i := strings.LastIndexByte(w, '-'); i > 0 && n-i > 3 {
		return w[:i+1] + of(w[i+1:], "NNS")
	}
	for _, part := range lastParts {
		if strings.HasSuffix(w, part) && n > len(part) {
			return w[:n-len(part)] + forms[key{'n', part}]
		}
	}
	switch {
	case n < 4:
		return w
	case w[n-1] != 's':
		return foreign(w)
	case w[n-2] == 's' || w[n-2] == '\'':
		return w
	case strings.HasSuffix(w, "ies"):
		if n == 4 {
			return w[:n-1] // pies
		}
		return w[:n-3] + "y"
	case strings.HasSuffix(w, "oes"):
		return w[:n-2]
	case strings.HasSuffix(w, "yses"), strings.HasSuffix(w, "theses"), strings.HasSuffix(w, "phoses"):
		return w[:n-2] + "is"
	case strings.HasSuffix(w, "es") && sibilant(w[:n-2]):
		return w[:n-2]
	}
	return w[:n-1]
}

// foreign gives the singular of Latin, Greek and French plurals.
func foreign(w string) string {
	n := len(w)
	switch {
	case n > 5 && strings.HasSuffix(w, "mata"):
		return w[:n-2]
	case n > 4 && strings.HasSuffix(w, "ae"), n > 5 && strings.HasSuffix(w, "eaux"):
		return w[:n-1]
	case n > 4 && strings.HasSuffix(w, "a"):
		return w[:n-1] + "um"
	case n > 3 && strings.HasSuffix(w, "i"):
		return w[:n-1] + "us"
	}
	return w
}

// sibilant reports a stem whose plural or third person takes -es.
func sibilant(s string) bool {
	for _, end := range []string{"ss", "sh", "ch", "x", "tz", "zz"} {
		if strings.HasSuffix(s, end) {
			return true
		}
	}
	return false
}

// adjective gives the positive of a regular comparative or superlative.
func adjective(w string) string {
	var s string
	switch {
	case strings.HasSuffix(w, "er") && len(w) > 4:
		s = w[:len(w)-2]
	case strings.HasSuffix(w, "est") && len(w) > 5:
		s = w[:len(w)-3]
	default:
		return w
	}
	n := len(s)
	last, before := s[n-1], s[n-2]
	known := func(w string) bool { return uses[w].Adjective > 0 || uses[w].Adverb > 0 }
	switch {
	case last == 'i':
		return s[:n-1] + "y"
	case n > 2 && !vowel(last) && last != 'w' && vowel(before) && !vowel(s[n-3]) && known(s+"e"):
		return s + "e" // cut-er would have been doubled
	case known(s):
		return s
	case known(s + "e"):
		return s + "e"
	case last == before && !vowel(last) && (last != 'l' && last != 's' && last != 'f' || known(s[:n-1])):
		return s[:n-1]
	case last == 'l' && !vowel(before) && before != 'l' && before != 'r', last == 'c', last == 'v', last == 'u',
		last == 'g' && before == 'r', last == 's' && before != 's':
		return s + "e"
	}
	return s
}

func vowel(c byte) bool { return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u' }

func hasVowel(s string) bool { return strings.ContainsAny(s, "aeiouy") }

// syllables counts the groups of vowels.
func syllables(s string) int {
	n := 0
	for i := range len(s) {
		if vowel(s[i]) && (i == 0 || !vowel(s[i-1])) {
			n++
		}
	}
	return n
}

// Use is how often a base form occurs as each part of speech in SemCor, the
// sense-tagged corpus that WordNet counts; -1 where WordNet has no such word.
type Use struct{ Noun, Verb, Adjective, Adverb int }

// UseOf gives the use of a base form in lower case. Words that are neither
// verbs nor common adjectives are not known.
func UseOf(base string) (Use, bool) {
	u, ok := uses[base]
	return u, ok
}

// Irregular gives the verb of which a word in lower case is an irregular form
// other than its base, as "weep" of "wept".
func Irregular(lower string) (base string, ok bool) {
	base, ok = forms[key{'v', lower}]
	return base, ok && base != lower
}

// IrregularPlural reports whether a word in lower case is an irregular plural
// with a singular of its own, as "mice".
func IrregularPlural(lower string) bool {
	base, ok := forms[key{'n', lower}]
	return ok && base != lower
}

func isVerb(w string) bool {
	u, ok := uses[w]
	return ok && u.Verb >= 0
}
