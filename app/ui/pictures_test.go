package ui

import (
	"fmt"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/ui/parts"
	"feltpage/corpus"
)

// page gives the scrolled page on screen.
func (x *house) page() *parts.Page {
	var found *parts.Page
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if p, ok := o.(*parts.Page); ok && found == nil {
			found = p
		}
		if c, ok := o.(*fyne.Container); ok {
			for _, y := range c.Objects {
				walk(y)
			}
		}
	}
	walk(x.p.now.content)
	return found
}

// TestPictures keeps a picture of every screen, large and small, light and
// dark, empty and full, for a person to look at.
func TestPictures(t *testing.T) {
	if os.Getenv("FELTPAGE_PICTURES") == "" {
		t.Skip("FELTPAGE_PICTURES names no folder")
	}
	for _, size := range [][2]float32{{1280, 800}, {900, 600}} {
		for _, dark := range []string{"light", "dark"} {
			x := newHouse(t, size[0], size[1])
			require.NoError(t, x.st.SetSetting("guide.lightness", dark))
			x.p.setLightness()
			x.p.begin()
			n := 0
			shot := func(name string) {
				n++
				x.shot(fmt.Sprintf("%v-%s-%02d-%s", size[0], dark, n, name))
			}
			shot("start")
			x.act("set-up")
			shot("setup")
			x.p.setup.Nickname, x.p.setup.Words = "Juniper", "happy, mad, wobbly, scared, freezing, chilly, cool"
			x.act("keep")
			shot("today-nothing-ready")
			x.act("nav-growth")
			shot("growth-empty")
			x.act("nav-shelf")
			shot("shelf")
			x.act("add-story")
			x.act("add")
			shot("add-story")
			x.addLamp()
			shot("story")
			x.p.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
			shot("story-finding")
			x.act("ready")
			x.act("nav-today")
			shot("today")
			x.p.openWords("cold")
			shot("words")
			x.p.wordsOf().Open(x.p.wordsOf().Line()[0].Word.ID)
			shot("word")
			x.act("nav-print")
			shot("print")
			x.act("nav-household")
			shot("household")
			for i := range 3 {
				x.page().ScrollTo(float32(i+1) * 620)
				shot("household")
			}
			x.p.trouble("The letters in lamp.txt cannot be read. Save it again as plain text in UTF-8, or paste the story.")
			shot("trouble")
			x.act("trouble-no")
			x = newDemoHouse(t, size[0], size[1])
			require.NoError(t, x.st.SetSetting("guide.lightness", dark))
			x.p.setLightness()
			x.p.begin()
			shot("demo-today")
			x.act("nav-growth")
			shot("demo-growth")
			x.page().ScrollTo(600)
			shot("demo-growth")
			x.act("answers")
			shot("demo-answers")
			for i, name := range []string{"Wilhelmina-Bartholomea von der Küste", "Moss the second", "A", "B", "C", "D"} {
				_, err := x.st.SaveLearner(record.Learner{Nickname: name, Look: record.DefaultLook})
				require.NoError(t, err)
				for j := range 30 {
					s := corpus.Story{Title: fmt.Sprintf("A story with quite a long name indeed, the %d of %d, in which nothing much happens to anybody", j, i), Text: lampStory, Hash: fmt.Sprint(i, j)}
					_, err := x.st.AddStory(record.Story{Story: s})
					require.NoError(t, err)
				}
			}
			require.NoError(t, x.p.reload())
			x.p.choose(2)
			x.act("nav-today")
			shot("long-names-today")
			x.act("nav-shelf")
			shot("long-names-shelf")
		}
	}
}
