package demo

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func TestTheHouseholdIsWhatItShouldBe(t *testing.T) {
	h, err := parse(embedded)
	require.NoError(t, err)
	require.Len(t, h.people, 2)
	for _, who := range h.people {
		require.True(t, who.Demo)
		require.True(t, who.begins >= 0 && who.begins < 1)
		for _, w := range who.words {
			require.Contains(t, nlp.Families, w.Family, w.Form)
			require.Subset(t, nlp.Places, w.Places, w.Form)
			require.True(t, w.Shade >= 0 && w.Shade <= 1, w.Form)
		}
		for f := range who.likeMe {
			require.Contains(t, nlp.Families, f)
		}
		for _, x := range who.happened {
			require.Less(t, x.ago, length)
			require.Contains(t, nlp.Places, x.Place)
		}
		for _, n := range who.notes {
			require.Subset(t, nlp.Places, n.what.Places)
		}
		require.NotEmpty(t, who.phases)
		require.NotEmpty(t, who.used)
		require.NotEmpty(t, who.couldHelp)
	}
	for _, x := range h.expressions {
		require.True(t, x.Demo)
	}
}

func TestParseNamesTheLineThatIsWrong(t *testing.T) {
	const head = "# Source: a test\n# Licence: CC0-1.0\nlearner | Moss | speak | 20 | 0 | 0.1 | 0.1\nword | Moss | cold | cold | skin | 0.5 | plain\n"
	_, err := parse(head)
	require.NoError(t, err)
	for line, want := range map[string]string{
		"word | Moss | cold":                       `"word" with 2 parts`,
		"song | Moss":                              `"song"`,
		"note | Gull | 1 | head | loud":            `"Gull"`,
		"note | Moss | soon | head | loud":         `"soon"`,
		"note | Moss | -1 | head | loud":           `"-1"`,
		"used | Moss | hot | 3 | at the quay":      `"hot"`,
		"word | Moss | x | cold | skin | x | y":    `"x"`,
		"learner | Reed | tap | 20 | 0 | 0 | most": `"most"`,
		"happened | Moss | cold | x | a| b| c| d":  `"x"`,
	} {
		_, err := parse(head + line)
		require.ErrorContains(t, err, "household.txt:5: ", line)
		require.ErrorContains(t, err, want, line)
	}
	for _, without := range []string{"# Source:", "# Licence:"} {
		_, err := parse(strings.Replace(head, without, "#", 1))
		require.ErrorContains(t, err, without)
	}
}
