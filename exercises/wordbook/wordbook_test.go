package wordbook

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestMemoryAgainstThePublishedCheck(t *testing.T) {
	// From the tests of the open FSRS-6 scheduler: ratings 1,3,3,3,3,3 after
	// 0,0,1,3,8,21 days.
	var m Memory
	for i, g := range []Rating{1, 3, 3, 3, 3, 3} {
		m = m.Met(g, []float64{0, 0, 1, 3, 8, 21}[i])
	}
	require.InDelta(t, 53.62691, m.Stability, 1e-4)
	require.InDelta(t, 6.3574867, m.Difficulty, 1e-6)
}

func TestForgettingCurve(t *testing.T) {
	require.InDelta(t, .98035, factor, 5e-6)
	m := Memory{Stability: 10, Difficulty: 5}
	require.InDelta(t, .9, m.Recall(10), 1e-12)
	require.InDelta(t, .8459, m.Recall(20), 5e-5) // computed from the formula
	require.InDelta(t, 10, m.Interval(.9), 1e-9)
	require.Zero(t, Memory{}.Recall(0))
}

func TestMemoryStaysInBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var m Memory
		for range rapid.IntRange(1, 40).Draw(t, "meetings") {
			g := Rating(rapid.IntRange(1, 4).Draw(t, "rating"))
			days := float64(rapid.IntRange(0, 400).Draw(t, "days"))
			before := m
			m = m.Met(g, days)
			if m.Difficulty < 1 || m.Difficulty > 10 || m.Stability <= 0 || math.IsNaN(m.Stability) || math.IsInf(m.Stability, 0) {
				t.Fatalf("%+v", m)
			}
			if g >= Came && before.Stability > 0 && m.Stability < before.Stability {
				t.Fatalf("came alone and yet fades faster: %+v after %+v", m, before)
			}
			if g == Lost && before.Stability > 0 && m.Stability > before.Stability {
				t.Fatalf("lost and yet fades slower: %+v after %+v", m, before)
			}
		}
	})
}

func TestState(t *testing.T) {
	tied := Word{ID: "w", Form: "wobbly", Experiences: []Experience{{Day: "2026-02-01"}}}
	use := func(moment, day string, alone, fits bool) Use {
		return Use{WordID: "w", Moment: moment, Day: day, Alone: alone, Fits: fits}
	}
	for name, c := range map[string]struct {
		word Word
		uses []Use
		want State
	}{
		"never tied":              {Word{ID: "w"}, nil, New},
		"tied":                    {tied, nil, Tied},
		"one use":                 {tied, []Use{use("a", "1", true, true)}, Tied},
		"two moments on one day":  {tied, []Use{use("a", "1", true, true), use("b", "1", true, true)}, Tied},
		"one moment on two days":  {tied, []Use{use("a", "1", true, true), use("a", "2", true, true)}, Tied},
		"two moments, two days":   {tied, []Use{use("a", "1", true, true), use("b", "2", true, true)}, Free},
		"prompted once":           {tied, []Use{use("a", "1", true, true), use("b", "2", false, true)}, Tied},
		"amiss once":              {tied, []Use{use("a", "1", true, true), use("b", "2", true, false)}, Tied},
		"free without experience": {Word{ID: "w"}, []Use{use("a", "1", true, true), use("b", "2", true, true)}, Free},
		"another word's uses":     {tied, []Use{{WordID: "x", Moment: "a", Day: "1", Alone: true, Fits: true}}, Tied},
	} {
		b := Book{Words: []Word{c.word}, Uses: c.uses}
		require.Equal(t, c.want, b.State("w"), name)
	}
	require.Equal(t, New, Book{}.State("nowhere"))
}

func book() Book {
	e := []Experience{{Day: "2026-03-01"}}
	return Book{Words: []Word{
		{ID: "1", Form: "freezing", Family: "cold", Shade: 1, Places: []string{"hands"}, Experiences: e},
		{ID: "2", Form: "cool", Family: "cold", Shade: 0},
		{ID: "3", Form: "chilly", Family: "cold", Shade: .5, Experiences: e},
		{ID: "4", Form: "icy", Family: "cold", Shade: .9, Away: true},
		{ID: "5", Form: "fizzy", Family: "worry", Places: []string{"belly"}},
		{ID: "6", Form: "Need to go", Sense: "toilet", Shade: 1},
	}}
}

func forms(ws []Word) (out []string) {
	for _, w := range ws {
		out = append(out, w.Form)
	}
	return out
}

func TestChoosingWords(t *testing.T) {
	b := book()
	require.Equal(t, []string{"chilly", "freezing", "cool"}, forms(b.For("cold")), "tied words first")
	require.Empty(t, b.For(""))
	require.Equal(t, []string{"cool", "chilly", "freezing"}, forms(b.Line("cold")))
	require.Equal(t, []string{"Need to go"}, forms(b.Line("toilet")))
	require.Equal(t, []string{"fizzy"}, forms(b.At("belly")))
	require.Equal(t, []string{"icy"}, forms(b.Find(" Icy")), "put aside is still understood")
}

func TestSaid(t *testing.T) {
	b := book()
	require.Equal(t, []string{"freezing", "fizzy"}, forms(b.Said("He is FREEZING, and all fizzy!")))
	require.Equal(t, []string{"Need to go"}, forms(b.Said("I need to go.")))
	require.Empty(t, b.Said("unfizzy, a coolness"))
	require.Empty(t, b.Said(""))
}

func TestFade(t *testing.T) {
	b := book()
	b.Uses = []Use{
		{WordID: "1", Moment: "m", Day: "2026-03-02", Alone: true, Fits: true},
		{WordID: "1", Moment: "n", Day: "2026-03-10", Alone: true, Fits: true},
		{WordID: "5", Day: "2026-03-11", Daily: true},
		{WordID: "5", Day: "2027-01-01", Daily: true}, // not yet
	}
	got := b.Fade("2026-03-12")
	require.Equal(t, []string{"chilly"}, []string{got[0].Word.Form})
	require.Len(t, got, 1)
	require.Equal(t, 11, got[0].Since)
	require.Less(t, got[0].Recall, .9)
	require.Greater(t, len(b.Fade("2026-06-01")), 1)
	require.Empty(t, b.Fade("some day"))
}
