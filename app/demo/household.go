package demo

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"

	"feltpage/app/record"
	"feltpage/exercises"
	"feltpage/nlp"
)

//go:embed household.txt
var embedded string

// household is what the file tells. Days in it are days ago.
type household struct {
	people      []*person
	expressions []record.Expression
}

type person struct {
	record.Learner
	begins    float64 // first story, as a share of the shelf
	skill     float64 // log-odds of aiming at the key alone, at first, in a moment of no difficulty
	gain      float64 // log-odds a week
	words     []record.Word
	happened  []happening
	likeMe    map[string]string // family: what is told
	couldHelp []string
	notes     []dated[record.BodyNote]
	used      []happening
	phases    []dated[record.PhaseLine]
}

// happening is an experience, or a use, of the word with this form.
type happening struct {
	form string
	ago  int
	record.Experience
}

type dated[T any] struct {
	ago  int
	what T
}

// parts says how many parts follow each kind of line.
var parts = map[string]int{"learner": 6, "word": 6, "happened": 7, "like-me": 3, "could-help": 2, "note": 4,
	"used": 4, "phase": 3, "expression": 5}

// parse reads the household's file. Errors name the line.
func parse(text string) (*household, error) {
	for _, must := range []string{"# Source:", "# Licence:"} {
		if !strings.Contains(text, must) {
			return nil, fmt.Errorf("household.txt: no %q", must)
		}
	}
	h := &household{}
	for n, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		p := strings.Split(line, "|")
		for i := range p {
			p[i] = strings.TrimSpace(p[i])
		}
		kind, p := p[0], p[1:]
		if want, ok := parts[kind]; !ok || len(p) != want {
			return nil, fmt.Errorf("household.txt:%d: %q with %d parts", n+1, kind, len(p))
		}
		if err := h.add(kind, p); err != nil {
			return nil, fmt.Errorf("household.txt:%d: %w", n+1, err)
		}
	}
	return h, nil
}

func (h *household) add(kind string, p []string) error {
	switch kind {
	case "learner":
		who := &person{likeMe: map[string]string{},
			Learner: record.Learner{Nickname: p[0], Mode: exercises.AnswerMode(p[1]), Look: record.DefaultLook}}
		who.Demo = true
		for i, to := range []*float64{&who.Look.SizePt, &who.begins, &who.skill, &who.gain} {
			var err error
			if *to, err = strconv.ParseFloat(p[2+i], 64); err != nil {
				return err
			}
		}
		h.people = append(h.people, who)
		return nil
	case "expression":
		x := record.Expression{Text: p[0], Kind: p[1], Families: []nlp.Weight{{Family: p[2], Weight: 1}}, Places: list(p[3]), Note: p[4]}
		x.Demo = true
		h.expressions = append(h.expressions, x)
		return nil
	}
	for _, who := range h.people {
		if who.Nickname == p[0] {
			return who.add(kind, p[1:])
		}
	}
	return fmt.Errorf("nobody is called %q", p[0])
}

func (who *person) add(kind string, p []string) (err error) {
	ago := 0
	day := func(s string) {
		if n, e := strconv.Atoi(s); e != nil || n < 0 {
			err = fmt.Errorf("%q is not a number of days", s)
		} else {
			ago = n
		}
	}
	switch kind {
	case "word":
		w := record.Word{Form: p[0], Family: p[1], Places: list(p[2]), Language: p[4]}
		if w.Shade, err = strconv.ParseFloat(p[3], 64); err == nil {
			who.words = append(who.words, w)
		}
	case "happened":
		day(p[1])
		who.happened = append(who.happened, happening{p[0], ago,
			record.Experience{Place: p[2], HowStrong: p[3], What: p[4], Helped: p[5], WrittenBy: "Gran"}})
	case "used":
		day(p[1])
		who.used = append(who.used, happening{p[0], ago, record.Experience{What: p[2]}})
	case "like-me":
		who.likeMe[p[0]] = p[1]
	case "could-help":
		who.couldHelp = append(who.couldHelp, p[0])
	case "note":
		day(p[0])
		who.notes = append(who.notes, dated[record.BodyNote]{ago, record.BodyNote{Places: list(p[1]), Said: p[2]}})
	case "phase":
		day(p[0])
		who.phases = append(who.phases, dated[record.PhaseLine]{ago, record.PhaseLine{Label: p[1]}})
	}
	if err == nil && (kind == "happened" || kind == "used") && !who.has(p[0]) {
		err = fmt.Errorf("%s has no word %q", who.Nickname, p[0])
	}
	return err
}

func (who *person) has(form string) bool {
	for _, w := range who.words {
		if w.Form == form {
			return true
		}
	}
	return false
}

func list(s string) []string {
	var out []string
	for _, x := range strings.Split(s, ",") {
		if x = strings.TrimSpace(x); x != "" {
			out = append(out, x)
		}
	}
	return out
}
