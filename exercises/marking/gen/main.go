// Command gen writes the list of English words that lie so near a feeling word
// that they could pass for a slip of it: brightened, wired, cared. Marking
// never takes one of them for the feeling word.
//
//	go run ./gen /usr/share/wordnet neighbours.txt
package main

import (
	"bufio"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"feltpage/exercises/marking/slips"
	"feltpage/nlp/feelings"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: gen WORDNET-FOLDER OUTPUT")
	}
	english, err := wordnet(os.Args[1])
	if err != nil {
		log.Fatal(err)
	}
	table, err := feelings.Load()
	if err != nil {
		log.Fatal(err)
	}
	known := map[string]bool{}
	for _, w := range table.Words() {
		known[w] = true
	}
	var out []string
	for w := range english {
		if known[w] {
			continue
		}
		for k := range known {
			if slips.Near(w, k) {
				out = append(out, w)
				break
			}
		}
	}
	sort.Strings(out)
	head := `# English words that could pass for a slip of a feeling word and are none.
# Source: words of WordNet 3.0 and their regular inflections, written by
#   exercises/marking/gen from /usr/share/wordnet (Debian wordnet-base)
# Licence: WordNet 3.0 license, Copyright 2006 Princeton University
# Language: en
`
	if err := os.WriteFile(os.Args[2], []byte(head+strings.Join(out, "\n")+"\n"), 0o644); err != nil {
		log.Fatal(err)
	}
}

// wordnet gives all single words of the index files, with the regular
// inflections of verbs and nouns and the irregular ones of the exception lists.
func wordnet(dir string) (map[string]bool, error) {
	out := map[string]bool{}
	for _, kind := range []string{"noun", "verb", "adj", "adv"} {
		for _, file := range []string{"index." + kind, kind + ".exc"} {
			f, err := os.Open(filepath.Join(dir, file))
			if err != nil {
				return nil, fmt.Errorf("reading WordNet: %w", err)
			}
			sc := bufio.NewScanner(f)
			sc.Buffer(nil, 1<<20)
			for sc.Scan() {
				w, _, _ := strings.Cut(sc.Text(), " ")
				if w == "" || strings.IndexFunc(w, func(r rune) bool { return r < 'a' || r > 'z' }) >= 0 {
					continue
				}
				for _, x := range inflect(w, kind) {
					out[x] = true
				}
			}
			err = sc.Err()
			f.Close()
			if err != nil {
				return nil, fmt.Errorf("reading %s: %w", file, err)
			}
		}
	}
	return out, nil
}

func inflect(w, kind string) []string {
	out := []string{w}
	if kind != "noun" && kind != "verb" {
		return out
	}
	stem, last := w, w[len(w)-1]
	switch {
	case last == 'y' && len(w) > 1 && !vowel(w[len(w)-2]):
		stem = w[:len(w)-1] + "i"
		out = append(out, stem+"es")
	case strings.HasSuffix(w, "s"), strings.HasSuffix(w, "x"), strings.HasSuffix(w, "z"), strings.HasSuffix(w, "ch"), strings.HasSuffix(w, "sh"):
		out = append(out, w+"es")
	default:
		out = append(out, w+"s")
	}
	if kind == "verb" {
		if last == 'e' {
			out = append(out, w+"d", w[:len(w)-1]+"ing")
		} else {
			out = append(out, stem+"ed", w+"ing")
			if n := len(w); n > 2 && vowel(w[n-2]) && !vowel(w[n-3]) && !vowel(last) && !strings.ContainsRune("wxy", rune(last)) {
				out = append(out, w+string(last)+"ed", w+string(last)+"ing")
			}
		}
	}
	return out
}

func vowel(b byte) bool { return strings.IndexByte("aeiou", b) >= 0 }
