package marking

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/exercises"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

// An invented passage and its key, made by hand.
const story = "Nilo climbed the last ten steps slowly. His legs felt like wet rope. Below him the sea was black, and the lamp was out."

func at(t testing.TB, text, part string) nlp.Span {
	i := strings.Index(text, part)
	require.GreaterOrEqual(t, i, 0, part)
	return nlp.Span{Start: i, End: i + len(part)}
}

func fixture(t testing.TB) (Context, exercises.Moment) {
	table, err := feelings.Load()
	require.NoError(t, err)
	e := at(t, story, "His legs felt like wet rope")
	s := at(t, story, "His legs felt like wet rope.")
	m := exercises.Moment{
		ID: "m", Span: nlp.Span{End: len(story)}, CharacterName: "Nilo", Kind: nlp.Body, Route: exercises.RouteBody,
		Key: exercises.Key{
			Fits: []string{"fear", "tiredness"}, Near: []string{"worry"}, Not: []string{"joy", "anger"},
			Weights:  []nlp.Weight{{Family: "fear", Weight: 0.6}, {Family: "tiredness", Weight: 0.4}},
			Body:     []exercises.BodySign{{Place: "legs", Sign: "weak"}, {Place: "chest", Sign: "beating-fast"}},
			Contrary: []exercises.BodySign{{Place: "hands", Sign: "shaking"}},
			Evidence: []exercises.Evidence{{Span: e, Sentence: s, Weight: 0.5}},
		},
	}
	book := wordbook.Book{Words: []wordbook.Word{{ID: "w1", Form: "fizzy", Family: "worry", Places: []string{"belly"}}}}
	return Context{Text: story, Table: table, Book: book}, m
}

func TestFreeFeelings(t *testing.T) {
	c, m := fixture(t)
	for said, want := range map[string]exercises.MarkValue{
		"scared":               exercises.Fits,
		"He is a bit SCARED.":  exercises.Fits,
		"frightend":            exercises.Fits,
		"not scared":           exercises.NotYet,
		"not happy, scared":    exercises.Fits,
		"not happy":            exercises.ForGuide,
		"fizzy":                exercises.Near,
		"happy":                exercises.NotYet,
		"happy and scared":     exercises.Fits,
		"blue like an old hat": exercises.Near, // sadness lies near tiredness
		"like porridge":        exercises.ForGuide,
		"":                     exercises.Unmarked,
	} {
		got := Judge(c, m, exercises.Step{Kind: exercises.Feeling}, exercises.Answer{Said: said, Try: 1})
		require.Equal(t, want, got.Value, said)
	}
}

func TestFind(t *testing.T) {
	c, m := fixture(t)
	for part, want := range map[string]exercises.MarkValue{
		"legs felt like wet rope": exercises.Fits,
		"wet":                     exercises.Fits,
		"the lamp was out":        exercises.NotYet,
		story:                     exercises.NotYet,
		"His legs felt like wet rope. Below him the sea": exercises.Fits,
	} {
		got := Judge(c, m, exercises.Step{Kind: exercises.Find}, exercises.Answer{Spans: []nlp.Span{at(t, story, part)}})
		require.Equal(t, want, got.Value, part)
	}
}

func TestBody(t *testing.T) {
	c, m := fixture(t)
	for said, want := range map[string]exercises.MarkValue{
		"his legs": exercises.Fits, "chest": exercises.Fits, "shaking hands": exercises.NotYet, "ears": exercises.ForGuide,
	} {
		require.Equal(t, want, Judge(c, m, exercises.Step{Kind: exercises.Body}, exercises.Answer{Said: said}).Value, said)
	}
	require.Equal(t, exercises.Unmarked, Judge(c, m, exercises.Step{Kind: exercises.Body}, exercises.Answer{Said: "my belly", AboutSelf: true}).Value)
}

func TestReason(t *testing.T) {
	c, m := fixture(t)
	for said, want := range map[string]exercises.MarkValue{
		"because of the rope legs": exercises.Fits, "it is night": exercises.ForGuide,
	} {
		require.Equal(t, want, Judge(c, m, exercises.Step{Kind: exercises.Reason}, exercises.Answer{Said: said}).Value, said)
	}
}

func TestStandingAnswersStayUnmarked(t *testing.T) {
	c, m := fixture(t)
	for _, k := range []exercises.StepKind{exercises.Find, exercises.Body, exercises.Feeling, exercises.Reason, exercises.AndYou, exercises.CouldHelp} {
		for _, s := range []string{exercises.StandNothing, exercises.StandCantTell, exercises.StandDontKnow, exercises.StandSkip, exercises.StandStop} {
			require.Equal(t, exercises.Unmarked, Judge(c, m, exercises.Step{Kind: k}, exercises.Answer{Standing: s, Said: "happy"}).Value)
		}
	}
}
