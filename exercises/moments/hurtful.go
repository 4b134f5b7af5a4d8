package moments

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
	"unicode"
)

//go:embed hurtful.txt
var hurtfulFile string

var hurtfulPhrases = sync.OnceValue(func() []string {
	list, err := phrases("hurtful.txt", hurtfulFile)
	if err != nil {
		panic(err) // a broken embedded file is caught by this package's tests
	}
	return list
})

// phrases reads a list of one phrase a line. The file must state its source
// and licence in comments.
func phrases(name, text string) ([]string, error) {
	if !strings.Contains(text, "# Source:") || !strings.Contains(text, "# Licence:") {
		return nil, fmt.Errorf("%s: states no source or licence", name)
	}
	var out []string
	for _, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out = append(out, plain(line))
		}
	}
	return out, nil
}

// hurtful reports whether a passage tells of cruelty, abandonment, abuse or a
// death, by words alone.
func hurtful(passage string) bool {
	p := plain(passage)
	for _, h := range hurtfulPhrases() {
		if strings.Contains(p, h) {
			return true
		}
	}
	return false
}

// plain gives the words in lower case with one blank around each.
func plain(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	return " " + strings.Join(words, " ") + " "
}
