package main

import (
	"flag"
	"fmt"
	"log"
	"math"
	"os"
	"time"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/situations"
)

func main() {
	log.SetFlags(0)
	data := flag.String("data", "", "folder of the open data")
	vectorsFile := flag.String("vectors", "", "word vectors, JSON")
	k := flag.Int("folds", 5, "folds")
	s := settings{epochs: 6, rate: 0.1, own: 5, shared: 1e-4, drop: 0.1, even: 0.5, seed: 1,
		bySource: [sources]float64{everyday: 0.3, invented: 2, single: 2, asked: 3, tails: 2, told: 1, quiet: 0.1}}
	flag.IntVar(&s.epochs, "epochs", s.epochs, "")
	flag.Float64Var(&s.rate, "rate", s.rate, "")
	flag.Float64Var(&s.own, "own", s.own, "")
	flag.Float64Var(&s.shared, "shared", s.shared, "")
	flag.Float64Var(&s.drop, "drop", s.drop, "")
	flag.Float64Var(&s.even, "even", s.even, "")
	for i := range s.bySource {
		flag.Float64Var(&s.bySource[i], sourceNames[i], s.bySource[i], "")
	}
	only := flag.Int("only", 0, "folds to run")
	flag.Parse()
	t0 := time.Now()
	vec, err := readVectors(*vectorsFile)
	check(err)
	table, err := feelings.Load()
	check(err)
	log.Println("vectors", len(vec), time.Since(t0))
	g, err := gather(*data, *k, newLabeller(table, vec))
	check(err)
	var n [sources]int
	for _, e := range g.examples {
		n[e.source]++
	}
	log.Println("gathered", n, len(g.words), "words; unknown answers", g.unknown, time.Since(t0))
	ex, err := newExaminer(*data)
	check(err)
	if env("COV", 0) > 0 {
		g.coverage(ex)
		return
	}
	if env("POOL", 0) > 0 {
		g.pooled(ex, vec, s, *k)
		return
	}
	exams := g.exams(ex)
	type policy struct {
		keep, sure, scale, sharp, minClose float64
	}
	pols := []policy{{0, 0, .45, 1, 0}, {0, 0, .45, 1, .5}, {0, 0, .45, 1, .9}, {0, 0, 1, 2, 0}, {0, 0, 2, 3, 0}, {0, .25, 1, 2, 0}, {0, .35, 1, 2, 0}, {0, .5, 1, 2, 0}, {0.1, .25, .45, 1, 0}, {.1, .35, .45, 1, 0}}
	rs := make([]*result, len(pols))
	for i := range rs {
		rs[i] = newResult()
	}
	for f := range *k {
		if *only > 0 && f >= *only {
			break
		}
		l := newLearner(g.words, vec, s)
		loss := l.train(g.examples, f)
		if pw := env("CALP", 0.7); pw > 0 {
			l.calibrate(g.examples, f, pw, env("CALQ", 0.3))
		}
		m := l.model(g.words)
		log.Println(guessed)
		if env("PEEK", 0) > 0 {
			g.peek(ex, m, f)
		}
		for i, p := range pols {
			ex.sit(exams, f, m.Shares, func(sh []float64) []nlp.Weight {
				var out []nlp.Weight
				top := 0.0
				n := len(sh) - 1
				for c, x := range sh[:n] {
					top = max(top, x)
					if x > p.keep {
						out = append(out, nlp.Weight{Family: situations.Classes[c], Weight: p.scale * math.Pow(x, p.sharp)})
					}
				}
				if top < p.sure {
					return nil
				}
				return out
			}, p.minClose, rs[i])
		}
		log.Printf("fold %d loss %.3f: %v (%v)", f, loss, rs[0], time.Since(t0))
	}
	log.Println(guessed)
	for i, p := range pols {
		log.Println(p, p.minClose, rs[i])
	}
}

var guessed = map[string]int{}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
