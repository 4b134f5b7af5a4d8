package moments

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/exercises"
	"feltpage/exercises/internal/sample"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

func table(t testing.TB) *feelings.Table {
	t.Helper()
	table, err := feelings.Load()
	require.NoError(t, err)
	return table
}

// sound checks what must hold of every moment.
func sound(t *testing.T, a *nlp.Analysis, m exercises.Moment) {
	t.Helper()
	text := a.Doc.Text
	require.NotEmpty(t, m.ID)
	require.NotEmpty(t, m.CharacterName)
	require.Contains(t, strings.ToLower(m.Span.Of(text)), strings.TrimPrefix(strings.ToLower(m.CharacterName), "the "))
	starts, ends := false, false
	for _, s := range a.Doc.Sentences {
		starts = starts || s.Span.Start == m.Span.Start
		ends = ends || s.Span.End == m.Span.End
	}
	require.True(t, starts && ends, "whole sentences: %q", m.Span.Of(text))
	n := len(strings.Fields(m.Span.Of(text)))
	require.True(t, n >= leastWords/2 && n <= mostWords+20, "%d words", n)
	require.True(t, slices.ContainsFunc(a.Characters[m.Character].Mentions, func(x nlp.Mention) bool {
		return !x.Pronoun && m.Span.Contains(x.Span)
	}), "the passage names %s: %q", m.CharacterName, m.Span.Of(text))
	for _, q := range a.Quotes {
		require.False(t, q.Span.Overlaps(m.Span) && !m.Span.Contains(q.Span), "a quote is cut")
	}
	require.NotEmpty(t, m.Key.Evidence)
	require.NotEmpty(t, m.Key.Fits)
	for _, e := range m.Key.Evidence {
		require.True(t, m.Span.Contains(e.Span))
		require.True(t, e.Sentence.Overlaps(e.Span))
		require.Equal(t, m.Character, a.Cues[e.Cue].Character)
		require.False(t, a.Cues[e.Cue].Denied)
	}
	seen := map[string]bool{}
	for _, id := range slices.Concat(m.Key.Fits, m.Key.Near, m.Key.Not) {
		require.False(t, seen[id], "%s stands in two lists", id)
		seen[id] = true
	}
	require.True(t, m.Difficulty >= 0 && m.Difficulty <= 1)
	for _, c := range m.Key.Contrary {
		require.NotContains(t, m.Key.Body, c)
	}
}

func TestChoose(t *testing.T) {
	a := sample.Sample()
	ms := Choose(a, table(t))
	require.NotEmpty(t, ms)
	who := map[string]bool{}
	for i, m := range ms {
		sound(t, a, m)
		who[m.CharacterName] = true
		if i > 0 {
			require.GreaterOrEqual(t, m.Span.Start, ms[i-1].Span.Start, "story order")
		}
		require.False(t, strings.Contains(m.Span.Of(a.Doc.Text), "* * *"), "inside one scene")
	}
	require.Greater(t, len(who), 1, "spread over characters")
}

func TestTheMomentOnTheStairs(t *testing.T) {
	a := sample.Sample()
	i := slices.IndexFunc(Choose(a, table(t)), func(m exercises.Moment) bool { return m.Key.Fits[0] == "fear" })
	require.GreaterOrEqual(t, i, 0)
	m := Choose(a, table(t))[i]
	require.Equal(t, "Nilo", m.CharacterName)
	require.Equal(t, nlp.Body, m.Kind)
	require.Equal(t, exercises.RouteBody, m.Route)
	require.Contains(t, m.Key.Not, "joy")
	require.Contains(t, m.Key.Near, "worry")
	require.Equal(t, exercises.BodySign{Place: "legs", Sign: "weak"}, m.Key.Body[0], "what the text gives comes first")
	require.Contains(t, m.Key.Body, exercises.BodySign{Place: "chest", Sign: "beating-fast"})
	require.Contains(t, m.Key.Contrary, exercises.BodySign{Place: "whole-body", Sign: "shaking"})
	require.False(t, m.NoAndYou)
}

func TestChooseTwiceGivesTheSame(t *testing.T) {
	require.Equal(t, fmt.Sprint(Choose(sample.Sample(), table(t))), fmt.Sprint(Choose(sample.Sample(), table(t))))
}

func TestRoutes(t *testing.T) {
	for kind, want := range map[string]exercises.Route{
		nlp.Named: exercises.RouteNamed, nlp.Body: exercises.RouteBody, nlp.FaceVoice: exercises.RouteBody,
		nlp.Action: exercises.RouteBody, nlp.Speech: exercises.RouteBody, nlp.Situation: exercises.RouteEvent,
	} {
		require.Equal(t, want, routeOf(kind), kind)
	}
}

// gran is an invented passage of one scene.
const gran = "Gran set the tray by the window. The buns had burned at the edges. Moss came in from the yard with flour on his nose. He looked at the tray, and his chin shook. Gran put a hand on his back and said nothing for a while. The clock went on."

func TestNamesAndOwners(t *testing.T) {
	shook := sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("sadness", .7), Place: "face", Sign: "shaking"}
	for name, c := range map[string]struct {
		text   string
		names  []string
		change func(*nlp.Analysis)
		why    string
	}{
		"named":      {gran, []string{"Gran", "Moss"}, nil, ""},
		"no owner":   {gran, []string{"Gran", "Moss"}, func(a *nlp.Analysis) { a.Cues[0].Character = nlp.None }, "moment.none.no-name"},
		"pronouns":   {gran, []string{"Gran", "Moss"}, func(a *nlp.Analysis) { a.Characters[1].Mentions[0].Pronoun = true }, "moment.none.no-name"},
		"denied":     {gran, []string{"Gran", "Moss"}, func(a *nlp.Analysis) { a.Cues[0].Denied = true }, "moment.none.no-key"},
		"pretended":  {gran, []string{"Gran", "Moss"}, func(a *nlp.Analysis) { a.Cues[0].Pretended = true }, "moment.none.no-key"},
		"faint":      {gran, []string{"Gran", "Moss"}, func(a *nlp.Analysis) { a.Cues[0].Feelings[0].Weight = .05 }, "moment.none.no-key"},
		"no cues":    {gran, []string{"Gran", "Moss"}, func(a *nlp.Analysis) { a.Cues = nil }, "moment.none.no-cues"},
		"too short":  {"Moss came. He stopped, and his chin shook.", []string{"Moss"}, nil, "moment.none.too-short"},
		"other room": {strings.Replace(gran, " He looked", "\n\n* * *\n\nHe looked", 1), []string{"Gran", "Moss"}, nil, "moment.none.no-key"},
	} {
		a := sample.Analysis(c.text, c.names, shook)
		if c.change != nil {
			c.change(a)
		}
		ms := Choose(a, table(t))
		if c.why == "" {
			require.Len(t, ms, 1, name)
			sound(t, a, ms[0])
			continue
		}
		require.Empty(t, ms, name)
		require.Equal(t, c.why, WhyNone(a).Code, name)
	}
	require.Equal(t, "moment.none.too-short", WhyNone(nil).Code)
}

func TestAPassageReachesBackToTheName(t *testing.T) {
	text := "Moss came in from the yard. The oven ticked. The window was white with steam. A tray stood on the sill, and the edges of the buns were black. Nobody was there. The clock went on and on. His chin shook, and a tear fell on the flour of the table. Far off a gull called."
	a := sample.Analysis(text, []string{"Moss"}, sample.Cue{Words: "His chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("sadness", .7)})
	ms := Choose(a, table(t))
	require.Len(t, ms, 1)
	require.Zero(t, ms[0].Span.Start)
}

func TestAQuoteIsNotCut(t *testing.T) {
	text := "Moss came in from the yard. \u201cOh dear. The buns are black. I left them in. I forgot the time,\u201d he said. His chin shook. The clock went on and on, and nobody said a word for a while."
	a := sample.Analysis(text, []string{"Moss"}, sample.Cue{Words: "His chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("sadness", .7)})
	q := nlp.Span{Start: strings.Index(text, "\u201c"), End: strings.Index(text, "\u201d") + len("\u201d")}
	a.Quotes = []nlp.Quote{{Span: q, Speaker: 0, Listener: nlp.None}}
	for _, m := range Choose(a, table(t)) {
		sound(t, a, m)
	}
	l := layOut(a)
	w := l.whole(window{l.sentenceAt(strings.Index(text, "The buns")), l.sentenceAt(strings.Index(text, "The buns")) + 1})
	require.True(t, l.span(w).Contains(q))
}

func TestDeniedFeelingDoesNotFit(t *testing.T) {
	a := sample.Analysis(gran, []string{"Gran", "Moss"},
		sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("fear", .7, "sadness", .6)},
		sample.Cue{Words: "came in from the yard", Who: "Moss", Kind: nlp.Named, Feelings: sample.Feels("fear", 1), Denied: true})
	ms := Choose(a, table(t))
	require.Len(t, ms, 1)
	require.Equal(t, []string{"sadness"}, ms[0].Key.Fits)
	require.Contains(t, ms[0].Key.Not, "fear")
}

func TestAFeelingThatTurnsIsInNoList(t *testing.T) {
	a := sample.Analysis(gran, []string{"Moss"},
		sample.Cue{Words: "came in from the yard", Who: "Moss", Kind: nlp.Action, Feelings: sample.Feels("joy", .6)},
		sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("sadness", .7)})
	ms := Choose(a, table(t))
	require.Len(t, ms, 1)
	k := ms[0].Key
	require.Equal(t, []string{"sadness"}, k.Fits)
	require.NotContains(t, slices.Concat(k.Fits, k.Near, k.Not), "joy")
	require.Contains(t, k.Not, "pride")
}

func TestAnUnsureKeyRulesLittleOut(t *testing.T) {
	a := sample.Analysis(gran, []string{"Moss"}, sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("sadness", .45)})
	k := Choose(a, table(t))[0].Key
	require.Contains(t, k.Not, "joy")
	require.NotContains(t, k.Not, "anger")
	require.NotContains(t, k.Near, "anger")
}

func TestDifficultyRisesWithTheKindOfCue(t *testing.T) {
	last := -1.0
	for _, kind := range kindOrder {
		a := sample.Analysis(gran, []string{"Moss"}, sample.Cue{Words: "his chin shook", Who: "Moss", Kind: kind, Feelings: sample.Feels("sadness", .7)})
		d := Choose(a, table(t))[0].Difficulty
		require.Greater(t, d, last, kind)
		last = d
	}
}

func TestNoAndYouAfterCruelty(t *testing.T) {
	for first, want := range map[string]bool{
		"The master was cruel to all of them.": true,
		"They left her in the forest.":         true,
		"The old dog was dead.":                true,
		"The miller beat him for it.":          true,
		"The sword hung over the gate.":        false,
		"The kettle sang on the stove.":        false,
	} {
		a := sample.Analysis(first+" "+gran, []string{"Gran", "Moss"},
			sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.FaceVoice, Feelings: sample.Feels("sadness", .7)})
		ms := Choose(a, table(t))
		require.Len(t, ms, 1, first)
		require.Equal(t, want, ms[0].NoAndYou, first)
	}
	place := []nlp.Span{{Start: 100, End: 110}}
	require.True(t, follows(nlp.Span{Start: 50, End: 300}, place))
	require.True(t, follows(nlp.Span{Start: 200, End: 300}, place), "just after it")
	require.False(t, follows(nlp.Span{Start: 900, End: 1300}, place))
	require.False(t, follows(nlp.Span{Start: 0, End: 90}, place), "before it")
}

func TestWhatACharacterIsCalled(t *testing.T) {
	tab := table(t)
	for _, c := range []struct {
		name, kind, want string
	}{
		{"Nilo", nlp.Person, "Nilo"}, {"the goose girl", nlp.Person, "the goose girl"}, {"A little Squib", nlp.Thing, "the little Squib"},
		{"such a dear, good grandmother", nlp.Person, "the dear, good grandmother"}, {"small boy", nlp.Person, "the small boy"},
		{"the sad cousin", nlp.Person, "the cousin"}, {"the weary and old king", nlp.Person, "the old king"}, {"His father", nlp.Person, "his father"},
		{"the Happy Prince", nlp.Person, "the Happy Prince"}, {"the bright and merry youth", nlp.Person, "the bright youth"}, {"the two brothers", nlp.Group, "the two brothers"}, {"the hungry", nlp.Group, "the hungry"},
	} {
		require.Equal(t, c.want, plainName(c.name, c.kind, tab), c.name)
	}
	a := sample.Analysis(gran+" The old boy was his dog.", []string{"Moss"}, sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.Body, Feelings: sample.Feels("sadness", .7)})
	a.Characters[0].Name = "the youngest of the cousins"
	require.Equal(t, "Moss", Choose(a, tab)[0].CharacterName, "what the passage calls him")
}

func TestAStoryToldAsI(t *testing.T) {
	text := "I went down to the shore before it was light. The boat was gone. My hands shook so hard that I could not hold the rope. I sat on the wet sand and did not know what to do. Nobody came, and the gulls cried over the water."
	a := sample.Analysis(text, []string{"I"}, sample.Cue{Words: "My hands shook", Who: "I", Kind: nlp.Body, Feelings: sample.Feels("fear", .7), Place: "hands", Sign: "shaking"})
	a.Characters[0].Narrator = true
	for i := range a.Characters[0].Mentions {
		a.Characters[0].Mentions[i].Pronoun = true
	}
	ms := Choose(a, table(t))
	require.Len(t, ms, 1)
	require.Equal(t, "I", ms[0].CharacterName)
}

func TestWhomAnExerciseIsNotAbout(t *testing.T) {
	for _, c := range []nlp.Character{
		{Name: "someone", Kind: nlp.Person}, {Name: "women", Kind: nlp.Group}, {Name: "dark room", Kind: nlp.Thing},
		{Name: "the oyster", Kind: nlp.Animal}, {Name: "", Kind: nlp.Person},
	} {
		a := sample.Analysis(gran, []string{"Moss"}, sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.Body, Feelings: sample.Feels("sadness", .7)})
		a.Characters[0].Name, a.Characters[0].Kind = c.Name, c.Kind
		require.Empty(t, Choose(a, table(t)), c.Name)
		require.Equal(t, "moment.none.no-name", WhyNone(a).Code, c.Name)
		a.Quotes = []nlp.Quote{{Span: nlp.Span{Start: 0, End: 3}, Speaker: 0, Listener: nlp.None}}
		require.Equal(t, c.Name == "the oyster", len(Choose(a, table(t))) > 0, "an oyster that speaks is somebody")
	}
}

func TestHouseholdFamiliesAreKeyed(t *testing.T) {
	own, err := table(t).With(feelings.Family{ID: "overloaded", Plain: []string{"too much"}, Nearest: "worry"})
	require.NoError(t, err)
	a := sample.Analysis(gran, []string{"Moss"}, sample.Cue{Words: "his chin shook", Who: "Moss", Kind: nlp.Body, Feelings: sample.Feels("overloaded", .7)})
	m := Choose(a, own)[0]
	require.Equal(t, []string{"overloaded"}, m.Key.Fits)
	require.Contains(t, m.Key.Near, "worry")
}

func TestIDsTellMomentsApart(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range Choose(sample.Sample(), table(t)) {
		require.False(t, seen[m.ID])
		seen[m.ID] = true
	}
}

func BenchmarkChoose(b *testing.B) {
	text := strings.Repeat(sample.Story+"\n\n", 200)
	one := sample.Sample()
	a := sample.Analysis(text, []string{"Nilo", "the aunt", "baker"})
	for k := range 200 {
		off := k * (len(sample.Story) + 2)
		for _, c := range one.Cues {
			c.Span.Start += off
			c.Span.End += off
			a.Cues = append(a.Cues, c)
		}
	}
	tab := table(b)
	b.ResetTimer()
	for b.Loop() {
		Choose(a, tab)
	}
	b.ReportMetric(float64(len(strings.Fields(text))), "words")
}
