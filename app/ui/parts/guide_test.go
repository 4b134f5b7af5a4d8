package parts

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/app/ui/look"
)

// Whatever the text and the width: the lines hold every word once and in
// order, none is wider than the width unless it is a single word, and the
// pieces of a mark lie inside the lines that they belong to.
func TestMarkedTextHoldsEveryWord(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.AlwaysLight))
	word := rapid.StringMatching(`[a-zé’]{1,12}[.,!]?`)
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		for range rapid.IntRange(0, 40).Draw(t, "words") {
			b.WriteString(word.Draw(t, "word"))
			b.WriteString(rapid.SampledFrom([]string{" ", " ", " ", "  ", "\n", "\n\n", "\t"}).Draw(t, "blank"))
		}
		text := b.String()
		m := NewMarkedText(20)
		m.Resize(fyne.NewSize(float32(rapid.IntRange(60, 700).Draw(t, "width")), 400))
		m.SetText(text, nil)
		got := []string{}
		last := float32(-1)
		for _, l := range m.lines {
			line := text[l.start:l.end]
			got = append(got, strings.Fields(line)...)
			require.NotContains(t, line, "\n")
			require.Greater(t, l.y, last)
			last = l.y
			if len(strings.Fields(line)) > 1 {
				// The sum of words and blanks and the line as a whole differ by
				// kerning across blanks at most; runs of blanks count in full.
				if !strings.Contains(line, "  ") && !strings.Contains(line, "\t") {
					require.LessOrEqual(t, m.prefix(l, l.end), m.width+2, line)
				}
			}
		}
		require.Equal(t, strings.Fields(text), got)
		if len(text) > 0 {
			// Spans of the reading engine lie on borders of runes.
			border := func(i int) int { return len(string([]rune(text)[:i])) }
			n := len([]rune(text))
			from := rapid.IntRange(0, n).Draw(t, "from")
			to := rapid.IntRange(from, n).Draw(t, "to")
			for _, s := range m.stretches(border(from), border(to)) {
				require.GreaterOrEqual(t, s.x, float32(0))
				require.GreaterOrEqual(t, s.w, float32(0))
			}
		}
	})
}

func TestAMarkIsFoundUnderTheMouseAndByKey(t *testing.T) {
	text := "Nilo climbed. His knees shook. Nilo was afraid."
	knees := strings.Index(text, "His knees")
	afraid := strings.Index(text, "afraid")
	m := NewMarkedText(20)
	var chosen []int
	m.OnChosen = func(i int) { chosen = append(chosen, i) }
	win := show(t, look.AlwaysLight, 260, 300, m)
	m.SetText(text, []MarkOf{{Start: knees, End: knees + 15}, {Start: afraid, End: afraid + 6, Stroke: Double}})
	for i := range 2 {
		at, size, seen := m.MarkAt(i)
		require.True(t, seen)
		require.Equal(t, i, m.markUnder(at.AddXY(size.Width/2, size.Height/2)), "mark %d", i)
	}
	require.Equal(t, -1, m.markUnder(fyne.NewPos(5, look.M+5)), "Nilo is no mark")
	require.Equal(t, -1, m.markUnder(fyne.NewPos(5, 5000)))
	win.Canvas().Focus(m.Focus())
	key := func(k fyne.KeyName) { m.Focus().TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyRight)
	key(fyne.KeyRight)
	key(fyne.KeyLeft)
	require.Equal(t, []int{0, 1, 0}, chosen)
}

func TestAPageIsAsHighAsItsWords(t *testing.T) {
	words := NewWords(strings.Repeat("The lamp was out and the sea was black. ", 60), look.Text)
	last := NewButton("Next", Main, nil)
	p := NewPage(0, look.M, words, AtLeft(last))
	show(t, look.AlwaysLight, 400, 300, p)
	inner := p.column.inner(400)
	require.InDelta(t, words.HeightFor(inner)+look.M+look.Target+2*look.XL, p.column.MinSize().Height, 1)
	p.Reveal(last)
	y := fyne.CurrentApp().Driver().AbsolutePositionForObject(last).Y
	require.GreaterOrEqual(t, y, float32(0))
	require.LessOrEqual(t, y+last.Size().Height, float32(300))
}

func TestColumnsShareTheWidthByWeight(t *testing.T) {
	a, b, c := NewButton("a", Plain, nil), NewButton("b", Plain, nil), NewButton("c", Plain, nil)
	row := Columns(10, []float32{1, 0, 3}, a, b, c)
	row.Resize(fyne.NewSize(500, 60))
	fixed := b.MinSize().Width
	require.Equal(t, fixed, b.Size().Width)
	require.InDelta(t, (500-20-fixed)/4, a.Size().Width, 0.01)
	require.InDelta(t, 3*a.Size().Width, c.Size().Width, 0.01)
	require.InDelta(t, 500, c.Position().X+c.Size().Width, 0.01)
}

func TestWhatIsHiddenIsNotHeld(t *testing.T) {
	b := NewButton("b", Plain, nil)
	inner := Stack(0, b)
	p := NewPage(0, 0, NewCard(inner))
	require.True(t, Holds(p, b))
	require.Equal(t, p, Find(Stack(0, p), b))
	inner.Hide()
	require.False(t, Holds(p, b))
	require.Nil(t, Find(p, NewButton("other", Plain, nil)))
}

func TestTickTurnsByTapAndKey(t *testing.T) {
	var told []bool
	k := NewTick("I have read it", false, func(on bool) { told = append(told, on) })
	show(t, look.AlwaysLight, 300, 100, k)
	test.Tap(k)
	k.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	k.SetOn(true)
	require.Equal(t, []bool{true, false}, told, "SetOn tells nobody")
	require.True(t, k.On)
}

// A book is set in one go; after that, drawing costs a page.
func BenchmarkMarkedTextOfABook(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(look.New(look.AlwaysLight))
	text := strings.Repeat("Nilo climbed the last ten steps slowly, and below him the sea was black. ", 200000/14)
	m := NewMarkedText(20)
	m.Resize(fyne.NewSize(700, 600))
	for b.Loop() {
		m.SetText(text, nil)
	}
}
