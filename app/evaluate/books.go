package evaluate

import (
	"io/fs"
	"math"
	"regexp"
	"sort"
	"strings"
)

type book struct {
	Text     string        `json:"text"`
	Mentions []bookMention `json:"mentions"`
	Quotes   []bookQuote   `json:"quotes"`
}

type bookMention struct {
	Start  int    `json:"start"`
	End    int    `json:"end"`
	Entity string `json:"entity"`
	Form   string `json:"form"`
	Chain  string `json:"chain"`
	Text   string `json:"text"`
}

type bookQuote struct {
	Start   int    `json:"start"`
	End     int    `json:"end"`
	Speaker string `json:"speaker"`
}

var (
	third     = set("he she him her his hers himself herself")
	leadWord  = regexp.MustCompile(`^(The|A|An|His|Her)\s`)
	nameShape = regexp.MustCompile(`\b[A-Z][a-z]`)
)

type found struct{ start, end, id int }

// bookRows measures people, pronouns and speakers in excerpts of novels. A
// pronoun is right when most of the other mentions of the predicted character
// belong to the pronoun's chain; a quote likewise by its speaker.
func bookRows(rd reader, data fs.FS, half Half) ([]Row, error) {
	books, err := lines[book](data, "litbank-dev/books.jsonl")
	if err != nil {
		return nil, err
	}
	var n struct{ pron, linked, right, prop, propFound, given, givenOK, quotes, quotesFound, quotesRight int }
	for i, b := range books {
		if !half.takes(i) {
			continue
		}
		d, err := rd.read(b.Text)
		if err != nil {
			return nil, err
		}
		var people []bookMention
		described := map[string]bool{}
		byEnd := map[int][]bookMention{}
		var noPronoun []bookMention
		for _, m := range b.Mentions {
			if m.Entity != "PER" {
				continue
			}
			people = append(people, m)
			if m.Form != "PRON" {
				described[m.Chain] = true
				byEnd[m.End] = append(byEnd[m.End], m)
				noPronoun = append(noPronoun, m)
			}
		}
		var ments []found
		for _, c := range d.Characters {
			for _, m := range c.Mentions {
				ments = append(ments, found{m[0], m[1], c.ID})
			}
		}
		sort.Slice(ments, func(a, b int) bool {
			x, y := ments[a], ments[b]
			if x.start != y.start {
				return x.start < y.start
			}
			if x.end != y.end {
				return x.end < y.end
			}
			return x.id < y.id
		})
		votes := map[int]*vote{}
		at := map[[2]int]int{}
		named := map[[2]int]bool{}
		var namedOrder [][2]int
		for _, f := range ments {
			span := [2]int{f.start, f.end}
			at[span] = f.id
			if pronouns[strings.ToLower(b.Text[f.start:f.end])] {
				continue
			}
			cand := byEnd[f.end]
			if len(cand) == 0 {
				for _, m := range noPronoun {
					if m.Start < f.end && f.start < m.End {
						cand = append(cand, m)
					}
				}
			}
			if len(cand) > 0 {
				best := cand[0]
				for _, m := range cand[1:] {
					if m.End-m.Start < best.End-best.Start {
						best = m
					}
				}
				if votes[f.id] == nil {
					votes[f.id] = &vote{count: map[string]int{}}
				}
				votes[f.id].add(best.Chain)
			}
			if !named[span] {
				named[span] = true
				namedOrder = append(namedOrder, span)
			}
		}
		chain := func(id int) string {
			if v := votes[id]; v != nil {
				return v.most()
			}
			return ""
		}
		for _, m := range people {
			if m.Form == "PRON" && third[strings.ToLower(m.Text)] && described[m.Chain] {
				n.pron++
				if id, ok := at[[2]int{m.Start, m.End}]; ok {
					n.linked++
					n.right += one(chain(id) == m.Chain)
				}
			}
			if m.Form == "PROP" {
				n.prop++
				hit := false
				for _, s := range namedOrder {
					hit = hit || s[0] < m.End && m.Start < s[1]
				}
				n.propFound += one(hit)
			}
		}
		for _, s := range namedOrder {
			if nameShape.MatchString(leadWord.ReplaceAllString(b.Text[s[0]:s[1]], "")) {
				n.given++
				ok := false
				for _, m := range people {
					ok = ok || (m.Form == "PROP" || m.Form == "NOM") && m.Start < s[1] && s[0] < m.End
				}
				n.givenOK += one(ok)
			}
		}
		for _, q := range b.Quotes {
			n.quotes++
			best, size := -1, 0
			for k, p := range d.Quotes {
				if o := min(p.Span[1], q.End) - max(p.Span[0], q.Start); o > size {
					best, size = k, o
				}
			}
			if best >= 0 {
				n.quotesFound++
				n.quotesRight += one(q.Speaker != "" && chain(d.Quotes[best].Speaker) == q.Speaker)
			}
		}
	}
	r := float64(n.propFound) / math.Max(1, float64(n.prop))
	p := float64(n.givenOK) / math.Max(1, float64(n.given))
	f1 := 0.0
	if p+r > 0 {
		f1 = 2 * p * r / (p + r)
	}
	return []Row{
		share("novels", "pronouns to the right character", n.right, n.pron),
		share("novels", "pronouns linked at all", n.linked, n.pron),
		share("novels", "quotes found", n.quotesFound, n.quotes),
		share("novels", "quotes to the right speaker", n.quotesRight, n.quotes),
		share("novels", "named persons, recall", n.propFound, n.prop),
		share("novels", "named persons, precision", n.givenOK, n.given),
		mean("novels", "named persons, F1", f1, n.prop),
	}, nil
}

// vote counts chains and keeps the first of equals.
type vote struct {
	count map[string]int
	order []string
}

func (v *vote) add(chain string) {
	if v.count[chain] == 0 {
		v.order = append(v.order, chain)
	}
	v.count[chain]++
}

func (v *vote) most() string {
	best := ""
	for _, c := range v.order {
		if best == "" || v.count[c] > v.count[best] {
			best = c
		}
	}
	return best
}
