// Package sample builds analyses by hand for the tests of exercises, so that
// they check choosing and asking apart from what the reading engine finds.
package sample

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/segment"
)

// Cue is a cue by its words in the text.
type Cue struct {
	Words     string // first place in the text where they stand
	Who       string // name of a character of the sample, or ""
	Kind      string
	Feelings  []nlp.Weight
	Place     string
	Sign      string
	Denied    bool
	Pretended bool
}

// Analysis cuts the text, takes every place of a character's names as a
// mention, and places the cues. It panics where words do not stand in the
// text: the sample itself is then broken.
func Analysis(text string, names []string, cues ...Cue) *nlp.Analysis {
	a := &nlp.Analysis{Engine: "sample", Doc: segment.Split(text)}
	for i, n := range names {
		c := nlp.Character{ID: i, Name: n, Kind: nlp.Person}
		for at := 0; ; {
			k := strings.Index(text[at:], n)
			if k < 0 {
				break
			}
			at += k
			c.Mentions = append(c.Mentions, nlp.Mention{Span: nlp.Span{Start: at, End: at + len(n)}})
			at += len(n)
		}
		a.Characters = append(a.Characters, c)
	}
	for _, c := range cues {
		at := strings.Index(text, c.Words)
		if at < 0 {
			panic(fmt.Sprintf("the sample has no %q", c.Words))
		}
		who := nlp.None
		for i, n := range names {
			if n == c.Who {
				who = i
			}
		}
		cue := nlp.Cue{Span: nlp.Span{Start: at, End: at + len(c.Words)}, Kind: c.Kind, Character: who,
			Feelings: slices.Clone(c.Feelings), Strength: nlp.Plain, Denied: c.Denied, Pretended: c.Pretended, Rule: "sample",
			Reason: nlp.Reason{Code: "body-sign", Slots: map[string]string{}}}
		if c.Place != "" {
			cue.Places = []string{c.Place}
			cue.Reason.Slots["place"], cue.Reason.Slots["sign"] = c.Place, c.Sign
		}
		a.Cues = append(a.Cues, cue)
	}
	sort.SliceStable(a.Cues, func(i, j int) bool { return a.Cues[i].Span.Start < a.Cues[j].Span.Start })
	return a
}

// Feels is one family with its weight.
func Feels(family string, weight float64, more ...any) []nlp.Weight {
	out := []nlp.Weight{{Family: family, Weight: weight}}
	for i := 0; i+1 < len(more); i += 2 {
		out = append(out, nlp.Weight{Family: more[i].(string), Weight: more[i+1].(float64)})
	}
	return out
}

// The sample story, invented for these tests.
const Story = `Nilo lived on the point with his aunt, who kept the lamp. Every evening the two of them carried oil up the stairs.

One night the aunt did not come home from the village. Nilo climbed the last ten steps slowly. His legs felt like wet rope. Below him the sea was black, and the lamp was out. "Aunt?" he called. His voice came out small and high. Nobody answered. He did not shake, for he held the rail with both hands, and he went on up.

* * *

In the morning the baker came along the path with a warm loaf. He was angry about the dark night, for his boat had struck a stone. The baker shouted at the door and stamped on the step. Nilo looked down at his feet. His face grew hot.

Then the aunt came up the path. Nilo ran to her and laughed out loud. "I was glad of every lamp in the village," she said, "but most of all of this one." They ate the loaf on the step, and the baker ate too.`

// Sample gives the analysis of Story.
func Sample() *nlp.Analysis {
	return Analysis(Story, []string{"Nilo", "the aunt", "baker"},
		Cue{Words: "His legs felt like wet rope", Who: "Nilo", Kind: nlp.Body, Feelings: Feels("fear", .6, "tiredness", .35), Place: "legs", Sign: "weak"},
		Cue{Words: "His voice came out small and high", Who: "Nilo", Kind: nlp.FaceVoice, Feelings: Feels("fear", .6), Place: "throat", Sign: "tight"},
		Cue{Words: "did not shake", Who: "Nilo", Kind: nlp.Body, Feelings: Feels("fear", .5), Place: "whole-body", Sign: "shaking", Denied: true},
		Cue{Words: "was angry", Who: "baker", Kind: nlp.Named, Feelings: Feels("anger", 1)},
		Cue{Words: "shouted at the door", Who: "baker", Kind: nlp.FaceVoice, Feelings: Feels("anger", .7)},
		Cue{Words: "stamped on the step", Who: "baker", Kind: nlp.Action, Feelings: Feels("anger", .7)},
		Cue{Words: "looked down at his feet", Who: "Nilo", Kind: nlp.Action, Feelings: Feels("shame", .5, "sadness", .3), Place: "eyes", Sign: "looking-down"},
		Cue{Words: "His face grew hot", Who: "Nilo", Kind: nlp.Body, Feelings: Feels("shame", .5, "anger", .4), Place: "face", Sign: "hot"},
		Cue{Words: "laughed out loud", Who: "Nilo", Kind: nlp.FaceVoice, Feelings: Feels("joy", .8), Place: "mouth", Sign: "laughing"},
		Cue{Words: "glad", Who: "the aunt", Kind: nlp.Named, Feelings: Feels("joy", .9)},
	)
}
