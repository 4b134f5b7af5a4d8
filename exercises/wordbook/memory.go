package wordbook

import "math"

// Rating says how well a word came back.
type Rating int

// Ratings, from not at all to with ease.
const (
	Lost   Rating = 1 // did not come
	Barely Rating = 2 // came with a prompt
	Came   Rating = 3 // came alone
	Easy   Rating = 4 // came unasked
)

// Memory is what the memory model keeps of one word: stability, the days after
// which the chance to recall it has sunk to 0.9, and difficulty, 1 to 10. The
// zero value is a word never met.
type Memory struct {
	Stability  float64
	Difficulty float64
}

// The model is FSRS-6, an open scheduler (Ye, Su & Cao 2022, KDD, for its
// beginnings), with its published default weights. They were fitted to other
// learners and other words: a plan, not a measurement of this learner.
var w = [21]float64{.212, 1.2931, 2.3065, 8.2956, 6.4133, .8334, 3.0194, .001, 1.8722, .1666, .796,
	1.4835, .0614, .2629, 1.6483, .6014, 1.8729, .5425, .0912, .0658, .1542}

// factor makes recall 0.9 when the days passed equal the stability.
var factor = math.Pow(.9, -1/w[20]) - 1

// leastStability keeps the formulas finite.
const leastStability = .001

// Recall is the chance, 0 to 1, that a word comes back after so many days.
func (m Memory) Recall(days float64) float64 {
	if m.Stability <= 0 {
		return 0
	}
	return math.Pow(1+factor*max(days, 0)/m.Stability, -w[20])
}

// Interval is the days after which the chance of recall has sunk to r, above 0
// and below 1.
func (m Memory) Interval(r float64) float64 {
	return m.Stability / factor * (math.Pow(r, -1/w[20]) - 1)
}

// Met gives the memory after the word was met, days after the time before.
func (m Memory) Met(g Rating, days float64) Memory {
	g = min(max(g, Lost), Easy)
	if m.Stability <= 0 {
		return Memory{Stability: w[g-1], Difficulty: within(firstDifficulty(g))}
	}
	next := Memory{Difficulty: m.harder(g)}
	switch r := m.Recall(days); {
	case days < 1:
		grow := math.Exp(w[17]*(float64(g)-3+w[18])) * math.Pow(m.Stability, -w[19])
		if g >= Came {
			grow = max(grow, 1)
		}
		next.Stability = m.Stability * grow
	case g == Lost:
		next.Stability = min(
			w[11]*math.Pow(m.Difficulty, -w[12])*(math.Pow(m.Stability+1, w[13])-1)*math.Exp(w[14]*(1-r)),
			m.Stability/math.Exp(w[17]*w[18]))
	default:
		grow := math.Exp(w[8]) * (11 - m.Difficulty) * math.Pow(m.Stability, -w[9]) * (math.Exp(w[10]*(1-r)) - 1)
		switch g {
		case Barely:
			grow *= w[15]
		case Easy:
			grow *= w[16]
		}
		next.Stability = m.Stability * (1 + grow)
	}
	next.Stability = max(next.Stability, leastStability)
	return next
}

func firstDifficulty(g Rating) float64 { return w[4] - math.Exp(w[5]*float64(g-1)) + 1 }

func (m Memory) harder(g Rating) float64 {
	d := m.Difficulty - w[6]*float64(g-3)*(10-m.Difficulty)/9
	return within(w[7]*firstDifficulty(Easy) + (1-w[7])*d)
}

func within(d float64) float64 { return min(max(d, 1), 10) }
