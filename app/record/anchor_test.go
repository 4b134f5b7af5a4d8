package record

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/nlp"
)

func TestAnchorKeepsCharactersNotBytes(t *testing.T) {
	text := strings.Repeat("é", 40) + "his knees shook" + strings.Repeat("ü", 10)
	a := AnchorAt(text, "h", nlp.Span{Start: 80, End: 95}, "Moss")
	require.Equal(t, Anchor{TextHash: "h", Quote: "his knees shook", Before: strings.Repeat("é", 32),
		After: strings.Repeat("ü", 10), Character: "Moss"}, a)
}

func TestAnchorFindsItsWordsAgain(t *testing.T) {
	text := "The oven roared. She sighed. The tide came in. She sighed. Nobody spoke."
	second := strings.LastIndex(text, "She sighed")
	a := AnchorAt(text, "h", nlp.Span{Start: second, End: second + 10}, "the baker")
	for name, c := range map[string]struct {
		text string
		want int
		ok   bool
	}{
		"the same text":      {text, second, true},
		"text put before it": {"A new first line. " + text, second + 18, true},
		"its words are gone": {strings.ReplaceAll(text, "She sighed", "She hummed"), 0, false},
		"two equal places":   {"She sighed. She sighed", 0, false},
		"nothing at all":     {"", 0, false},
	} {
		at, ok := a.In(c.text)
		require.Equal(t, c.ok, ok, name)
		if c.ok {
			require.Equal(t, nlp.Span{Start: c.want, End: c.want + 10}, at, name)
		}
	}
}

// An anchor never leads to another place of the text it was made on, and it
// always leads back where its words stand only once.
func TestAnchorRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("ab é\n"))).Draw(t, "text")
		runes := utf8.RuneCountInString(text)
		i := rapid.IntRange(0, runes).Draw(t, "i")
		j := rapid.IntRange(i, runes).Draw(t, "j")
		r := []rune(text)
		at := nlp.Span{Start: len(string(r[:i])), End: len(string(r[:j]))}
		got, ok := AnchorAt(text, "h", at, "").In(text)
		if ok && got != at {
			t.Fatalf("%q: anchored %v, found %v", text, at, got)
		}
		if !ok && at.Len() > 0 && strings.Count(text, at.Of(text)) == 1 {
			t.Fatalf("%q: %v is not found", text, at)
		}
	})
}
