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

func TestWhoTellsTheStory(t *testing.T) {
	c := &Catalogue{lines: map[string]string{"a": "{whose} hands, {name}", "name.teller": "the storyteller", "name.teller-whose": "the storyteller's"}}
	require.Equal(t, "The storyteller's hands, the storyteller", c.Reason(nlp.Reason{Code: "a", Slots: map[string]string{"name": "I", "whose": "I's"}}))
	require.Equal(t, "Moss", c.Name("Moss"))
	require.True(t, English().Has("name.teller") && English().Has("name.teller-whose"))
}
