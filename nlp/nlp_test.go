package nlp_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp/segment"
)

func TestWholeKeepsTheWordsTogether(t *testing.T) {
	d := segment.Split("Moss didn't know. \"I cannot,\" he said.")
	at := func(word string) int {
		for i := range d.Tokens {
			if d.Word(i) == word {
				return i
			}
		}
		t.Fatalf("no token %q", word)
		return 0
	}
	nt := at("n't")
	require.Equal(t, "didn't know", d.Whole(nt, at("know")+1).Of(d.Text))
	require.Equal(t, "Moss didn't", d.Whole(0, nt).Of(d.Text))
	require.Equal(t, "cannot", d.Whole(at("not"), at("not")+1).Of(d.Text))
	require.Equal(t, "Moss", d.Whole(0, 1).Of(d.Text))
}
