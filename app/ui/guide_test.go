package ui

import (
	"bytes"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"feltpage/app/print"
	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

func TestFirstRunSetsUpAHousehold(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.on("start")
	x.press("set-up")
	x.on("set-up")
	x.act("keep")
	require.Equal(t, say.T("start.no-name"), x.last().Facts["trouble"])
	x.write("nickname", "Juniper")
	x.act("larger")
	x.act("larger")
	x.act("mode-speak")
	x.act("keep")
	x.on("today")
	all, err := x.st.Learners()
	require.NoError(t, err)
	require.Len(t, all, 1)
	require.Equal(t, "Juniper", all[0].Nickname)
	require.EqualValues(t, 24, all[0].Look.SizePt)
	require.EqualValues(t, "speak", all[0].Mode)
	stories, err := x.st.Stories()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(stories), 8, "the starter shelf is there")
	require.Equal(t, "no", x.last().Facts["ready"], "nothing is ready before the guide has read it")
	require.Contains(t, x.last().Targets, "to-shelf")
}

// From a pasted story to a planned sitting, by hand.
func TestAStoryIsAddedReadTickedAndPlanned(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	x.press("nav-shelf")
	x.on("shelf")
	x.press("add-story")
	x.on("add-story")
	x.press("add")
	require.Equal(t, say.T("errors.story-pasted-empty"), x.last().Facts["trouble"])
	x.p.now.targets["text"].(*parts.Writing).SetText(lampStory)
	x.p.now.targets["title"].(*parts.Writing).SetText("The Lamp on the Point")
	x.press("nav-words") // looking elsewhere loses nothing
	x.press("nav-shelf")
	x.press("add-story")
	require.Equal(t, lampStory, x.p.now.targets["text"].(*parts.Writing).Text)
	x.act("add")
	x.on("story")
	require.NotEqual(t, "0", x.last().Facts["findings"])
	require.NotEqual(t, "0", x.last().Facts["moments"])
	require.Equal(t, "no", x.last().Facts["ready"])
	x.press("ready")
	require.Equal(t, "yes", x.last().Facts["ready"])
	x.press("nav-today")
	x.on("today")
	require.Equal(t, "yes", x.last().Facts["ready"])
	require.Equal(t, "The Lamp on the Point", x.last().Facts["story"])
	require.Contains(t, x.last().Targets, "measure", "teaching has not begun")
	x.press("start")
	x.on("sitting")
	require.Equal(t, "teaching", x.last().Facts["kind"])
}

func TestFindingsAreReachedByKeyAndDropped(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	x.addLamp()
	x.on("story")
	key := func(k fyne.KeyName) { x.p.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyHome)
	require.Equal(t, "0", x.last().Facts["finding"])
	key(fyne.KeyRight)
	require.Equal(t, "1", x.last().Facts["finding"])
	all, err := strconv.Atoi(x.last().Facts["findings"])
	require.NoError(t, err)
	require.GreaterOrEqual(t, all, 2)
	key(fyne.KeyEnd)
	require.Equal(t, strconv.Itoa(all-1), x.last().Facts["finding"])
	before := x.last().Facts["moments"]
	require.NotEqual(t, "0", before)
	key(fyne.KeyHome)
	for range all {
		x.act("drop")
		key(fyne.KeyRight)
	}
	require.Equal(t, strconv.Itoa(all), x.last().Facts["findings"], "dropped ones can still be seen")
	require.Equal(t, "0", x.last().Facts["moments"])
	key(fyne.KeyHome)
	for range all {
		x.act("drop") // takes it back
		key(fyne.KeyRight)
	}
	require.Equal(t, before, x.last().Facts["moments"])
	key(fyne.KeyHome)
	for range all {
		key(fyne.KeyDelete)
		key(fyne.KeyRight)
	}
	require.Equal(t, "0", x.last().Facts["moments"], "and by key alone")
	key(fyne.KeyHome)
	for range all {
		key(fyne.KeyReturn)
		key(fyne.KeyRight)
	}
	require.Equal(t, before, x.last().Facts["moments"])
}

func TestADroppedFileIsTakenIn(t *testing.T) {
	x := newHouse(t, 1280, 800)
	path := filepath.Join(t.TempDir(), "lamp.txt")
	require.NoError(t, os.WriteFile(path, []byte(lampStory), 0o600))
	x.p.dropped([]fyne.URI{storage.NewFileURI(path)})
	x.on("start") // nobody is set up yet
	x.setUp("Juniper")
	x.p.dropped([]fyne.URI{storage.NewFileURI(path)})
	x.on("add-story")
	require.Contains(t, x.p.now.targets["text"].(*parts.Writing).Text, "His knees shook.")
	x.p.dropped([]fyne.URI{storage.NewFileURI(path + ".gone")})
	require.NotEmpty(t, x.last().Facts["trouble"])
	require.Contains(t, x.p.now.targets["text"].(*parts.Writing).Text, "His knees shook.")
}

// A household's own expression is found in every story from then on.
func TestOwnExpressionsAreLookedFor(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	x.addLamp()
	count := func() int {
		x.p.showStory(x.lampStories()[0])
		n, err := strconv.Atoi(x.last().Facts["findings"])
		require.NoError(t, err)
		return n
	}
	before := count()
	x.act("nav-household")
	x.write("expression", "put his hand on the wall")
	x.act("nav-words") // looking elsewhere loses nothing
	x.act("nav-household")
	x.act("expression-add")
	require.Equal(t, before+1, count())
	own, err := x.st.Expressions()
	require.NoError(t, err)
	require.Len(t, own, 1)
	own[0].Away = true
	_, err = x.st.SaveExpression(own[0])
	require.NoError(t, err)
	require.NoError(t, x.p.reload())
	require.Equal(t, before, count())
}

func TestALineOnTheGraphPartsThePhases(t *testing.T) {
	x := newDemoHouse(t, 1280, 800)
	x.act("nav-growth")
	lines, err := x.st.PhaseLines(x.p.who().ID)
	require.NoError(t, err)
	x.write("line", "with the aunt")
	x.act("line-draw")
	after, err := x.st.PhaseLines(x.p.who().ID)
	require.NoError(t, err)
	require.Len(t, after, len(lines)+1)
	require.Equal(t, "2026-11-03", after[len(after)-1].On)
}

func TestTheInventedHouseholdIsMarkedAndGoesInOneAction(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.press("look-around")
	x.on("today")
	for _, to := range tabs {
		x.press("nav-" + string(to))
		x.on(string(to))
		require.Contains(t, x.last().Targets, "remove-demo", "it is marked on %s", to)
	}
	x.press("nav-growth")
	require.NotEqual(t, "0", x.last().Facts["sittings"])
	x.act("answers")
	x.on("answers")
	var b bytes.Buffer
	require.NoError(t, x.p.writeReport(&b, print.A4))
	require.True(t, bytes.HasPrefix(b.Bytes(), []byte("%PDF")))
	x.press("remove-demo")
	x.on("confirm")
	x.press("confirm-no")
	x.on("answers")
	x.press("remove-demo")
	x.press("confirm-yes")
	x.on("start")
	has, err := x.st.HasDemo()
	require.NoError(t, err)
	require.False(t, has)
}

func TestScreensOpenByKeyFromAnywhereAlsoWhileWriting(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	for i, k := range []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6} {
		x.shortcut(k)
		x.on(string(tabs[i]))
	}
	x.press("nav-shelf")
	x.press("add-story")
	require.IsType(t, (*parts.Writing)(nil), x.p.win.Canvas().Focused())
	x.shortcut(fyne.Key3)
	x.on("words")
	x.p.trouble("Something.")
	x.on("trouble")
	x.shortcut(fyne.Key1)
	x.on("trouble")
	x.press("trouble-no")
	x.on("words")
}

// By keyboard alone every target of a screen can be reached.
func TestEveryTargetHasTheKeyboardOnce(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	for _, to := range tabs {
		x.p.open(to)
		want := 0
		for _, o := range x.p.now.targets {
			if _, ok := o.(fyne.Focusable); ok {
				want++
			}
		}
		x.p.win.Canvas().Unfocus()
		met := map[fyne.Focusable]bool{}
		for range 300 {
			test.FocusNext(x.p.win.Canvas())
			f := x.p.win.Canvas().Focused()
			if f == nil || met[f] {
				break
			}
			met[f] = true
			// What has the keyboard is in sight.
			o := f.(fyne.CanvasObject)
			y := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y
			require.GreaterOrEqual(t, y+o.Size().Height, float32(0), "%T on %s", o, to)
			require.Less(t, y, x.p.win.Canvas().Size().Height, "%T on %s", o, to)
		}
		for name, o := range x.p.now.targets {
			if f, ok := o.(fyne.Focusable); ok && o.Visible() && o.Size().Width > 0 {
				if d, ok := o.(fyne.Disableable); ok && d.Disabled() {
					continue
				}
				require.True(t, met[f], "%s on %s", name, to)
			}
		}
		require.Positive(t, want)
	}
}

// Targets are at least 44 by 44 (WCAG 2.2, 2.5.5) and lie inside the window's
// width.
func TestTargetsAreLargeEnoughAtBothSizes(t *testing.T) {
	for _, w := range []float32{1280, 900} {
		x := newDemoHouse(t, w, 600)
		for _, to := range tabs {
			x.p.open(to)
			for name, r := range x.last().Targets {
				require.GreaterOrEqual(t, r.H, look.Target, "%s on %s", name, to)
				require.GreaterOrEqual(t, r.W, look.Target, "%s on %s", name, to)
				require.LessOrEqual(t, r.X+r.W, w, "%s on %s at %v", name, to, w)
				require.GreaterOrEqual(t, r.X, float32(0), "%s on %s", name, to)
			}
		}
	}
}

func TestWordsAreAddedAndTiedOnScreen(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	x.press("nav-words")
	x.act("group-cold")
	x.write("new-word", "bakery-cold")
	x.act("add-word")
	require.Equal(t, "bakery-cold", x.last().Facts["word"])
	x.write("what", "The oven went out.")
	x.act("group-fear") // looking elsewhere loses nothing
	x.act("group-cold")
	x.act("word-bakery-cold")
	require.Equal(t, "The oven went out.", x.p.now.targets["what"].(*parts.Writing).Text)
	x.act("today-happened")
	words, err := x.st.Words(x.p.who().ID)
	require.NoError(t, err)
	require.Len(t, words, 1)
	told, err := x.st.Experiences(x.p.who().ID)
	require.NoError(t, err)
	require.Len(t, told, 1)
	require.Equal(t, "The oven went out.", told[0].What)
}

func TestEraseAsksOnceAndGoesBackToTheStart(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	x.p.open(tabHousehold)
	x.write("numbers", "112")
	x.act("erase")
	x.on("confirm")
	x.press("confirm-no")
	x.on("household")
	x.act("erase")
	x.press("confirm-yes")
	x.on("start")
	all, err := x.st.Learners()
	require.NoError(t, err)
	require.Empty(t, all)
}

func TestARealHouseholdTakesThePlaceOfTheInventedOne(t *testing.T) {
	x := newDemoHouse(t, 1280, 800)
	x.p.open(tabHousehold)
	x.act("add-learner")
	x.act("keep")
	has, err := x.st.HasDemo()
	require.NoError(t, err)
	require.True(t, has, "without a nickname nothing happens")
	x.write("nickname", "Alder")
	x.act("keep")
	x.on("today")
	has, err = x.st.HasDemo()
	require.NoError(t, err)
	require.False(t, has)
	for _, r := range x.p.printable() {
		t.Errorf("%s counts as read, and nobody has read it", r.Title)
	}
}

func TestABackupIsPutInPlace(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	from := filepath.Join(t.TempDir(), "b.backup")
	require.NoError(t, x.st.Backup(from))
	require.NoError(t, x.st.EraseAll())
	x.p.forget()
	x.p.begin()
	x.on("start")
	x.p.restore(from)
	x.on("today")
	require.Equal(t, "Juniper", x.last().Facts["learner"])
	gone := filepath.Join(t.TempDir(), "gone")
	x.p.restore(gone)
	x.on("trouble")
	require.Equal(t, say.T("errors.backup-not-readable", say.S{"file": gone}), x.last().Facts["trouble"])
	x.press("trouble-no")
	x.on("today")
	require.Equal(t, "Juniper", x.last().Facts["learner"], "what was here goes on")
}

func TestAFindingIsGivenToAnother(t *testing.T) {
	x := newHouse(t, 1280, 800)
	x.setUp("Juniper")
	x.addLamp()
	x.on("story")
	page := model.NewStoryPage(x.p.house, x.lampStories()[0], nil, func() {})
	people := page.People()
	if len(people) < 2 {
		t.Skip("the engine finds one character here")
	}
	var i int
	for n, f := range page.Findings() {
		if f.Owner != "" {
			i = n
			break
		}
	}
	was := page.Findings()[i].Owner
	to := people[0]
	if to == was {
		to = people[1]
	}
	page.Give(i, to)
	require.Equal(t, to, page.Findings()[i].Owner)
	require.Contains(t, page.Findings()[i].Whose, to)
	page.Give(i, was)
	require.Equal(t, was, page.Findings()[i].Owner)
	require.Empty(t, page.Findings()[i].Moved)
}

// lampStories gives the story that was added, as kept.
func (x *house) lampStories() []record.Story {
	all, err := x.st.SearchStories("Nilo lamp")
	require.NoError(x.t, err)
	require.NotEmpty(x.t, all)
	return all
}
