package marking

// slip finds the feeling word that a misspelt word stands for. A word that is
// known, of the table, the learner's book or the story, is never taken for
// another; nor is one that lies equally near two feeling words of different
// families.
func (j judge) slip(s string) (string, bool) {
	if littleWords[s] || j.inStory(s) {
		return "", false
	}
	best, bestD := "", 3
	tie := false
	for _, w := range j.known() {
		limit := slipLimit(len([]rune(w)))
		if limit == 0 {
			continue
		}
		d := distance(s, w)
		switch {
		case d > limit || d > bestD:
		case d < bestD:
			best, bestD, tie = w, d, false
		case w != best && !j.sameFamily(w, best):
			tie = true
		}
	}
	return best, best != "" && !tie
}

// slipLimit is how many slips are forgiven in a word of n letters.
func slipLimit(n int) int {
	switch {
	case n < 4:
		return 0
	case n < 8:
		return 1
	}
	return 2
}

func (j judge) known() []string {
	out := j.Table.Words()
	for _, w := range j.Book.Words {
		if w.Family != "" {
			out = append(out, w.Form)
		}
	}
	return out
}

func (j judge) sameFamily(a, b string) bool {
	x, y := j.families(a), j.families(b)
	return len(x) > 0 && len(y) > 0 && x[0] == y[0]
}

func (j judge) inStory(s string) bool {
	for _, w := range words(j.Text, j.m.Span) {
		if w.text == s {
			return true
		}
	}
	return false
}

// distance is the optimal string alignment distance: the least number of
// letters put in, left out, changed, or swapped with their neighbour (Damerau
// 1964; Levenshtein 1966).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	var before []int
	last := make([]int, len(y)+1)
	for k := range last {
		last[k] = k
	}
	for i := 1; i <= len(x); i++ {
		row := make([]int, len(y)+1)
		row[0] = i
		for k := 1; k <= len(y); k++ {
			cost := 1
			if x[i-1] == y[k-1] {
				cost = 0
			}
			row[k] = min(row[k-1]+1, last[k]+1, last[k-1]+cost)
			if i > 1 && k > 1 && x[i-1] == y[k-2] && x[i-2] == y[k-1] {
				row[k] = min(row[k], before[k-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(y)]
}
