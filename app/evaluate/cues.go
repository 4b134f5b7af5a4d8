package evaluate

import (
	"io/fs"

	"feltpage/app/inspect"
	"feltpage/nlp"
)

type passage struct {
	ID   string `json:"id"`
	Text string `json:"text"`
}

type cueMark struct {
	Passage  string   `json:"passage"`
	Wide     [2]int   `json:"wide"`
	Who      []string `json:"who"`
	Kinds    []string `json:"kinds"`
	Feelings []string `json:"feelings"`
	Also     []string `json:"also"`
	Denied   bool     `json:"denied"`
	Required bool     `json:"required"`
}

func core(kind string) bool {
	return kind == nlp.Named || kind == nlp.Body || kind == nlp.FaceVoice
}

func anyCore(kinds []string) bool {
	for _, k := range kinds {
		if core(k) {
			return true
		}
	}
	return false
}

func meets(c inspect.Cue, m cueMark) bool {
	return c.Span[0] < m.Wide[1] && m.Wide[0] < c.Span[1]
}

// top gives the heaviest family, the first of equals.
func top(c inspect.Cue) string {
	best, at := 0.0, ""
	for _, f := range c.Feelings {
		if at == "" || f.Weight > best {
			best, at = f.Weight, f.Family
		}
	}
	return at
}

// cueRows measures clues in passages: recall over the marks that both readers
// required, precision over all marks, feeling and owner of what was found.
// Situation cues are left out.
func cueRows(rd reader, data fs.FS, half Half) ([]Row, error) {
	passages, err := lines[passage](data, "cues-dev-passages.jsonl")
	if err != nil {
		return nil, err
	}
	all, err := lines[cueMark](data, "cues-dev.jsonl")
	if err != nil {
		return nil, err
	}
	marks := map[string][]cueMark{}
	for _, m := range all {
		marks[m.Passage] = append(marks[m.Passage], m)
	}
	var n struct {
		asked, found, coreAsked, coreFound, given, good, coreGiven, coreGood int
		strict, lenient, top, owner, denied                                  int
	}
	byKind := map[string][2]int{}
	for i, p := range passages {
		if !half.takes(i) {
			continue
		}
		d, err := rd.read(p.Text)
		if err != nil {
			return nil, err
		}
		var cues []inspect.Cue
		for _, c := range d.Cues {
			if c.Kind != nlp.Situation {
				cues = append(cues, c)
			}
		}
		for _, m := range marks[p.ID] {
			if !m.Required {
				continue
			}
			var hits []inspect.Cue
			for _, c := range cues {
				if meets(c, m) {
					hits = append(hits, c)
				}
			}
			k := byKind[m.Kinds[0]]
			k[1]++
			n.asked++
			isCore := anyCore(m.Kinds)
			if isCore {
				n.coreAsked++
			}
			if len(hits) > 0 {
				k[0]++
				n.found++
				if isCore {
					n.coreFound++
				}
				fits, also := setOf(m.Feelings), setOf(m.Feelings, m.Also)
				var strict, lenient, topOK, owner, denied bool
				for _, c := range hits {
					for _, f := range c.Feelings {
						strict = strict || fits[f.Family]
						lenient = lenient || also[f.Family]
					}
					topOK = topOK || also[top(c)]
					denied = denied || c.Denied == m.Denied
					for _, w := range m.Who {
						owner = owner || sameCharacter(names(d, c.Character, p.Text), w)
					}
				}
				n.strict += one(strict)
				n.lenient += one(lenient)
				n.top += one(topOK)
				n.owner += one(owner)
				n.denied += one(denied)
			}
			byKind[m.Kinds[0]] = k
		}
		for _, c := range cues {
			ok := false
			for _, m := range marks[p.ID] {
				ok = ok || meets(c, m)
			}
			n.given++
			n.good += one(ok)
			if core(c.Kind) {
				n.coreGiven++
				n.coreGood += one(ok)
			}
		}
	}
	rows := []Row{
		share("clues", "recall", n.found, n.asked),
		share("clues", "precision", n.good, n.given),
		share("clues", "recall: named, body, face-voice", n.coreFound, n.coreAsked),
		share("clues", "precision: named, body, face-voice", n.coreGood, n.coreGiven),
		share("clues", "feeling, strict", n.strict, n.found),
		share("clues", "feeling, lenient", n.lenient, n.found),
		share("clues", "first feeling, lenient", n.top, n.found),
		share("clues", "owner", n.owner, n.found),
		share("clues", "denial", n.denied, n.found),
	}
	for _, k := range []string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech} {
		rows = append(rows, share("clues", "recall: "+k, byKind[k][0], byKind[k][1]))
	}
	return rows, nil
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

func setOf(lists ...[]string) map[string]bool {
	m := map[string]bool{}
	for _, l := range lists {
		for _, s := range l {
			m[s] = true
		}
	}
	return m
}
