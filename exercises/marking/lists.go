package marking

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

//go:generate go run ./gen /usr/share/wordnet neighbours.txt

//go:embed neighbours.txt
var neighboursFile string

//go:embed synonyms.txt
var synonymsFile string

// neighbours are English words that could pass for a slip of a feeling word.
var neighbours = sync.OnceValue(func() map[string]bool {
	out := map[string]bool{}
	for _, l := range mustLines("neighbours.txt", neighboursFile) {
		out[l] = true
	}
	return out
})

// synonyms leads each word of a set to the set's first word.
var synonyms = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	for _, l := range mustLines("synonyms.txt", synonymsFile) {
		set := strings.Fields(l)
		for _, w := range set {
			if _, ok := out[w]; !ok {
				out[w] = set[0]
			}
		}
	}
	return out
})

func mustLines(name, text string) []string {
	out, err := lines(name, text)
	if err != nil {
		panic(err) // a broken embedded file is caught by this package's tests
	}
	return out
}

// lines reads a list of one entry a line. The file must state its source and
// licence in comments.
func lines(name, text string) ([]string, error) {
	if !strings.Contains(text, "# Source:") || !strings.Contains(text, "# Licence:") {
		return nil, fmt.Errorf("%s: states no source or licence", name)
	}
	var out []string
	for _, l := range strings.Split(text, "\n") {
		if l = strings.TrimSpace(l); l != "" && l[0] != '#' {
			out = append(out, l)
		}
	}
	return out, nil
}
