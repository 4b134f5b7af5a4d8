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
		// Each kind.
		{"The king was killed at noon.", []string{"violence: killed"}},
		{"They buried the old dog.", []string{"death: buried"}},
		{"Her father passed away in May.", []string{"death: passed away"}},
		{"He wished he were dead.", []string{"self-harm: wished he were dead", "death: dead"}},
		{"She threw herself into the well.", []string{"self-harm: threw herself into"}},
		{"They starved her and locked her in the cellar.", []string{"cruelty: starved her", "cruelty: locked her in"}},
		{"He left them in the forest.", []string{"abandonment: left them in the forest"}},
		{"“Don’t come back,” she said.", []string{"abandonment: Don’t come back"}},
		{"WITCHES! A ghost.", []string{"fear: WITCHES", "fear: ghost"}},
		{"He drank a cup of wine.", []string{"drink: wine"}},
		{"He smoked his long pipe.", []string{"drink: smoked his long pipe"}},
		{"The lunatics, as people called them, sang.", []string{"dated: lunatics"}},
		// Forms and phrases.
		{"They stabbed the wolf, and it died.", []string{"violence: stabbed", "death: died"}},
		{"He cut off the giant’s head.", []string{"violence: cut off the giant’s head"}},
		{"The murderer’s wife buries it.", []string{"violence: murderer’s", "death: buries"}},
		// The same words, something else.
		{"The wind died down.", nil},
		{"She buried her face in the straw.", nil},
		{"All the blood left his face.", nil},
		{"Her feet hurt as the blood came back.", nil},
		{"The path wound up the hill.", nil},
		{"She threw herself into his arms.", nil},
		{"She was struck dumb.", nil},
		{"They had drunk the milk at dead of night.", nil},
		{"It struck him that the door was open.", nil},
		// Words that only hold such a word.
		{"A skilled reader read a diet book in the daylight.", nil},
		{"The warden went toward the ward.", nil},
		{"He put on his studied, deadpan look and skilfully whipped nothing.", []string{"violence: whipped"}},
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

func TestByKind(t *testing.T) {
	const text = "Wine! He died. More wine."
	got := ByKind(Find(text))
	require.Len(t, got, 2)
	require.Equal(t, "note.death", got[0].Code)
	require.Equal(t, "note.drink", got[1].Code)
	require.Len(t, got[1].Spans, 2)
	require.Empty(t, ByKind(nil))
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
