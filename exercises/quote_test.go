package exercises

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func TestQuoteAround(t *testing.T) {
	for _, c := range []struct{ sentence, evidence, want string }{
		{"Moss looked at the tray, and his chin shook.", "his chin shook", "his chin shook"},
		{"Moss looked at the tray, and his chin shook.", "shook", "his chin shook"},
		{"He was, for once, glad.", "glad", "glad"},
		{"\u201cI am glad of it,\u201d said Gran.", "glad", "I am glad of it"},
		{"She had been far too excited the whole long morning through to eat a single one of the buns.", "excited", "been far too excited the whole long"},
		{"He had been so very astonished to find that it was gone from its place on the shelf.", "astonished", "been so very astonished to find"},
		{"It was a hard day for all of them,\nand she wept\nwith them.", "wept", "she wept with them"},
		{"So fearful a night.", "fear", "So fearful a night"},
		{"Oh!", "Oh", "Oh"},
	} {
		text := "Before. " + c.sentence + " After."
		s := nlp.Span{Start: 8, End: 8 + len(c.sentence)}
		at := strings.Index(text, c.evidence)
		require.Equal(t, c.want, QuoteAround(text, nlp.Span{Start: at, End: at + len(c.evidence)}, s))
	}
	require.Empty(t, QuoteAround("short", nlp.Span{Start: 3, End: 9}, nlp.Span{}))
}

func TestWhose(t *testing.T) {
	require.Equal(t, "Nilo's", Whose("Nilo"))
	require.Equal(t, "the foxes'", Whose("the foxes"))
}

func FuzzQuoteAround(f *testing.F) {
	f.Add("He was glad, \u201cso glad\u201d.", 7, 11, 0, 25)
	f.Fuzz(func(t *testing.T, text string, a, b, c, d int) {
		QuoteAround(text, nlp.Span{Start: a, End: b}, nlp.Span{Start: c, End: d})
	})
}
