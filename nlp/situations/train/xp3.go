package main

import (
	"fmt"
	"sort"
	"strings"

	"feltpage/nlp/situations"
)

func (g *gatherer) peek(ex *examiner, m *situations.Model, held int) {
	by := map[string]*story{}
	for _, s := range g.stories {
		by[s.name] = s
	}
	n := 0
	for _, q := range g.asked {
		s := by[q.Story]
		sh := ex.shares(q)
		if q.Stated == "explicit" || len(sh) == 0 || s.fold != held {
			continue
		}
		who, near := s.asked(q.who()), s.near(q)
		r := situations.Read(s.doc, s.cast, s.quotes, s.cues, g.known)
		for i := range s.doc.Sentences {
			if near[i] < 0.9 {
				continue
			}
			for _, c := range r.People(i) {
				if !who[c] {
					continue
				}
				n++
				if n > 30 {
					return
				}
				ev := r.Evidence(i, c)
				p := m.Shares(ev)
				idx := make([]int, len(p))
				for k := range idx {
					idx[k] = k
				}
				sort.Slice(idx, func(a, b int) bool { return p[idx[a]] > p[idx[b]] })
				fmt.Printf("## %s %v\n   %s\n  ", q.Question, q.Answers, strings.ReplaceAll(s.doc.Sentences[i].Span.Of(s.doc.Text), "\n", " "))
				for _, k := range idx[:4] {
					fmt.Printf(" %s %.2f", situations.Classes[k], p[k])
				}
				fmt.Println()
				top := idx[0]
				type ct struct {
					w string
					x float64
				}
				var cs []ct
				for _, e := range ev {
					if e.Weight < 0.15 {
						continue
					}
					mean := 0.0
					row := m.Row(e.Word, e.Slot)
					for _, v := range row {
						mean += float64(v) / float64(len(row))
					}
					cs = append(cs, ct{fmt.Sprintf("%d:%s", e.Slot, g.words[e.Word]), (float64(row[top]) - mean) / 32 * float64(e.Weight)})
				}
				sort.Slice(cs, func(a, b int) bool { return cs[a].x > cs[b].x })
				for k := 0; k < min(6, len(cs)); k++ {
					fmt.Printf("   %s %+.2f", cs[k].w, cs[k].x)
				}
				fmt.Println()
			}
		}
	}
}
