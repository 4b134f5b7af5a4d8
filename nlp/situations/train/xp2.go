package main

import (
	"fmt"

	"feltpage/nlp/situations"
)

func (g *gatherer) coverage(ex *examiner) {
	by := map[string]*story{}
	for _, s := range g.stories {
		by[s.name] = s
	}
	var n, nocast, nomention, noparts, alltaken, ok int
	for _, q := range g.asked {
		if q.Stated == "explicit" || len(ex.shares(q)) == 0 {
			continue
		}
		n++
		s := by[q.Story]
		who, near := s.asked(q.who()), s.near(q)
		if len(who) == 0 {
			nocast++
			if nocast < 25 {
				fmt.Println("nocast", q.Question)
			}
			continue
		}
		men := false
		for _, c := range s.cast {
			if who[c.ID] {
				for _, m := range c.Mentions {
					if near[sentenceOf(s.doc, m.Span.Start)] > 0 {
						men = true
					}
				}
			}
		}
		if !men {
			nomention++
			if nomention < 15 {
				fmt.Println("nomention", q.Question)
			}
			continue
		}
		r := situations.Read(s.doc, s.cast, s.quotes, s.cues, g.known)
		taken := map[[2]int]bool{}
		for _, c := range s.cues {
			taken[[2]int{sentenceOf(s.doc, c.Span.Start), c.Character}] = true
		}
		p, t := 0, 0
		for i := range near {
			for _, c := range r.People(i) {
				if who[c] {
					p++
					if taken[[2]int{i, c}] {
						t++
					}
				}
			}
		}
		if p == 0 {
			noparts++
		} else if t == p {
			alltaken++
		} else {
			ok++
		}
	}
	fmt.Println("n", n, "nocast", nocast, "nomention", nomention, "noparts", noparts, "alltaken", alltaken, "ok", ok)
}
