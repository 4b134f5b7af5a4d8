package print

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var made = time.Date(2026, 11, 3, 16, 0, 0, 0, time.UTC)

func chartPNG(t *testing.T) []byte {
	m := image.NewGray(image.Rect(0, 0, 20, 10))
	m.SetGray(3, 3, color.Gray{200})
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func report(t *testing.T) Report {
	return Report{Title: "Juniper’s growth", Under: "An invented learner", Lead: []string{"6 of 8.", "Likely between 41 and 93 of 100."},
		Chart: chartPNG(t), Ratio: 0.5, Foot: "Feltpage", Made: made, Notes: []string{"A count, no claim."},
		Tables: []Table{{Head: "By step", Rows: []Row{{Name: "Find", Text: "3 of 4", At: .75, Low: .3, High: .95}, {Name: "Body", None: true}}}}}
}

func sheets(n int) Sheets {
	s := Sheets{Title: "The Lamp", KeyHead: "For the guide", Foot: "Feltpage", Made: made}
	for range n {
		s.Sheets = append(s.Sheets, Sheet{Head: "Nilo", Passage: strings.Repeat("Nilo climbed the steps. His legs shook — “Aunt?” he called.\n\n", 5),
			Asks: []Ask{{Prompt: "Which feeling could go with that?", Choices: []string{"fear", "cold", "joy", "I can’t tell"}}, {Prompt: "How do you know?", Lines: 3}},
			Key:  []string{"Could fit: fear"}})
	}
	return s
}

func TestSameInputGivesTheSameBytes(t *testing.T) {
	for _, paper := range []Paper{A4, Letter} {
		var a, b, c, d bytes.Buffer
		require.NoError(t, report(t).Write(&a, paper))
		require.NoError(t, report(t).Write(&b, paper))
		require.Equal(t, a.Bytes(), b.Bytes())
		require.NoError(t, sheets(3).Write(&c, paper))
		require.NoError(t, sheets(3).Write(&d, paper))
		require.Equal(t, c.Bytes(), d.Bytes())
	}
}

func TestNoPassageIsNoPaper(t *testing.T) {
	require.ErrorIs(t, Sheets{}.Write(&bytes.Buffer{}, A4), ErrNothing)
}

// Read back by another program: poppler's pdftotext and pdffonts.
func TestWordsAndFontAreInThePDF(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("no pdftotext here (Debian poppler-utils)")
	}
	read := func(write func(f *os.File) error) string {
		path := filepath.Join(t.TempDir(), "x.pdf")
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, write(f))
		require.NoError(t, f.Close())
		fonts, err := exec.Command("pdffonts", path).CombinedOutput()
		require.NoError(t, err, string(fonts))
		require.NotContains(t, string(fonts), "Helvetica")
		require.Contains(t, strings.ToLower(string(fonts)), "andika")
		out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
		require.NoError(t, err)
		return string(out)
	}
	r := read(func(f *os.File) error { return report(t).Write(f, A4) })
	for _, w := range []string{"Juniper’s growth", "Likely between 41 and 93 of 100.", "By step", "3 of 4", "A count, no claim."} {
		require.Contains(t, r, w)
	}
	s := read(func(f *os.File) error { return sheets(2).Write(f, Letter) })
	require.Equal(t, 3, strings.Count(s, "\f"), "a page for each passage and one for the key")
	for _, w := range []string{"“Aunt?” he called", "Which feeling could go with that?", "I can’t tell", "For the guide", "Could fit: fear"} {
		require.Contains(t, s, w)
	}
	key := strings.Index(s, "For the guide")
	require.NotContains(t, s[:key], "Could fit: fear", "the key stands apart from what the learner sees")
}
