package marking

import (
	"slices"
	"strings"

	"feltpage/exercises/marking/slips"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// named is a feeling found in an answer.
type named struct {
	families []nlp.Weight
	denied   bool
}

var (
	deniers = set(`not no never without isn't wasn't don't doesn't didn't aren't weren't isnt wasnt dont doesnt didnt
		can't cant cannot won't wont couldn't nor neither hardly ain't aint n't`)
	// enders end the reach of a denial.
	enders = set(`but just only though because so instead rather`)
	// notDenying follow "not" without a denial of what comes: "not only scared".
	notDenying = set(`only just merely`)
	// hedges say how sure the learner is, not what the character feels.
	hedges = []string{"i don't know", "i dont know", "don't know", "dont know", "dunno", "not sure", "i'm not sure",
		"im not sure", "can't tell", "cant tell", "i am not sure", "no idea", "i think", "i guess"}
)

// longest is the most words a feeling phrase has.
const longest = 4

// read finds the feelings that free words name, in the order said.
func (j judge) read(said string) []named {
	ws := words(said, nlp.Span{End: len(said)})
	var out []named
	denied := false
	for i := 0; i < len(ws); {
		if i > 0 && strings.ContainsAny(said[ws[i-1].span.End:ws[i].span.Start], ".,;:!?\u2014-") {
			denied = false
		}
		if n := hedge(ws[i:]); n > 0 {
			i += n
			continue
		}
		switch w := ws[i].text; {
		case deniers[w]:
			denied = i+1 >= len(ws) || !notDenying[ws[i+1].text]
			i++
			continue
		case enders[w]:
			denied = false
		}
		took := 1
		for n := min(longest, len(ws)-i); n >= 1; n-- {
			if fs := j.families(join(ws[i : i+n])); len(fs) > 0 {
				out = append(out, named{fs, denied})
				took = n
				break
			}
		}
		i += took
	}
	return out
}

func join(ws []word) string {
	parts := make([]string, len(ws))
	for i, w := range ws {
		parts[i] = w.text
	}
	return strings.Join(parts, " ")
}

// hedge gives how many words of a hedge stand first.
func hedge(ws []word) int {
	for _, h := range hedges {
		n := strings.Count(h, " ") + 1
		if n <= len(ws) && join(ws[:n]) == h {
			return n
		}
	}
	return 0
}

// families gives what a word or phrase can mean: by the learner's own link
// first, then by the table, by its dictionary forms, and last as a slip of the
// pen.
func (j judge) families(s string) []nlp.Weight {
	if ws := j.known(s); len(ws) > 0 {
		return ws
	}
	if strings.Contains(s, " ") || littleWords[s] {
		return nil
	}
	for _, f := range forms(s)[1:] {
		if ws := j.known(f); len(ws) > 0 && !littleWords[f] {
			return ws
		}
	}
	for _, f := range forms(s) {
		if ws := j.sameForm(f); len(ws) > 0 {
			return ws
		}
	}
	return j.slip(s)
}

// sameForm finds a word of which both this one and a known one are forms:
// "rejoice" where "rejoicing" is known. The heaviest family of each counts; the
// first of equals by spelling.
func (j judge) sameForm(s string) []nlp.Weight {
	if len(s) < 4 {
		return nil
	}
	var best []nlp.Weight
	for _, w := range j.Table.Words() {
		if strings.HasPrefix(w, s[:3]) && slices.Contains(forms(w), s) {
			if ws := j.known(w); len(best) == 0 || len(ws) > 0 && ws[0].Weight > best[0].Weight {
				best = ws
			}
		}
	}
	return best
}

// known gives what a word or phrase means as it is spelt.
func (j judge) known(s string) []nlp.Weight {
	var out []nlp.Weight
	for _, w := range j.Book.Find(s) {
		if w.Family != "" {
			out = append(out, nlp.Weight{Family: w.Family, Weight: 1})
		}
	}
	if len(out) > 0 {
		feelings.SortWeights(out)
		return out
	}
	if littleWords[s] {
		return nil
	}
	return j.Table.FamilyOf(s)
}

// slip reads a misspelt feeling word. A word that is itself a word, of English,
// the learner's book or the passage, is never taken for another; nor is one
// that lies equally near to words of different families.
func (j judge) slip(s string) []nlp.Weight {
	if neighbours()[s] || j.inPassage(s) || len(j.Book.Find(s)) > 0 {
		return nil
	}
	var best []nlp.Weight
	bestD := 3
	for _, w := range j.spellings() {
		if !slips.Near(s, w) {
			continue
		}
		d := slips.Distance(s, w)
		if d > bestD {
			continue
		}
		fs := j.known(w)
		switch {
		case len(fs) == 0:
		case d < bestD, len(best) > 0 && best[0].Family == fs[0].Family && fs[0].Weight > best[0].Weight:
			best, bestD = fs, d
		case len(best) == 0 || best[0].Family != fs[0].Family:
			best = nil // two minds: neither
		}
	}
	return best
}

// spellings lists what a slip may stand for.
func (j judge) spellings() []string {
	out := j.Table.Words()
	for _, w := range j.Book.Words {
		if w.Family != "" {
			out = append(out, strings.ToLower(w.Form))
		}
	}
	return out
}

func (j judge) inPassage(s string) bool {
	for _, w := range words(j.Text, j.m.Span) {
		if w.text == s {
			return true
		}
	}
	return false
}
