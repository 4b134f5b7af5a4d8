package ui

import (
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/store"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
	"feltpage/corpus"
	"feltpage/exercises"
	"feltpage/exercises/moments"
	"feltpage/nlp"
	"feltpage/nlp/feelings"
	"feltpage/nlp/segment"
)

// The story is invented for these tests.
const tray = `Juniper carried the tray past the oven. The kitchen was quiet, and only the clock spoke. Then something fell in the dark shop behind her. Her hands shook, and the little cakes slid to one side. "Gran?" she called—nobody answered. She stood still and counted to ten.

Moss came in from the harbour with a bucket of ice. He saw the cakes on the floor. His face went white, and he said nothing at all for a long time.`

// table is a seat at the bakery's table: a real store in a folder of its own,
// a story with two moments, a window without a display.
type atTable struct {
	t       *testing.T
	p       *Program
	x       *sittingScreen
	st      *store.Store
	request model.SittingRequest
	seen    []model.Seen
	left    string
	clock   time.Time
}

func spanOf(t *testing.T, part string) nlp.Span {
	t.Helper()
	i := strings.Index(tray, part)
	require.GreaterOrEqual(t, i, 0, part)
	return nlp.Span{Start: i, End: i + len(part)}
}

// analysed gives what a reading engine would say of the story: two people and
// two body signs.
func analysed(t *testing.T) *nlp.Analysis {
	d := segment.Split(tray)
	cue := func(part, place string, who int) nlp.Cue {
		return nlp.Cue{Span: spanOf(t, part), Kind: nlp.Body, Character: who, Places: []string{place}, Strength: nlp.Plain,
			Feelings: []nlp.Weight{{Family: "fear", Weight: 0.7}, {Family: "cold", Weight: 0.2}}, Rule: "test"}
	}
	name := func(id int, name, gender string, at ...string) nlp.Character {
		c := nlp.Character{ID: id, Name: name, Kind: nlp.Person, Gender: gender}
		for _, a := range at {
			c.Mentions = append(c.Mentions, nlp.Mention{Span: spanOf(t, a)})
		}
		return c
	}
	return &nlp.Analysis{Engine: "test", Doc: d,
		Characters: []nlp.Character{name(0, "Juniper", nlp.Female, "Juniper", "Her"), name(1, "Moss", nlp.Male, "Moss", "His")},
		Cues:       []nlp.Cue{cue("Her hands shook", "hands", 0), cue("His face went white", "face", 1)}}
}

func sit(t *testing.T, kind record.SittingKind, w, h float32) *atTable {
	t.Helper()
	at := &atTable{t: t, clock: time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)}
	st, err := store.Open(t.TempDir(), store.Options{Now: func() time.Time { return at.clock }})
	require.NoError(t, err)
	t.Cleanup(func() { st.Close() })
	at.st = st
	table, err := feelings.Load()
	require.NoError(t, err)
	app := test.NewTempApp(t)
	at.p = New(app, Deps{Store: st, Table: table, Now: func() time.Time { return at.clock }, AtOnce: true})
	l, err := st.SaveLearner(record.Learner{Nickname: "Moss", Mode: exercises.ByTap, Look: record.DefaultLook})
	require.NoError(t, err)
	story, err := st.AddStory(record.Story{Story: corpus.Story{Title: "The Tray", Language: "en", Text: tray, Hash: "hash-of-the-tray",
		Origin: corpus.Origin{Source: "invented for a test", Licence: "CC0-1.0", Invented: true}}})
	require.NoError(t, err)
	a := analysed(t)
	at.request = model.SittingRequest{Learner: l, Story: story, Analysis: a, Moments: moments.Choose(a, table), Kind: kind}
	require.NotEmpty(t, at.request.Moments)
	app.Settings().SetTheme(look.New(look.AlwaysLight))
	at.open(w, h)
	return at
}

func (a *atTable) open(w, h float32) {
	a.t.Helper()
	a.p.deps.Observer = func(s model.Seen) { a.seen = append(a.seen, s) }
	s, err := a.p.newSitting(a.request)
	require.NoError(a.t, err)
	a.x = newSittingScreen(a.p.app, a.p.win, s, a.p.deps.Observer, func(id string) { a.left = id })
	a.x.listen(a.p.win.Canvas())
	a.p.now = view{}
	a.p.root.set(a.x.root)
	a.p.win.Resize(fyne.NewSize(w, h))
}

// last is what the observer was told last.
func (a *atTable) last() model.Seen {
	a.t.Helper()
	require.NotEmpty(a.t, a.seen)
	return a.seen[len(a.seen)-1]
}

// tap taps the middle of a target, as a hand would, and lets time pass.
func (a *atTable) tap(name string) {
	a.t.Helper()
	r, ok := a.last().Targets[name]
	require.True(a.t, ok, "no target %q among %v", name, a.names())
	a.clock = a.clock.Add(time.Second)
	k := a.p.win.Canvas().Scale()
	test.TapCanvas(a.p.win.Canvas(), fyne.NewPos((r.X+r.W/2)/k, (r.Y+r.H/2)/k))
}

func (a *atTable) names() []string {
	var out []string
	for n := range a.last().Targets {
		if !strings.HasPrefix(n, "word:") {
			out = append(out, n)
		}
	}
	return out
}

func (a *atTable) fact(name string) string { a.t.Helper(); return a.last().Facts[name] }

func (a *atTable) shot(name string) {
	a.t.Helper()
	dir := os.Getenv("FELTPAGE_PICTURES")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(a.t, err)
	defer f.Close()
	require.NoError(a.t, png.Encode(f, a.p.win.Canvas().Capture()))
}

func (a *atTable) press(keys ...fyne.KeyName) {
	a.t.Helper()
	for _, k := range keys {
		a.clock = a.clock.Add(time.Second)
		c := a.p.win.Canvas()
		switch {
		case k == fyne.KeyTab:
			c.FocusNext()
		case c.Focused() != nil:
			c.Focused().TypedKey(&fyne.KeyEvent{Name: k})
		case c.OnTypedKey() != nil:
			c.OnTypedKey()(&fyne.KeyEvent{Name: k})
		}
	}
}

func (a *atTable) control(k fyne.KeyName) {
	a.clock = a.clock.Add(time.Second)
	s := &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierControl}
	if f, ok := a.p.win.Canvas().Focused().(fyne.Shortcutable); ok {
		f.TypedShortcut(s)
		return
	}
	a.p.win.Canvas().(interface{ TypedShortcut(fyne.Shortcut) }).TypedShortcut(s)
}

func TestASittingByMouse(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	require.Equal(t, "find", a.fact("step"))
	a.shot("sitting-1-find")
	a.tap("word:cakes")
	a.tap("next")
	require.Equal(t, "feedback", a.fact("phase"))
	a.shot("sitting-2-feedback")
	a.tap("again")
	a.tap("word:hands")
	a.tap("word:shook")
	require.Equal(t, "hands shook", a.fact("chosen"))
	a.shot("sitting-3-chosen")
	a.tap("next")
	a.tap("next")
	require.Equal(t, "feeling", a.fact("step"))
	a.tap("help")
	a.tap("help")
	require.Equal(t, "2", a.fact("level"))
	a.shot("sitting-4-feeling-help")
	a.tap("choice:fear")
	a.tap("helped")
	a.shot("sitting-5-feeling-chosen")
	a.tap("next")
	a.tap("next")
	require.Equal(t, "reason", a.fact("step"))
	a.shot("sitting-6-reason")
	a.tap("chosen:0")
	a.tap("next")
	a.tap("next")
	require.Equal(t, "body", a.fact("step"))
	a.shot("sitting-7-body")
	a.tap("place:hands")
	a.shot("sitting-8-place")
	a.tap("else")
	test.Type(a.x.box.Entry, "fizzy")
	a.shot("sitting-9-else")
	a.tap("next")
	require.Equal(t, "feedback", a.fact("phase"))
	a.tap("next")
	require.Equal(t, "and-you", a.fact("step"))
	a.shot("sitting-10-and-you")
	a.tap("stand:not-telling")
	a.tap("next")
	a.tap("next")
	require.Equal(t, "ended", a.fact("phase"))
	a.shot("sitting-11-end")
	a.tap("done")
	require.Equal(t, a.x.s.ID(), a.left)

	kept, err := a.st.Marked(a.request.Learner.ID)
	require.NoError(t, err)
	require.Len(t, kept, 6)
	require.Equal(t, []int{1, 2}, []int{kept[0].Answer.Answer.Try, kept[1].Answer.Answer.Try})
	require.Equal(t, exercises.Fits, kept[1].Program.Value)
	require.True(t, kept[2].Helped)
	require.Equal(t, exercises.ShownWhere, kept[2].Answer.Answer.Prompt)
	require.Equal(t, "fizzy", kept[4].Answer.Answer.Said)
	require.Equal(t, []string{"hands"}, kept[4].Answer.Answer.ChoiceIDs)
	ended, err := a.st.Sitting(a.x.s.ID())
	require.NoError(t, err)
	require.Equal(t, "done", ended.Ended)
}

// By keyboard alone: Tab, arrows, Space and Return, and the screen's own keys.
func TestASittingByKeyboard(t *testing.T) {
	a := sit(t, record.Teaching, 1280, 800)
	a.press(fyne.KeyTab)
	require.Equal(t, a.x.reading, a.p.win.Canvas().Focused(), "the story has the keyboard first")
	for !strings.HasPrefix(a.fact("chosen"), "hands") {
		a.press(fyne.KeyRight, fyne.KeySpace)
		if !strings.HasPrefix(a.fact("chosen"), "hands") {
			a.press(fyne.KeySpace)
		}
	}
	a.press(fyne.KeyRight, fyne.KeySpace)
	require.Equal(t, "hands shook", a.fact("chosen"))
	a.shot("keyboard-1-words")
	a.control(fyne.KeyRight)
	require.Equal(t, "feedback", a.fact("phase"))
	require.Equal(t, a.x.next, a.p.win.Canvas().Focused())
	a.press(fyne.KeyReturn)
	require.Equal(t, "feeling", a.fact("step"))
	first := a.p.win.Canvas().Focused()
	require.IsType(t, &parts.Tile{}, first, "the answers have the keyboard where no words are chosen")
	a.press(fyne.KeyRight)
	require.NotEqual(t, first, a.p.win.Canvas().Focused())
	a.press(fyne.KeySpace)
	require.NotEmpty(t, a.fact("chosen"))
	a.control(fyne.KeyH)
	a.shot("keyboard-2-feeling")
	a.control(fyne.KeyUp)
	require.Equal(t, "1", a.fact("level"))
	a.control(fyne.KeyRight)
	a.press(fyne.KeyReturn)
	require.Equal(t, "reason", a.fact("step"))
	a.control(fyne.KeyLeft)
	require.Equal(t, "feeling", a.fact("step"))
	a.control(fyne.KeyRight)
	a.press(fyne.KeyReturn)
	for a.fact("phase") != "ended" {
		a.control(fyne.KeyDown)
	}
	require.Equal(t, a.x.next, a.p.win.Canvas().Focused())
	a.press(fyne.KeySpace)
	require.Equal(t, a.x.s.ID(), a.left)
}

// Everything lies inside the window, nothing over anything else, answers are
// at least 96 units and controls at least 44, at every size and every step.
func TestTargetsAtEverySize(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 900, Height: 600}, {Width: 1280, Height: 800}, {Width: 2560, Height: 1440}} {
		for _, kind := range []record.SittingKind{record.Teaching, record.Short, record.Probe} {
			a := sit(t, kind, size.Width, size.Height)
			a.x.s.SetLook(record.Look{SizePt: 24, Line: 1.6})
			shots := 0
			for a.fact("phase") != "ended" {
				a.checkTargets(size)
				if size.Width != 1280 {
					a.shot(fmt.Sprintf("size-%vx%v-%s-%d", size.Width, size.Height, kind, shots))
				}
				shots++
				if _, ok := a.last().Targets["place:hands"]; ok {
					a.tap("place:hands")
					a.shot(fmt.Sprintf("size-%vx%v-%s-%d-place", size.Width, size.Height, kind, shots))
					a.checkTargets(size)
				}
				if _, ok := a.last().Targets["else"]; ok {
					a.tap("else")
					a.checkTargets(size)
				}
				a.tap("skip")
			}
			a.checkTargets(size)
		}
	}
}

func (a *atTable) checkTargets(size fyne.Size) {
	a.t.Helper()
	for _, o := range a.x.body.Objects {
		require.LessOrEqual(a.t, o.Position().Y+o.Size().Height, a.x.body.Size().Height+0.1, "%T runs out of the pane at %v", o, size)
	}
	all := a.last().Targets
	for n, r := range all {
		require.GreaterOrEqual(a.t, r.X, float32(0), n)
		require.GreaterOrEqual(a.t, r.Y, float32(0), n)
		require.LessOrEqual(a.t, r.X+r.W, size.Width, "%s at %v", n, size)
		require.LessOrEqual(a.t, r.Y+r.H, size.Height, "%s at %v", n, size)
		if strings.HasPrefix(n, "word:") {
			continue
		}
		least := look.Target
		if _, tile := a.x.choices[n]; tile {
			least = look.Answer
		}
		require.GreaterOrEqual(a.t, r.W, least, n)
		require.GreaterOrEqual(a.t, r.H, least, n)
		for m, q := range all {
			if m != n && !strings.HasPrefix(m, "word:") {
				over := min(r.X+r.W, q.X+q.W)-max(r.X, q.X) > 0.5 && min(r.Y+r.H, q.Y+q.H)-max(r.Y, q.Y) > 0.5
				require.False(a.t, over, "%s %v lies over %s %v at %v", n, r, m, q, size)
			}
		}
	}
}
