package parts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"feltpage/app/ui/look"
)

func tiles(n int, tapped func(i int)) []*Tile {
	var out []*Tile
	for i := range n {
		out = append(out, NewTile([]string{"hands", "whole body", "chest", "throat"}[i%4], func() { tapped(i) }))
	}
	return out
}

func TestTilesAreNeverSmallerThanAnAnswer(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 300, Height: 220}, {Width: 515, Height: 320}, {Width: 900, Height: 900}, {Width: 120, Height: 210}} {
		g := NewTileGrid("More", tiles(14, func(int) {})...)
		show(t, look.AlwaysLight, size.Width, size.Height, g)
		require.NotEmpty(t, g.Shown())
		for _, x := range g.Shown() {
			require.GreaterOrEqual(t, x.Size().Width, look.Answer)
			require.GreaterOrEqual(t, x.Size().Height, look.Answer)
			require.LessOrEqual(t, x.Position().Y+x.Size().Height, max(size.Height, look.Answer)+0.1, "%v", size)
			require.LessOrEqual(t, x.Position().X+x.Size().Width, size.Width+0.1)
		}
	}
}

func TestEveryTileIsReachedPageByPage(t *testing.T) {
	hit := map[int]bool{}
	g := NewTileGrid("More", tiles(14, func(i int) { hit[i] = true })...)
	show(t, look.AlwaysLight, 320, 220, g)
	for range 8 {
		for _, x := range g.Shown() {
			if x != g.more {
				test.Tap(x)
			}
		}
		test.Tap(g.more)
	}
	require.Len(t, hit, 14)
}

func TestArrowsMoveBetweenTiles(t *testing.T) {
	g := NewTileGrid("More", tiles(6, func(int) {})...)
	win := show(t, look.AlwaysLight, 330, 400, g)
	require.Equal(t, 3, g.cols)
	win.Canvas().Focus(g.tiles[0])
	for _, c := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyRight, 1}, {fyne.KeyDown, 4}, {fyne.KeyLeft, 3}, {fyne.KeyUp, 0}, {fyne.KeyUp, 0}} {
		win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: c.key})
		require.Equal(t, g.tiles[c.want], win.Canvas().Focused())
	}
}

func TestTheOutlineOpensTheNearestPlace(t *testing.T) {
	var got []string
	o := NewBodyOutline("hands", nil, func(p string) { got = append(got, p) })
	show(t, look.AlwaysLight, outlineW, outlineH, o)
	o.Resize(fyne.NewSize(outlineW, outlineH))
	for _, p := range []fyne.Position{{X: 100, Y: 5}, {X: 20, Y: 270}, {X: 180, Y: 240}, {X: 100, Y: 210}, {X: 70, Y: 439}} {
		test.TapAt(o, p)
	}
	require.Equal(t, []string{"head", "hands", "hands", "belly", "feet"}, got)
}

func TestTheSayBoxLetsTheKeyboardOut(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.AlwaysLight))
	said, taken := "", 0
	b := NewSayBox("Moss says:", "", func(s string) { said = s })
	win := show(t, look.AlwaysLight, 400, 200, b)
	win.Canvas().Focus(b.Entry)
	test.Type(b.Entry, "her hands")
	require.Equal(t, "her hands", said)
	require.False(t, b.Entry.AcceptsTab())
	b.Entry.Shortcut = func(fyne.Shortcut) bool { taken++; return true }
	b.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	require.Zero(t, taken, "editing stays with the box")
	b.Entry.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRight, Modifier: fyne.KeyModifierControl})
	require.Equal(t, 1, taken)
}

func TestAnswersAreLookedAt(t *testing.T) {
	for name, mode := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
		test.NewTempApp(t).Settings().SetTheme(look.New(mode))
		ts := tiles(14, func(int) {})
		ts[2].Chosen = true
		ts[5].Faint = true
		g := NewTileGrid("More", ts...)
		win := show(t, mode, 1000, 520, container.NewGridWithColumns(3, g, NewBodyOutline("hands", nil, nil), container.NewVBox(NewSayBox("Moss says:", "her hands shook because the oven was loud", nil))))
		win.Canvas().Focus(ts[0])
		picture(t, win, "answers-"+name)
	}
}

func TestWideCellsGiveWayBeforeTilesAreHidden(t *testing.T) {
	g := NewTileGrid("More", tiles(6, func(int) {})...)
	g.Cell = 2 * look.Answer
	show(t, look.AlwaysLight, 420, 210, g)
	require.Len(t, g.Shown(), 6)
}
