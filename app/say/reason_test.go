package say

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func TestReasonSaysIds(t *testing.T) {
	c := &Catalogue{lines: map[string]string{
		"a": "\u201c{quote}\u201d goes with {families} at the {place}.", "family.fear": "fear", "place.hands": "hands",
		"list.comma": ",", "list.last": "{first} and {last}",
	}}
	require.Equal(t, "\u201chis hands\u201d goes with fear, itch and cold at the hands.", c.Reason(nlp.Reason{
		Code: "a", Slots: map[string]string{"quote": "his hands", "families": "fear,itch,cold", "place": "hands"}}))
}
