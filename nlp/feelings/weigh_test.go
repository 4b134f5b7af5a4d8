package feelings

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/nlp"
)

func cue(kind string, at int, feelings ...any) nlp.Cue {
	c := nlp.Cue{Kind: kind, Span: nlp.Span{Start: at, End: at + 10}}
	for i := 0; i+1 < len(feelings); i += 2 {
		c.Feelings = append(c.Feelings, nlp.Weight{Family: feelings[i].(string), Weight: feelings[i+1].(float64)})
	}
	return c
}

func first(ws []nlp.Weight) string {
	if len(ws) == 0 {
		return ""
	}
	return ws[0].Family
}

func TestWeigh(t *testing.T) {
	shaking := cue(nlp.Body, 100, "fear", .6, "cold", .5, "anger", .3)
	here := shaking.Span
	denied := cue(nlp.Named, 150, "fear", 1.)
	denied.Denied = true
	pretended := cue(nlp.FaceVoice, 150, "joy", 1.)
	pretended.Pretended = true
	for name, c := range map[string]struct {
		cues []nlp.Cue
		want string
	}{
		"shaking alone":                        {[]nlp.Cue{shaking}, "fear"},
		"shaking in the snow":                  {[]nlp.Cue{shaking, cue(nlp.Named, 150, "cold", .8)}, "cold"},
		"shaking and shouting":                 {[]nlp.Cue{shaking, cue(nlp.FaceVoice, 150, "anger", .7), cue(nlp.Action, 170, "anger", .7)}, "anger"},
		"shaking, not from fear":               {[]nlp.Cue{shaking, denied}, "cold"},
		"a smile put on":                       {[]nlp.Cue{shaking, pretended}, "fear"},
		"a name outweighs a guess":             {[]nlp.Cue{cue(nlp.Situation, 100, "joy", .9), cue(nlp.Named, 100, "sadness", .9)}, "sadness"},
		"what is near counts more":             {[]nlp.Cue{cue(nlp.Named, 100, "joy", .9), cue(nlp.Named, 900, "sadness", 1.)}, "joy"},
		"two that agree outweigh one stronger": {[]nlp.Cue{cue(nlp.Body, 100, "joy", .8), cue(nlp.Body, 100, "sadness", .6), cue(nlp.Action, 100, "sadness", .6)}, "sadness"},
		"nothing":                              {nil, ""},
	} {
		require.Equal(t, c.want, first(Weigh(c.cues, here)), name)
	}
	// Explained away: in the snow fear is no longer half as likely as cold.
	ws := Weigh([]nlp.Cue{shaking, cue(nlp.Named, 150, "cold", .8)}, here)
	require.Less(t, weightOf(ws, "fear"), weightOf(ws, "cold")/2)
}

func TestWeighHolds(t *testing.T) {
	families := []string{"joy", "fear", "cold", "anger"}
	draw := func(t *rapid.T, name string) nlp.Cue {
		c := cue(rapid.SampledFrom([]string{nlp.Named, nlp.Body, nlp.Speech, nlp.Situation, "new kind"}).Draw(t, name), rapid.IntRange(0, 2000).Draw(t, "at"))
		for _, f := range rapid.SliceOfNDistinct(rapid.SampledFrom(families), 1, 3, rapid.ID[string]).Draw(t, "families") {
			c.Feelings = append(c.Feelings, nlp.Weight{Family: f, Weight: rapid.Float64Range(0.01, 1).Draw(t, "weight")})
		}
		c.Denied = rapid.IntRange(0, 5).Draw(t, "denied") == 0
		return c
	}
	rapid.Check(t, func(t *rapid.T) {
		var cues []nlp.Cue
		for range rapid.IntRange(0, 6).Draw(t, "cues") {
			cues = append(cues, draw(t, "kind"))
		}
		at := nlp.Span{Start: 500, End: 510}
		ws := Weigh(cues, at)
		for i, w := range ws {
			if w.Weight <= 0 || w.Weight > 1 || math.IsNaN(w.Weight) {
				t.Fatalf("%+v", w)
			}
			if i > 0 && ws[i-1].Weight < w.Weight {
				t.Fatal("not in order")
			}
		}
		shuffled := rapid.Permutation(cues).Draw(t, "order")
		for _, w := range Weigh(shuffled, at) {
			if math.Abs(weightOf(ws, w.Family)-w.Weight) > 1e-9 {
				t.Fatal("the order of cues changes the weights")
			}
		}
		// One more cue that speaks for a family alone never speaks against it.
		more := cue(nlp.Body, 500, "fear", .5)
		if weightOf(Weigh(append(cues, more), at), "fear") < weightOf(ws, "fear")-1e-9 {
			t.Fatal("more evidence, less weight")
		}
	})
}
