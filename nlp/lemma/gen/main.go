// Command gen writes the list of English verbs that package lemma embeds, from
// WordNet's index (Debian package wordnet-base). Run it by
// "go generate ./nlp/lemma".
package main

import (
	"bufio"
	"fmt"
	"log"
	"os"
	"strings"
)

const header = `# Base forms of English verbs: the single words of WordNet 3.0's index.verb.
# Source: WordNet 3.0 (Debian package wordnet-base), written by nlp/lemma/gen.
# Licence: WordNet 3.0 licence. WordNet 3.0 Copyright 2006 by Princeton
# University. All rights reserved. This software and database is provided "as
# is" and Princeton University makes no representations or warranties, express
# or implied. Permission to use, copy, modify and distribute this database is
# granted without fee, provided that this notice is kept and the name of
# Princeton University is not used in advertising.
`

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: gen INDEX.VERB OUT")
	}
	in, err := os.Open(os.Args[1])
	if err != nil {
		log.Fatal(err)
	}
	defer in.Close()
	var out strings.Builder
	out.WriteString(header)
	for sc := bufio.NewScanner(in); sc.Scan(); {
		w, _, _ := strings.Cut(sc.Text(), " ")
		if w != "" && strings.Trim(w, "abcdefghijklmnopqrstuvwxyz") == "" {
			fmt.Fprintln(&out, w)
		}
	}
	if err := os.WriteFile(os.Args[2], []byte(out.String()), 0o644); err != nil {
		log.Fatal(err)
	}
}
