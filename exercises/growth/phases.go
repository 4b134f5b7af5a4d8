package growth

import "math"

// NAP is the non-overlap of all pairs between two phases when an increase is
// wanted: the share of pairs (a, b) with b above a, ties half (Parker & Vannest
// 2009, Behavior Therapy 40). It is NaN where a phase is empty.
func NAP(a, b []float64) float64 {
	if len(a) == 0 || len(b) == 0 {
		return math.NaN()
	}
	return (pairs(a, b)/float64(len(a)*len(b)) + 1) / 2
}

// Tau is 2·NAP − 1.
func Tau(a, b []float64) float64 { return 2*NAP(a, b) - 1 }

// TauU takes the trend of phase a out of Tau: (S_AB − S_A)/(m·n) (Parker,
// Vannest, Davis & Sauber 2011, Behavior Therapy 42). It can leave ±1.
func TauU(a, b []float64) float64 {
	if len(a) == 0 || len(b) == 0 {
		return math.NaN()
	}
	return (pairs(a, b) - trend(a)) / float64(len(a)*len(b))
}

// pairs is S: pairs that rise minus pairs that fall, from a to b.
func pairs(a, b []float64) float64 {
	var s float64
	for _, x := range a {
		for _, y := range b {
			s += sign(y - x)
		}
	}
	return s
}

// trend is S inside one phase.
func trend(a []float64) float64 {
	var s float64
	for i := range a {
		for j := i + 1; j < len(a); j++ {
			s += sign(a[j] - a[i])
		}
	}
	return s
}

func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
