package ui

import (
	"context"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
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
	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

var tuesday = time.Date(2026, 11, 3, 16, 0, 0, 0, time.UTC)

// lampStory is invented for these tests.
const lampStory = `Nilo climbed the last ten steps slowly. His knees shook. Below him the sea was black, and the lamp was out.

"Aunt?" he called. Nilo was afraid. Nobody answered, and the wind pulled at the door. He put his hand on the wall and felt that it was wet. Then he heard the dog below.

Nilo laughed. The dog had followed him up all the steps, and now it shook itself, and the water flew over them both. Together they went into the lamp room and looked for the matches.`

// phrases is an engine for tests of the way around it: it finds a few fixed
// words and gives them all to the first person named.
type phrases struct{ tagger *tag.Tagger }

var found = map[string]nlp.Cue{
	"knees shook":  {Kind: nlp.Body, Feelings: []nlp.Weight{{Family: "fear", Weight: 0.6}, {Family: "cold", Weight: 0.3}}, Places: []string{"legs"}},
	"afraid":       {Kind: nlp.Named, Feelings: []nlp.Weight{{Family: "fear", Weight: 0.95}}},
	"Nilo laughed": {Kind: nlp.FaceVoice, Feelings: []nlp.Weight{{Family: "joy", Weight: 0.7}, {Family: "relief", Weight: 0.4}}, Places: []string{"mouth"}},
}

var cueWords = regexp.MustCompile(`knees shook|afraid|Nilo laughed`)

func (e phrases) Analyze(ctx context.Context, text string) (*nlp.Analysis, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	a := &nlp.Analysis{Engine: "phrases", Doc: segment.Split(text)}
	e.tagger.Tag(a.Doc)
	c := nlp.Character{Name: "Nilo", Kind: nlp.Person}
	for i, t := range a.Doc.Tokens {
		if a.Doc.Word(i) == "Nilo" || t.Lower == "he" || t.Lower == "his" || t.Lower == "him" {
			c.Mentions = append(c.Mentions, nlp.Mention{Span: t.Span, First: i, End: i + 1, Head: i, Pronoun: a.Doc.Word(i) != "Nilo"})
		}
	}
	if len(c.Mentions) > 0 {
		a.Characters = []nlp.Character{c}
	}
	for _, m := range cueWords.FindAllStringIndex(text, -1) {
		cue := found[text[m[0]:m[1]]]
		cue.Span, cue.Strength, cue.Rule = nlp.Span{Start: m[0], End: m[1]}, nlp.Plain, "phrase"
		cue.Reason = nlp.Reason{Code: "cue.named", Slots: map[string]string{"words": text[m[0]:m[1]], "family": cue.Feelings[0].Family}}
		if len(a.Characters) == 0 {
			cue.Character = nlp.None
		}
		a.Cues = append(a.Cues, cue)
	}
	return a, nil
}

// house is a program on an empty data folder, without a display.
type house struct {
	t    *testing.T
	p    *Program
	st   *store.Store
	seen []model.Seen
}

func newHouse(t *testing.T, w, h float32) *house {
	t.Helper()
	st, err := store.Open(t.TempDir(), store.Options{Now: func() time.Time { return tuesday }})
	require.NoError(t, err)
	t.Cleanup(func() { st.Close() })
	stories, err := shelf.Stories()
	require.NoError(t, err)
	table, err := feelings.Load()
	require.NoError(t, err)
	tagger, err := tag.Load()
	require.NoError(t, err)
	x := &house{t: t, st: st}
	x.p = New(test.NewTempApp(t), Deps{Store: st, Engine: phrases{tagger}, Version: "phrases", Table: table, Shelf: stories,
		SeedDemo: func() error { return demo.Seed(context.Background(), st, phrases{tagger}, stories, tuesday, 7) },
		Now:      func() time.Time { return tuesday }, Rand: rand.New(rand.NewPCG(1, 2)), AtOnce: true,
		Observer: func(s model.Seen) { x.seen = append(x.seen, s) }})
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
