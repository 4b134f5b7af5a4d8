package cues

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

// Sentences of our own: the family is found and lies with the starred one. The
// shares are counted, not tuned to: what fails is logged.
func TestOwnSentences(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	b, err := os.ReadFile("testdata/sentences.txt")
	require.NoError(t, err)
	family, all, found, owned := "", 0, 0, 0
	per := map[string]int{}
	for _, line := range strings.Split(string(b), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		if line[0] == '[' {
			family = strings.Trim(line, "[]")
			require.Contains(t, nlp.Families, family)
			continue
		}
		parts := strings.Split(line, "*")
		require.GreaterOrEqual(t, len(parts), 3, line)
		who := strings.TrimSuffix(parts[len(parts)-2], "'s")
		cs, cast, d := read(t, lx, strings.ReplaceAll(line, "*", ""))
		all++
		per[family]++
		ok, mine := false, false
		for _, c := range cs {
			if c.Denied || c.Pretended {
				continue
			}
			for _, f := range c.Feelings {
				if f.Family == family && f.Weight >= 0.3*c.Feelings[0].Weight {
					ok = true
					mine = mine || c.Character >= 0 && same(cast[c.Character], who)
				}
			}
		}
		if ok {
			found++
		}
		if mine {
			owned++
		} else {
			t.Logf("%s: %s found %v owned %v%s", family, line, ok, mine, tags(d, cs))
		}
	}
	for _, f := range nlp.Families {
		require.GreaterOrEqual(t, per[f], 15, f)
	}
	t.Logf("%d sentences, found %d, with the right owner %d", all, found, owned)
	require.Greater(t, float64(found), 0.95*float64(all))
	require.Greater(t, float64(owned), 0.95*float64(found))
}
