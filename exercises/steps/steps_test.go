package steps

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/exercises"
	"feltpage/exercises/internal/sample"
	"feltpage/exercises/marking"
	"feltpage/exercises/moments"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

func table(t testing.TB) *feelings.Table {
	t.Helper()
	table, err := feelings.Load()
	require.NoError(t, err)
	return table
}

func seeded(n uint64) *rand.Rand { return rand.New(rand.NewPCG(n, 1)) }

// book is an invented word book of a learner with a few words.
func book() wordbook.Book {
	lived := []wordbook.Experience{{Day: "2026-01-05", What: "the boat rocked"}}
	return wordbook.Book{Words: []wordbook.Word{
		{ID: "w1", Form: "wobbly-scared", Family: "fear", Shade: .5, Places: []string{"legs"}, Experiences: lived},
		{ID: "w2", Form: "mad", Family: "anger", Experiences: lived},
		{ID: "w3", Form: "bouncy", Family: "joy"},
		{ID: "w4", Form: "fizzy", Family: "worry", Places: []string{"belly"}, Experiences: lived},
	}}
}

// moment finds the sample's moment of a family.
func moment(t testing.TB, family string) (exercises.Moment, *nlp.Analysis) {
	a := sample.Sample()
	ms := moments.Choose(a, table(t))
	i := slices.IndexFunc(ms, func(m exercises.Moment) bool { return m.Key.Fits[0] == family })
	require.GreaterOrEqual(t, i, 0, family)
	return ms[i], a
}

func kinds(ss []exercises.Step) (out []exercises.StepKind) {
	for _, s := range ss {
		out = append(out, s.Kind)
	}
	return out
}

func TestOrderFollowsTheRoute(t *testing.T) {
	m, a := moment(t, "fear")
	m.NoAndYou = true
	// Without the morning's shame, the next thing told of Nilo is that he laughs.
	turned := *a
	turned.Cues = slices.DeleteFunc(slices.Clone(a.Cues), func(c nlp.Cue) bool { return c.Feelings[0].Family == "shame" })
	for route, want := range map[exercises.Route][]exercises.StepKind{
		exercises.RouteBody:  {exercises.Find, exercises.Feeling, exercises.Reason, exercises.Body},
		exercises.RouteNamed: {exercises.Body, exercises.Find},
		exercises.RouteEvent: {exercises.Reason, exercises.Feeling, exercises.Body},
	} {
		m.Route = route
		require.Equal(t, want, kinds(Build(m, a, table(t), book(), seeded(1), Options{Measure: true})), route)
		require.Equal(t, append(want, exercises.CouldHelp), kinds(Build(m, &turned, table(t), book(), seeded(1), Options{})), route)
	}
}

func TestUnmarkedSteps(t *testing.T) {
	m, a := moment(t, "fear")
	require.Contains(t, kinds(Build(m, a, table(t), book(), seeded(1), Options{})), exercises.AndYou)
	require.NotContains(t, kinds(Build(m, a, table(t), book(), seeded(1), Options{NoAndYou: true})), exercises.AndYou)
	short := kinds(Build(m, a, table(t), book(), seeded(1), Options{Short: true}))
	require.Equal(t, []exercises.StepKind{exercises.Find, exercises.Feeling, exercises.Body}, short)
	glad, a := moment(t, "anger")
	require.NotContains(t, kinds(Build(glad, a, table(t), book(), seeded(1), Options{})), exercises.CouldHelp, "the story does not tell")
	require.NotContains(t, kinds(Build(m, a, table(t), book(), seeded(1), Options{})), exercises.CouldHelp, "the next thing told of him is shame")
	require.Empty(t, Build(exercises.Moment{}, a, table(t), book(), seeded(1), Options{}))
}

func step(t testing.TB, ss []exercises.Step, k exercises.StepKind) exercises.Step {
	i := slices.IndexFunc(ss, func(s exercises.Step) bool { return s.Kind == k })
	require.GreaterOrEqual(t, i, 0, k)
	return ss[i]
}

func TestEveryMarkedStepHasAllPromptLevels(t *testing.T) {
	m, a := moment(t, "fear")
	for _, route := range []exercises.Route{exercises.RouteBody, exercises.RouteNamed, exercises.RouteEvent} {
		m.Route = route
		for _, s := range Build(m, a, table(t), book(), seeded(1), Options{Measure: true}) {
			require.NotEmpty(t, s.Prompt.Code)
			require.NotEqual(t, s.Prompt.Code, s.Again.Code, "other words")
			require.True(t, m.Span.Contains(s.Where) && s.Where.Len() > 0)
			require.NotEmpty(t, s.Fewer)
			require.NotEmpty(t, s.Worked.Code)
			require.True(t, s.Where.Contains(s.WorkedAt[0]))
			require.Equal(t, "Nilo's", s.Prompt.Slots["whose"])
		}
	}
}

func TestChoicesComeFromTheWordBookFirst(t *testing.T) {
	m, a := moment(t, "fear")
	s := step(t, Build(m, a, table(t), book(), seeded(1), Options{NoOffer: true}), exercises.Feeling)
	var texts []string
	for _, c := range s.Choices {
		texts = append(texts, c.Text)
	}
	require.ElementsMatch(t, []string{"wobbly-scared", "mad", "bouncy", "fizzy"}, texts)
	require.Equal(t, "wobbly-scared", s.Worked.Slots["word"])
}

func TestANewWordIsOnlyAnOffer(t *testing.T) {
	m, a := moment(t, "fear")
	with := step(t, Build(m, a, table(t), book(), seeded(1), Options{}), exercises.Feeling).Choices
	offers := 0
	for _, c := range with {
		if c.Role == exercises.RoleOffer {
			offers++
			require.Equal(t, "fear", c.Family)
			require.Empty(t, book().Find(c.Text))
		}
	}
	require.Equal(t, 1, offers)
	require.Len(t, with, 5, "beside the four, not in place of one")
	for name, opt := range map[string]Options{"made already": {NoOffer: true}, "probe": {Measure: true}, "short": {Short: true}} {
		for _, c := range step(t, Build(m, a, table(t), book(), seeded(1), opt), exercises.Feeling).Choices {
			require.NotEqual(t, exercises.RoleOffer, c.Role, name)
		}
	}
	for _, c := range step(t, Build(m, a, table(t), wordbook.Book{}, seeded(1), Options{}), exercises.Feeling).Choices {
		require.NotEqual(t, exercises.RoleOffer, c.Role, "nothing is tied yet")
	}
}

func TestStrengthPicksTheShade(t *testing.T) {
	m, a := moment(t, "fear")
	lived := []wordbook.Experience{{Day: "2026-01-05"}}
	b := wordbook.Book{Words: []wordbook.Word{
		{ID: "1", Form: "uneasy", Family: "fear", Shade: 0, Experiences: lived},
		{ID: "2", Form: "scared", Family: "fear", Shade: .5, Experiences: lived},
		{ID: "3", Form: "terrified", Family: "fear", Shade: 1, Experiences: lived},
	}}
	for strength, want := range map[string]string{nlp.Slight: "uneasy", nlp.Plain: "scared", nlp.Strong: "terrified"} {
		for i := range m.Key.Evidence {
			m.Key.Evidence[i].Strength = strength
		}
		s := step(t, Build(m, a, table(t), b, seeded(1), Options{}), exercises.Feeling)
		require.Equal(t, want, s.Worked.Slots["word"], strength)
	}
}

func TestBodyOffersEveryPlaceInItsOrder(t *testing.T) {
	m, a := moment(t, "fear")
	s := step(t, Build(m, a, table(t), book(), seeded(1), Options{}), exercises.Body)
	require.Equal(t, "step.body.given", s.Prompt.Code)
	require.Equal(t, "legs,throat", s.Prompt.Slots["places"])
	var places []string
	for _, c := range s.Choices {
		if c.ID == c.Place {
			places = append(places, c.Place)
		}
		require.True(t, c.Text != "" || c.Key != "", c.ID)
	}
	require.Equal(t, nlp.Places, places)
	require.True(t, slices.ContainsFunc(s.Choices, func(c exercises.Choice) bool { return c.ID == "w4" && c.Place == "belly" }))
	require.Less(t, len(s.Fewer), len(s.Choices))
	require.NotContains(t, []string{"legs", "throat"}, s.Worked.Slots["place"], "what else")
}

func TestChoicesHold(t *testing.T) {
	m, a := moment(t, "fear")
	tab := table(t)
	rapid.Check(t, func(t *rapid.T) {
		var b wordbook.Book
		for i := range rapid.IntRange(0, 12).Draw(t, "words") {
			w := wordbook.Word{ID: fmt.Sprint("w", i), Form: rapid.StringMatching(`[a-z]{3,8}`).Draw(t, "form"), Family: rapid.SampledFrom(tab.IDs()).Draw(t, "family")}
			if rapid.Bool().Draw(t, "tied") {
				w.Experiences = []wordbook.Experience{{Day: "2026-01-05"}}
			}
			b.Words = append(b.Words, w)
		}
		opt := Options{Choices: rapid.IntRange(-1, 12).Draw(t, "choices"), Distance: rapid.SampledFrom([]Distance{"", Wide, Mixed, Close}).Draw(t, "distance"),
			NoOffer: rapid.Bool().Draw(t, "no offer"), Rich: rapid.Bool().Draw(t, "rich")}
		seed := rapid.Uint64().Draw(t, "seed")
		ss := Build(m, a, tab, b, seeded(seed), opt)
		if fmt.Sprint(ss) != fmt.Sprint(Build(m, a, tab, b, seeded(seed), opt)) {
			t.Fatal("the same seed gives other steps")
		}
		for _, s := range ss {
			if s.Kind != exercises.Feeling {
				continue
			}
			fits, offers := 0, 0
			texts := map[string]bool{}
			for _, c := range s.Choices {
				if texts[c.Text] || c.Text == "" {
					t.Fatalf("%q stands twice or is empty", c.Text)
				}
				texts[c.Text] = true
				switch c.Role {
				case exercises.RoleOffer:
					offers++
				case exercises.RoleFits:
					fits++
				}
				// A choice shown is marked as what it was shown for.
				v := marking.Judge(marking.Context{Text: a.Doc.Text, Table: tab, Book: b}, m, s, exercises.Answer{ChoiceIDs: []string{c.ID}}).Value
				want := map[exercises.ChoiceRole]exercises.MarkValue{exercises.RoleFits: exercises.Fits, exercises.RoleOffer: exercises.Fits,
					exercises.RoleNear: exercises.Near, exercises.RoleFar: exercises.NotYet}[c.Role]
				if v != want {
					t.Fatalf("%+v is marked %s", c, v)
				}
			}
			if n := len(s.Choices) - offers; fits != 1 || offers > 1 || n < 2 || n > 8 {
				t.Fatalf("%d choices, %d fit, %d offers", n, fits, offers)
			}
			if len(s.Fewer) != 2 {
				t.Fatalf("%d left of fewer", len(s.Fewer))
			}
		}
	})
}

func TestDistances(t *testing.T) {
	m, a := moment(t, "fear")
	for d, want := range map[Distance]int{Wide: 0, Mixed: 1, "": 1, Close: 3} {
		near := 0
		for _, c := range step(t, Build(m, a, table(t), wordbook.Book{}, seeded(3), Options{Distance: d}), exercises.Feeling).Choices {
			if c.Role == exercises.RoleNear {
				near++
			}
		}
		// The key's near families may be fewer than three.
		require.Equal(t, min(want, len(m.Key.Near)), near, d)
	}
}

func TestTheWorkedAnswerFits(t *testing.T) {
	m, a := moment(t, "fear")
	tab := table(t)
	for _, s := range Build(m, a, tab, book(), seeded(1), Options{}) {
		ans := exercises.Answer{Spans: s.WorkedAt, Prompt: exercises.Together}
		switch s.Kind {
		case exercises.Feeling:
			ans = exercises.Answer{Said: s.Worked.Slots["word"]}
		case exercises.Body:
			ans = exercises.Answer{ChoiceIDs: []string{s.Worked.Slots["place"] + "/" + s.Worked.Slots["sign"]}}
		case exercises.AndYou, exercises.CouldHelp:
			continue
		}
		v := marking.Judge(marking.Context{Text: a.Doc.Text, Table: tab, Book: book()}, m, s, ans).Value
		require.Equal(t, exercises.Fits, v, s.Kind)
	}
}
