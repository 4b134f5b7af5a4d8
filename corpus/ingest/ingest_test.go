package ingest

import (
	"bytes"
	"errors"
	"io"
	"os"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"feltpage/corpus"
)

// Made by hand from the published marks of Project Gutenberg files.
const book = "Title: The Well\n\n*** START OF THE PROJECT GUTENBERG EBOOK THE WELL ***\n\nOnce there was a well. Nobody drank there.\n\n*** END OF THE PROJECT GUTENBERG EBOOK THE WELL ***\n\nlicence\n"

func TestReadTakesOffTheWrapper(t *testing.T) {
	for name, in := range map[string]string{
		"plain":        book,
		"CRLF and BOM": "\ufeff" + strings.ReplaceAll(book, "\n", "\r\n"),
		"old CR":       strings.ReplaceAll(book, "\n", "\r"),
		"this":         strings.ReplaceAll(book, "OF THE PROJECT", "OF THIS PROJECT"),
		"no space":     strings.ReplaceAll(book, "*** ", "***"),
		"old end":      strings.Replace(book, "*** END OF THE PROJECT", "End of Project", 1),
		"maker":        strings.Replace(book, "\n\nOnce", "\n\nProduced by Somebody and\na team\n\n\nOnce", 1),
	} {
		s, err := Read(strings.NewReader(in), "folder/pg1.txt")
		require.NoError(t, err, name)
		require.Equal(t, "Once there was a well. Nobody drank there.", s.Text, name)
		require.Equal(t, "The Well", s.Title, name)
		require.Equal(t, "pg1.txt", s.Origin.FileName, name)
		require.Equal(t, corpus.Hash(s.Text), s.Hash, name)
		require.Empty(t, s.Remarks, name)
	}
}

// The marks' shortest case: one word between head and foot.
func TestCleanKeepsOnlyWhatStandsBetweenTheMarks(t *testing.T) {
	in := "Title: X\n*** START OF THE PROJECT GUTENBERG EBOOK X ***\nOnce.\n*** END OF THE PROJECT GUTENBERG EBOOK X ***\nlicence\n"
	for _, in := range []string{in, "\ufeff" + strings.ReplaceAll(in, "\n", "\r\n")} {
		text, title := clean(in)
		require.Equal(t, "Once.", text)
		require.Equal(t, "X", title)
	}
}

func wide16(s string, little, mark bool) []byte {
	units := utf16.Encode([]rune(s))
	if mark {
		units = append([]uint16{0xfeff}, units...)
	}
	var b []byte
	for _, u := range units {
		if little {
			b = append(b, byte(u), byte(u>>8))
		} else {
			b = append(b, byte(u>>8), byte(u))
		}
	}
	return b
}

func TestEncodings(t *testing.T) {
	const plain = "“Hello,” she said. He went pale – and ran."
	const old = "\x93Hello,\x94 she said. He went pale \x96 and ran."
	const ascii = "Hello, she said. He went."
	for name, c := range map[string]struct {
		in           []byte
		want, remark string
	}{
		"UTF-8":                       {[]byte(plain), plain, ""},
		"UTF-8 with mark":             {[]byte("\ufeff" + plain), plain, ""},
		"UTF-16 little with mark":     {wide16(plain, true, true), plain, ""},
		"UTF-16 big with mark":        {wide16(plain, false, true), plain, ""},
		"UTF-16 little without mark":  {wide16(ascii, true, false), ascii, remarkNoMark},
		"UTF-16 big without mark":     {wide16(ascii, false, false), ascii, remarkNoMark},
		"Windows-1252":                {[]byte(old), plain, remarkOldEncoding},
		"Latin-1":                     {[]byte("Ren\xe9 ran. Zo\xeb fell."), "René ran. Zoë fell.", remarkOldEncoding},
		"UTF-8 with a lost character": {[]byte(strings.Repeat("It was cold. ", 9) + "Caf\ufffd. He ran."), strings.Repeat("It was cold. ", 9) + "Caf\ufffd. He ran.", remarkLost},
		"encoded twice":               {[]byte("â€œHello,â€\u009d she said. He ran on and on and on and on."), "â€œHello,â€ she said. He ran on and on and on and on.", remarkTwice},
	} {
		t.Run(name, func(t *testing.T) {
			s, err := Read(bytes.NewReader(c.in), "a.txt")
			require.NoError(t, err)
			require.Equal(t, c.want, s.Text)
			var codes []string
			for _, r := range s.Remarks {
				codes = append(codes, r.Code)
			}
			if c.remark == "" {
				require.Empty(t, codes)
			} else {
				require.Equal(t, []string{c.remark}, codes)
			}
		})
	}
	// Bytes 93 68 69 94 are “hi” in Windows-1252 (code page table of the
	// Unicode Consortium) and no UTF-8.
	require.False(t, utf8.Valid([]byte{0x93, 0x68, 0x69, 0x94}))
	text, remarks, kind := decode([]byte{0x93, 0x68, 0x69, 0x94})
	require.NoError(t, kind)
	require.Equal(t, "“hi”", text)
	require.Equal(t, remarkOldEncoding, remarks[0].Code)
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		in   string
		want error
	}{
		"nothing":                  {"", ErrEmpty},
		"blanks":                   {" \n\t\r\n\ufeff", ErrEmpty},
		"only marks":               {"... !!! 123", ErrEmpty},
		"a picture":                {"\x89PNG\r\n\x1a\n\x00\x00", ErrBinary},
		"a zip":                    {"PK\x03\x04abc", ErrBinary},
		"a PDF":                    {"%PDF-1.7\nOnce. Twice.", ErrBinary},
		"RTF":                      {"{\\rtf1 Once. Twice.}", ErrBinary},
		"a web page":               {"  <!DOCTYPE html>\n<p>Once. Twice.", ErrBinary},
		"zero bytes":               {"Once\x00 there was. A fox.\x00", ErrBinary},
		"control characters":       {strings.Repeat("a\x01b\x02", 50) + ". B. C.", ErrBinary},
		"too large":                {strings.Repeat("A fox ran. ", MaxBytes/10), ErrTooLarge},
		"grows too large":          {strings.Repeat(strings.Repeat("A fox ran. ", 4)+"\xe9t\xe9 \xe9t\xe9 \n", MaxBytes/54), ErrTooLarge},
		"damaged UTF-8":            {"“Ça va,” said the fox’s aunt. “Très bien.” \xe2\x80", ErrEncoding},
		"another code page":        {strings.Repeat("\xcf\xf0\xe8\xe2\xe5\xf2. ", 20), ErrEncoding},
		"unused byte":              {"It was \x81 cold. He ran. He ran on and on and on.", ErrEncoding},
		"half a pair":              {"\xff\xfe\x00\xd8A\x00.\x00", ErrEncoding},
		"odd UTF-16":               {"\xff\xfeA\x00B", ErrEncoding},
		"UTF-32":                   {"\xff\xfe\x00\x00A\x00\x00\x00", ErrEncoding},
		"lost characters":          {strings.Repeat("\ufffd\ufffd a. B. ", 9), ErrEncoding},
		"one sentence":             {"The fox ran.", ErrTooShort},
		"one word":                 {"Fox", ErrTooShort},
		"one sentence with speech": {"“Oh!” he cried.", ErrTooShort},
	} {
		t.Run(name, func(t *testing.T) {
			for _, from := range []string{"file", "paste"} {
				var err error
				if from == "file" {
					_, err = Read(strings.NewReader(c.in), "dir/a.txt")
					require.ErrorContains(t, err, "a.txt")
				} else {
					_, err = Text(c.in, "")
				}
				require.ErrorIs(t, err, c.want)
				require.True(t, one(err))
				says(t, err)
			}
		})
	}
}

// one reports whether err is exactly one *Error of exactly one kind.
func one(err error) bool {
	var e *Error
	if !errors.As(err, &e) {
		return false
	}
	n := 0
	for _, k := range []error{ErrEmpty, ErrBinary, ErrTooLarge, ErrEncoding, ErrTooShort, ErrRead} {
		if errors.Is(err, k) {
			n++
		}
	}
	return n == 1
}

// says checks that the sentence for err stands in the catalogue with the
// slots that it fills. The file is read as text: corpus does not import
// the program around it.
func says(t *testing.T, err error) {
	t.Helper()
	b, readErr := os.ReadFile("../../app/say/text/en/errors.txt")
	require.NoError(t, readErr)
	var e *Error
	require.ErrorAs(t, err, &e)
	key, slots := e.Sentence()
	_, line, ok := strings.Cut(string(b), "\n"+key+" = ")
	require.True(t, ok, key)
	line, _, _ = strings.Cut(line, "\n")
	require.Equal(t, strings.Contains(line, "{file}"), slots["file"] != "", key)
}

func TestRemarksHaveSentences(t *testing.T) {
	b, err := os.ReadFile("../../app/say/text/en/reasons.txt")
	require.NoError(t, err)
	for _, r := range []string{remarkOldEncoding, remarkNoMark, remarkLost, remarkTwice} {
		require.Contains(t, string(b), "\n"+r+" = ")
	}
}

func TestUnreadableFile(t *testing.T) {
	cause := errors.New("disk gone")
	_, err := Read(iotest.ErrReader(cause), "a.txt")
	require.ErrorIs(t, err, ErrRead)
	require.ErrorIs(t, err, cause)
	says(t, err)
}

type counting struct {
	r io.Reader
	n int
}

func (c *counting) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += n
	return n, err
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	return len(p), nil
}

func TestAHugeFileIsNotReadToItsEnd(t *testing.T) {
	c := &counting{r: io.LimitReader(endless{}, 50<<20)}
	_, err := Read(c, "huge.txt")
	require.ErrorIs(t, err, ErrTooLarge)
	require.LessOrEqual(t, c.n, MaxBytes+1)
}

func TestClean(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"joins wrapped prose",
			"The old woman went down to the shore every morning to look for wood,\nand every morning the tide had been there before her and had taken the\nbest of it.\n\nShe was cold.",
			"The old woman went down to the shore every morning to look for wood, and every morning the tide had been there before her and had taken the best of it.\n\nShe was cold."},
		{"keeps verse",
			"O who will go to sea with me,\n  O who will go to sea,\nAnd see the grey gulls wheel with me\n  Above the windy quay?",
			"O who will go to sea with me,\nO who will go to sea,\nAnd see the grey gulls wheel with me\nAbove the windy quay?"},
		{"keeps long verse",
			"The wind came down upon the town and rattled every pane of glass;\nThe baker shut his shutters tight and let the hungry weather pass;\nThe sailors' wives put out their lights and listened to the breakers beat;\nAnd someone went with naked feet and lantern down the empty street.",
			"The wind came down upon the town and rattled every pane of glass;\nThe baker shut his shutters tight and let the hungry weather pass;\nThe sailors' wives put out their lights and listened to the breakers beat;\nAnd someone went with naked feet and lantern down the empty street."},
		{"one paragraph a line",
			"The old woman went down to the shore every morning to look for wood, and every morning the tide had been there before her.\n\"Again!\" she said.\nShe went home.",
			"The old woman went down to the shore every morning to look for wood, and every morning the tide had been there before her.\n\n\"Again!\" she said.\n\nShe went home."},
		{"dash at the end of a line",
			"The old woman went down to the shore every morning to look for wood--\nand she found none.",
			"The old woman went down to the shore every morning to look for wood--and she found none."},
		{"dash apart from its word",
			"The old woman went down to the shore every morning to look for wood --\nand she found none.",
			"The old woman went down to the shore every morning to look for wood -- and she found none."},
		{"italics, not names", "It was _very_ cold, _he said_. See a_b and ____ here.", "It was very cold, he said. See a_b and ____ here."},
		{"pictures", "He ran.\n\n[Illustration: A man\nrunning]\n\nHe fell. [Illustration]", "He ran.\n\nHe fell."},
		{"brackets in brackets", "He [Illustration: a [b] c] ran. [Noted] He [sic] fell.", "He ran. [Noted] He [sic] fell."},
		{"two hyphens stay", "He ran--and fell.", "He ran--and fell."},
		{"blanks and soft hyphens", "He\tran\u00a0 to  the gar\u00adden.   \n\n\n\nHe fell.", "He ran to the garden.\n\nHe fell."},
		{"combining accents", "Rene\u0301 ran.", "René ran."},
		{"ornament", "One.\n\n* * *\n\nTwo.", "One.\n\n* * *\n\nTwo."},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := clean(c.in)
			require.Equal(t, c.want, got)
			again, _ := clean(got)
			require.Equal(t, got, again)
		})
	}
}

// Text made to be slow: each must settle and stay settled.
func TestHostileTextSettles(t *testing.T) {
	for name, in := range map[string]string{
		"start marks":    strings.Repeat("*** START OF THE PROJECT GUTENBERG\n", MaxBytes/40) + "Once. Twice.",
		"end marks":      "Once. Twice.\n" + strings.Repeat("*** END OF THE PROJECT GUTENBERG\n", MaxBytes/40),
		"nested notes":   "Once. Twice. " + strings.Repeat("[note ", MaxBytes/20) + strings.Repeat("]", MaxBytes/20),
		"split notes":    "Once. Twice. " + strings.Repeat("[no", MaxBytes/20) + strings.Repeat("te]", MaxBytes/20),
		"underscores":    "Once. Twice. " + strings.Repeat("_ a_ ", MaxBytes/10),
		"open brackets":  "Once. Twice. " + strings.Repeat("[", MaxBytes/2),
		"one long line":  "Once. Twice. " + strings.Repeat("word ", MaxBytes/6),
		"many breaks":    "Once. Twice. " + strings.Repeat("word\n\n\n", MaxBytes/10),
		"many accents":   "Once. Twice. " + strings.Repeat("e\u0301", MaxBytes/4),
		"only quotation": "Once. Twice. " + strings.Repeat("“", MaxBytes/4),
	} {
		t.Run(name, func(t *testing.T) {
			text, _ := clean(in)
			again, _ := clean(text)
			require.True(t, text == again)
			require.True(t, strings.HasPrefix(text, "Once. Twice."))
		})
	}
}

func TestTitles(t *testing.T) {
	s, err := Text("A fox ran over the hill and far away. It fell.", "")
	require.NoError(t, err)
	require.Equal(t, "A fox ran over the hill …", s.Title)
	s, err = Text("A fox ran. It fell.", "  The\nFox ")
	require.NoError(t, err)
	require.Equal(t, "The Fox", s.Title)
	s, err = Read(strings.NewReader("A fox ran. It fell."), "/home/x/the_red-fox.txt")
	require.NoError(t, err)
	require.Equal(t, "The red fox", s.Title)
}

// Any bytes give a story or exactly one error, and taking a story's text in
// again changes nothing.
func FuzzRead(f *testing.F) {
	f.Add([]byte(book))
	f.Add([]byte("\x93Hello,\x94 she said. He ran. He ran on and on.\r\n"))
	f.Add([]byte("\xff\xfeA\x00.\x00 \x00B\x00.\x00"))
	f.Add([]byte("_a_ __b__ [Illustration [Illustration] ] A. B.\n\nC\nD"))
	f.Add([]byte("A long line of words that goes on for a good while, so that it is full\nand ends. B.\nC--\n* * *\nD."))
	f.Add([]byte("A.\u0301\u2028_[note_a_]_ B. \xef\xbf\xbd e\u0301\x0c[note 1]"))
	f.Add([]byte("A.\u0301\u2028_(((([note000000000000000000000000_a_]_ B. \xef\xbf\xbd e\u0301\f")) // once judged by what was cut
	f.Add([]byte("[note]%PDF-1.7 A. B."))
	f.Add([]byte("*** START OF THE PROJECT GUTENBERG\n_*** START OF THE PROJECT GUTENBERG_\nProduced by X\n\nA. B."))
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := Read(bytes.NewReader(b), "f.txt")
		if err != nil {
			require.True(t, one(err), "%v", err)
			require.Zero(t, s.Text)
			return
		}
		require.True(t, utf8.ValidString(s.Text) && utf8.ValidString(s.Title))
		require.NotContains(t, s.Text, "\r")
		require.NotEmpty(t, s.Title)
		last := 0
		for _, sec := range s.Sections {
			require.True(t, last <= sec.Span.Start && sec.Span.Start < sec.Span.End && sec.Span.End <= len(s.Text))
			last = sec.Span.End
		}
		again, err := Text(s.Text, s.Title)
		require.NoError(t, err)
		require.Equal(t, s.Text, again.Text)
		require.Equal(t, s.Hash, again.Hash)
	})
}

func BenchmarkRead(b *testing.B) {
	text := strings.Repeat("The old woman went down to the shore every morning to look for wood,\nand every morning the tide had been there before her and had taken the\nbest of it.\n\n", 5000)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := Text(text, "t"); err != nil {
			b.Fatal(err)
		}
	}
}
