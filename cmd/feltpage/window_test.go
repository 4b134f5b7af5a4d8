//go:build !headless

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"feltpage/app/store"
	"feltpage/app/ui/model"
)

// A story that was invented for this test.
const ovenTitle = "The Cold Oven"

var oven = []string{
	`Juniper stood at the bakery door before the sun was up. The wind came off the sea, and her teeth chattered. She pulled her shawl tight and blew on her fingers, but her hands went on shaking. Nobody had lit the oven in the night, and the stones under her feet were as grey as the harbour.`,
	`"Grandmother," said Moss, "I am so hungry." His belly growled. He rubbed his eyes and yawned until his jaw cracked, and then he leaned his head against the flour sacks. His eyelids drooped. The old woman laughed softly and gave him the last warm roll from under the cloth.`,
	`Then the shutter banged in the dark. Juniper's heart pounded, and she caught hold of the table. "Who is there?" she whispered. Nobody answered. Her knees shook so hard that the spoons rattled in the drawer. Something scratched at the wood, and stopped, and scratched again.`,
	`It was only the old dog from the lighthouse, wet to the skin. Juniper let out a long breath, and her shoulders dropped. "You bad dog," she said, and she put her arms round his neck and hid her hot face in his fur.`,
}

// setUp goes from the first screen to Today with one learner.
func (p *program) setUp(nickname string) {
	p.d.t.Helper()
	p.screen("start")
	p.click("set-up")
	p.screen("set-up")
	p.click("nickname")
	p.typeText(nickname)
	p.click("words")
	p.typeText("mad, sad, fizzy, warm")
	p.click("keep")
	p.screen("today")
}

// addOven adds the story and ticks it as read.
func (p *program) addOven() {
	p.d.t.Helper()
	p.click("nav-shelf")
	p.screen("shelf")
	p.click("add-story")
	p.screen("add-story")
	p.click("text")
	for i, paragraph := range oven {
		if i > 0 {
			p.key("Return", "Return")
		}
		p.typeText(paragraph)
	}
	p.click("title")
	p.typeText(ovenTitle)
	p.click("add")
	p.screen("story")
	p.click("ready")
	p.wait("the story to be ready", func(s model.Seen) bool { return s.Facts["ready"] == "yes" })
	p.d.shot("story")
}

// readFromShelf ticks a starter story as read.
func (p *program) readFromShelf(title string) {
	p.d.t.Helper()
	p.click("nav-shelf")
	p.screen("shelf")
	p.click("search")
	p.typeText(title)
	p.wait("one story", func(s model.Seen) bool { return s.Facts["stories"] == "1" })
	p.click("story-" + title)
	p.screen("story")
	p.click("ready")
	p.wait("the story to be ready", func(s model.Seen) bool { return s.Facts["ready"] == "yes" })
}

// place tells one question of a sitting from the next.
func place(s model.Seen) string {
	return strings.Join([]string{s.Screen, s.Facts["phase"], s.Facts["moment"], s.Facts["stepno"]}, "/")
}

// moved waits until the sitting is at another place than before.
func (p *program) moved(before string) model.Seen {
	p.d.t.Helper()
	return p.wait("the sitting to go on from "+before, func(s model.Seen) bool { return place(s) != before })
}

// press does something until the sitting goes on. A tap right after another
// counts as the same tap, as it should; a person would tap again too.
func (p *program) press(before string, do func()) model.Seen {
	p.d.t.Helper()
	for range 5 {
		do()
		if s, came := p.waitFor(3*time.Second, func(s model.Seen) bool { return place(s) != before }); came {
			return s
		}
	}
	return p.moved(before)
}

// first gives the first target, by name, that begins with prefix, or "".
func first(s model.Seen, prefix string) string {
	least := ""
	for name := range s.Targets {
		if strings.HasPrefix(name, prefix) && (least == "" || name < least) {
			least = name
		}
	}
	return least
}

// answer gives an answer as a learner could: opens a place where places are
// asked, taps a choice, or taps a word of the passage. It reports false where
// there is nothing to tap.
func (p *program) answer(s model.Seen) bool {
	p.d.t.Helper()
	before := place(s)
	if at := first(s, "place:"); at != "" && first(s, "choice:") == "" {
		p.click(at)
		s = p.wait("the signs of "+at, func(s model.Seen) bool { return first(s, "choice:") != "" || first(s, "place:") == "" })
	}
	target := first(s, "choice:")
	if target == "" && s.Facts["step"] != "and-you" {
		// A word of five letters or more: short ones are seldom what shows it.
		for name := range s.Targets {
			if w, ok := strings.CutPrefix(name, "word:"); ok && len(w) > 4 && (target == "" || name < target) {
				target = name
			}
		}
	}
	if target == "" {
		target = first(s, "stand:") // "nothing" and "not telling" are answers too
	}
	if target == "" {
		return false
	}
	p.click(target)
	p.wait("the choice "+target, func(s model.Seen) bool { return s.Facts["chosen"] != "" || place(s) != before })
	return true
}

// The whole path in a real window: an empty data folder, a story added, one
// sitting by mouse and one by keyboard alone, a restart, Growth.
func TestTheWholePathInAWindow(t *testing.T) {
	d := newDesk(t, 1360, 1240)
	data := filepath.Join(t.TempDir(), "household")
	p := d.start(data)
	d.shot("start")
	p.setUp("Moss")
	p.addOven()

	p.click("nav-today")
	p.wait("the story on Today", func(s model.Seen) bool { return s.Screen == "today" && s.Facts["story"] == ovenTitle })
	require.Contains(t, d.readBack("today"), ovenTitle)
	p.click("start")
	s := p.screen("sitting")
	asked := p.mouseSitting(s)
	require.Greater(t, asked, 3, "a sitting asks more than three questions")
	p.screen("today")

	// Another story, since the first has been read to its end.
	p.readFromShelf("The Crow at the Jar")
	p.click("nav-today")
	p.wait("the next story on Today", func(s model.Seen) bool { return s.Facts["story"] == "The Crow at the Jar" })

	// The second sitting by keyboard alone, from Today to Today.
	p.keyboardSitting()
	p.screen("today")
	p.quit()

	info, err := os.Stat(data)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), info.Mode().Perm(), "the data folder is its owner's alone")

	// A restart finds everything again.
	p = d.start(data)
	p.screen("today")
	p.click("nav-growth")
	p.screen("growth")
	text := d.readBack("growth")
	require.Contains(t, text, "Growth")
	require.Contains(t, text, "Moss")
	p.quit()

	st, err := store.Open(data, store.Options{})
	require.NoError(t, err)
	defer st.Close()
	learners, err := st.Learners()
	require.NoError(t, err)
	require.Len(t, learners, 1)
	require.Equal(t, "Moss", learners[0].Nickname)
	sittings, err := st.Sittings(learners[0].ID)
	require.NoError(t, err)
	require.Len(t, sittings, 2)
	for _, g := range sittings {
		require.Equal(t, "done", g.Ended)
	}
	marked, err := st.Marked(learners[0].ID)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(marked), asked, "every answer is kept")
	helped, judged := 0, 0
	for _, m := range marked {
		require.Equal(t, learners[0].ID, m.Learner)
		if m.Answer.Answer.Prompt > 0 {
			helped++
		}
		if m.Program != nil && m.Program.Value != "unmarked" {
			judged++
		}
	}
	require.Equal(t, 1, helped, "the one answer after a little help tells so")
	given := map[string]int{} // answers with content, by sitting: a skip is none
	for _, m := range marked {
		if a := m.Answer.Answer; a.Standing == "" && (len(a.Spans) > 0 || len(a.ChoiceIDs) > 0 || a.Said != "") {
			given[m.Sitting]++
		}
	}
	for _, g := range sittings {
		require.Greater(t, given[g.ID], 1, "by mouse and by keyboard alike, questions are answered and not only skipped")
	}
	require.Greater(t, judged, 0)
}

// mouseSitting answers a sitting to its end and gives how many questions it
// asked.
func (p *program) mouseSitting(s model.Seen) (asked int) {
	p.d.t.Helper()
	for n := 0; s.Screen == "sitting" && n < 80; n++ {
		before := place(s)
		switch s.Facts["phase"] {
		case "asking":
			asked++
			if asked == 2 { // once, a little help
				p.click("help")
				s = p.wait("a little help", func(s model.Seen) bool { return s.Facts["level"] == "1" })
			}
			answered := p.answer(s)
			if asked < 6 {
				p.d.shot("sitting-" + s.Facts["step"])
			}
			if answered {
				s = p.press(before, func() { p.click("next") })
			} else {
				s = p.press(before, func() { p.click("skip") })
			}
		case "ended":
			p.d.shot("sitting-end")
			s = p.press(before, func() { p.click("done") })
		default:
			if n < 6 {
				p.d.shot("sitting-after")
			}
			s = p.press(before, func() { p.click("next") })
		}
	}
	return asked
}

// keyboardSitting goes from Today through a sitting without the mouse.
func (p *program) keyboardSitting() {
	p.d.t.Helper()
	p.d.tool("xdotool", "mousemove", "--window", p.window, "2", "2")
	p.key("Return") // Start has the keyboard
	s := p.screen("sitting")
	for n := 0; s.Screen == "sitting" && n < 80; n++ {
		before := place(s)
		if s.Facts["phase"] == "ended" {
			s = p.press(before, func() { p.key("Return") }) // Done has the keyboard
			continue
		}
		if s.Facts["phase"] == "asking" {
			p.key("Tab", "Right", "space")
		}
		n := 0
		s = p.press(before, func() {
			// Where nothing is chosen the sitting stays; skipping is always there.
			p.key([]string{"ctrl+Right", "ctrl+Down"}[n%2])
			n++
		})
	}
}

// The program is killed in the middle of a sitting, as a power cut would: no
// answer that was given is lost, and the sitting goes on at the same question.
func TestKilledInMidSittingLosesNothing(t *testing.T) {
	d := newDesk(t, 1360, 1240)
	data := t.TempDir()
	p := d.start(data)
	p.setUp("Juniper")
	p.readFromShelf("The Crow at the Jar")
	p.click("nav-today")
	p.wait("the story on Today", func(s model.Seen) bool { return s.Screen == "today" && s.Facts["ready"] == "yes" })
	p.click("start")
	s := p.screen("sitting")
	given := 0
	for given < 3 {
		before := place(s)
		if s.Facts["phase"] == "asking" {
			require.True(t, p.answer(s), "there is something to answer at %s", before)
			given++
		}
		s = p.press(before, func() { p.click("next") })
	}
	require.Equal(t, "feedback", s.Facts["phase"])
	p.kill()

	p = d.start(data)
	p.screen("today")
	d.shot("today-after-kill")
	p.click("start")
	again := p.screen("sitting")
	require.Equal(t, s.Facts["sitting"], again.Facts["sitting"], "the same sitting goes on")
	require.Equal(t, s.Facts["moment"], again.Facts["moment"])
	p.kill()

	st, err := store.Open(data, store.Options{})
	require.NoError(t, err)
	defer st.Close()
	learners, err := st.Learners()
	require.NoError(t, err)
	marked, err := st.Marked(learners[0].ID)
	require.NoError(t, err)
	require.Len(t, marked, given)
	for _, m := range marked {
		require.NotNil(t, m.Program, "each answer has the program's mark")
	}
}

// What stands in the way of opening is one sentence in a window, and the file
// is left as it was.
func TestTroubleIsOneSentence(t *testing.T) {
	d := newDesk(t, 1360, 1240)
	foreign := t.TempDir()
	other := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(other, "a file"), nil, 0o600))
	st, err := store.Open(foreign, store.Options{})
	require.NoError(t, err)
	require.NoError(t, st.Close())
	files, err := filepath.Glob(filepath.Join(foreign, "*.db"))
	require.NoError(t, err)
	require.Len(t, files, 1)
	require.NoError(t, os.WriteFile(files[0], []byte("not a household"), 0o600))
	for name, c := range map[string]struct{ data, says string }{
		"foreign":      {foreign, "does not belong to Feltpage"},
		"not-writable": {filepath.Join(other, "a file", "below"), "cannot be written"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, d.trouble(t, c.data, "trouble-"+name, c.says), c.says)
		})
	}
	left, err := os.ReadFile(files[0])
	require.NoError(t, err)
	require.Equal(t, "not a household", string(left))
}

// All that is kept lies in the data folder. The toolkit's list of fonts and the
// graphics driver's shaders, which say nothing of the household, may be cached.
func TestNothingIsKeptOutsideTheDataFolder(t *testing.T) {
	d := newDesk(t, 1360, 1240)
	_, err := built() // by the go tool, whose own folders are elsewhere
	require.NoError(t, err)
	around := t.TempDir()
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME", "TMPDIR"} {
		dir := filepath.Join(around, name)
		require.NoError(t, os.Mkdir(dir, 0o700))
		t.Setenv(name, dir)
	}
	p := d.start(filepath.Join(around, "data"))
	p.setUp("Quibblewick")
	p.quit()
	require.NoError(t, filepath.WalkDir(around, func(path string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		in, err := filepath.Rel(around, path)
		require.NoError(t, err)
		switch strings.Split(in, string(filepath.Separator))[0] {
		case "data":
		case "XDG_CACHE_HOME":
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			require.NotContains(t, string(b), "Quibblewick", in)
		default:
			t.Errorf("%s was written", in)
		}
		return nil
	}))
}
