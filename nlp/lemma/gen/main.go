// Command gen writes the list of words that package lemma embeds, from WordNet
// (Debian package wordnet-base). Run it by "go generate ./nlp/lemma".
package main

import (
	"bufio"
	"fmt"
	"log"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

const header = `# Single words that are verbs, and adjectives that occur in SemCor, with how
# often SemCor has them as noun, verb, adjective and adverb (of all senses).
# -1 says that WordNet has no such sense at all.
# Source: index.* and cntlist.rev of WordNet 3.0 (Debian package wordnet-base),
# written by nlp/lemma/gen.
# Licence: WordNet 3.0 licence. WordNet 3.0 Copyright 2006 by Princeton
# University. All rights reserved. This software and database is provided "as
# is" and Princeton University makes no representations or warranties, express
# or implied. Permission to use, copy, modify and distribute this database is
# granted without fee, provided that this notice is kept and the name of
# Princeton University is not used in advertising.
`

// Numbers of the parts of speech in the columns, as WordNet's sense keys have
// them; 5 is an adjective too.
const noun, verb, adjective, adverb = 0, 1, 2, 3

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: gen WORDNET-DIR OUT")
	}
	if err := run(os.Args[1], os.Args[2]); err != nil {
		log.Fatal(err)
	}
}

func run(dir, out string) error {
	words := map[string]*[4]int{}
	for kind, name := range []string{"index.noun", "index.verb", "index.adj", "index.adv"} {
		err := lines(filepath.Join(dir, name), func(f []string) {
			w := f[0]
			if strings.Trim(w, "abcdefghijklmnopqrstuvwxyz-") != "" || w == "" {
				return
			}
			if words[w] == nil {
				words[w] = &[4]int{-1, -1, -1, -1}
			}
			words[w][kind] = 0
		})
		if err != nil {
			return err
		}
	}
	err := lines(filepath.Join(dir, "cntlist.rev"), func(f []string) {
		w, sense, ok := strings.Cut(f[0], "%")
		if !ok || words[w] == nil || len(f) < 3 {
			return
		}
		n, err := strconv.Atoi(f[2])
		if err != nil {
			return
		}
		kind := int(sense[0] - '1')
		if sense[0] == '5' {
			kind = adjective
		}
		if words[w][kind] >= 0 {
			words[w][kind] += n
		}
	})
	if err != nil {
		return err
	}
	var b strings.Builder
	b.WriteString(header)
	for _, w := range slices.Sorted(maps.Keys(words)) {
		if c := words[w]; c[verb] >= 0 || c[adjective] > 0 {
			fmt.Fprintln(&b, w, c[noun], c[verb], c[adjective], c[adverb])
		}
	}
	return os.WriteFile(out, []byte(b.String()), 0o644)
}

// lines calls f with the fields of each line of a file.
func lines(name string, f func(fields []string)) error {
	in, err := os.Open(name)
	if err != nil {
		return err
	}
	defer in.Close()
	sc := bufio.NewScanner(in)
	sc.Buffer(nil, 1<<20)
	for sc.Scan() {
		if !strings.HasPrefix(sc.Text(), "  ") {
			f(strings.Fields(sc.Text()))
		}
	}
	return sc.Err()
}
