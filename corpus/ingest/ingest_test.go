package ingest

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Made by hand from the published marks of Project Gutenberg files.
const wrapped1 = "Title: The Well\n\n*** START OF THE PROJECT GUTENBERG EBOOK THE WELL ***\n\nOnce there was a well. Nobody drank there.\n\n*** END OF THE PROJECT GUTENBERG EBOOK THE WELL ***\n\nlicence\n"

func TestReadTakesOffTheWrapper(t *testing.T) {
	for name, in := range map[string]string{
		"plain":        wrapped1,
		"CRLF and BOM": "\ufeff" + strings.ReplaceAll(wrapped1, "\n", "\r\n"),
	} {
		s, err := Read(strings.NewReader(in), "folder/pg1.txt")
		require.NoError(t, err, name)
		require.Equal(t, "Once there was a well. Nobody drank there.", s.Text, name)
		require.Equal(t, "The Well", s.Title, name)
		require.Equal(t, "pg1.txt", s.Origin.FileName, name)
	}
}
