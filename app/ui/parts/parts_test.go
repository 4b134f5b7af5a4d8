package parts

import (
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"feltpage/app/ui/look"
)

// show puts an object in a window of the given size, in our look, without a
// display.
func show(t testing.TB, mode look.Mode, w, h float32, o fyne.CanvasObject) fyne.Window {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.New(mode))
	win := test.NewTempWindow(t, o)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// picture keeps what the window shows as NAME.png in the folder named by
// FELTPAGE_PICTURES, for a person to look at; without it, it does nothing.
func picture(t *testing.T, win fyne.Window, name string) {
	t.Helper()
	dir := os.Getenv("FELTPAGE_PICTURES")
	if dir == "" {
		return
	}
	require.NoError(t, os.MkdirAll(dir, 0o755))
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, win.Canvas().Capture()))
}

func TestButtonIsPressedByTapSpaceAndReturn(t *testing.T) {
	n := 0
	b := NewButton("Next", Main, func() { n++ })
	win := show(t, look.AlwaysLight, 300, 200, container.NewCenter(b))
	test.Tap(b)
	win.Canvas().Focus(b)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyA})
	require.Equal(t, 3, n)
	b.Disable()
	test.Tap(b)
	require.Equal(t, 3, n, "a button that is off does nothing")
}

func TestControlsAreLargeEnough(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.AlwaysLight))
	for _, w := range []Weight{Plain, Main, Quiet} {
		s := NewButton("i", w, nil).MinSize()
		require.GreaterOrEqual(t, s.Width, look.Target)
		require.GreaterOrEqual(t, s.Height, look.Target)
	}
}

func TestWrapTextBreaksAtWordsAndCutsOnlyWhatCannotFit(t *testing.T) {
	each := func(s string) float32 { return float32(len([]rune(s))) }
	for _, c := range []struct {
		text  string
		width float32
		want  []string
	}{
		{"", 5, []string{""}},
		{"one two three", 7, []string{"one two", "three"}},
		{"one  two\nthree", 20, []string{"one two", "three"}},
		{"abcdefgh ij", 3, []string{"abc", "def", "gh", "ij"}},
		{"sea-side-bakery", 10, []string{"sea-side-", "bakery"}},
		{"éééé", 2, []string{"éé", "éé"}},
		{"a b", 0, []string{"a b"}},
	} {
		require.Equal(t, c.want, wrapText(c.text, c.width, each), "%q at %v", c.text, c.width)
	}
}

func TestGallery(t *testing.T) {
	for name, mode := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
		test.NewTempApp(t).Settings().SetTheme(look.New(mode))
		chosen := NewButton("cold", Plain, nil)
		chosen.Chosen = true
		off := NewButton("Back", Plain, nil)
		off.Disable()
		focus := NewButton("A little help", Plain, nil)
		win := show(t, mode, 900, 420, container.NewVBox(
			container.NewPadded(NewCard(container.NewVBox(
				NewWords("Some words here show Moss's body. Which ones?", look.Lead),
				NewSoft("This is a quieter line under it, which explains a little more and may wrap when the window is narrow.", look.Text)))),
			container.NewPadded(container.NewHBox(NewButton("Next", Main, nil), focus, chosen, off, NewButton("Stop for today", Quiet, nil))),
		))
		win.Canvas().Focus(focus)
		picture(t, win, "gallery-"+name)
	}
}

func TestElideKeepsWhatFits(t *testing.T) {
	each := func(s string) float32 { return float32(len([]rune(s))) }
	require.Equal(t, "short", elide("short", 5, each))
	require.Equal(t, "the old…", elide("the old fisher", 9, each))
	require.Equal(t, "x", elide("x", 0.5, each))
}
