package corpus

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// FIPS 180-4: SHA-256 of "abc".
func TestHash(t *testing.T) {
	require.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", Hash("abc"))
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string // "title: text"
	}{
		{"empty", " \n", nil},
		{"one", "Once.\n\nTwice.\n", []string{": Once.\n\nTwice."}},
		{"ornament", "Once.\n\n* * *\n\nTwice.", []string{": Once.", ": Twice."}},
		{"ornaments at the ends", "***\nOnce.\n—\n", []string{": Once."}},
		{"chapters", "Prologue.\n\nCHAPTER I. The Sea\n\nOnce.\n\nChapter Two\n\nTwice.", []string{": Prologue.", "CHAPTER I. The Sea: Once.", "Chapter Two: Twice."}},
		{"no heading", "Part of it was gone.\n\nBook in hand, he ran.", []string{": Part of it was gone.\n\nBook in hand, he ran."}},
		{"a dash opens speech", "— Who is there?\n\n— I am.", []string{": — Who is there?\n\n— I am."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, s := range Split(c.text) {
				got = append(got, s.Title+": "+s.Span.Of(c.text))
			}
			require.Equal(t, c.want, got)
		})
	}
}
