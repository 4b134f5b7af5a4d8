package say

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func TestReasonSaysTheNamesOfIDs(t *testing.T) {
	r := nlp.Reason{Code: "cue.body-sign-or", Slots: map[string]string{
		"words": "his knees knocked", "sign": "shaking", "place": "legs", "family": "fear", "second": "cold"}}
	require.Equal(t, "“his knees knocked” is a body sign; shaking often goes with fear or cold.", English().Reason(r))
	r = nlp.Reason{Code: "cue.named", Slots: map[string]string{"words": "full of buzz", "family": "buzz"}}
	require.Equal(t, "The text says it: “full of buzz”. This is a word for buzz.", English().Reason(r))
}
