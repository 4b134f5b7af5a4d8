package level

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

//go:embed data/syllables.txt
var exceptionFile string

var exceptions = sync.OnceValue(func() map[string]int {
	m, err := parseExceptions(exceptionFile)
	if err != nil {
		panic(err) // a broken embedded file is caught by this package's tests
	}
	return m
})

func parseExceptions(text string) (map[string]int, error) {
	m := map[string]int{}
	source, licence := false, false
	for n, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") {
			source = source || strings.Contains(line, "Source:")
			licence = licence || strings.Contains(line, "Licence:")
			continue
		}
		if line == "" {
			continue
		}
		word, count, ok := strings.Cut(line, " ")
		c, err := strconv.Atoi(strings.TrimSpace(count))
		if !ok || err != nil || c < 1 {
			return nil, fmt.Errorf("syllables.txt:%d: not \"word count\"", n+1)
		}
		m[word] = c
	}
	if !source || !licence {
		return nil, fmt.Errorf("syllables.txt: no source or licence line")
	}
	return m, nil
}

// Syllables counts the syllables of one English word by spelling: vowel
// groups, silent e, hiatus, and a short list of exceptions. It is at least 1
// for anything with a letter or digit and 0 for the rest. Parts joined by
// hyphens are counted one by one.
func Syllables(word string) int {
	n := 0
	for _, part := range strings.FieldsFunc(strings.ToLower(word), func(r rune) bool { return r == '-' || r == '‐' || r == '–' || r == '—' }) {
		n += syllables(strings.ReplaceAll(part, "’", "'"))
	}
	return n
}

func syllables(w string) int {
	w = strings.TrimFunc(w, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if w == "" {
		return 0
	}
	if n, ok := exceptions()[w]; ok {
		return n
	}
	if stem, ending, ok := strings.Cut(w, "'"); ok && stem != "" {
		return syllables(stem) + clitic(stem, ending)
	}
	for _, e := range []string{"s", "d", "ly"} {
		if stem, ok := strings.CutSuffix(w, e); ok {
			if n, ok := exceptions()[stem]; ok {
				if e == "ly" {
					n++
				} else if e == "s" && hisses(stem) {
					n++
				}
				return n
			}
		}
	}
	return max(1, bySpelling(plainLetters(w)))
}

// clitic counts what stands after an apostrophe: "didn't", "it'll", "James's".
func clitic(stem, ending string) int {
	last := stem[len(stem)-1]
	switch ending {
	case "t":
		if strings.HasSuffix(stem, "dn") || strings.HasSuffix(stem, "sn") {
			return 1
		}
	case "ll", "d", "ve":
		if !strings.ContainsRune("aeiouy", rune(last)) && !(ending == "d") {
			return 1
		}
		if ending == "d" && (last == 't' || last == 'd') {
			return 1
		}
	case "s":
		if hisses(stem) {
			return 1
		}
	}
	return 0
}

// hisses reports whether an added s makes a syllable of its own.
func hisses(stem string) bool {
	for _, e := range []string{"s", "x", "z", "ch", "sh", "ce", "ge", "se", "ze"} {
		if strings.HasSuffix(stem, e) {
			return true
		}
	}
	return false
}

func plainLetters(w string) string {
	w = strings.NewReplacer("ï", "hi", "ë", "hi").Replace(w) // a vowel of its own: naïve, Zoë
	return strings.Map(func(r rune) rune {
		switch r {
		case 'à', 'â', 'ä', 'á', 'å', 'ā':
			return 'a'
		case 'é', 'è', 'ê', 'ē':
			return 'i' // sounded, never a silent e
		case 'í', 'ì', 'î', 'ī':
			return 'i'
		case 'ó', 'ò', 'ô', 'ö', 'ø', 'ō':
			return 'o'
		case 'ú', 'ù', 'û', 'ü', 'ū':
			return 'u'
		}
		return r
	}, w)
}

func vowel(c byte) bool { return strings.IndexByte("aeiouy", c) >= 0 }

// silentBefore are endings before which a final e stays silent: "lonely".
var silentBefore = []string{"ly", "ful", "fully", "less", "lessly", "lessness", "ness", "ment", "ments", "some", "thing", "where", "body", "man", "men", "work", "land", "side", "ways", "wide", "wise", "dom"}

// silentFirst are first parts of compounds whose e stays silent: "homemade".
var silentFirst = []string{"bare", "cheese", "eye", "fire", "fore", "game", "home", "horse", "house", "lake", "life", "lime", "line", "moose", "mouse", "nose", "race", "rose", "shoe", "side", "smoke", "some", "stone", "state", "time", "there", "where", "wide", "wine", "every"}

func bySpelling(w string) int {
	switch w {
	case "eye":
		return 1
	case "every":
		return 2
	}
	for _, e := range silentBefore {
		stem, ok := strings.CutSuffix(w, e)
		if ok && len(stem) > 2 && stem[len(stem)-1] == 'e' && !vowel(stem[len(stem)-2]) && hasVowel(stem[:len(stem)-1]) && !(stem[len(stem)-2] == 'l' && !vowel(stem[len(stem)-3])) {
			return bySpelling(stem) + bySpelling(e)
		}
	}
	for _, first := range silentFirst {
		rest, ok := strings.CutPrefix(w, first)
		if ok && len(rest) > 2 && !vowel(rest[0]) && hasVowel(rest) {
			return bySpelling(first) + bySpelling(rest)
		}
	}
	n, inside := 0, false
	for i := 0; i < len(w); i++ {
		v := vowel(w[i])
		if w[i] == 'y' && i+1 < len(w) && vowel(w[i+1]) && (i == 0 || vowel(w[i-1])) {
			v = false // a consonant: yes, beyond, playing
		}
		if w[i] == 'u' && i > 0 && w[i-1] == 'q' {
			v = false
		}
		if v && !inside {
			n++
		}
		inside = v
	}
	n += between(w)
	n -= silent(w)
	if strings.HasSuffix(w, "ically") {
		n-- // spoken -ikly
	}
	if strings.HasSuffix(w, "sm") || strings.HasSuffix(w, "sms") || strings.HasSuffix(w, "thm") {
		n++
	}
	return max(1, n)
}

func hasVowel(s string) bool { return strings.ContainsAny(s, "aeiouy") }

// between counts the breaks inside vowel groups.
func between(w string) int {
	n := 0
	for i := 0; i+1 < len(w); i++ {
		a, b := w[i], w[i+1]
		prev, rest := byte(0), w[i:]
		if i > 0 {
			prev = w[i-1]
		}
		switch {
		case a == 'i' && b == 'a':
			// special, initial: one; dial, piano: two
			if (prev == 'c' || prev == 't') && (strings.HasPrefix(rest, "ial") || strings.HasPrefix(rest, "ian")) || strings.HasPrefix(rest, "iage") {
				continue
			}
			n++
		case a == 'i' && b == 'o':
			// nation, vision, region, cushion, precious: one; lion, curious: two
			if i > 0 && strings.IndexByte("tscgxh", prev) >= 0 || strings.HasPrefix(rest, "ion") && prev == 'l' && i > 2 || strings.HasPrefix(rest, "ior") && prev == 'v' {
				continue
			}
			n++
		case a == 'i' && b == 'u':
			n++
		case a == 'u' && b == 'a':
			if prev == 'q' || prev == 'g' || prev == 's' {
				continue
			}
			n++
		case a == 'e' && b == 'a' && (prev == 'e' || rest == "eate" || rest == "eates" || strings.HasPrefix(rest, "eation")):
			n++ // agreeable, delineate, creation
		case a == 'e' && b == 'o':
			if strings.HasPrefix(rest, "eou") && (prev == 'g' || prev == 'c') || prev == 'p' || prev == 'g' && (i > 1 || strings.HasPrefix(w, "georg")) {
				continue
			}
			n++
		case a == 'u' && b == 'o' && strings.HasPrefix(rest, "uous"):
			n++
		case (a == 'o' || a == 'e' || a == 'u' || a == 'i') && strings.HasPrefix(rest[1:], "ing") && i > 0:
			if prev != 'q' && !(a == 'u' && prev == 'g') {
				n++
			}
		case a == 'y' && b == 'i' && prev != 0 && !vowel(prev):
			n++ // dying
		case a == 'y' && (b == 'e' || b == 'o' || b == 'a') && prev != 0 && !vowel(prev):
			if !(b == 'e' && i+2 == len(w)) && rest != "yed" && rest != "yes" && rest != "yeing" {
				n++ // flyer, embryo
			}
		case a == 'i' && b == 'e':
			if prev == 'r' && strings.HasPrefix(rest, "ience") || strings.HasPrefix(rest, "iet") ||
				(rest == "ier" || rest == "iest" || rest == "iers") && prev != 0 && hasVowel(w[:i]) && !vowel(prev) && prev != 'd' {
				n++ // happier; not soldier
			}
			if strings.HasPrefix(rest, "ience") && prev != 'r' && prev != 't' || strings.HasPrefix(rest, "ient") && prev != 't' && prev != 'c' {
				n++
			}
		case a == 'u' && b == 'e' && (strings.HasPrefix(rest, "uel") || strings.HasPrefix(rest, "uet") || strings.HasPrefix(rest, "uen")) && prev != 'q' && prev != 'g':
			n++
		case a == 'u' && b == 'i' && strings.HasPrefix(rest, "uity"):
			n++
		}
	}
	return n
}

// silent counts an e at the end of w that is not spoken.
func silent(w string) int {
	if len(w) < 3 {
		return 0
	}
	ends := func(s string) bool { return strings.HasSuffix(w, s) }
	c := func(back int) byte {
		if back > len(w) {
			return 0
		}
		return w[len(w)-back]
	}
	switch {
	case ends("gue"), ends("que"), ends("gues"), ends("ques"), ends("gued"), ends("qued"):
		return 1 // tongue, oblique
	case ends("e"):
		if vowel(c(2)) {
			return 0 // one group already: tree, blue
		}
		if c(2) == 'l' && !vowel(c(3)) && c(3) != 'w' && c(3) != 'r' && c(3) != 'l' {
			return 0 // table
		}
		if c(2) == 'r' && (c(3) == 'c' || c(3) == 'b' || c(3) == 't') {
			return 0 // acre
		}
		if hasVowel(w[:len(w)-1]) {
			return 1
		}
	case ends("es"):
		if vowel(c(3)) || hisses(w[:len(w)-2]) || c(3) == 'c' || c(3) == 'g' {
			return 0
		}
		if c(3) == 'l' && !vowel(c(4)) && c(4) != 'r' {
			return 0 // tables
		}
		if hasVowel(w[:len(w)-2]) {
			return 1
		}
	case ends("ed"):
		if c(3) == 'y' && len(w) > 3 && vowel(c(4)) {
			return 1 // stayed
		}
		if vowel(c(3)) || c(3) == 't' || c(3) == 'd' {
			return 0
		}
		if c(3) == 'l' && !vowel(c(4)) && c(4) != 'r' && c(4) != 'l' && c(4) != 'w' {
			return 0 // settled
		}
		if hasVowel(w[:len(w)-2]) {
			return 1
		}
	}
	return 0
}
