package ui

import (
	"testing"

	"feltpage/app/record"
	"feltpage/app/ui/parts"
	"feltpage/exercises"
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func (x *houseTest) press(name string) {
	x.t.Helper()
	o, ok := x.p.now.targets[name]
	if !ok {
		x.t.Fatalf("no target %q on %s; there are %v", name, x.p.now.name, keysOf(x.p.now.targets))
	}
	test.Tap(o.(fyne.Tappable))
}
func keysOf(m map[string]fyne.CanvasObject) (o []string) {
	for k := range m {
		o = append(o, k)
	}
	return
}

func (x *houseTest) fill() {
	x.press("set-up")
	x.shot("01-setup")
	x.p.setup.Nickname, x.p.setup.Words = "Juniper", "happy, mad, wobbly, scared, freezing, chilly, cool"
	x.press("keep")
}

func TestLookAtScreens(t *testing.T) {
	for _, sz := range [][2]float32{{1280, 800}, {900, 600}} {
		x := newHouse(t, sz[0], sz[1])
		pre := "a"
		if sz[0] < 1000 {
			pre = "b"
		}
		s := func(n string) { x.shot(pre + n) }
		s("00-start")
		x.press("set-up")
		s("01-setup")
		x.p.setup.Nickname, x.p.setup.Words = "Juniper", "happy, mad, wobbly, scared, freezing, chilly, cool"
		x.press("keep")
		x.p.deps.Store.SaveLearner(record.Learner{Nickname: "Moss", Mode: exercises.BySpeak, Look: record.DefaultLook})
		x.p.reload()
		s("02-today-unready")
		x.press("nav-shelf")
		s("03-shelf")
		x.p.showStory(x.p.shelf.Rows()[2].Story)
		s("04-story")
		if tk, ok := x.p.now.targets["ready"].(*parts.Tick); ok {
			tk.Tapped(nil)
		}
		s("05-story-ready")
		x.p.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
		s("06-finding")
		x.press("nav-today")
		s("07-today")
		x.press("nav-words")
		s("08-words")
		x.p.openWords("cold")
		s("09-words-cold")
		x.p.wordsOf().Open(x.p.wordsOf().Line()[0].Word.ID)
		s("10-words-one")
		x.press("nav-growth")
		s("11-growth-empty")
		x.press("nav-household")
		s("12-household")
		x.press("nav-shelf")
		x.press("add-story")
		s("13-adding")
		x.press("add")
		s("14-adding-empty")
		x.p.trouble("The letters in lamp.txt cannot be read. Save it again as plain text in UTF-8, or paste the story.")
		s("15-trouble")
	}
}

func TestLookAtDemo(t *testing.T) {
	for _, sz := range [][2]float32{{1280, 800}, {900, 600}} {
		x := newHouse(t, sz[0], sz[1])
		pre := "d"
		if sz[0] < 1000 {
			pre = "e"
		}
		s := func(n string) { x.shot(pre + n) }
		s("00-start")
		x.press("look-around")
		s("01-today")
		x.press("nav-shelf")
		s("02-shelf")
		x.press("nav-words")
		s("03-words")
		l := x.p.wordsOf().Line()
		if len(l) > 0 {
			x.p.wordsOf().Open(l[0].Word.ID)
		}
		s("04-word")
		x.press("nav-growth")
		s("05-growth")
		x.p.now.content.(*fyne.Container).Objects[1].(*fyne.Container).Objects[1].(*parts.Page).ScrollTo(560)
		s("06-growth2")
		x.press("answers")
		s("07-answers")
		x.press("nav-print")
		s("08-print")
		x.press("nav-household")
		x.press("dark")
		s("09-household-dark")
		x.press("nav-growth")
		s("10-growth-dark")
		x.press("nav-shelf")
		for _, r := range x.p.shelf.Rows() {
			if r.Ready {
				x.p.showStory(r.Story)
				break
			}
		}
		s("11-story-dark")
		x.press("nav-household")
		x.p.now.content.(*fyne.Container).Objects[1].(*fyne.Container).Objects[1].(*parts.Page).ScrollTo(1100)
		s("12-household2")
		x.press("remove-demo")
		s("13-ask")
	}
}
