package feelings

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func load(t *testing.T) *Table {
	t.Helper()
	table, err := Load()
	require.NoError(t, err)
	return table
}

func TestTableHasAllFamiliesInTheirOrder(t *testing.T) {
	table := load(t)
	require.Equal(t, nlp.Families, table.IDs())
	for _, id := range table.IDs() {
		f, ok := table.Family(id)
		require.True(t, ok)
		require.NotEmpty(t, f.Plain, id)
		require.GreaterOrEqual(t, len(f.Plain)+len(f.Rich), 4, id)
		require.GreaterOrEqual(t, len(f.Signs), 4, id)
		require.NotEmpty(t, f.Near, id)
		for _, s := range f.Signs {
			require.True(t, slices.Contains(nlp.Places, s.Place), "%s: %s", id, s.Place)
		}
		for _, w := range append(append([]string{}, f.Plain...), f.Rich...) {
			require.Equal(t, 1.0, weightOf(table.FamilyOf(w), id), "%s: %s", id, w)
		}
	}
}

func weightOf(ws []nlp.Weight, id string) float64 {
	for _, w := range ws {
		if w.Family == id {
			return w.Weight
		}
	}
	return 0
}

func TestNearIsMutual(t *testing.T) {
	table := load(t)
	for _, a := range table.IDs() {
		require.False(t, table.Near(a, a))
		for _, b := range table.IDs() {
			require.Equal(t, table.Near(a, b), table.Near(b, a), "%s %s", a, b)
		}
	}
}

func TestEveryPlaceIsReached(t *testing.T) {
	table := load(t)
	seen := map[string]bool{}
	for _, id := range table.IDs() {
		f, _ := table.Family(id)
		for _, s := range f.Signs {
			seen[s.Place] = true
		}
	}
	for _, p := range nlp.Places {
		require.True(t, seen[p], p)
	}
}

func TestFamilyOf(t *testing.T) {
	table := load(t)
	require.Equal(t, []nlp.Weight{{Family: "fear", Weight: 1}}, table.FamilyOf(" Scared "))
	require.Equal(t, "sadness", table.FamilyOf("upset")[0].Family)
	require.Equal(t, []nlp.Weight{{Family: "calm", Weight: 1}}, table.FamilyOf("at  ease"))
	require.Empty(t, table.FamilyOf("bread"))
}

func TestWithAddsAHouseholdFamily(t *testing.T) {
	table := load(t)
	own, err := table.With(Family{ID: "overloaded", Plain: []string{"too much"}, Nearest: "worry"})
	require.NoError(t, err)
	require.Equal(t, []nlp.Weight{{Family: "overloaded", Weight: 1}}, own.FamilyOf("too much"))
	require.True(t, own.Near("overloaded", "worry"))
	require.True(t, own.Near("fear", "overloaded"))
	f, _ := own.Family("overloaded")
	w, _ := own.Family("worry")
	require.Equal(t, w.Valence, f.Valence)
	require.False(t, table.Near("worry", "overloaded"), "the first table stays as it was")

	for _, bad := range []Family{{}, {ID: "fear"}, {ID: "x", Nearest: "nowhere"}, {ID: "x", Near: []string{"nowhere"}}} {
		_, err := table.With(bad)
		require.Error(t, err, "%+v", bad)
	}
}

func TestParseRefuses(t *testing.T) {
	head := "# Source: here\n# Licence: Apache-2.0\n"
	cases := map[string]string{
		"[joy]\nplain = happy\n":         "f:1: the file must first state",
		head:                             "f:1: no family",
		head + "plain = happy\n":         "f:3: not",
		head + "[joy]\n[joy]\n":          "f:4: family id",
		head + "[joy]\nvalence = 2\n":    "f:4: valence",
		head + "[joy]\nvalence = NaN\n":  "f:4: valence",
		head + "[joy]\narousal = warm\n": "f:4: arousal",
		head + "[joy]\nsigns = hands\n":  "f:4: sign",
		head + "[joy]\ncolour = blue\n":  "f:4: unknown key",
		head + "[joy]\nnear = bliss\n":   "unknown near family",
		head + "[joy]\nalso = good 3\n":  "f:4: also",
	}
	for text, want := range cases {
		_, err := parse("f", text)
		require.ErrorContains(t, err, want, "%q", text)
	}
}

func FuzzParse(f *testing.F) {
	f.Add(string(shipped))
	f.Add("# Source: x\n# Licence: y\n[a]\nalso = b 0.5")
	f.Fuzz(func(t *testing.T, text string) {
		if table, err := parse("f", text); err == nil && len(table.IDs()) == 0 {
			t.Error("a table without families")
		}
	})
}
