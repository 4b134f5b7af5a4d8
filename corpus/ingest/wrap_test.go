package ingest

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"feltpage/corpus/shelf"
)

// wrap breaks text into lines of at most width characters, as a typist of an
// e-text does.
func wrap(paragraph string, width int) string {
	var b strings.Builder
	n := 0
	for _, w := range strings.Fields(paragraph) {
		c := utf8.RuneCountInString(w)
		switch {
		case n == 0:
		case n+1+c > width:
			b.WriteString("\r\n")
			n = 0
		default:
			b.WriteByte(' ')
			n++
		}
		b.WriteString(w)
		n += c
	}
	return b.String()
}

// Every tale of the shelf, wrapped as e-texts are at each usual width and
// with old line ends, comes back as it was. A paragraph of two lines whose
// first happens to be short cannot be told from verse; such are counted and
// must be rare.
func TestWrappedProseComesBack(t *testing.T) {
	tales, err := shelf.Stories()
	require.NoError(t, err)
	all, kept := 0, 0
	for width := 60; width <= 80; width++ {
		for _, tale := range tales {
			paras := strings.Split(tale.Text, "\n\n")
			wrapped := make([]string, len(paras))
			for i, p := range paras {
				wrapped[i] = wrap(p, width)
			}
			s, err := Text(strings.Join(wrapped, "\r\n\r\n"), tale.Title)
			require.NoError(t, err)
			got := strings.Split(s.Text, "\n\n")
			require.Len(t, got, len(paras), tale.ID)
			for i, p := range paras {
				if !strings.Contains(wrapped[i], "\n") {
					require.Equal(t, p, got[i])
					continue
				}
				all++
				if strings.Contains(got[i], "\n") {
					kept++
					require.Equal(t, strings.ReplaceAll(wrapped[i], "\r", ""), got[i])
					continue
				}
				require.Equal(t, p, got[i])
			}
		}
	}
	t.Logf("%d of %d wrapped paragraphs left in lines", kept, all)
	require.Less(t, kept*100, all)
}

func TestTheShelfNeedsNoCleaning(t *testing.T) {
	tales, err := shelf.Stories()
	require.NoError(t, err)
	for _, tale := range tales {
		s, err := Text(tale.Text, tale.Title)
		require.NoError(t, err)
		require.Equal(t, tale.Hash, s.Hash, tale.ID)
		require.Equal(t, tale.Sections, s.Sections, tale.ID)
		require.Empty(t, s.Remarks, tale.ID)
	}
}
