package level

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/corpus"
)

// The first text and its values are from the tests of the textstat library;
// the second is worked out by hand from the published formulas.
func TestWorkedExamples(t *testing.T) {
	l := Of("Cool dogs wear da sunglasses.")
	require.Equal(t, 5, l.Words)
	require.Equal(t, 1, l.Sentences)
	require.InDelta(t, 83.32, l.Ease, 0.005)
	require.InDelta(t, 2.88, l.Grade, 0.005)

	l = Of("The fox ran fast. It was very hungry.")
	require.Equal(t, 8, l.Words)
	require.Equal(t, 2, l.Sentences)
	require.InDelta(t, 97.025, l.Ease, 0.0005)
	require.InDelta(t, 0.72, l.Grade, 0.005)
}

func TestCounting(t *testing.T) {
	for _, c := range []struct {
		text             string
		words, sentences int
	}{
		{"", 0, 0},
		{"...", 0, 0},
		{"Fox", 1, 1},
		{"“Oh!” he cried. He ran.", 5, 2},
		{"He ran--and fell—and got up.", 7, 1},
		{"The well-known boy didn’t stop.", 5, 1},
		{"One.\n\n* * *\n\nTwo.", 2, 2},
		{"Mr. Fox ran. Mrs. Fox ran.", 6, 2},
	} {
		l := Of(c.text)
		require.Equal(t, c.words, l.Words, c.text)
		require.Equal(t, c.sentences, l.Sentences, c.text)
	}
	require.Equal(t, corpus.Level{}, Of("—"))
	require.InDelta(t, 2.5, From(250, 20, 300).Minutes, 1e-9)
}

// Counts from standard pronunciation, from memory; package cmudict agrees
// (see TestSyllablesAgainstPronouncingDictionary).
func TestSyllables(t *testing.T) {
	for word, want := range map[string]int{
		"": 0, "—": 0, "a": 1, "the": 1, "fox": 1, "tree": 1, "blue": 1, "table": 2, "little": 2,
		"walked": 1, "wanted": 2, "needed": 2, "settled": 2, "stayed": 1, "boxes": 2, "places": 2, "makes": 1, "tables": 2,
		"didn't": 2, "didn’t": 2, "don't": 1, "I'll": 1, "it'll": 2, "fox's": 2, "boy’s": 1,
		"lion": 2, "quiet": 2, "being": 2, "playing": 2, "dying": 2, "carrying": 3, "special": 2, "nation": 2, "curious": 3,
		"lonely": 2, "careful": 2, "movement": 2, "homemade": 2, "tongue": 1, "rhythm": 2, "well-known": 2,
		"hungry": 2, "beautiful": 3, "naïve": 2, "café": 2, "strawberries": 3, "QUIETLY": 3, "agreeable": 4,
	} {
		require.Equal(t, want, Syllables(word), word)
	}
}

func TestExceptionsNeedSourceAndLicence(t *testing.T) {
	for _, bad := range []string{"eye 1\n", "# Source: x\neye 1\n", "# Source: x\n# Licence: y\neye\n", "# Source: x\n# Licence: y\neye none\n"} {
		_, err := parseExceptions(bad)
		require.Error(t, err, bad)
	}
	m, err := parseExceptions(exceptionFile)
	require.NoError(t, err)
	require.NotEmpty(t, m)
}

func TestEveryBandHasItsSentence(t *testing.T) {
	// Read as text: corpus does not import the program around it.
	b, err := os.ReadFile("../../app/say/text/en/reasons.txt")
	require.NoError(t, err)
	for grade, want := range map[float64]string{-1: "short", 2.4: "short", 2.6: "plain", 5: "middle", 8: "long", 12: "hard"} {
		require.Equal(t, "level.band."+want, Band(corpus.Level{Words: 1, Grade: grade}))
		require.Contains(t, string(b), "\nlevel.band."+want+" = ")
	}
	require.Equal(t, "level.band.none", Band(corpus.Level{}))
	require.Contains(t, string(b), "\nlevel.band.none = ")
}

func FuzzOf(f *testing.F) {
	f.Add("“Oh!” he cried. He didn’t--well-known '' -")
	f.Fuzz(func(t *testing.T, s string) {
		l := Of(s)
		require.True(t, l.Words >= 0 && l.Sentences >= 0)
		require.Equal(t, l, Of(s))
		for _, w := range Words(s) {
			require.Positive(t, Syllables(w), "%q", w)
		}
	})
}

func BenchmarkOf(b *testing.B) {
	text := strings.Repeat("The old woman went down to the shore every morning to look for wood. She was cold. ", 1000)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		Of(text)
	}
}
