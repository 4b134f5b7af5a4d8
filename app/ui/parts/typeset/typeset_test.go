package typeset

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"pgregory.net/rapid"

	"feltpage/app/andika"
)

var update = flag.Bool("update", false, "write the golden files anew")

// even is a face in which every letter is half an em wide.
type even struct{}

func (even) Advance(rune) float64    { return 0.5 }
func (even) Kern(rune, rune) float64 { return 0 }

// The tale is invented for these tests.
const tale = `Juniper carried the tray past the oven. Her hands shook, and the little cakes slid to one side. "Gran?" she called—nobody answered.

Moss stood by the door. His face went white. The sea was loud tonight, and the lamp over the bakery swung and swung.

He didn't say a word.`

func sentencesOf(text string) []Span {
	var out []Span
	start := 0
	for i := 0; i < len(text); i++ {
		if strings.ContainsRune(".", rune(text[i])) || strings.HasPrefix(text[i:], "\n\n") {
			out = append(out, Span{start, i + 1})
			start = i + 1
		}
	}
	return out
}

func andikaFace(t testing.TB) *FontFace {
	f, err := NewFontFace(andika.Regular)
	require.NoError(t, err)
	return f
}

func lay(text string, st Style, f Face) *Set {
	return Lay(text, Span{0, len(text)}, sentencesOf(text), nil, st, f)
}

func TestLinesAndPagesAreAsTheyWere(t *testing.T) {
	f := andikaFace(t)
	for name, st := range map[string]Style{
		"plain":  {Size: 20, Line: 1.6, Para: 0.5, Width: 600, Height: 400, Chars: 66},
		"narrow": {Size: 20, Line: 1.6, Para: 0.5, Width: 180, Height: 400, Chars: 66},
		"spaced": {Size: 20, Line: 2, Letter: 0.12, Word: 0.16, Para: 0.5, Width: 600, Height: 200, Chars: 66},
		"large":  {Size: 53, Line: 1.5, Para: 0.5, Width: 640, Height: 420},
	} {
		got := lay(tale, st, f).String()
		path := filepath.Join("testdata", name+".golden")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), got, name)
	}
}

// Positions against sums done by hand: half an em for a letter, a tenth for
// letter space, a fifth for word space, at size 10.
func TestSpacingAddsUp(t *testing.T) {
	s := lay("ab cd", Style{Size: 10, Letter: 0.1, Word: 0.2, Line: 2, Width: 1000}, even{})
	var xs []float64
	for _, g := range s.Glyphs {
		xs = append(xs, g.X)
	}
	require.InDeltaSlice(t, []float64{0, 6, 11 + 8, 25}, xs, 1e-9)
	require.Equal(t, 20.0, s.LineH)
	require.Equal(t, []Box{{0, 0, 11}}, s.Words[0].Boxes)
	require.InDelta(t, 19, s.Words[1].Boxes[0].X0, 1e-9)
}

// The outside check: unspaced, a line is as wide as x/image's own measuring of
// the same string, kerning included.
func TestWidthAgreesWithAnotherMeasurer(t *testing.T) {
	f := andikaFace(t)
	otf, err := opentype.Parse(andika.Regular)
	require.NoError(t, err)
	const size = 64
	face, err := opentype.NewFace(otf, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	require.NoError(t, err)
	for _, text := range []string{"Her hands shook", "AVATAR Wave, To", "naïve café"} {
		s := lay(text, Style{Size: size, Line: 1.5, Width: 1e6}, f)
		last := s.Glyphs[len(s.Glyphs)-1]
		want := float64(font.MeasureString(face, text)) / 64
		require.InDelta(t, want, last.X+last.W, 0.02*float64(len(text)), text) // 26.6 rounding of each letter
	}
}

func TestWordsAreCutFromTheirMarks(t *testing.T) {
	s := lay(`"Don't," he said—well-worn boots. It's 7 o’clock!`, Style{Size: 10, Line: 1.5, Width: 1e6}, even{})
	var got []string
	for _, w := range s.Words {
		got = append(got, w.Span.of(s.text))
	}
	require.Equal(t, []string{"Don't", "he", "said", "well-worn", "boots", "It's", "7", "o’clock"}, got)
}

func TestALongWordIsCutAndStaysOneWord(t *testing.T) {
	s := lay("oh Llanfairpwllgwyngyllgogerychwyrndrobwll x", Style{Size: 10, Line: 1.5, Width: 60}, even{})
	require.Equal(t, "oh\nLlanfairpwll\ngwyngyllgoge\nrychwyrndrob\nwll x\n", s.String())
	require.Len(t, s.Words, 3)
	require.Len(t, s.Words[1].Boxes, 4)
}

func TestFiftyToSeventyCharactersALine(t *testing.T) {
	f := andikaFace(t)
	text := strings.Repeat("The old woman carried the warm bread down to the shore and waited there. ", 40)
	for _, letter := range []float64{0, 0.05, 0.12} {
		s := lay(text, Style{Size: 24, Letter: letter, Word: letter, Line: 1.6, Width: 4000, Chars: 66}, f)
		total, n := 0, 0
		for _, l := range s.Lines[:len(s.Lines)-1] {
			total += len(strings.TrimSpace(l.Span.of(text)))
			n++
			require.LessOrEqual(t, l.Span.End-l.Span.Start, 76)
		}
		require.GreaterOrEqual(t, total/n, 50, "letter space %v", letter)
		require.LessOrEqual(t, total/n, 70, "letter space %v", letter)
	}
}

func TestNearestWordTakesTheTap(t *testing.T) {
	s := lay("ab cd ef gh", Style{Size: 10, Line: 2, Width: 30}, even{}) // "ab cd" over "ef gh"
	for _, c := range []struct {
		x, y float64
		want string
	}{
		{5, 10, "ab"}, {12, 10, "ab"}, {13.5, 10, "cd"}, {500, 5, "cd"}, {-40, -40, "ab"},
		{5, 19, "ab"}, {5, 21, "ef"}, {29, 39, "gh"}, {500, 500, "gh"},
	} {
		w := s.Nearest(0, c.x, c.y)
		require.Equal(t, c.want, s.Words[w].Span.of(s.text), "%v,%v", c.x, c.y)
	}
	require.Equal(t, -1, lay("— …", Style{Size: 10, Line: 2, Width: 30}, even{}).Nearest(0, 1, 1))
}

func TestArrowsMoveByLine(t *testing.T) {
	s := lay("ab cd ef gh", Style{Size: 10, Line: 2, Width: 30, Height: 20}, even{})
	require.Len(t, s.Pages, 2)
	require.Equal(t, 3, s.Below(1))
	require.Equal(t, 1, s.Above(3))
	require.Equal(t, 0, s.Above(0))
	require.Equal(t, 3, s.Below(3))
	require.Equal(t, 1, s.WordPage(3))
}

func TestNeighboursOfOneSentenceRunTogether(t *testing.T) {
	s := lay("One two three. Four five.", Style{Size: 10, Line: 2, Width: 1000}, even{})
	chosen := map[int]bool{1: true, 2: true, 3: true}
	var got []string
	for _, r := range s.Runs(func(w int) bool { return chosen[w] }) {
		got = append(got, r.of(s.text))
	}
	require.Equal(t, []string{"two three", "Four"}, got)
	first, end := s.SentenceWords(1)
	require.Equal(t, []int{3, 5}, []int{first, end})
}

func TestAShortLastPageGetsLinesOfTheOneBefore(t *testing.T) {
	text := strings.TrimSpace(strings.Repeat("aa bb cc dd ", 13)) // 13 lines of four words
	s := lay(text, Style{Size: 10, Line: 2, Width: 55, Height: 240}, even{})
	require.Len(t, s.Lines, 13)
	require.Equal(t, []int{10, 3}, []int{s.Pages[0].End - s.Pages[0].First, s.Pages[1].End - s.Pages[1].First})
	require.Equal(t, 0.0, s.Lines[10].Top)

	// the start of a paragraph is the better place
	text = strings.TrimSpace(strings.Repeat("aa bb cc dd ", 8)) + "\n\n" + strings.TrimSpace(strings.Repeat("aa bb cc dd ", 5))
	s = lay(text, Style{Size: 10, Line: 2, Width: 55, Height: 240}, even{})
	require.Equal(t, 8, s.Pages[0].End)
}

func TestJoinedMarksMakeOneLetter(t *testing.T) {
	s := lay("cafe\u0301 x", Style{Size: 10, Line: 2, Width: 1000}, even{})
	require.Equal(t, 'é', s.Glyphs[3].Rune)
	require.Equal(t, "cafe\u0301", s.Words[0].Span.of(s.text))
}

// Whatever the text and the style: every letter is set once and in order,
// words cut exactly letters, no line is wider than the measure unless a single
// letter is, lines and pages follow each other without a gap in the text.
func TestAnythingCanBeSet(t *testing.T) {
	f := andikaFace(t)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z'é—]{1,30}[ ,.\n]{1,3}`), 0, 60),
			func(x []string) string { return strings.Join(x, "") })).Draw(t, "text")
		st := Style{Size: rapid.Float64Range(8, 60).Draw(t, "size"), Letter: rapid.Float64Range(0, 0.3).Draw(t, "letter"),
			Word: rapid.Float64Range(0, 0.6).Draw(t, "word"), Line: rapid.Float64Range(1.2, 2.5).Draw(t, "line"),
			Width: rapid.Float64Range(20, 900).Draw(t, "w"), Height: rapid.Float64Range(0, 900).Draw(t, "h"), Chars: rapid.SampledFrom([]int{0, 66}).Draw(t, "chars")}
		s := lay(text, st, f)
		set := 0
		for i, g := range s.Glyphs {
			if i > 0 {
				require.Less(t, s.starts[i-1], s.starts[i])
			}
			single := i == 0 || s.Glyphs[i-1].Line != g.Line
			if !single {
				require.LessOrEqual(t, g.X+g.W, s.Measure+0.01)
			}
			set += s.bytes(i)
		}
		want := 0
		for _, r := range text {
			if !unicode.IsSpace(r) || r == '\u00a0' || r == '\u202f' {
				want += len(string(r))
			}
		}
		if want > 0 && strings.ToValidUTF8(text, "") == text {
			require.LessOrEqual(t, set, len(text))
			require.GreaterOrEqual(t, set, want)
		}
		line := 0
		for i, p := range s.Pages {
			require.Equal(t, line, p.First)
			line = p.End
			for l := p.First; l < p.End; l++ {
				require.Equal(t, i, s.Lines[l].Page)
				if st.Height > 0 && l > p.First {
					require.LessOrEqual(t, s.Lines[l].Top+s.LineH, st.Height+0.01)
				}
			}
		}
		require.Equal(t, len(s.Lines), line)
		for i, w := range s.Words {
			for _, r := range w.Span.of(text) {
				require.True(t, letter(r) || joins(r), "%q", w.Span.of(text))
			}
			if i > 0 {
				require.LessOrEqual(t, s.Words[i-1].Span.End, w.Span.Start)
			}
			b := w.Boxes[0]
			l := s.Lines[b.Line]
			if b.X1-b.X0 > 0.5 {
				require.Equal(t, i, s.Nearest(l.Page, (b.X0+b.X1)/2, l.Top+s.LineH/2), "its own middle is nearest to it")
			}
		}
	})
}

func BenchmarkLay500Words(b *testing.B) {
	f := andikaFace(b)
	text := strings.Repeat(tale+"\n\n", 9)
	sent := sentencesOf(text)
	b.ReportMetric(float64(len(strings.Fields(text))), "words")
	for b.Loop() {
		Lay(text, Span{0, len(text)}, sent, nil, Style{Size: 26, Letter: 0.02, Word: 0.08, Line: 1.6, Para: 0.5, Width: 700, Height: 600, Chars: 66}, f)
	}
}
