package evaluate

import (
	"io/fs"
	"math"
	"regexp"
	"sort"
	"strings"

	"feltpage/app/inspect"
)

type question struct {
	Story    string   `json:"story"`
	Sections []int    `json:"sections"`
	Question string   `json:"question"`
	Answers  []string `json:"answers"`
	Second   []string `json:"second_annotator"`
	Stated   string   `json:"stated"`
}

type section struct {
	Section int    `json:"section"`
	Text    string `json:"text"`
}

// judge knows which families an expert's answer means, and which are near.
type judge struct{ families, near map[string][]string }

func (j judge) of(answer string) []string {
	return j.families[strings.TrimRight(strings.ToLower(strings.TrimSpace(answer)), ".")]
}

// shares gives each family its part of all the experts' answers; an answer of
// two families gives half to each.
func (j judge) shares(q question) map[string]float64 {
	d := map[string]float64{}
	for _, a := range append(append([]string{}, q.Answers...), q.Second...) {
		var fs []string
		for _, f := range j.of(a) {
			if f != "other" {
				fs = append(fs, f)
			}
		}
		for _, f := range fs {
			d[f] += 1 / float64(len(fs))
		}
	}
	return d
}

// credit is the predicted family's share over the largest, or half of that for
// a family near to it.
func (j judge) credit(shares map[string]float64, got string) float64 {
	if got == "" {
		return 0
	}
	most := 0.0
	for _, v := range shares {
		most = math.Max(most, v)
	}
	c := shares[got] / most
	for _, f := range j.near[got] {
		c = math.Max(c, 0.5*shares[f]/most)
	}
	return c
}

func primary(shares map[string]float64) string {
	best := ""
	for f, v := range shares {
		if best == "" || v > shares[best] || v == shares[best] && f > best {
			best = f
		}
	}
	return best
}

var (
	asks      = regexp.MustCompile(`(?i)^(?:how|what|why)\s+(?:did|does|do|will|would|was|were|is|had|has|could|can)\s+(.*?)\s+(?:feel|felt|feeling|become|look|react)\b`)
	feelSplit = regexp.MustCompile(`\bfe(?:el|lt|eling)\b`)
	sentence  = regexp.MustCompile(`[^.!?]+[.!?]*`)
)

func subject(q string) string {
	if m := asks.FindStringSubmatch(strings.TrimSpace(q)); m != nil {
		return m[1]
	}
	return ""
}

func stem5(w string) string {
	r := []rune(w)
	if len(r) > 5 {
		r = r[:5]
	}
	return string(r)
}

// anchor cuts the sections into sentences and gives the index of the one that
// shares most content words with what the question asks about, or -1.
func anchor(q, text string, sections [][2]int) (sents [][2]int, at int) {
	parts := feelSplit.Split(q, 2)
	want := map[string]bool{}
	for _, w := range content(parts[len(parts)-1]) {
		if !pronouns[w] && len([]rune(w)) > 2 {
			want[stem5(w)] = true
		}
	}
	best := 0
	at = -1
	for _, r := range sections {
		for _, m := range sentence.FindAllStringIndex(text[r[0]:r[1]], -1) {
			a, b := r[0]+m[0], r[0]+m[1]
			got := map[string]bool{}
			for _, w := range content(text[a:b]) {
				got[stem5(w)] = true
			}
			shared := 0
			for w := range want {
				shared += one(got[w])
			}
			sents = append(sents, [2]int{a, b})
			if shared > best {
				best, at = shared, len(sents)-1
			}
		}
	}
	return sents, at
}

// closeness is 1 at the anchor and falls with the distance in sentences.
func closeness(sents [][2]int, at, pos int) float64 {
	if at < 0 {
		return 1
	}
	i := at
	for j, s := range sents {
		if s[0] <= pos && pos < s[1] {
			i = j
			break
		}
	}
	return 1 / (1 + math.Abs(float64(i-at))/2)
}

// questionRows measures questions "How did X feel …?": the first family of
// that character's cues in the question's sections is the answer.
func questionRows(rd reader, data fs.FS, half Half) ([]Row, error) {
	qs, err := lines[question](data, "fairytale-dev/feeling-questions.jsonl")
	if err != nil {
		return nil, err
	}
	var j judge
	if j.families, err = object[map[string][]string](data, "answer-families.json"); err != nil {
		return nil, err
	}
	if j.near, err = object[map[string][]string](data, "near-families.json"); err != nil {
		return nil, err
	}
	byStory := map[string][]question{}
	var stories []string
	for _, q := range qs {
		if byStory[q.Story] == nil {
			stories = append(stories, q.Story)
		}
		byStory[q.Story] = append(byStory[q.Story], q)
	}
	sort.Strings(stories)
	type tally struct {
		n, owned int
		by       map[string][]float64
	}
	tallies := map[string]*tally{"explicit": {by: map[string][]float64{}}, "implicit": {by: map[string][]float64{}}}
	for i, name := range stories {
		if !half.takes(i) {
			continue
		}
		secs, err := lines[section](data, "fairytale-dev/stories/"+name+".jsonl")
		if err != nil {
			return nil, err
		}
		var text strings.Builder
		at := map[int][2]int{}
		for _, s := range secs {
			a := text.Len()
			text.WriteString(s.Text + "\n\n")
			at[s.Section] = [2]int{a, text.Len()}
		}
		t := text.String()
		d, err := rd.read(t)
		if err != nil {
			return nil, err
		}
		for _, q := range byStory[name] {
			shares := j.shares(q)
			if len(shares) == 0 {
				continue
			}
			var secs [][2]int
			for _, s := range q.Sections {
				if r, ok := at[s]; ok {
					secs = append(secs, r)
				}
			}
			got, owned := answer(d, t, q.Question, secs)
			k := tallies["implicit"]
			if q.Stated == "explicit" {
				k = tallies["explicit"]
			}
			k.n++
			k.owned += one(owned)
			p := primary(shares)
			k.by[p] = append(k.by[p], j.credit(shares, got))
		}
	}
	var rows []Row
	for _, stated := range []string{"explicit", "implicit"} {
		k := tallies[stated]
		set := "questions, " + stated
		var sum, macro float64
		big := 0
		fams := make([]string, 0, len(k.by))
		for f := range k.by {
			fams = append(fams, f)
		}
		sort.Strings(fams)
		for _, f := range fams {
			var s float64
			for _, c := range k.by[f] {
				s += c
			}
			sum += s
			if len(k.by[f]) >= 5 {
				big++
				macro += s / float64(len(k.by[f]))
			}
		}
		rows = append(rows,
			mean(set, "credit", sum/math.Max(1, float64(k.n)), k.n),
			mean(set, "macro", macro/math.Max(1, float64(big)), k.n),
			share(set, "has a clue of the character", k.owned, k.n))
	}
	return rows, nil
}

// answer adds up the weights of the asked character's cues by family.
func answer(d inspect.Object, text, q string, sections [][2]int) (family string, owned bool) {
	who := subject(q)
	if who == "" {
		return "", false
	}
	sents, at := anchor(q, text, sections)
	score := map[string]float64{}
	var order []string
	for _, c := range d.Cues {
		inside := false
		for _, r := range sections {
			inside = inside || r[0] <= c.Span[0] && c.Span[0] < r[1]
		}
		if c.Denied || !inside || !sameCharacter(names(d, c.Character, text), who) {
			continue
		}
		owned = true
		for _, f := range c.Feelings {
			if _, seen := score[f.Family]; !seen {
				order = append(order, f.Family)
			}
			score[f.Family] += f.Weight * closeness(sents, at, c.Span[0])
		}
	}
	for _, f := range order {
		if family == "" || score[f] > score[family] {
			family = f
		}
	}
	return family, owned
}
