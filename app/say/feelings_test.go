package say

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
	"feltpage/nlp/feelings"
)

func TestEveryFamilyPlaceAndSignHasItsWords(t *testing.T) {
	c := English()
	table, err := feelings.Load()
	require.NoError(t, err)
	for _, id := range table.IDs() {
		f, _ := table.Family(id)
		require.True(t, c.Has("family."+id), id)
		require.True(t, c.Has(f.Line), f.Line)
		for _, s := range f.Signs {
			require.True(t, c.Has("sign."+s.Sign), "%s: %s", id, s.Sign)
		}
	}
	for _, p := range nlp.Places {
		require.True(t, c.Has("place."+p), p)
	}
}
