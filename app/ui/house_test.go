package ui

import (
	"context"
	"encoding/json"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"feltpage/app/demo"
	"feltpage/app/store"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/corpus/shelf"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
)

var tuesday = time.Date(2026, 11, 3, 16, 0, 0, 0, time.UTC)

// lampStory is invented for these tests.
const lampStory = `Nilo climbed the last ten steps slowly. His knees shook. Below him the sea was black, and the lamp was out.

"Aunt?" he called. Nilo was afraid. Nobody answered, and the wind pulled at the door. He put his hand on the wall and felt that it was wet. Then he heard the dog below.

Nilo laughed. The dog had followed him up all the steps, and now it shook itself, and the water flew over them both. Together they went into the lamp room and looked for the matches.`

// house is a program on an empty data folder, without a display.
type house struct {
	t    *testing.T
	p    *Program
	st   *store.Store
	seen []model.Seen
}

func newHouse(t *testing.T, w, h float32) *house {
	t.Helper()
	return openHouse(t, t.TempDir(), w, h)
}

// invented is a backup of the demo household, made once.
var invented []byte

// newDemoHouse opens on the demo household as it is after "look around".
func newDemoHouse(t *testing.T, w, h float32) *house {
	t.Helper()
	dir, from := t.TempDir(), filepath.Join(t.TempDir(), "demo.backup")
	if invented == nil {
		x := newHouse(t, w, h)
		x.act("look-around")
		require.NoError(t, x.st.Backup(from))
		var err error
		invented, err = os.ReadFile(from)
		require.NoError(t, err)
	}
	require.NoError(t, os.WriteFile(from, invented, 0o600))
	require.NoError(t, store.Restore(dir, from, store.Options{}))
	return openHouse(t, dir, w, h)
}

func openHouse(t *testing.T, dir string, w, h float32) *house {
	t.Helper()
	st, err := store.Open(dir, store.Options{Now: func() time.Time { return tuesday }})
	require.NoError(t, err)
	t.Cleanup(func() { st.Close() })
	stories, err := shelf.Stories()
	require.NoError(t, err)
	table, err := feelings.Load()
	require.NoError(t, err)
	engine, err := pipeline.New()
	require.NoError(t, err)
	x := &house{t: t, st: st}
	x.p = New(test.NewTempApp(t), Deps{Store: st, Engine: engine, Version: pipeline.Version, Table: table, Shelf: stories,
		SeedDemo: func() error { return demo.Seed(context.Background(), st, engine, stories, tuesday, 7) },
		Now:      func() time.Time { return tuesday }, Rand: rand.New(rand.NewPCG(1, 2)), AtOnce: true,
		Observer: func(s model.Seen) {
			_, err := json.Marshal(s) // it has to cross to another program
			require.NoError(t, err, "%v", s)
			x.seen = append(x.seen, s)
		}})
	x.p.win.Resize(fyne.NewSize(w, h))
	t.Cleanup(x.p.win.Close)
	return x
}

// last gives the newest thing that the observer saw.
func (x *house) last() model.Seen {
	x.t.Helper()
	require.NotEmpty(x.t, x.seen)
	return x.seen[len(x.seen)-1]
}

// on requires that a screen is shown.
func (x *house) on(name string) {
	x.t.Helper()
	require.Equal(x.t, name, x.last().Screen)
}

// press taps a target where the observer says that it lies, as a hand would.
func (x *house) press(name string) {
	x.t.Helper()
	r, ok := x.last().Targets[name]
	require.True(x.t, ok, "%q is on %s, which has %v", name, x.last().Screen, x.last().Targets)
	k := x.p.win.Canvas().Scale()
	test.TapCanvas(x.p.win.Canvas(), fyne.NewPos((r.X+r.W/2)/k, (r.Y+r.H/2)/k))
}

// act presses a target that may lie below the fold.
func (x *house) act(name string) {
	x.t.Helper()
	o, ok := x.p.now.targets[name].(fyne.Tappable)
	require.True(x.t, ok, "%q is on %s", name, x.p.now.name)
	o.Tapped(&fyne.PointEvent{})
}

// write types into a place.
func (x *house) write(name, text string) {
	x.t.Helper()
	w, ok := x.p.now.targets[name].(*parts.Writing)
	require.True(x.t, ok, "%q is on %s", name, x.p.now.name)
	test.Type(w, text)
}

// shortcut presses Ctrl and a key.
func (x *house) shortcut(key fyne.KeyName) {
	s := &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
	if f, ok := x.p.win.Canvas().Focused().(fyne.Shortcutable); ok {
		f.TypedShortcut(s)
		return
	}
	x.p.win.Canvas().(fyne.Shortcutable).TypedShortcut(s)
}

// shot keeps a picture of the window in the folder named by
// FELTPAGE_PICTURES, for a person to look at; without it, it does nothing.
func (x *house) shot(name string) {
	x.t.Helper()
	dir := os.Getenv("FELTPAGE_PICTURES")
	if dir == "" {
		return
	}
	require.NoError(x.t, os.MkdirAll(dir, 0o755))
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(x.t, err)
	defer f.Close()
	require.NoError(x.t, png.Encode(f, x.p.win.Canvas().Capture()))
}

// setUp goes through the first run.
func (x *house) setUp(nickname string) {
	x.t.Helper()
	x.act("set-up")
	x.write("nickname", nickname)
	x.act("keep")
}

// addLamp adds a story by paste.
func (x *house) addLamp() {
	x.t.Helper()
	x.act("nav-shelf")
	x.act("add-story")
	x.p.now.targets["text"].(*parts.Writing).SetText(lampStory)
	x.p.now.targets["title"].(*parts.Writing).SetText("The Lamp on the Point")
	x.act("add")
}
