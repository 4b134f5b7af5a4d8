package slips

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"kitten", "sitting", 3}, // the textbook example of Levenshtein's distance
		{"ca", "abc", 3},         // the textbook example where swaps may not be edited again
		{"scared", "sacred", 1}, {"", "abc", 3}, {"same", "same", 0}, {"müde", "mude", 1},
	} {
		require.Equal(t, c.want, Distance(c.a, c.b), "%s %s", c.a, c.b)
	}
}

func TestDistanceIsEvenAndBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.StringMatching(`[a-e]{0,9}`).Draw(t, "a"), rapid.StringMatching(`[a-e]{0,9}`).Draw(t, "b")
		d := Distance(a, b)
		if d != Distance(b, a) || (d == 0) != (a == b) || d > max(len(a), len(b)) || d < max(len(a), len(b))-min(len(a), len(b)) {
			t.Fatalf("%q %q: %d", a, b, d)
		}
	})
}

func TestNear(t *testing.T) {
	require.True(t, Near("scarred", "scared"))
	require.True(t, Near("frightend", "frightened"))
	require.True(t, Near("angrey", "angry"))
	require.False(t, Near("bad", "mad"))
	require.False(t, Near("tied", "excited"))
}
