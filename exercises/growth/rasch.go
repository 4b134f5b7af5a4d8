package growth

import (
	"errors"
	"math"
)

// ErrNoFinite says that no ability can be stated: nothing was answered, or all
// or none of it fits, so that the likelihood has no top.
var ErrNoFinite = errors.New("no finite ability: nothing, all or none of the answers fit")

// Rasch is the chance of a fitting answer at ability theta to an item of the
// given difficulty, both in logits: 1/(1+e^−(θ−δ)).
func Rasch(theta, difficulty float64) float64 {
	return 1 / (1 + math.Exp(difficulty-theta))
}

// Ability gives the ability in logits that makes a score most likely among
// items of known difficulty, with its standard error 1/√information. The score
// is the number of fitting answers.
func Ability(difficulty []float64, score int) (theta, se float64, err error) {
	if score <= 0 || score >= len(difficulty) {
		return math.NaN(), math.Inf(1), ErrNoFinite
	}
	expect := func(t float64) (sum, info float64) {
		for _, d := range difficulty {
			p := Rasch(t, d)
			sum += p
			info += p * (1 - p)
		}
		return sum, info
	}
	// The expected score rises with ability: halve between bounds that hold
	// the answer whatever the difficulties.
	lo, hi := difficulty[0], difficulty[0]
	for _, d := range difficulty {
		lo, hi = min(lo, d), max(hi, d)
	}
	far := math.Log(float64(len(difficulty))) + 1
	lo, hi = lo-far, hi+far
	for range 80 {
		theta = (lo + hi) / 2
		if s, _ := expect(theta); s < float64(score) {
			lo = theta
		} else {
			hi = theta
		}
	}
	_, info := expect(theta)
	return theta, 1 / math.Sqrt(info), nil
}

// PartialCredit gives the chance of each score 0 to len(steps) at ability
// theta: P(x) ∝ exp Σ over k ≤ x of (θ − step k) (Masters 1982, Psychometrika
// 47).
func PartialCredit(theta float64, steps []float64) []float64 {
	logs := make([]float64, len(steps)+1)
	top := 0.0
	for k, s := range steps {
		logs[k+1] = logs[k] + theta - s
		top = max(top, logs[k+1])
	}
	var sum float64
	for i, l := range logs {
		logs[i] = math.Exp(l - top)
		sum += logs[i]
	}
	for i := range logs {
		logs[i] /= sum
	}
	return logs
}
