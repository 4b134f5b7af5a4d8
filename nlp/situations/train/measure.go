package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"feltpage/nlp/situations"
)

// examiner measures guesses against the experts' answers. The families of the
// answers come from the file made for measuring; learning does not see it.
type examiner struct{ families, near map[string][]string }

func newExaminer(data string) (*examiner, error) {
	var e examiner
	for name, into := range map[string]*map[string][]string{"answer-families.json": &e.families, "near-families.json": &e.near} {
		b, err := os.ReadFile(filepath.Join(data, name))
		if err != nil {
			return nil, err
		}
		if err := json.Unmarshal(b, into); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return &e, nil
}

// shares gives each family its part of the answers.
func (e *examiner) shares(q question) map[string]float64 {
	out := map[string]float64{}
	for _, a := range append(append([]string{}, q.Answers...), q.Second...) {
		var fs []string
		for _, f := range e.families[strings.TrimRight(strings.ToLower(strings.TrimSpace(a)), ".")] {
			if f != "other" {
				fs = append(fs, f)
			}
		}
		for _, f := range fs {
			out[f] += 1 / float64(len(fs))
		}
	}
	return out
}

func heaviestOf(m map[string]float64) string {
	best := ""
	for f, v := range m {
		if best == "" || v > m[best] || v == m[best] && f > best {
			best = f
		}
	}
	return best
}

// tally adds up credit: the guessed family's part over the largest, half of
// that for a near family; and the same averaged over families, so that a
// constant guess gains nothing.
type tally map[string][]float64

func (e *examiner) mark(t tally, shares map[string]float64, guess string) float64 {
	c := 0.0
	if guess != "" {
		most := shares[heaviestOf(shares)]
		c = shares[guess] / most
		for _, n := range e.near[guess] {
			c = math.Max(c, 0.5*shares[n]/most)
		}
	}
	p := heaviestOf(shares)
	t[p] = append(t[p], c)
	return c
}

func (t tally) String() string {
	var sum, macro, n, big float64
	names := make([]string, 0, len(t))
	for f := range t {
		names = append(names, f)
	}
	sort.Strings(names)
	for _, f := range names {
		s := 0.0
		for _, c := range t[f] {
			s += c
		}
		sum += s
		n += float64(len(t[f]))
		if len(t[f]) >= 5 {
			macro += s / float64(len(t[f]))
			big++
		}
	}
	return fmt.Sprintf("%.3f/%.3f", sum/math.Max(1, n), macro/math.Max(1, big))
}

// exam is a question ready to be asked of any model.
type exam struct {
	fold     int
	explicit bool
	shares   map[string]float64
	shown    map[string]float64 // what the shown cues say
	parts    []examPart
}

type examPart struct {
	evidence []situations.Evidence
	close    float64
}

// exams prepares all questions. Words have the numbers of the model asked.
func (g *gatherer) exams(e *examiner) []exam {
	byName := map[string]*story{}
	readings := map[string]*situations.Reading{}
	for _, s := range g.stories {
		byName[s.name] = s
		readings[s.name] = situations.Read(s.doc, s.cast, s.quotes, s.cues, g.known)
	}
	var out []exam
	for _, q := range g.asked {
		s, shares := byName[q.Story], e.shares(q)
		if s == nil || len(shares) == 0 {
			continue
		}
		who, near, r := s.asked(q.who()), s.near(q), readings[q.Story]
		x := exam{fold: s.fold, explicit: q.Stated == "explicit", shares: shares, shown: map[string]float64{}}
		taken := map[[2]int]bool{}
		for _, c := range s.cues {
			if i := sentenceOf(s.doc, c.Span.Start); near[i] > 0 && who[c.Character] {
				taken[[2]int{i, c.Character}] = true
				if !c.Denied {
					for _, f := range c.Feelings {
						x.shown[f.Family] += f.Weight * near[i]
					}
				}
			}
		}
		for i := range s.doc.Sentences {
			if near[i] == 0 {
				continue
			}
			for _, c := range r.People(i) {
				if who[c] && !taken[[2]int{i, c}] {
					x.parts = append(x.parts, examPart{r.Evidence(i, c), near[i]})
				}
			}
		}
		out = append(out, x)
	}
	return out
}

// result is what one round of measuring found.
type result struct {
	alone, both [2]tally // implicit, explicit
	some        [2]int   // questions with a situation cue
}

func newResult() *result {
	return &result{alone: [2]tally{{}, {}}, both: [2]tally{{}, {}}}
}

func (r *result) String() string {
	return fmt.Sprintf("implicit: situations alone %v, with shown cues %v, some in %d; explicit: alone %v, with shown %v",
		r.alone[0], r.both[0], r.some[0], r.alone[1], r.both[1])
}

// sit asks the model every question of the fold (of all folds where held < 0).
func (e *examiner) sit(exams []exam, held int, scores func([]situations.Evidence) []float64, r *result) {
	for _, x := range exams {
		if held >= 0 && x.fold != held {
			continue
		}
		k := 0
		if x.explicit {
			k = 1
		}
		alone, both := map[string]float64{}, map[string]float64{}
		for f, w := range x.shown {
			both[f] = w
		}
		for _, p := range x.parts {
			fs, _ := situations.Feelings(scores(p.evidence))
			for _, f := range fs {
				alone[f.Family] += f.Weight * p.close
				both[f.Family] += f.Weight * p.close
			}
		}
		if len(alone) > 0 {
			r.some[k]++
		}
		e.mark(r.alone[k], x.shares, heaviestOf(alone))
		e.mark(r.both[k], x.shares, heaviestOf(both))
	}
}
