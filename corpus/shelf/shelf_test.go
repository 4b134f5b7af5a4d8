package shelf

import (
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"feltpage/corpus/level"
)

func TestShelfKeepsItsPromises(t *testing.T) {
	tales, err := Tales()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(tales), 10)
	seen, regions := map[string]string{}, map[string]bool{}
	plain := 0
	for _, s := range tales {
		words := len(strings.Fields(s.Text))
		require.GreaterOrEqual(t, words, 150, s.ID)
		require.LessOrEqual(t, words, 900, s.ID)
		require.True(t, utf8.ValidString(s.Text), s.ID)
		require.NotContains(t, s.Text, "\r", s.ID)
		require.NotContains(t, s.Text, "#", s.ID)
		require.NotContains(t, s.Text, "  ", s.ID)
		for _, p := range strings.Split(s.Text, "\n\n") {
			require.NotContains(t, p, "\n", "%s: a paragraph is one line", s.ID)
			require.Equal(t, strings.TrimSpace(p), p, s.ID)
			require.Zero(t, strings.Count(p, `"`)%2, "%s: a quote is not closed: %s", s.ID, p)
			require.False(t, strings.ContainsAny(p, "“”‘’"), "%s: quotes are straight: %s", s.ID, p)
		}
		require.Equal(t, "CC0-1.0", s.Origin.Licence, s.ID)
		require.Empty(t, seen[s.Retells], "%s and %s retell the same tale", s.ID, seen[s.Retells])
		seen[s.Retells] = s.ID
		regions[s.Region] = true
		if !s.Wonder {
			plain++
		}
	}
	require.GreaterOrEqual(t, plain, 2)
	require.GreaterOrEqual(t, len(regions), 6)
}

func TestLevelsSpread(t *testing.T) {
	tales, err := Tales()
	require.NoError(t, err)
	lo, hi := 99.0, -99.0
	for _, s := range tales {
		g := level.Of(s.Text).Grade
		lo, hi = min(lo, g), max(hi, g)
		t.Logf("%-28s header %d, measured %.1f", s.ID, s.Grade, g)
		assert.InDelta(t, float64(s.Grade), g, 1, "%s: the header's grade and the measured one lie far apart", s.ID)
	}
	require.GreaterOrEqual(t, hi-lo, 4.0)
}

func TestLoaderRefusesWhatLacksItsHeader(t *testing.T) {
	const head = "# Title: T\n# Origin: o\n# Tale: x\n# Region: r\n# Licence: CC0-1.0\n# Grade: 2\n# Wonder: no\n"
	for name, c := range map[string]struct {
		text string
		want error
	}{
		"whole":         {head + "\nOnce.\n", nil},
		"no header":     {"Once.\n", ErrHeader},
		"no licence":    {strings.Replace(head, "# Licence: CC0-1.0\n", "", 1) + "\nOnce.\n", ErrHeader},
		"no origin":     {strings.Replace(head, "# Origin: o\n", "", 1) + "\nOnce.\n", ErrHeader},
		"empty value":   {strings.Replace(head, "Origin: o", "Origin:", 1) + "\nOnce.\n", ErrHeader},
		"odd grade":     {strings.Replace(head, "Grade: 2", "Grade: two", 1) + "\nOnce.\n", ErrHeader},
		"odd wonder":    {strings.Replace(head, "Wonder: no", "Wonder: perhaps", 1) + "\nOnce.\n", ErrHeader},
		"no text":       {head, ErrText},
		"invalid bytes": {head + "\nOnce\xff.\n", ErrText},
	} {
		t.Run(name, func(t *testing.T) {
			tales, err := load(fstest.MapFS{"s/a.txt": {Data: []byte(c.text)}}, "s")
			if c.want != nil {
				require.ErrorIs(t, err, c.want)
				require.ErrorContains(t, err, "s/a.txt")
				return
			}
			require.NoError(t, err)
			require.Equal(t, "Once.", tales[0].Text)
			require.Equal(t, "a", tales[0].ID)
		})
	}
}
