package ui

import (
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"context"

	"feltpage/app/demo"
	"feltpage/app/store"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/corpus/shelf"
	"feltpage/nlp/feelings"
)

var tuesday = time.Date(2026, 11, 3, 16, 0, 0, 0, time.UTC)

// house is a program on an empty data folder, without a display.
type houseTest struct {
	t    *testing.T
	p    *Program
	st   *store.Store
	seen []model.Seen
}

func newHouse(t *testing.T, w, h float32) *houseTest {
	t.Helper()
	st, err := store.Open(t.TempDir(), store.Options{Now: func() time.Time { return tuesday }})
	require.NoError(t, err)
	t.Cleanup(func() { st.Close() })
	stories, err := shelf.Stories()
	require.NoError(t, err)
	table, err := feelings.Load()
	require.NoError(t, err)
	x := &houseTest{t: t, st: st}
	a := test.NewTempApp(t)
	x.p = New(a, Deps{Store: st, Engine: engine(t), Version: version, Table: table, Shelf: stories,
		Now: func() time.Time { return tuesday }, Rand: rand.New(rand.NewPCG(1, 2)), AtOnce: true,
		Observer: func(s model.Seen) { x.seen = append(x.seen, s) }})
	x.p.deps.SeedDemo = func() error {
		return demo.Seed(context.Background(), st, engine(t), stories, tuesday, 7)
	}
	x.p.begin()
	x.p.win.Resize(fyne.NewSize(w, h))
	t.Cleanup(func() { x.p.win.Close() })
	return x
}

// shot keeps a picture of the window for a person to look at.
func (x *houseTest) shot(name string) {
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

var _ = look.New
