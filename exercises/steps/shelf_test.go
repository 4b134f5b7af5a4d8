package steps

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/corpus/shelf"
	"feltpage/exercises"
	"feltpage/exercises/marking"
	"feltpage/exercises/moments"
	"feltpage/exercises/wordbook"
	"feltpage/nlp"
	"feltpage/nlp/pipeline"
)

// Every tale of the shelf, read by the engine: whatever it finds, the steps
// must hold together. A worked answer that does not fit, or a choice that is
// marked as something else than it was shown for, would teach nonsense.
func TestEveryTaleOfTheShelf(t *testing.T) {
	engine, err := pipeline.New()
	require.NoError(t, err)
	tales, err := shelf.Stories()
	require.NoError(t, err)
	tab := table(t)
	usable := 0
	for _, tale := range tales {
		a, err := engine.Analyze(context.Background(), tale.Text)
		require.NoError(t, err)
		ms := moments.Choose(a, tab)
		if len(ms) > 0 {
			usable++
		}
		c := marking.Context{Text: tale.Text, Table: tab, Book: book()}
		for _, m := range ms {
			where := fmt.Sprintf("%s, %s: %q", tale.ID, m.CharacterName, m.Span.Of(tale.Text))
			for _, s := range Build(m, a, tab, book(), seeded(1), Options{}) {
				if !s.Kind.Marked() {
					continue
				}
				require.True(t, m.Span.Contains(s.Where), where)
				require.NotEmpty(t, s.Prompt.Slots["quote"], where)
				worked := exercises.Answer{Spans: s.WorkedAt, Prompt: exercises.Together}
				switch s.Kind {
				case exercises.Feeling:
					worked = exercises.Answer{Said: s.Worked.Slots["word"]}
				case exercises.Body:
					worked = exercises.Answer{ChoiceIDs: []string{s.Worked.Slots["place"] + "/" + s.Worked.Slots["sign"]}}
				}
				require.Equal(t, exercises.Fits, marking.Judge(c, m, s, worked).Value, "the worked answer to %s of %s", s.Kind, where)
				for _, x := range slices.Concat(s.Choices, s.Fewer) {
					want, asked := map[exercises.ChoiceRole]exercises.MarkValue{exercises.RoleFits: exercises.Fits, exercises.RoleOffer: exercises.Fits,
						exercises.RoleNear: exercises.Near}[x.Role]
					if !asked {
						continue // what a far choice gets depends on the step
					}
					got := marking.Judge(c, m, s, exercises.Answer{ChoiceIDs: []string{x.ID}, Prompt: exercises.FewerChoices}).Value
					require.Equal(t, want, got, "%q of %s of %s", x.Text, s.Kind, where)
				}
				// A far stretch never fits.
				for _, x := range s.Fewer {
					if x.Role == exercises.RoleFar && s.PointText {
						got := marking.Judge(c, m, s, exercises.Answer{ChoiceIDs: []string{x.ID}}).Value
						require.NotEqual(t, exercises.Fits, got, "%q of %s", x.Text, where)
					}
				}
			}
		}
	}
	// Common sense, no source: a shelf is there to be read from.
	require.GreaterOrEqual(t, usable, 8)
}

// Any text may be pasted. Whatever the engine makes of it, moments and steps
// point into it and nothing breaks.
func FuzzAnyText(f *testing.F) {
	engine, err := pipeline.New()
	require.NoError(f, err)
	f.Add("Moss came in. He was so afraid that his knees shook, and \u201cGran!\u201d he cried. Gran held him, and he was glad of it at last.")
	f.Add("\u201cI am sad,\u201d she said.\n\n* * *\n\nI was not afraid. My hands did not shake.")
	f.Add("\x00\xff \u2028 a\u0301 \U0001f600")
	tab := table(f)
	f.Fuzz(func(t *testing.T, text string) {
		a, err := engine.Analyze(context.Background(), text)
		if err != nil {
			t.Skip()
		}
		inside := func(s nlp.Span) bool { return 0 <= s.Start && s.Start < s.End && s.End <= len(text) }
		for _, m := range moments.Choose(a, tab) {
			if !inside(m.Span) || m.CharacterName == "" {
				t.Fatalf("%+v", m)
			}
			for _, s := range Build(m, a, tab, wordbook.Book{}, seeded(1), Options{}) {
				if s.Kind.Marked() && (!inside(s.Where) || !inside(s.WorkedAt[0])) {
					t.Fatalf("%+v", s)
				}
				marking.Judge(marking.Context{Text: text, Table: tab}, m, s, exercises.Answer{Spans: s.WorkedAt, Said: text})
			}
		}
	})
}
