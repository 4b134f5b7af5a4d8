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
	rate     float64          // step of the first pass; later ones are smaller
	own      float64          // L2 on a word's own say
	shared   float64          // L2 on what words of one sense share
	drop     float64          // share of terms dropped at random in each pass
	bySource [sources]float64 // how much examples of each source count
	even     float64          // 0: classes count as they come; 1: all alike
	power    float64          // 1: each feeling is guessed as often as it is asked about; 0: all alike
	seed     uint64
}

// usual are the settings that the shipped weights were learned with. They were
// tried on held-out parts of the stories.
var usual = settings{epochs: 6, rate: 0.2, own: 20, shared: 1e-4, drop: 0.1, even: 0.5, power: 0.7, seed: 1,
	bySource: [sources]float64{everyday: 0.1, invented: 4, single: 0.5, asked: 3, tails: 2, told: 1, quiet: 0}}

// sharing slows what words of one sense share, which every example moves.
const sharing = 0.3

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

	// prior is the say that a word has before anything is learned, by our own
	// judgement; what is learned of it is a step away from there.
	prior [situations.Slots][]float32

	mass [situations.Slots][]float32 // how much each word was seen in each slot
	now  float64                     // the step of this pass
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
		l.prior[s] = make([]float32, len(words)*l.classes)
		l.mass[s] = make([]float32, len(words))
	}
	return l
}

// loud is the log odds by which a word of our own list speaks for its families:
// loudest as a verb, which says most of what happens.
var loud = [situations.Slots]float32{
	situations.DoesVerb: 1.2, situations.MeetsVerb: 1.4, situations.Owns: 1.2, situations.Hears: 0.8, situations.Says: 0.8,
	situations.DoesRest: 0.7, situations.MeetsRest: 0.7, situations.Sees: 0.8, situations.Scene: 0.6,
}

// judge sets the words of our own list to what we hold of them.
func (l *learner) judge(examples []example) {
	for _, e := range examples {
		if e.source != single {
			continue
		}
		for _, t := range e.terms {
			x, mean := l.prior[t.slot][int(t.word)*l.classes:][:l.classes], float32(0)
			for c, share := range e.want {
				x[c] = loud[t.slot] * float32(math.Sqrt(float64(share)))
				mean += x[c] / float32(l.classes)
			}
			for c := range x {
				x[c] -= mean
			}
			copy(l.own[t.slot][int(t.word)*l.classes:], x)
		}
	}
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

// step learns from one example by stochastic gradient descent on the cross
// entropy with L2 and gives its loss before. The L2 of a word's own say is
// spread over its examples, so that a word seldom met stays near zero.
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
	rate := float32(l.now)
	for c, g := range w.grad {
		l.bias[d][c] -= rate * g
	}
	for _, t := range ts {
		at := int(t.word) * l.classes
		x, prior := l.own[t.slot][at:at+l.classes], l.prior[t.slot][at:at+l.classes]
		back := min(rate*float32(l.settings.own)/l.mass[t.slot][t.word]*float32(weight)*abs(t.weight), 0.5)
		step := rate * t.weight
		for c, g := range w.grad {
			x[c] -= step*g + back*(x[c]-prior[c])
		}
	}
	decay := rate * float32(l.shared*weight)
	for s := range w.used {
		if !w.used[s] {
			continue
		}
		for i, x := range w.sum[s] {
			row := l.project[s][i*l.classes:][:l.classes]
			x *= sharing * rate
			for c, g := range w.grad {
				row[c] -= x*g + decay*row[c]
			}
		}
	}
	return loss
}

// train learns from the examples whose fold is not held, in a shuffled order
// fixed by the seed.
func (l *learner) train(examples []example, held int) float64 {
	l.judge(examples)
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
			l.mass[t.slot][t.word] += float32(weights[i]) * abs(t.weight)
		}
	}
	w, last := newWork(l.classes), 0.0
	var kept []term
	for epoch := range l.epochs {
		l.now = l.rate / (1 + float64(epoch)*1.5)
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
	l.calibrate(examples, held)
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

// says is what a word says in a slot, in log odds that add up to nothing over
// the classes.
func (l *learner) says(word int, s situations.Slot) []float64 {
	out := make([]float64, l.classes)
	for c, x := range l.own[s][word*l.classes:][:l.classes] {
		out[c] = float64(x)
	}
	for i, y := range l.vec[word] {
		for c, x := range l.project[s][i*l.classes:][:l.classes] {
			out[c] += float64(y) * float64(x)
		}
	}
	mean := 0.0
	for _, x := range out {
		mean += x / float64(len(out))
	}
	for c := range out {
		out[c] -= mean
	}
	return out
}

// mix adds a share of another learner's weights.
func (l *learner) mix(o *learner, share float32) {
	add := func(into, from []float32) {
		for i, x := range from {
			into[i] += share * x
		}
	}
	for d := range l.bias {
		add(l.bias[d], o.bias[d])
	}
	for s := range l.own {
		add(l.own[s], o.own[s])
		add(l.project[s], o.project[s])
	}
}

// unit is the log odds of one step of the stored weights.
const unit = 1.0 / 32

func (l *learner) model(words []string) *situations.Model {
	bias := make([]float64, l.classes)
	for c, x := range l.bias[1] {
		bias[c] = float64(x)
	}
	return situations.NewModel(unit, bias, words, l.says)
}

// calibrate moves the biases of stories so that over what the questions ask
// about each feeling is guessed as often as it is felt there, drawn towards
// evenness by the power.
func (l *learner) calibrate(examples []example, held int) {
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
		target[c] = math.Pow(target[c]+2, l.power)
		sum += target[c]
	}
	for c := range target[:n] {
		target[c] /= sum
	}
	w := newWork(l.classes)
	for range 8 {
		mean, total := make([]float64, l.classes), 0.0
		for _, e := range use {
			l.scores(e.terms, 1, w)
			for c, p := range w.z[:n] {
				mean[c] += float64(p/max(1-w.z[n], 1e-6)) * e.weight
			}
			total += e.weight
		}
		for c := range mean[:n] {
			l.bias[1][c] += float32(math.Log(target[c] / (mean[c]/total + 1e-9)))
		}
	}
}

func abs(x float32) float32 { return max(x, -x) }
