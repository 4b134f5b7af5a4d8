package growth

import (
	"math"

	"feltpage/exercises"
)

// Weighting says how much a near miss counts in Kappa.
type Weighting int

// Weightings: none, by the distance of categories, by its square.
const (
	Unweighted Weighting = iota
	Linear
	Quadratic
)

// Kappa is agreement between two markers beyond what chance alone would give.
type Kappa struct {
	N        int
	Observed float64 // share of agreement, weighted
	Expected float64 // what chance would give
	Value    float64 // NaN where it is not defined: no items, or chance gives all
	SE       float64
	Lo, Hi   float64 // 95 %, by the normal approximation; rough for few items
}

// CohenKappa takes a square table of counts: row the first marker's category,
// column the second's, in order (Cohen 1960, 1968; standard error after
// Fleiss, Cohen & Everitt 1969, Psychological Bulletin 72).
func CohenKappa(table [][]int, w Weighting) Kappa {
	k := len(table)
	row, col := make([]float64, k), make([]float64, k)
	var n float64
	for i := range table {
		for j := range table[i] {
			c := float64(table[i][j])
			n += c
			row[i] += c
			col[j] += c
		}
	}
	out := Kappa{N: int(n), Value: math.NaN(), SE: math.NaN(), Lo: math.NaN(), Hi: math.NaN()}
	if n == 0 {
		return out
	}
	weight := func(i, j int) float64 {
		d := math.Abs(float64(i - j))
		switch {
		case w == Linear && k > 1:
			return 1 - d/float64(k-1)
		case w == Quadratic && k > 1:
			return 1 - d*d/float64((k-1)*(k-1))
		case i == j:
			return 1
		}
		return 0
	}
	byRow, byCol := make([]float64, k), make([]float64, k) // mean weights
	for i := range k {
		for j := range k {
			out.Observed += weight(i, j) * float64(table[i][j]) / n
			out.Expected += weight(i, j) * row[i] / n * col[j] / n
			byRow[i] += weight(i, j) * col[j] / n
			byCol[j] += weight(i, j) * row[i] / n
		}
	}
	if out.Expected >= 1 {
		return out
	}
	out.Value = (out.Observed - out.Expected) / (1 - out.Expected)
	var sum float64
	for i := range k {
		for j := range k {
			d := weight(i, j) - (byRow[i]+byCol[j])*(1-out.Value)
			sum += float64(table[i][j]) / n * d * d
		}
	}
	c := out.Value - out.Expected*(1-out.Value)
	out.SE = math.Sqrt(max(sum-c*c, 0)/n) / (1 - out.Expected)
	out.Lo, out.Hi = out.Value-Z95*out.SE, out.Value+Z95*out.SE
	return out
}

// markOrder is the order of marks for agreement.
var markOrder = []exercises.MarkValue{exercises.NotYet, exercises.Near, exercises.Fits}

// Blind counts the answers that the guide marked before seeing the program's
// mark: row the program's mark, column the guide's, from not yet to fits.
// Answers that either left unmarked are not counted.
func Blind(items []Item) [][]int {
	table := make([][]int, len(markOrder))
	for i := range table {
		table[i] = make([]int, len(markOrder))
	}
	at := func(v exercises.MarkValue) int {
		for i, o := range markOrder {
			if o == v {
				return i
			}
		}
		return -1
	}
	for _, it := range items {
		if i, j := at(it.Program), at(it.Guide); it.Blind && !it.Withdrawn && i >= 0 && j >= 0 {
			table[i][j]++
		}
	}
	return table
}
