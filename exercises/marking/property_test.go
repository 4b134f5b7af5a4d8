package marking

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/exercises"
	"feltpage/exercises/marking/slips"
	"feltpage/nlp"
)

// keyed draws a moment whose fitting family is drawn too, over the fixture's
// invented passage.
func keyed(t *rapid.T, c Context, m exercises.Moment) (exercises.Moment, string) {
	ids := c.Table.IDs()
	fit := rapid.SampledFrom(ids).Draw(t, "fitting family")
	m.Key.Fits, m.Key.Near, m.Key.Not = []string{fit}, nil, nil
	for _, id := range ids {
		switch {
		case id == fit:
		case c.Table.Near(fit, id):
			m.Key.Near = append(m.Key.Near, id)
		default:
			m.Key.Not = append(m.Key.Not, id)
		}
	}
	return m, fit
}

// offered lists the words that are offered for a family and mean only it.
func offered(c Context, family string) (out []string) {
	f, _ := c.Table.Family(family)
	for _, w := range append(slices.Clone(f.Plain), f.Rich...) {
		if ws := c.Table.FamilyOf(w); ws[0].Family == family && len(c.Book.Find(w)) == 0 && !littleWords[w] {
			out = append(out, w)
		}
	}
	return out
}

func feeling(c Context, m exercises.Moment, said string) exercises.MarkValue {
	return Judge(c, m, exercises.Step{Kind: exercises.Feeling}, exercises.Answer{Said: said, Try: 1}).Value
}

func TestAKeyedFeelingFits(t *testing.T) {
	c, m := fixture(t)
	rapid.Check(t, func(t *rapid.T) {
		m, fit := keyed(t, c, m)
		w := rapid.SampledFrom(offered(c, fit)).Draw(t, "word")
		frame := rapid.SampledFrom([]string{"%", "he feels %", "really %!", "I think he is a bit %", "very very %", "%, not at all like a porridge"}).Draw(t, "frame")
		said := strings.ReplaceAll(frame, "%", w)
		if v := feeling(c, m, said); v != exercises.Fits {
			t.Fatalf("%q for %s: %s", said, fit, v)
		}
		id := exercises.Answer{ChoiceIDs: []string{fit}}
		if v := Judge(c, m, exercises.Step{Kind: exercises.Feeling}, id).Value; v != exercises.Fits {
			t.Fatalf("choice %s: %s", fit, v)
		}
	})
}

func TestANegatedKeyedFeelingNeverFits(t *testing.T) {
	c, m := fixture(t)
	rapid.Check(t, func(t *rapid.T) {
		m, fit := keyed(t, c, m)
		w := rapid.SampledFrom(offered(c, fit)).Draw(t, "word")
		frame := rapid.SampledFrom([]string{"not %", "he isn't %", "never %", "he is not very %", "not a bit %", "not at all %", "% but not really, not %", "he doesn't feel %"}).Draw(t, "frame")
		said := strings.ReplaceAll(frame, "%", w)
		if v := feeling(c, m, said); v == exercises.Fits {
			t.Fatalf("%q for %s fits", said, fit)
		}
	})
}

func TestOneSlipInALongEnoughWordStillFits(t *testing.T) {
	c, m := fixture(t)
	rapid.Check(t, func(t *rapid.T) {
		m, fit := keyed(t, c, m)
		var long []string
		for _, w := range offered(c, fit) {
			if len(w) >= 6 && !strings.ContainsAny(w, " -") {
				long = append(long, w)
			}
		}
		if len(long) == 0 {
			t.Skip("only short words")
		}
		w := rapid.SampledFrom(long).Draw(t, "word")
		slipped := slip(t, w)
		// A slip that makes a word of the language, or one as near to another
		// family's word, is not a slip any more and is left to the guide.
		if slipped == w || neighbours()[slipped] || len(c.Table.FamilyOf(slipped)) > 0 || littleWords[slipped] {
			t.Skip("another word")
		}
		for _, other := range c.Table.Words() {
			if slips.Distance(slipped, other) <= 1 && c.Table.FamilyOf(other)[0].Family != fit {
				t.Skip("near to another family too")
			}
		}
		for _, f := range forms(slipped)[1:] {
			if len(c.Table.FamilyOf(f)) > 0 {
				t.Skip("a form of another word")
			}
		}
		if v := feeling(c, m, slipped); v != exercises.Fits {
			t.Fatalf("%q for %q: %s", slipped, w, v)
		}
	})
}

// slip makes one slip of the pen: a letter left out, doubled, changed, or
// swapped with its neighbour.
func slip(t *rapid.T, w string) string {
	i := rapid.IntRange(1, len(w)-2).Draw(t, "at")
	switch rapid.IntRange(0, 3).Draw(t, "kind of slip") {
	case 0:
		return w[:i] + w[i+1:]
	case 1:
		return w[:i] + w[i:i+1] + w[i:]
	case 2:
		return w[:i] + rapid.StringMatching("[a-z]").Draw(t, "letter") + w[i+1:]
	}
	return w[:i] + w[i+1:i+2] + w[i:i+1] + w[i+2:]
}

func TestAWordOfTheLanguageIsNeverTakenForAnother(t *testing.T) {
	c, m := fixture(t)
	j := judge{c, m, exercises.Step{}, exercises.Answer{}}
	for w := range neighbours() {
		require.Empty(t, j.slip(w), w)
	}
	for _, w := range []string{"wired", "brightened", "sacred", "made", "exited"} {
		require.Equal(t, exercises.ForGuide, feeling(c, m, w), w)
	}
}

// answers draws any answer at all.
func answers(t *rapid.T, c Context, m exercises.Moment) (exercises.Step, exercises.Answer) {
	kind := rapid.SampledFrom([]exercises.StepKind{exercises.Find, exercises.Body, exercises.Feeling, exercises.Reason, exercises.AndYou, exercises.CouldHelp}).Draw(t, "step")
	var cs []exercises.Choice
	for _, id := range c.Table.IDs() {
		cs = append(cs, exercises.Choice{ID: id, Text: id, Family: id})
	}
	for _, p := range nlp.Places {
		cs = append(cs, exercises.Choice{ID: p, Place: p}, exercises.Choice{ID: p + "/shaking", Place: p})
	}
	a := exercises.Answer{
		Step:      kind,
		Said:      rapid.OneOf(rapid.Just(""), rapid.String(), rapid.SampledFrom([]string{"scared", "not scared", "his legs", "wet rope"})).Draw(t, "said"),
		ChoiceIDs: rapid.SliceOfN(rapid.SampledFrom(ids(cs)), 0, 4).Draw(t, "choices"),
		AboutSelf: rapid.Bool().Draw(t, "about self"),
	}
	for range rapid.IntRange(0, 2).Draw(t, "spans") {
		s := rapid.IntRange(-5, len(story)+5).Draw(t, "start")
		a.Spans = append(a.Spans, nlp.Span{Start: s, End: s + rapid.IntRange(-2, 60).Draw(t, "length")})
	}
	return exercises.Step{Kind: kind, Choices: cs}, a
}

func ids(cs []exercises.Choice) (out []string) {
	for _, c := range cs {
		out = append(out, c.ID)
	}
	return out
}

func TestMarkingTheSameTwiceAndInAnyOrder(t *testing.T) {
	c, m := fixture(t)
	rapid.Check(t, func(t *rapid.T) {
		s, a := answers(t, c, m)
		first := Judge(c, m, s, a)
		if again := Judge(c, m, s, a); again.Value != first.Value || again.Why.Code != first.Why.Code {
			t.Fatalf("%v, then %v", first, again)
		}
		shuffled := s
		shuffled.Choices = rapid.Permutation(s.Choices).Draw(t, "order shown")
		b := a
		b.ChoiceIDs = rapid.Permutation(a.ChoiceIDs).Draw(t, "order given")
		b.Spans = rapid.Permutation(a.Spans).Draw(t, "order of spans")
		if other := Judge(c, m, shuffled, b); other.Value != first.Value {
			t.Fatalf("%v, but %v in another order", first, other)
		}
		if !s.Kind.Marked() && first.Value != exercises.Unmarked {
			t.Fatalf("%s was marked", s.Kind)
		}
		if a.AboutSelf && first.Value != exercises.Unmarked {
			t.Fatal("the learner's own body was marked")
		}
		if s.Kind == exercises.Body && first.Value == exercises.Near {
			t.Fatal("a body answer is never near")
		}
	})
}

func TestASkippedStepStaysUnmarked(t *testing.T) {
	c, m := fixture(t)
	rapid.Check(t, func(t *rapid.T) {
		s, a := answers(t, c, m)
		a.Standing = rapid.SampledFrom([]string{exercises.StandNothing, exercises.StandCantTell, exercises.StandDontKnow,
			exercises.StandSkip, exercises.StandStop, exercises.StandNotTelling}).Draw(t, "standing")
		if v := Judge(c, m, s, a).Value; v != exercises.Unmarked {
			t.Fatal(v)
		}
	})
}

func TestChoosingTheWholePassageNeverFits(t *testing.T) {
	c, m := fixture(t)
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.IntRange(0, 10).Draw(t, "from")
		to := rapid.IntRange(len(story)-20, len(story)).Draw(t, "to")
		a := exercises.Answer{Spans: []nlp.Span{{Start: from, End: to}}}
		for _, k := range []exercises.StepKind{exercises.Find, exercises.Reason} {
			if v := Judge(c, m, exercises.Step{Kind: k}, a).Value; v == exercises.Fits {
				t.Fatalf("%s fits", k)
			}
		}
	})
}

func FuzzJudge(f *testing.F) {
	f.Add("not only scared but h\u00e4ppy", "feeling")
	f.Add("\xff\xfe", "reason")
	f.Fuzz(func(t *testing.T, said, kind string) {
		c, m := fixture(t)
		v := Judge(c, m, exercises.Step{Kind: exercises.StepKind(kind)}, exercises.Answer{Said: said}).Value
		if !slices.Contains([]exercises.MarkValue{exercises.Fits, exercises.Near, exercises.NotYet, exercises.Unmarked, exercises.ForGuide}, v) {
			t.Fatalf("%q", v)
		}
	})
}
