// Package growth counts what was answered and states it with its doubt: shares
// with Wilson intervals, overlap statistics between phases, agreement between
// two markers, and the ability that a set of answers speaks for. Everything is
// a pure function of its arguments. Nothing here claims growth.
package growth

import "math"

// Z95 is the standard normal quantile for a two-sided 95 % interval.
const Z95 = 1.959963984540054

// Wilson gives the score interval for x of n (Wilson 1927, Journal of the
// American Statistical Association 22; form as in Newcombe 1998). z is the
// normal quantile, Z95 for 95 %. For n <= 0 nothing is known: 0 to 1. x is
// kept within 0 to n.
func Wilson(x, n int, z float64) (lo, hi float64) {
	if n <= 0 {
		return 0, 1
	}
	x = min(max(x, 0), n)
	p, nf := float64(x)/float64(n), float64(n)
	mid := p + z*z/(2*nf)
	half := z * math.Sqrt(p*(1-p)/nf+z*z/(4*nf*nf))
	d := 1 + z*z/nf
	lo, hi = (mid-half)/d, (mid+half)/d
	// At the ends the formula gives 0 and 1 but for rounding.
	if x == 0 {
		lo = 0
	}
	if x == n {
		hi = 1
	}
	return max(lo, 0), min(hi, 1)
}
