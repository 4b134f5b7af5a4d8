package store

import (
	"bufio"
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/nlp"
)

// lived fills a household in every table; told is a word that only what the
// learner said has in it.
func lived(t *testing.T, s *Store, demo bool, told string) *table {
	b := laid(t, s, demo)
	b.learner.Nickname = told + "-name"
	b.learner = must[record.Learner](t)(s.SaveLearner(b.learner))
	a := b.answer("m1", 0, told+" in an answer")
	must[record.Mark](t)(s.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByGuide, Mark: exercises.Mark{
		Value: exercises.Fits, Why: nlp.Reason{Code: "c", Slots: map[string]string{"said": told + " in a mark"}}}}))
	must[record.Withdrawal](t)(s.Withdraw(record.Withdrawal{AnswerID: a.ID, Why: told}))
	seat := b.sitting.Seats[0].ID
	must[record.Help](t)(s.RecordHelp(record.Help{Sitting: b.sitting.ID, Seat: seat, Learner: b.learner.ID, AnswerID: a.ID}))
	must[record.Position](t)(s.SavePosition(record.Position{Sitting: b.sitting.ID, Seat: seat, Learner: b.learner.ID, State: told}))
	must[record.BodyNote](t)(s.AddBodyNote(record.BodyNote{Learner: b.learner.ID, Sitting: b.sitting.ID, Said: told + " in the body"}))
	w := must[record.Word](t)(s.SaveWord(record.Word{Learner: b.learner.ID, Form: told + "-word"}))
	must[record.Experience](t)(s.AddExperience(record.Experience{Learner: b.learner.ID, WordID: w.ID, What: told + " happened", Sitting: b.sitting.ID}))
	must[record.WordUse](t)(s.AddWordUse(record.WordUse{Learner: b.learner.ID, WordID: w.ID, Note: told}))
	must[record.PhaseLine](t)(s.AddPhaseLine(record.PhaseLine{Learner: b.learner.ID, Label: told}))
	require.NoError(t, s.EndSitting(b.sitting.ID, "done"))
	require.NoError(t, s.PutAnalysis(tale.Hash, &nlp.Analysis{Engine: "0.1"}))
	return b
}

// anywhere reports whether a word stands in any file of the folder.
func anywhere(t *testing.T, dir, word string) bool {
	t.Helper()
	found := false
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		found = found || bytes.Contains(bytes.ToLower(b), []byte(word))
		return err
	}))
	return found
}

// rowsNaming counts the rows of all tables with a value in any column.
func rowsNaming(t *testing.T, s *Store, value string) (n int) {
	t.Helper()
	tables, err := tablesWith(s.db(), "utc_offset")
	require.NoError(t, err)
	require.Greater(t, len(tables), 15)
	for _, table := range tables {
		cols, err := all(s.db(), func(c *string) []any { return []any{c} }, "SELECT name FROM pragma_table_info(?)", table)
		require.NoError(t, err)
		for _, c := range cols {
			n += count(t, s.db(), "SELECT count(*) FROM "+table+" WHERE "+c+" = ?", value)
		}
	}
	return n
}

func TestErasingALearnerLeavesNothingBehind(t *testing.T) {
	s := openTest(t)
	gone, stays := lived(t, s, false, "quibblewick"), lived(t, s, false, "harrowmere")
	together := must[record.Sitting](t)(s.StartSitting(record.Sitting{StoryID: stays.story.Meta.ID,
		Seats: []record.Seat{{Learner: gone.learner.ID}, {Learner: stays.learner.ID}}}))
	require.NoError(t, s.SetSetting("open", gone.learner.ID))
	require.NoError(t, s.SetSetting("spare/"+gone.learner.ID, "storms"))
	require.NoError(t, s.SetSetting("spare/"+stays.learner.ID, "storms"))
	old := filepath.Join(s.Dir(), "feltpage-before-0002.db")
	require.NoError(t, s.Backup(old))
	require.True(t, anywhere(t, s.Dir(), "quibblewick"))
	before := must[[]record.Marked](t)(s.Marked(stays.learner.ID))

	require.NoError(t, s.EraseLearner(gone.learner.ID))
	require.NoFileExists(t, old)
	require.False(t, anywhere(t, s.Dir(), "quibblewick"), "what was told is still in a file")
	require.Zero(t, rowsNaming(t, s, gone.learner.ID))
	require.Equal(t, 1, count(t, s.db(), "SELECT count(*) FROM setting"))
	require.Equal(t, before, must[[]record.Marked](t)(s.Marked(stays.learner.ID)))
	require.True(t, anywhere(t, s.Dir(), "harrowmere"))
	_, err := s.Sitting(gone.sitting.ID)
	require.ErrorIs(t, err, ErrNotFound)
	require.Len(t, must[record.Sitting](t)(s.Sitting(together.ID)).Seats, 1)
	require.ErrorIs(t, s.EraseLearner(gone.learner.ID), ErrNotFound)

	_, err = s.db().Exec("DELETE FROM answer")
	require.ErrorContains(t, err, "only added", "the guard is not back")
}

func TestRemovingTheDemoLeavesTheRestAlone(t *testing.T) {
	s := openTest(t)
	demo := lived(t, s, true, "quibblewick")
	other := tale
	other.Demo, other.Hash, other.Title, other.Text = true, "h2", "The Gull", "The gull stamped."
	must[record.Story](t)(s.AddStory(other))
	require.True(t, must[bool](t)(s.HasDemo()))
	real := must[record.Learner](t)(s.SaveLearner(record.Learner{Nickname: "harrowmere"}))
	// The real learner reads a story that came with the demo household.
	g := must[record.Sitting](t)(s.StartSitting(record.Sitting{StoryID: demo.story.Meta.ID, Seats: []record.Seat{{Learner: real.ID}}}))
	require.False(t, g.Demo)
	require.NoError(t, s.SetSetting("safety", "call"))
	require.NoError(t, s.SetSetting("open", demo.learner.ID))
	mended := must[record.Mend](t)(s.SaveMend(record.Mend{Anchor: record.Anchor{TextHash: "h2", Quote: "stamped"}, What: record.MendNotAClue}))
	require.True(t, mended.Demo)
	kept := must[record.Mend](t)(s.SaveMend(record.Mend{Anchor: record.Anchor{TextHash: "h1", Quote: "knees"}, What: record.MendNotAClue}))

	require.NoError(t, s.RemoveDemo())
	require.Empty(t, must[[]record.Mend](t)(s.Mends("h2")))
	require.Equal(t, []record.Mend{kept}, must[[]record.Mend](t)(s.Mends("h1")), "its story stays")
	require.Empty(t, must[string](t)(s.Setting("open")))
	require.False(t, must[bool](t)(s.HasDemo()))
	require.False(t, anywhere(t, s.Dir(), "quibblewick"))
	require.Zero(t, rowsNaming(t, s, demo.learner.ID))
	require.Equal(t, []record.Learner{real}, must[[]record.Learner](t)(s.Learners()))
	require.Equal(t, []record.Sitting{g}, must[[]record.Sitting](t)(s.Sittings("")))
	stories := must[[]record.Story](t)(s.Stories())
	require.Len(t, stories, 1)
	require.Equal(t, "h1", stories[0].Hash)
	require.False(t, stories[0].Demo)
	must[*nlp.Analysis](t)(s.Analysis("h1", "0.1"))
	require.Empty(t, must[[]record.Story](t)(s.SearchStories("gull")))
	require.Equal(t, "call", must[string](t)(s.Setting("safety")))
	require.NoError(t, s.RemoveDemo(), "removing it twice does no harm")
}

func TestErasingEverything(t *testing.T) {
	s := openTest(t)
	lived(t, s, false, "quibblewick")
	device := s.device
	require.NoError(t, s.EraseAll())
	require.False(t, anywhere(t, s.Dir(), "quibblewick"))
	require.False(t, anywhere(t, s.Dir(), "knees"), "the story, or its words for searching, are still in a file")
	require.Empty(t, must[[]record.Learner](t)(s.Learners()))
	require.NotEqual(t, device, s.device)
	b := laid(t, s, false)
	b.answer("m1", 0, "a new start")
	dir := s.Dir()
	require.NoError(t, s.Close())
	s = must[*Store](t)(Open(dir, Options{}))
	defer s.Close()
	require.Len(t, must[[]record.Learner](t)(s.Learners()), 1)
}

func TestABackupIsWholeAndComesBack(t *testing.T) {
	s := openTest(t)
	b := lived(t, s, false, "quibblewick")
	want := holds(t, s)
	path := filepath.Join(t.TempDir(), "backup.db")
	require.NoError(t, os.WriteFile(path, []byte("an older backup"), 0o644))
	require.NoError(t, s.Backup(path))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	b.answer("m2", 0, "after the backup")
	device, dir := s.device, s.Dir()

	require.ErrorIs(t, Restore(dir, path, Options{}), ErrLocked, "while it is open")
	require.NoError(t, s.Restore(path))
	require.Equal(t, want, holds(t, s), "it goes on from the backup, still open")
	require.NotEqual(t, device, s.device)
	must[record.Learner](t)(s.SaveLearner(record.Learner{Nickname: "Moss"}))
	require.NoError(t, s.Restore(filepath.Join(dir, beforeRestore)))
	require.Len(t, must[[]record.Answer](t)(s.Answers(b.learner.ID)), len(want.Marked)+1)
	require.NoError(t, s.Close())
	require.NoError(t, Restore(dir, path, Options{}))
	s = must[*Store](t)(Open(dir, Options{}))
	require.Equal(t, want, holds(t, s))
	require.NotEqual(t, device, s.device)
	require.NoError(t, s.Close())

	// What was there before is kept, with the answer after the backup.
	require.NoError(t, Restore(dir, filepath.Join(dir, beforeRestore), Options{}))
	s = must[*Store](t)(Open(dir, Options{}))
	defer s.Close()
	require.Len(t, must[[]record.Answer](t)(s.Answers(b.learner.ID)), len(want.Marked)+1)
}

func TestRestoreRefusesABadBackupBeforeItChangesAnything(t *testing.T) {
	dir := whole(t)
	before := sums(t, dir)
	sentence := map[string]string{"not there": "errors.backup-not-readable", "a text": "errors.backup-foreign"}
	for name, spoil := range map[string]func(path string) error{
		"not there": func(path string) error { return nil },
		"a text":    func(path string) error { return os.WriteFile(path, []byte(strings.Repeat("rye ", 99)), 0o600) },
	} {
		from := filepath.Join(t.TempDir(), "backup.db")
		require.NoError(t, spoil(from), name)
		require.Error(t, Restore(dir, from, Options{}), name)
		require.Equal(t, before, sums(t, dir), name)
		s := must[*Store](t)(Open(dir, Options{}))
		require.Equal(t, say.T(sentence[name], say.S{"file": from}), say.Error(s.Restore(from)), name)
		require.Len(t, must[[]record.Learner](t)(s.Learners()), 1, "it is still open")
		require.NoError(t, s.Close())
		require.Equal(t, before, sums(t, dir), name)
	}
	require.Error(t, Restore(dir, filepath.Join(dir, FileName), Options{}))
	require.Equal(t, before, sums(t, dir))
}

func TestARestoreThatWasCutOffIsFinished(t *testing.T) {
	dir := whole(t)
	path := filepath.Join(dir, FileName)
	require.NoError(t, os.Rename(path, path+restored))
	s := must[*Store](t)(Open(dir, Options{}))
	require.Len(t, must[[]record.Learner](t)(s.Learners()), 1)
	require.NoError(t, s.Close())
	require.NoFileExists(t, path+restored)
}

// A damaged file gives way to a good backup and is kept.
func TestRestoreOverADamagedFile(t *testing.T) {
	dir := whole(t)
	path, from := filepath.Join(dir, FileName), filepath.Join(t.TempDir(), "backup.db")
	s := must[*Store](t)(Open(dir, Options{}))
	require.NoError(t, s.Backup(from))
	require.NoError(t, s.Close())
	damaged := []byte("flour all over the page")
	require.NoError(t, os.WriteFile(path, damaged, 0o600))
	require.NoError(t, os.WriteFile(path+"-wal", []byte("old log"), 0o600))
	require.NoError(t, Restore(dir, from, Options{}))
	s = must[*Store](t)(Open(dir, Options{}))
	defer s.Close()
	require.Len(t, must[[]record.Learner](t)(s.Learners()), 1)
	kept, err := os.ReadFile(filepath.Join(dir, beforeRestore))
	require.NoError(t, err)
	require.Equal(t, damaged, kept)
}

func TestBackupSaysWhereItCannotWrite(t *testing.T) {
	s := openTest(t)
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	require.ErrorIs(t, s.Backup(filepath.Join(file, "backup.db")), ErrNotWritable)
	require.Error(t, s.Backup(filepath.Join(s.Dir(), FileName)))
	must[[]record.Learner](t)(s.Learners())
}

func TestExportIsRawDataLineByLine(t *testing.T) {
	s := openTest(t)
	b := lived(t, s, false, "quibblewick")
	require.NoError(t, s.SetSetting("safety", "call"))
	var out bytes.Buffer
	require.NoError(t, s.Export(&out))
	rows := map[string][]map[string]any{}
	for lines := bufio.NewScanner(&out); lines.Scan(); {
		var row map[string]any
		require.NoError(t, json.Unmarshal(lines.Bytes(), &row), lines.Text())
		name := row["table"].(string)
		rows[name] = append(rows[name], row)
	}
	require.EqualValues(t, ExportVersion, rows["export"][0]["version"])
	tables, err := tablesWith(s.db(), "utc_offset")
	require.NoError(t, err)
	for _, table := range tables {
		if table == "analysis" {
			continue
		}
		require.Len(t, rows[table], count(t, s.db(), "SELECT count(*) FROM "+table), table)
	}
	answer := rows["answer"][0]
	require.Equal(t, b.learner.ID, answer["learner"])
	require.Equal(t, "quibblewick in an answer", answer["given"].(map[string]any)["Said"])
}

func TestExportSaysWhenItCannotBeWritten(t *testing.T) {
	s := openTest(t)
	laid(t, s, false)
	require.ErrorIs(t, s.Export(full{}), os.ErrClosed)
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, os.ErrClosed }
