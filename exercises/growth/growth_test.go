package growth

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/exercises"
	"feltpage/nlp"
)

func TestWilson(t *testing.T) {
	for _, c := range []struct {
		x, n   int
		lo, hi float64
		digits float64
	}{
		// R's binom package, as in the tests of statsmodels.
		{18, 20, .69897, .97213, 5e-6}, {4, 20, .08066, .41602, 5e-6},
		{0, 30, 0, .11351, 5e-6}, {1, 30, .00591, .16670, 5e-6}, {29, 30, .83330, .99409, 5e-6},
		// Newcombe 1998, Statistics in Medicine 17, 857–872, table I (typed from
		// memory, recomputed).
		{81, 263, .2553, .3662, 5e-5}, {15, 148, .0624, .1605, 5e-5}, {0, 20, 0, .1611, 5e-5}, {1, 29, .0061, .1718, 5e-5},
	} {
		lo, hi := Wilson(c.x, c.n, Z95)
		require.InDelta(t, c.lo, lo, c.digits, "%d/%d", c.x, c.n)
		require.InDelta(t, c.hi, hi, c.digits, "%d/%d", c.x, c.n)
	}
	lo, hi := Wilson(0, 0, Z95)
	require.Equal(t, [2]float64{0, 1}, [2]float64{lo, hi})
}

func TestWilsonHoldsTheShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 500).Draw(t, "n")
		x := rapid.IntRange(0, n).Draw(t, "x")
		lo, hi := Wilson(x, n, Z95)
		p := float64(x) / float64(n)
		if lo < 0 || hi > 1 || lo > p || hi < p {
			t.Fatalf("%d/%d: %v to %v", x, n, lo, hi)
		}
		// What does not fit mirrors what fits.
		mlo, mhi := Wilson(n-x, n, Z95)
		if math.Abs(mlo-(1-hi)) > 1e-12 || math.Abs(mhi-(1-lo)) > 1e-12 {
			t.Fatalf("not mirrored: %v %v %v %v", lo, hi, mlo, mhi)
		}
		if lo2, hi2 := Wilson(2*x, 2*n, Z95); hi2-lo2 >= hi-lo {
			t.Fatal("twice the answers say no more")
		}
	})
}

func TestPhases(t *testing.T) {
	type phases struct {
		a, b           []float64
		nap, tau, tauU float64
		source         string
	}
	nan := math.NaN() // not given by the source
	for _, c := range []phases{
		{[]float64{20, 20, 26, 25, 22, 23}, []float64{28, 25, 24, 27, 30, 30, 29}, 38.5 / 42, 35. / 42, .738,
			"Parker, Vannest & Davis 2011, Behavior Modification 35, p. 307, as in the tests of SingleCaseES"},
		{[]float64{3, 3, 4, 5}, []float64{4, 5, 6, 7, 7}, nan, .80, .55, "the same"},
		{[]float64{2, 3, 5, 3}, []float64{4, 5, 5, 7, 6}, nan, .80, .65,
			"Parker, Vannest, Davis & Sauber 2011, Behavior Therapy 42, as in the manual of scan"},
		{[]float64{4, 3, 4, 3, 4, 7, 5, 2, 3, 2}, []float64{5, 9, 7, 9, 7, 5, 9, 11, 11, 10, 9}, 106. / 110, nan, nan,
			"Parker & Vannest 2009, Behavior Therapy 40 (.96 in the paper, from memory)"},
		{[]float64{1, 2, 3, 4, 5}, []float64{6, 7, 8, 9, 10}, nan, 1, .60, "Tarlow 2017: a pure trend"},
		{[]float64{-12, -14, -9, -10}, []float64{-10, -6, -4, -5, -3, -4}, .94, nan, nan, "manual of scan, decrease wanted"},
	} {
		for _, v := range []struct {
			name      string
			want, got float64
		}{{"NAP", c.nap, NAP(c.a, c.b)}, {"Tau", c.tau, Tau(c.a, c.b)}, {"Tau-U", c.tauU, TauU(c.a, c.b)}} {
			if !math.IsNaN(v.want) {
				require.InDelta(t, v.want, v.got, .005, "%s: %s", v.name, c.source)
			}
		}
	}
	require.True(t, math.IsNaN(NAP(nil, []float64{1})))
}

func TestTauZ(t *testing.T) {
	// Manual of scan for the data of Parker et al. 2011: z 2.00, with ties.
	require.InDelta(t, 2.00, TauZ([]float64{2, 3, 5, 3}, []float64{4, 5, 5, 7, 6}), .005)
	require.Zero(t, TauZ([]float64{1, 1}, []float64{1}))
}

func TestNAPInterval(t *testing.T) {
	// Newcombe's method 5 as stated in the vignette of SingleCaseES; the
	// numbers for 106/110 with 10 and 11 points are computed from it.
	require.InDelta(t, .129, NAPNullSE(10, 11), .0005)
	lo, hi := NAPInterval(106./110, 10, 11, Z95)
	require.InDelta(t, .750, lo, .0005)
	require.InDelta(t, .995, hi, .0005)
	lo, hi = TauInterval(2*106./110-1, 10, 11, Z95)
	require.InDelta(t, .500, lo, .001)
	require.InDelta(t, .990, hi, .001)
}

func TestNAPIntervalHoldsNAP(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.SliceOfN(rapid.Float64Range(0, 10), 1, 12)
		a, b := draw.Draw(t, "a"), draw.Draw(t, "b")
		nap := NAP(a, b)
		lo, hi := NAPInterval(nap, len(a), len(b), Z95)
		if lo < 0 || hi > 1 || lo > nap || hi < nap {
			t.Fatalf("%v outside %v to %v", nap, lo, hi)
		}
		if back := NAP(b, a); math.Abs(nap+back-1) > 1e-12 {
			t.Fatalf("%v and %v do not make 1", nap, back)
		}
	})
}

func TestKappa(t *testing.T) {
	table := [][]int{{0, 4, 1}, {0, 8, 0}, {0, 1, 5}} // tests of statsmodels
	k := CohenKappa(table, Unweighted)
	require.InDelta(t, .4842, k.Value, 5e-5)
	require.InDelta(t, .1380, k.SE, 5e-5)
	require.InDelta(t, .2137, k.Lo, 5e-5)
	require.InDelta(t, .7547, k.Hi, 5e-5)
	k = CohenKappa(table, Linear)
	require.InDelta(t, .4701, k.Value, 5e-5)
	require.InDelta(t, .1457, k.SE, 5e-5)
	require.InDelta(t, .4502, CohenKappa(table, Quadratic).Value, 5e-5) // computed by hand

	k = CohenKappa([][]int{{20, 5}, {10, 15}}, Unweighted) // computed by hand
	require.InDelta(t, .70, k.Observed, 1e-9)
	require.InDelta(t, .50, k.Expected, 1e-9)
	require.InDelta(t, .40, k.Value, 1e-9)
	require.True(t, math.IsNaN(CohenKappa([][]int{{0, 0}, {0, 0}}, Unweighted).Value))
	require.True(t, math.IsNaN(CohenKappa([][]int{{7, 0}, {0, 0}}, Unweighted).Value))
}

func TestBlind(t *testing.T) {
	items := []Item{
		{Program: exercises.Fits, Guide: exercises.Fits, Blind: true},
		{Program: exercises.NotYet, Guide: exercises.Near, Blind: true},
		{Program: exercises.NotYet, Guide: exercises.Fits},
		{Program: exercises.ForGuide, Guide: exercises.Fits, Blind: true},
		{Program: exercises.Fits, Guide: exercises.Fits, Blind: true, Withdrawn: true},
	}
	require.Equal(t, [][]int{{0, 1, 0}, {0, 0, 0}, {0, 0, 1}}, Blind(items))
}

func TestRasch(t *testing.T) {
	require.InDelta(t, .7311, Rasch(1, 0), 5e-5) // computed by hand from the formula
	theta, se, err := Ability([]float64{-1, 0, 1}, 2)
	require.NoError(t, err)
	require.InDelta(t, .803, theta, 5e-4) // computed by hand
	require.InDelta(t, 1.310, se, 5e-4)
	theta, _, err = Ability([]float64{-1, 0, 1}, 1)
	require.NoError(t, err)
	require.InDelta(t, -.803, theta, 5e-4)
	for _, score := range []int{0, 3} {
		_, se, err = Ability([]float64{-1, 0, 1}, score)
		require.ErrorIs(t, err, ErrNoFinite)
		require.True(t, math.IsInf(se, 1))
	}
	p := PartialCredit(.5, []float64{-1, 1}) // Masters 1982; numbers computed by hand
	for i, want := range []float64{.1220, .5465, .3315} {
		require.InDelta(t, want, p[i], 5e-5)
	}
	require.InDelta(t, 1.2095, p[1]+2*p[2], 1e-4)
}

func TestAbilityMakesTheScoreExpected(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ds := rapid.SliceOfN(rapid.Float64Range(-4, 4), 2, 30).Draw(t, "difficulties")
		score := rapid.IntRange(1, len(ds)-1).Draw(t, "score")
		theta, se, err := Ability(ds, score)
		if err != nil {
			t.Fatal(err)
		}
		var sum float64
		for _, d := range ds {
			sum += Rasch(theta, d)
		}
		if math.Abs(sum-float64(score)) > 1e-9 || se <= 0 {
			t.Fatalf("expected %v at %v, want %d", sum, theta, score)
		}
	})
}

// item is a first, unprompted, fitting answer; each case changes one thing.
func item(change func(*Item)) Item {
	i := Item{Sitting: "s", Day: "2026-03-02", Step: exercises.Feeling, Value: exercises.Fits, Try: 1, CueKind: nlp.Body, Family: "fear"}
	if change != nil {
		change(&i)
	}
	return i
}

func TestWhatCounts(t *testing.T) {
	for name, c := range map[string]struct {
		change        func(*Item)
		counts, alone bool
	}{
		"alone and fitting": {nil, true, true},
		"near":              {func(i *Item) { i.Value = exercises.Near }, true, false},
		"not yet":           {func(i *Item) { i.Value = exercises.NotYet }, true, false},
		"said again":        {func(i *Item) { i.Prompt = exercises.SaidAgain }, true, false},
		"opened prompted":   {func(i *Item) { i.Entry = exercises.FewerChoices }, true, false},
		"helped":            {func(i *Item) { i.Helped = true }, true, false},
		"second try":        {func(i *Item) { i.Try = 2 }, false, false},
		"steadied":          {func(i *Item) { i.Steadied = true }, false, false},
		"overheard":         {func(i *Item) { i.Overheard = true }, false, false},
		"met before":        {func(i *Item) { i.Repeat = true }, false, false},
		"taken back":        {func(i *Item) { i.Withdrawn = true }, false, false},
		"about the self":    {func(i *Item) { i.AboutSelf = true }, false, false},
		"skipped":           {func(i *Item) { i.Standing = exercises.StandSkip; i.Value = exercises.Unmarked }, false, false},
		"for the guide":     {func(i *Item) { i.Value = exercises.ForGuide }, false, false},
		"and you":           {func(i *Item) { i.Step = exercises.AndYou }, false, false},
	} {
		i := item(c.change)
		require.Equal(t, c.counts, i.Counts(), name)
		require.Equal(t, c.alone, i.AloneAndFits(), name)
	}
}

func TestPoints(t *testing.T) {
	later := func(i *Item) { i.Sitting, i.Day = "later", "2026-03-09" }
	items := []Item{
		item(later),
		item(func(i *Item) { later(i); i.Value, i.CueKind, i.Step = exercises.NotYet, nlp.Named, exercises.Find }),
		item(nil),
		item(func(i *Item) { i.Standing, i.Value = exercises.StandSkip, exercises.Unmarked }),
		item(func(i *Item) { i.Value = exercises.ForGuide }),
		item(func(i *Item) { i.Sitting, i.Day, i.Step = "only and-you", "2026-03-10", exercises.AndYou }),
	}
	ps := BySitting(items)
	require.Len(t, ps, 2)
	require.Equal(t, []string{"s", "later"}, []string{ps[0].Key, ps[1].Key})
	require.Equal(t, Point{Key: "s", Day: "2026-03-02", X: 1, N: 1, Lo: ps[0].Lo, Hi: 1, Standing: 1, Waiting: 1, Offered: 3}, ps[0])
	require.InDelta(t, 1./3, ps[0].StandingShare(), 1e-9)
	require.InDelta(t, .5, ps[1].Share(), 1e-9)

	ks := ByKind(items)
	require.Equal(t, nlp.Named, ks[0].Key)
	require.Equal(t, nlp.Body, ks[1].Key)
	require.Equal(t, string(exercises.Find), ByStep(items)[0].Key)
	require.Equal(t, "fear", ByFamily(items)[0].Key)
	require.Equal(t, 3, All(items).N)
}

func TestSentence(t *testing.T) {
	require.Equal(t, "growth.none", Sentence(nil).Code)
	var items []Item
	for k := range 10 {
		items = append(items, item(func(i *Item) {
			if k >= 8 {
				i.Value = exercises.Near
			}
		}))
	}
	// 8 of 10: Wilson .4902 to .9433 (computed by hand).
	require.Equal(t, nlp.Reason{Code: "growth.last", Slots: map[string]string{"x": "8", "n": "10", "lo": "5", "hi": "9"}}, Sentence(items))
	require.Equal(t, "growth.last-one", Sentence(items[:1]).Code)
	require.Equal(t, "growth.last-one-not", Sentence(items[8:9]).Code)
	require.Equal(t, "growth.last-unmarked", Sentence([]Item{item(func(i *Item) { i.Standing = exercises.StandSkip })}).Code)
}

func TestCompare(t *testing.T) {
	points := func(of10 ...int) (ps []Point) {
		for _, x := range of10 {
			ps = append(ps, Point{X: x, N: 10})
		}
		return ps
	}
	// The data of Parker et al. 2011 (see TestPhases) as answers of ten.
	c := Compare(append(points(2, 3, 5, 3), Point{Offered: 2, Standing: 2}), points(4, 5, 5, 7, 6))
	require.Equal(t, [2]int{4, 5}, [2]int{c.M, c.N}, "a sitting in which nothing counts is left out")
	require.InDelta(t, .80, c.Tau, 1e-9)
	require.InDelta(t, .65, c.TauU, 1e-9)
	require.InDelta(t, .90, c.NAP, 1e-9)
	require.True(t, c.Lo < .90 && c.Hi > .90)
	require.Equal(t, "growth.compare", c.Sentence().Code)
	require.Equal(t, "90", c.Sentence().Slots["nap"])
	require.Equal(t, "growth.compare-few", Compare(points(1, 2), points(3, 4, 5)).Sentence().Code)
	require.True(t, math.IsNaN(Compare(nil, nil).NAP))
}
