// Package slips says how near two spellings lie and how many slips of the pen
// a word forgives.
package slips

// Forgiven is how many slips are forgiven in a word of n letters: none in a
// short one, where nearly every slip is another word.
func Forgiven(n int) int {
	switch {
	case n < 4:
		return 0
	case n < 8:
		return 1
	}
	return 2
}

// Near reports whether a, as written, could be a slip of the word b. The
// shorter of the two decides how much is forgiven.
func Near(a, b string) bool {
	x, y := len([]rune(a)), len([]rune(b))
	limit := Forgiven(min(x, y))
	return limit > 0 && max(x, y)-min(x, y) <= limit && Distance(a, b) <= limit
}

// Distance is the optimal string alignment distance: the least number of
// letters put in, left out, changed, or swapped with their neighbour (Damerau
// 1964, Communications of the ACM 7; Levenshtein 1966).
func Distance(a, b string) int {
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
