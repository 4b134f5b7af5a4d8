package growth

import "math"

// The statistics below compare a first phase a with a second phase b when an
// increase is wanted; negate the values where a decrease is. All of them treat
// the points as independent of each other, which points of one learner seldom
// are: say so wherever they are shown.

// NAP is the non-overlap of all pairs between two phases: the share of pairs
// (a, b) with b above a, ties half (Parker & Vannest 2009, Behavior Therapy
// 40). It is NaN where a phase is empty.
func NAP(a, b []float64) float64 { return (Tau(a, b) + 1) / 2 }

// Tau is 2·NAP − 1: pairs that rise minus pairs that fall, over all pairs. It
// is NaN where a phase is empty.
func Tau(a, b []float64) float64 { return pairs(a, b) / float64(len(a)*len(b)) }

// TauU takes the trend inside phase a out of Tau: (S_AB − S_A)/(m·n) (Parker,
// Vannest, Davis & Sauber 2011, Behavior Therapy 42). It can leave ±1, and is
// NaN where a phase is empty.
func TauU(a, b []float64) float64 {
	return (pairs(a, b) - trend(a)) / float64(len(a)*len(b))
}

// NAPNullSE is the standard error of NAP where nothing differs between phases
// of m and n points: √((m+n+1)/(12mn)).
func NAPNullSE(m, n int) float64 {
	return math.Sqrt(float64(m+n+1) / (12 * float64(m) * float64(n)))
}

// NAPInterval gives the interval of NAP by method 5 of Newcombe 2006
// (Statistics in Medicine 25), for phases of m and n points; z is the normal
// quantile. It is 0 to 1 where a phase is empty.
func NAPInterval(nap float64, m, n int, z float64) (lo, hi float64) {
	if m <= 0 || n <= 0 || math.IsNaN(nap) {
		return 0, 1
	}
	h := float64(m+n)/2 - 1
	inside := func(t float64) bool {
		v := z * z * t * (1 - t) / float64(m*n) * (1 + h*((1-t)/(2-t)+t/(1+t)))
		return (nap-t)*(nap-t) <= v
	}
	return edge(nap, 0, inside), edge(nap, 1, inside)
}

// edge halves its way from a point inside to the border before the end.
func edge(from, end float64, inside func(float64) bool) float64 {
	if inside(end) && from != end {
		return end
	}
	in, out := from, end
	for range 60 {
		mid := (in + out) / 2
		if inside(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	return in
}

// TauInterval gives the interval of Tau from that of NAP.
func TauInterval(tau float64, m, n int, z float64) (lo, hi float64) {
	lo, hi = NAPInterval((tau+1)/2, m, n, z)
	return 2*lo - 1, 2*hi - 1
}

// TauZ is Tau's S over its standard deviation where nothing differs, with the
// usual correction for ties (Kendall's rank test between two groups). It is 0
// where all points are equal and NaN where a phase is empty.
func TauZ(a, b []float64) float64 {
	m, n := float64(len(a)), float64(len(b))
	if m == 0 || n == 0 {
		return math.NaN()
	}
	count := map[float64]float64{}
	for _, x := range append(append([]float64{}, a...), b...) {
		count[x]++
	}
	var ties float64
	for _, t := range count {
		ties += t*t*t - t // whole numbers: the order of a map does not matter
	}
	all := m + n
	v := m * n / 3 * (all + 1 - ties/(all*(all-1)))
	if v <= 0 {
		return 0
	}
	return pairs(a, b) / math.Sqrt(v)
}

// pairs is S between phases: pairs that rise minus pairs that fall.
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
		s += pairs(a[i:i+1], a[i+1:])
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
