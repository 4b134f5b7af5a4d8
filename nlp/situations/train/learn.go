package main

import (
	"math"
	"math/rand/v2"
	"strings"

	"feltpage/nlp/situations"
)

// settings are what a run of learning is given.
type settings struct {
	epochs   int
	rate     float64          // AdaGrad's first step
	own      float64          // L2 on a word's own say
	shared   float64          // L2 on what words of one sense share
	drop     float64          // share of terms dropped at random in each pass
	bySource [sources]float64 // how much examples of each source count
	even     float64          // 0: classes count as they come; 1: all alike
	seed     uint64
}

// learner is the model while it is learned: a word's say is a projection of
// its vector (shared by words of one sense) plus a part of its own, held small
// so that it grows only where the data insist.
type learner struct {
	settings
	classes int
	vec     [][]float32
	bias    [2][]float32 // everyday, stories
	project [situations.Slots][]float32
	own     [situations.Slots][]float32

	mass  [situations.Slots][]float32 // how much each word was seen in each slot
	step0 float64
	share float64
}

func newLearner(words []string, vec vectors, s settings) *learner {
	l := &learner{settings: s, classes: len(situations.Classes), vec: make([][]float32, len(words))}
	for i, w := range words {
		if !strings.HasPrefix(w, "not ") { // what is not done says something else
			l.vec[i] = vec[w]
		}
	}
	for d := range l.bias {
		l.bias[d] = make([]float32, l.classes)
	}
	for s := range situations.Slots {
		l.project[s] = make([]float32, dims*l.classes)
		l.own[s] = make([]float32, len(words)*l.classes)
		l.mass[s] = make([]float32, len(words))
	}
	return l
}

func domain(source int) int {
	if source == everyday {
		return 0
	}
	return 1
}

// work holds the sums of one step.
type work struct {
	z, grad []float32
	sum     [situations.Slots][]float32 // of the vectors of each slot
	used    [situations.Slots]bool
}

func newWork(classes int) *work {
	w := &work{z: make([]float32, classes), grad: make([]float32, classes)}
	for s := range w.sum {
		w.sum[s] = make([]float32, dims)
	}
	return w
}

// scores fills w.z with the probability of each class.
func (l *learner) scores(ts []term, domain int, w *work) {
	copy(w.z, l.bias[domain])
	for s := range w.used {
		if w.used[s] {
			clear(w.sum[s])
			w.used[s] = false
		}
	}
	for _, t := range ts {
		o := l.own[t.slot][int(t.word)*l.classes:][:l.classes]
		for c, x := range o {
			w.z[c] += x * t.weight
		}
		if v := l.vec[t.word]; v != nil {
			w.used[t.slot] = true
			u := w.sum[t.slot]
			for i, x := range v {
				u[i] += x * t.weight
			}
		}
	}
	for s := range w.used {
		if !w.used[s] {
			continue
		}
		for i, x := range w.sum[s] {
			row := l.project[s][i*l.classes:][:l.classes]
			for c, p := range row {
				w.z[c] += x * p
			}
		}
	}
	top := w.z[0]
	for _, x := range w.z {
		top = max(top, x)
	}
	total := 0.0
	for c, x := range w.z {
		e := math.Exp(float64(x - top))
		w.z[c] = float32(e)
		total += e
	}
	for c := range w.z {
		w.z[c] /= float32(total)
	}
}

// step learns from one example by AdaGrad on the cross entropy (Duchi, Hazan &
// Singer 2011) and gives its loss before.
func (l *learner) step(ts []term, e *example, weight float64, w *work) float64 {
	d := domain(e.source)
	l.scores(ts, d, w)
	loss := 0.0
	for c, p := range w.z {
		if e.want[c] > 0 {
			loss -= weight * float64(e.want[c]) * math.Log(math.Max(float64(p), 1e-9))
		}
		w.grad[c] = float32(weight) * (p - e.want[c])
	}
	rate := float32(l.step0)
	move := func(x []float32, scale, decay float32) {
		decay = min(decay, 0.5/rate)
		for c, g := range w.grad {
			x[c] -= rate * (g*scale + decay*x[c])
		}
	}
	move(l.bias[d], 1, 0)
	for _, t := range ts {
		at := int(t.word) * l.classes
		move(l.own[t.slot][at:at+l.classes], t.weight, float32(l.settings.own)/l.mass[t.slot][t.word]*float32(weight)*t.weight)
	}
	for s := range w.used {
		if !w.used[s] {
			continue
		}
		for i, x := range w.sum[s] {
			at := i * l.classes
			move(l.project[s][at:at+l.classes], x*float32(l.share), float32(l.shared*weight))
		}
	}
	return loss
}

// train learns from the examples whose fold is not held, in a shuffled order
// fixed by the seed.
func (l *learner) train(examples []example, held int) float64 {
	weights := l.weigh(examples, held)
	rng := rand.New(rand.NewPCG(l.seed, 1))
	var order []int
	for i := range examples {
		if weights[i] > 0 {
			order = append(order, i)
		}
	}
	for _, i := range order {
		for _, t := range examples[i].terms {
			l.mass[t.slot][t.word] += float32(weights[i]) * t.weight
		}
	}
	l.share = env("SHARE", 0.3)
	w, last := newWork(l.classes), 0.0
	var kept []term
	for epoch := range l.epochs {
		l.step0 = l.rate / (1 + float64(epoch)*1.5)
		rng.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
		loss, total := 0.0, 0.0
		for _, i := range order {
			kept = kept[:0]
			for _, t := range examples[i].terms {
				if rng.Float64() >= l.drop {
					kept = append(kept, t)
				}
			}
			loss += l.step(kept, &examples[i], weights[i], w)
			total += weights[i]
		}
		last = loss / total
	}
	return last
}

// weigh gives each example its weight in learning: by its source, and more
// where its feeling is rare.
func (l *learner) weigh(examples []example, held int) []float64 {
	var mass [sources][]float64
	for s := range mass {
		mass[s] = make([]float64, l.classes)
	}
	var total [sources]float64
	for _, e := range examples {
		if e.fold == held && e.fold >= 0 {
			continue
		}
		for c, x := range e.want {
			mass[e.source][c] += float64(x) * e.weight
			total[e.source] += float64(x) * e.weight
		}
	}
	out := make([]float64, len(examples))
	for i, e := range examples {
		if e.fold == held && e.fold >= 0 {
			continue
		}
		f := 0.0
		for c, x := range e.want {
			if x == 0 {
				continue
			}
			share := (mass[e.source][c] + 1) / (total[e.source] + float64(l.classes))
			f += float64(x) * math.Pow(1/(share*12), l.even)
		}
		out[i] = e.weight * l.bySource[e.source] * math.Min(f, 6)
	}
	return out
}

// say is a word's say in log odds.
func (l *learner) say(word int, s situations.Slot, c int) float64 {
	x := float64(l.own[s][word*l.classes+c])
	if v := l.vec[word]; v != nil {
		for i, y := range v {
			x += float64(y) * float64(l.project[s][i*l.classes+c])
		}
	}
	return x
}

// unit is the log odds of one step of the stored weights.
const unit = 1.0 / 32

func (l *learner) model(words []string) *situations.Model {
	bias := make([]float64, l.classes)
	for c, x := range l.bias[1] {
		bias[c] = float64(x)
	}
	return situations.NewModel(unit, bias, words, l.say)
}

// calibrate moves the biases of stories so that over what the questions ask
// about each feeling is guessed as often as it is felt there, drawn towards
// evenness by the power; "none" gets the share quiet.
func (l *learner) calibrate(examples []example, held int, power, quiet float64) {
	n := l.classes - 1
	target := make([]float64, l.classes)
	var use []*example
	for i := range examples {
		e := &examples[i]
		if e.source != asked || e.fold == held && held >= 0 {
			continue
		}
		use = append(use, e)
		for c, x := range e.want {
			target[c] += float64(x) * e.weight
		}
	}
	sum := 0.0
	for c := range target[:n] {
		target[c] = math.Pow(target[c]+2, power)
		sum += target[c]
	}
	for c := range target[:n] {
		target[c] *= (1 - quiet) / sum
	}
	target[n] = quiet
	w := newWork(l.classes)
	for range 8 {
		mean, total := make([]float64, l.classes), 0.0
		for _, e := range use {
			l.scores(e.terms, 1, w)
			for c, p := range w.z {
				mean[c] += float64(p) * e.weight
			}
			total += e.weight
		}
		for c := range mean {
			l.bias[1][c] += float32(math.Log(target[c] / (mean[c]/total + 1e-9)))
		}
	}
}
