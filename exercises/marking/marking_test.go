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
const story = "Nilo climbed the last ten steps slowly. His legs felt like wet rope. Below him the sea was black, and the lamp was out. His hands did not shake."

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
	hands := at(t, story, "hands did not shake")
	m := exercises.Moment{
		ID: "m", Span: nlp.Span{End: len(story)}, CharacterName: "Nilo", Kind: nlp.Body, Route: exercises.RouteBody,
		Key: exercises.Key{
			Fits: []string{"fear", "tiredness"}, Near: []string{"worry"}, Not: []string{"joy", "anger", "pride"},
			Weights:  []nlp.Weight{{Family: "fear", Weight: 0.6}, {Family: "tiredness", Weight: 0.4}},
			Body:     []exercises.BodySign{{Place: "legs", Sign: "weak"}, {Place: "chest", Sign: "beating-fast"}},
			Contrary: []exercises.BodySign{{Place: "hands", Sign: "shaking"}},
			Evidence: []exercises.Evidence{{Span: e, Sentence: s, Weight: 0.5, Places: []string{"legs"},
				Reason: nlp.Reason{Code: "body-sign", Slots: map[string]string{"place": "legs", "sign": "weak"}}}},
			Beside: []exercises.Evidence{{Span: hands, Sentence: at(t, story, "His hands did not shake."), Places: []string{"hands"}, Denied: true}},
		},
	}
	book := wordbook.Book{Words: []wordbook.Word{{ID: "w1", Form: "fizzy", Family: "worry", Places: []string{"ears"}},
		{ID: "w2", Form: "shivery-scared", Family: "fear", Experiences: []wordbook.Experience{{Day: "2026-01-02", What: "the boat rocked and Gran held on"}}}}}
	return Context{Text: story, Table: table, Book: book}, m
}

func TestFreeFeelings(t *testing.T) {
	c, m := fixture(t)
	for said, want := range map[string]exercises.MarkValue{
		"scared":                        exercises.Fits,
		"He is a bit SCARED.":           exercises.Fits,
		"frightend":                     exercises.Fits,
		"scareder":                      exercises.Fits,
		"he fears the dark":             exercises.Fits,
		"worn out":                      exercises.Fits,
		"I don't know, maybe scared":    exercises.Fits,
		"not only scared but cross":     exercises.Fits,
		"not happy but scared":          exercises.Fits,
		"not happy, scared":             exercises.Fits,
		"happy and scared":              exercises.Fits,
		"not scared":                    exercises.NotYet,
		"he isn\u2019t very frightened": exercises.NotYet,
		"no longer afraid":              exercises.NotYet,
		"scared, but not afraid":        exercises.Near,
		"worried":                       exercises.Near,
		"blue like an old hat":          exercises.Near, // sadness lies near tiredness
		"fizzy":                         exercises.Near, // the learner's own word for worry
		"happy":                         exercises.NotYet,
		"proud of himself":              exercises.NotYet,
		"happy sad angry proud scared":  exercises.Near, // everything at once
		"not happy":                     exercises.ForGuide,
		"fine":                          exercises.ForGuide, // says too little
		"not sure":                      exercises.ForGuide,
		"like porridge":                 exercises.ForGuide,
		"like the boat with Gran":       exercises.Fits, // what happened to the learner, under a word for fear
		"like Gran":                     exercises.ForGuide,
		"   ":                           exercises.Unmarked,
	} {
		require.Equal(t, want, feeling(c, m, said), said)
	}
}

func TestTheLearnersOwnLinkFits(t *testing.T) {
	c, m := fixture(t)
	m.Key.Fits, m.Key.Near = []string{"worry"}, nil
	require.Equal(t, exercises.Fits, feeling(c, m, "all fizzy"))
	require.Equal(t, exercises.Fits, Judge(c, m, exercises.Step{Kind: exercises.Feeling}, exercises.Answer{ChoiceIDs: []string{"w1"}}).Value)
	c.Book = wordbook.Book{Words: []wordbook.Word{{ID: "w", Form: "happy", Family: "worry"}}}
	require.Equal(t, exercises.Fits, feeling(c, m, "happy"), "the learner's own meaning goes first")
}

func TestChosenFeelings(t *testing.T) {
	c, m := fixture(t)
	s := exercises.Step{Kind: exercises.Feeling, Choices: []exercises.Choice{
		{ID: "fear", Text: "scared", Family: "fear"}, {ID: "w1", Text: "fizzy", Family: "worry"},
		{ID: "joy", Text: "happy", Family: "joy"}, {ID: "offer:weary", Text: "weary", Family: "tiredness"},
	}}
	for _, x := range []struct {
		ids  string
		want exercises.MarkValue
	}{
		{"fear", exercises.Fits}, {"offer:weary", exercises.Fits}, {"w1", exercises.Near}, {"joy", exercises.NotYet},
		{"fear joy", exercises.Fits}, {"fear w1 joy", exercises.Near}, {"fear w1 joy offer:weary", exercises.Near},
		{"gone", exercises.ForGuide},
	} {
		require.Equal(t, x.want, Judge(c, m, s, exercises.Answer{ChoiceIDs: strings.Fields(x.ids)}).Value, x.ids)
	}
	s.Fewer = []exercises.Choice{s.Choices[0], s.Choices[2]}
	both := exercises.Answer{ChoiceIDs: []string{"fear", "joy"}, Prompt: exercises.FewerChoices}
	require.Equal(t, exercises.Near, Judge(c, m, s, both).Value, "both of two says nothing")
}

func TestFind(t *testing.T) {
	c, m := fixture(t)
	for part, want := range map[string]exercises.MarkValue{
		"legs felt like wet rope":      exercises.Fits,
		"wet":                          exercises.Fits,
		"His legs felt like wet rope.": exercises.Fits,
		"His legs felt like wet rope. Below him the sea": exercises.Fits,
		"His":              exercises.Near, // a little word of the right sentence
		"the lamp was out": exercises.NotYet,
		"did not shake":    exercises.ForGuide, // tells of him, and not of fear
		story:              exercises.NotYet,
	} {
		got := Judge(c, m, exercises.Step{Kind: exercises.Find}, exercises.Answer{Spans: []nlp.Span{at(t, story, part)}})
		require.Equal(t, want, got.Value, part)
	}
	for said, want := range map[string]exercises.MarkValue{
		"his legs felt like wet rope": exercises.Fits, "rope": exercises.Fits,
		"the sea was black": exercises.NotYet, "his legs are wobbly": exercises.Fits, "pancakes": exercises.ForGuide,
	} {
		got := Judge(c, m, exercises.Step{Kind: exercises.Find}, exercises.Answer{Said: said})
		require.Equal(t, want, got.Value, said)
	}
	few := exercises.Answer{ChoiceIDs: []string{"span:44-66"}, Prompt: exercises.FewerChoices}
	require.Equal(t, exercises.Fits, Judge(c, m, exercises.Step{Kind: exercises.Find}, few).Value)
}

func TestBody(t *testing.T) {
	c, m := fixture(t)
	step := exercises.Step{Kind: exercises.Body, Choices: []exercises.Choice{
		{ID: "legs", Place: "legs"}, {ID: "hands", Place: "hands"}, {ID: "hands/shaking", Place: "hands"}, {ID: "w1", Text: "fizzy", Place: "belly"},
	}}
	for said, want := range map[string]exercises.MarkValue{
		"his legs":                exercises.Fits,
		"wobbly knees":            exercises.Fits,
		"his heart beats fast":    exercises.Fits,
		"shaking hands":           exercises.NotYet, // the text says his hands do not shake
		"his hands are trembling": exercises.NotYet,
		"hands not shaking":       exercises.Fits,
		"ears":                    exercises.ForGuide,
		"a tingly nose":           exercises.ForGuide,
		"fizzy":                   exercises.ForGuide, // a place of the learner's own
	} {
		require.Equal(t, want, Judge(c, m, step, exercises.Answer{Said: said}).Value, said)
	}
	for id, want := range map[string]string{
		"legs": "mark.body.fits.place", "hands": "mark.body.guide.place", "hands/shaking": "mark.body.contrary.sign", "w1": "mark.body.guide",
	} {
		require.Equal(t, want, Judge(c, m, step, exercises.Answer{ChoiceIDs: []string{id}}).Why.Code, id)
	}
	why := Judge(c, m, step, exercises.Answer{Said: "shaking hands"}).Why
	require.Equal(t, "hands did not shake", why.Slots["quote"], "quotes where the text says so")
	self := Judge(c, m, step, exercises.Answer{Said: "my belly", AboutSelf: true})
	require.Equal(t, exercises.Mark{Value: exercises.Unmarked, Why: self.Why}, self)
}

func TestReason(t *testing.T) {
	c, m := fixture(t)
	for said, want := range map[string]exercises.MarkValue{
		"because of the rope legs": exercises.Fits,
		"his knees are wobbly":     exercises.Fits, // knees belong to the legs
		"his legs were not weak":   exercises.ForGuide,
		"it is night":              exercises.ForGuide,
	} {
		require.Equal(t, want, Judge(c, m, exercises.Step{Kind: exercises.Reason}, exercises.Answer{Said: said}).Value, said)
	}
	// Words elsewhere may be a reason as well: never not yet.
	lamp := exercises.Answer{Spans: []nlp.Span{at(t, story, "the lamp was out")}}
	require.Equal(t, exercises.ForGuide, Judge(c, m, exercises.Step{Kind: exercises.Reason}, lamp).Value)
}

func TestWhatWasSaidIsGivenBack(t *testing.T) {
	c, m := fixture(t)
	why := Judge(c, m, exercises.Step{Kind: exercises.Feeling}, exercises.Answer{Said: "  proud \n"}).Why
	require.Equal(t, nlp.Reason{Code: "mark.feeling.not-yet.body", Slots: map[string]string{
		"name": "Nilo", "whose": "Nilo's", "quote": "His legs felt like wet rope", "said": "proud", "places": "legs"}}, why)
}

func TestAMomentWithoutAKeyIsForTheGuide(t *testing.T) {
	c, _ := fixture(t)
	for _, k := range []exercises.StepKind{exercises.Find, exercises.Body, exercises.Feeling, exercises.Reason} {
		require.Equal(t, exercises.ForGuide, Judge(c, exercises.Moment{}, exercises.Step{Kind: k}, exercises.Answer{Said: "sad"}).Value)
	}
}

func TestListsAreRead(t *testing.T) {
	require.Greater(t, len(neighbours()), 1000)
	require.Equal(t, "shake", synonyms()["tremble"])
	_, err := lines("x", "sad\n")
	require.ErrorContains(t, err, "source")
}

func BenchmarkJudge(b *testing.B) {
	c, m := fixture(b)
	for b.Loop() {
		Judge(c, m, exercises.Step{Kind: exercises.Feeling}, exercises.Answer{Said: "he is a bit frightend and sort of wobbly like on the boat"})
	}
}
