package notes

import (
	"os"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestFind(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string // "kind: words"
	}{
		{"The king was killed at noon.", []string{"violence: killed"}},
		{"They stabbed the wolf, and it died.", []string{"violence: stabbed", "death: died"}},
		{"The wind died down.", nil},
		{"She buried her face in the straw.", nil},
		{"They buried the old dog.", []string{"death: buried"}},
		{"He cut off the giant’s head.", []string{"violence: cut off the giant’s head"}},
		{"He left them in the forest.", []string{"abandonment: left them in the forest"}},
		{"All the blood left his face.", nil},
		{"A skilled reader read a diet book in the daylight.", nil},
		{"WITCHES shriek.", []string{"fear: WITCHES", "fear: shriek"}},
		{"He drank a cup of wine.", []string{"drink: wine"}},
		{"", nil},
	} {
		t.Run(c.text, func(t *testing.T) {
			var got []string
			for _, n := range Find(c.text) {
				got = append(got, n.Code[len("note."):]+": "+n.Span.Of(c.text))
			}
			require.Equal(t, c.want, got)
		})
	}
}

func TestEveryKindHasItsSentenceAndEntries(t *testing.T) {
	// Read as text: corpus does not import the program around it.
	sentences, err := os.ReadFile("../../app/say/text/en/reasons.txt")
	require.NoError(t, err)
	has := map[string]bool{}
	for _, es := range english().by {
		for _, e := range es {
			has[e.kind] = true
		}
	}
	for _, k := range Kinds {
		require.True(t, has[k], k)
		require.Contains(t, string(sentences), "\nnote."+k+" = ")
	}
}

func TestListNeedsSourceAndLicence(t *testing.T) {
	_, err := parse("x", "[death]\ndie\n")
	require.ErrorContains(t, err, "source")
	for _, bad := range []string{"[sorrow]\n", "die\n", "[death]\n- down\n", "[death]\ndie\ndie\n", "[death]\n_ die\n"} {
		_, err := parse("x", "# Source: s\n# Licence: l\n"+bad)
		require.ErrorContains(t, err, "x:", bad)
	}
}

func FuzzFind(f *testing.F) {
	f.Add("They stabbed the wolf — it died; dead’s-")
	f.Fuzz(func(t *testing.T, s string) {
		last := 0
		for _, n := range Find(s) {
			require.True(t, last <= n.Span.Start && n.Span.Start < n.Span.End && n.Span.End <= len(s))
			last = n.Span.Start
			if utf8.ValidString(s) {
				require.True(t, utf8.ValidString(n.Span.Of(s)))
			}
		}
	})
}
