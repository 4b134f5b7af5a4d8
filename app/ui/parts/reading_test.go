package parts

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/app/ui/look"
	"feltpage/app/ui/parts/typeset"
)

// The tale is invented for these tests.
const tale = `Juniper carried the tray past the oven. Her hands shook, and the little cakes slid to one side. "Gran?" she called—nobody answered.

Moss stood by the door. His face went white. The sea was loud tonight, and the lamp over the bakery swung and swung. He didn't say a word.`

func sentences(text string) []typeset.Span {
	var out []typeset.Span
	start := 0
	for i := range text {
		if text[i] == '.' {
			out = append(out, typeset.Span{Start: start, End: i + 1})
			start = i + 1
			for start < len(text) && strings.ContainsRune(" \n", rune(text[start])) {
				start++
			}
		}
	}
	return out
}

func open(t *testing.T, mode look.Mode, w, h float32) (*Reading, fyne.Window, *[]string) {
	test.NewTempApp(t).Settings().SetTheme(look.New(mode))
	r := NewReading(ReadLook{Size: 26, Letter: 0.02, Word: 0.08, Line: 1.6})
	win := show(t, mode, w, h, r)
	r.SetText(tale, typeset.Span{Start: 0, End: len(tale)}, sentences(tale), nil)
	r.SetPointing(true)
	var got []string
	r.OnChosen = func(s []typeset.Span) {
		got = nil
		for _, x := range s {
			got = append(got, tale[x.Start:x.End])
		}
	}
	return r, win, &got
}

func middle(t *testing.T, r *Reading, word string) fyne.Position {
	t.Helper()
	for _, w := range r.InSight() {
		if w.Text == word {
			return w.Pos.AddXY(w.Size.Width/2, w.Size.Height/2)
		}
	}
	t.Fatalf("%q is not in sight", word)
	return fyne.Position{}
}

func key(r *Reading, names ...fyne.KeyName) {
	for _, n := range names {
		r.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

func TestTapsChooseNeighboursJoinAndComeOff(t *testing.T) {
	r, _, got := open(t, look.AlwaysLight, 800, 600)
	test.TapAt(r, middle(t, r, "hands"))
	test.TapAt(r, middle(t, r, "shook"))
	require.Equal(t, []string{"hands shook"}, *got)
	test.TapAt(r, middle(t, r, "hands"))
	require.Equal(t, []string{"shook"}, *got)
	require.Contains(t, r.Markup(), "hands [shook],")
}

func TestADragChoosesARunOnRelease(t *testing.T) {
	r, _, got := open(t, look.AlwaysLight, 800, 600)
	a, b := middle(t, r, "Her"), middle(t, r, "shook")
	r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: a.AddXY(4, 0)}, Dragged: fyne.NewDelta(4, 0)})
	r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: b}, Dragged: fyne.NewDelta(b.X-a.X-4, b.Y-a.Y)})
	require.Empty(t, *got)
	r.DragEnd()
	require.Equal(t, []string{"Her hands shook"}, *got)
}

func TestFirstAndLastWord(t *testing.T) {
	r, _, got := open(t, look.AlwaysLight, 800, 600)
	r.SetWay(FirstAndLast)
	test.TapAt(r, middle(t, r, "little"))
	require.Empty(t, *got)
	test.TapAt(r, middle(t, r, "slid"))
	require.Equal(t, []string{"little cakes slid"}, *got)
	test.TapAt(r, middle(t, r, "cakes"))
	require.Empty(t, *got, "choosing again takes it off")
}

func TestSentenceFirst(t *testing.T) {
	r, _, _ := open(t, look.AlwaysLight, 800, 600)
	r.SetWay(SentenceFirst)
	var words []string
	r.OnSentence = func(first, end int) {
		for w := first; w < end; w++ {
			words = append(words, r.WordText(w))
		}
	}
	test.TapAt(r, middle(t, r, "white"))
	require.Equal(t, "His face went white", strings.Join(words, " "))
}

func TestKeyboardAlone(t *testing.T) {
	r, win, got := open(t, look.AlwaysLight, 800, 600)
	win.Canvas().Focus(r)
	key(r, fyne.KeyRight, fyne.KeySpace)
	require.Equal(t, []string{"carried"}, *got)
	key(r, fyne.KeySpace)
	require.Empty(t, *got)
	r.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	key(r, fyne.KeyRight, fyne.KeyRight)
	require.Empty(t, *got)
	r.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	require.Equal(t, []string{"carried the tray"}, *got)
	key(r, fyne.KeyHome, fyne.KeyLeft, fyne.KeySpace)
	require.Equal(t, []string{"Juniper carried the tray"}, *got)
}

func TestPagesTurnAndTheCursorFollows(t *testing.T) {
	r, win, got := open(t, look.AlwaysLight, 420, 220)
	require.Greater(t, r.Pages(), 2)
	win.Canvas().Focus(r)
	key(r, fyne.KeyPageDown)
	require.Equal(t, 1, r.Page())
	first := r.InSight()[0].Text
	key(r, fyne.KeySpace)
	require.Equal(t, []string{first}, *got)
	key(r, fyne.KeyLeft)
	require.Equal(t, 0, r.Page(), "the cursor takes the page along")
	for range 100 {
		key(r, fyne.KeyDown)
	}
	require.Equal(t, r.Pages()-1, r.Page())

	top := r.InSight()[0].Text
	r.SetLook(ReadLook{Size: 32, Line: 1.6})
	require.Contains(t, r.Markup(), top, "a new size keeps the place")
}

func TestNothingIsChosenWhenNotAsked(t *testing.T) {
	r, win, got := open(t, look.AlwaysLight, 800, 600)
	r.SetPointing(false)
	test.TapAt(r, middle(t, r, "hands"))
	win.Canvas().Focus(r)
	key(r, fyne.KeySpace, fyne.KeyReturn)
	require.Empty(t, *got)
}

func TestRepeatedTapsAreLeftOut(t *testing.T) {
	r, _, got := open(t, look.AlwaysLight, 800, 600)
	last := ""
	r.Ignore = func(k string) bool { same := k == last; last = k; return same }
	test.TapAt(r, middle(t, r, "hands"))
	test.TapAt(r, middle(t, r, "hands"))
	require.Equal(t, []string{"hands"}, *got)
}

func TestTheSentenceToLookAtIsShownAndTurnedTo(t *testing.T) {
	r, _, _ := open(t, look.AlwaysLight, 420, 220)
	s := sentences(tale)
	r.SetLit(s[4:5])
	require.Contains(t, strings.ReplaceAll(strings.ReplaceAll(r.Markup(), "\n", " "), "> <", " "), "<His face went white.>")
	require.Positive(t, r.Page())
}

func TestReadingIsLookedAt(t *testing.T) {
	for name, mode := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
		r, win, _ := open(t, mode, 820, 460)
		r.SetLit(sentences(tale)[1:2])
		test.TapAt(r, middle(t, r, "hands"))
		test.TapAt(r, middle(t, r, "shook"))
		win.Canvas().Focus(r)
		key(r, fyne.KeyDown, fyne.KeyDown)
		picture(t, win, "reading-"+name)
	}
}

func BenchmarkDraw500Words(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.New(look.AlwaysLight))
	r := NewReading(ReadLook{Size: 16, Letter: 0.02, Word: 0.08, Line: 1.5})
	long := strings.Repeat(tale+"\n\n", 9)
	r.Resize(fyne.NewSize(1000, 1600))
	r.SetText(long, typeset.Span{Start: 0, End: len(long)}, sentences(long), nil)
	b.ReportMetric(float64(len(r.set.Words)), "words")
	b.ReportMetric(float64(len(r.set.Pages)), "pages")
	for b.Loop() {
		r.ink.page(r.set, 0, 1000, 1600, 1, look.Light.Ink)
	}
}

// Whatever is tapped, dragged and typed, in each of the ways: what is told is
// whole words, in order, apart from each other, and shown again it is the same.
func TestWhateverIsDoneWholeWordsAreTold(t *testing.T) {
	r, win, _ := open(t, look.AlwaysLight, 420, 260)
	win.Canvas().Focus(r)
	var told []typeset.Span
	r.OnChosen = func(s []typeset.Span) { told = s }
	words := map[int]bool{}
	ends := map[int]bool{}
	for _, w := range r.set.Words {
		words[w.Span.Start], ends[w.Span.End] = true, true
	}
	rapid.Check(t, func(t *rapid.T) {
		r.SetChosen(nil)
		r.Turn(0)
		told = nil
		r.SetWay(rapid.SampledFrom([]Way{WordByWord, FirstAndLast, SentenceFirst}).Draw(t, "way"))
		point := func(label string) fyne.Position {
			return fyne.NewPos(rapid.Float32Range(-50, 500).Draw(t, label+"x"), rapid.Float32Range(-50, 300).Draw(t, label+"y"))
		}
		for range rapid.IntRange(1, 25).Draw(t, "n") {
			switch rapid.SampledFrom([]string{"tap", "drag", "key", "shift", "turn", "size"}).Draw(t, "act") {
			case "tap":
				r.Tapped(&fyne.PointEvent{Position: point("tap")})
			case "drag":
				for range rapid.IntRange(0, 3).Draw(t, "moves") {
					r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: point("drag")}, Dragged: fyne.NewDelta(1, 1)})
				}
				r.DragEnd()
			case "key":
				key(r, rapid.SampledFrom([]fyne.KeyName{fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeySpace, fyne.KeyReturn,
					fyne.KeyHome, fyne.KeyEnd, fyne.KeyPageDown, fyne.KeyPageUp, fyne.KeyEscape}).Draw(t, "key"))
			case "shift":
				r.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
				key(r, fyne.KeyRight, fyne.KeyDown)
				r.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
			case "turn":
				r.Turn(rapid.IntRange(-2, 9).Draw(t, "page"))
			case "size":
				r.SetLook(ReadLook{Size: rapid.SampledFrom([]float32{18, 26, 40}).Draw(t, "size"), Line: 1.6})
			}
			for i, s := range told {
				require.True(t, words[s.Start] && ends[s.End], "%q", tale[s.Start:s.End])
				if i > 0 {
					require.Less(t, told[i-1].End, s.Start)
				}
			}
			require.Equal(t, len(told), len(r.runs()))
		}
		r.SetChosen(told)
		for i, s := range r.runs() {
			require.Equal(t, told[i], s)
		}
	})
}
