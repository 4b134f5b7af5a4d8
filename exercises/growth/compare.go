package growth

import (
	"fmt"
	"math"

	"feltpage/nlp"
)

// Comparison is how the sittings of a later phase lie to those of an earlier
// one. It describes; it says neither that anything grew nor why.
type Comparison struct {
	M, N   int     // sittings with answers that count, in each phase
	NAP    float64 // share of pairs in which the later sitting lies higher, ties half; NaN without pairs
	Lo, Hi float64 // 95 % interval as if sittings were independent, which they are not
	Tau    float64
	TauU   float64 // with the trend inside the first phase taken out
}

// leastSittings is how many sittings each phase needs before a comparison is
// said in a sentence (three with reservation, five without: the single-case
// standards of 2010, from memory).
const leastSittings = 3

// Compare compares the shares of two phases. Sittings in which nothing counts
// are left out.
func Compare(first, second []Point) Comparison {
	a, b := shares(first), shares(second)
	c := Comparison{M: len(a), N: len(b), NAP: NAP(a, b), Tau: Tau(a, b), TauU: TauU(a, b)}
	c.Lo, c.Hi = NAPInterval(c.NAP, c.M, c.N, Z95)
	return c
}

// Sentence says the comparison in plain words, or that there is too little to
// compare.
func (c Comparison) Sentence() nlp.Reason {
	slots := map[string]string{"m": fmt.Sprint(c.M), "n": fmt.Sprint(c.N)}
	if c.M < leastSittings || c.N < leastSittings {
		return nlp.Reason{Code: "growth.compare-few", Slots: slots}
	}
	slots["nap"], slots["lo"], slots["hi"] = hundredth(c.NAP), hundredth(c.Lo), hundredth(c.Hi)
	return nlp.Reason{Code: "growth.compare", Slots: slots}
}

func hundredth(p float64) string { return fmt.Sprint(int(math.Round(p * 100))) }

func shares(ps []Point) []float64 {
	var out []float64
	for _, p := range ps {
		if p.N > 0 {
			out = append(out, p.Share())
		}
	}
	return out
}
