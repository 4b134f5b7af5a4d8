package store

import (
	"database/sql"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
)

var update = flag.Bool("update", false, "write the golden files anew")

func file(body string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(body)} }

func TestMigrationsAreNumberedWithoutGaps(t *testing.T) {
	for name, c := range map[string]struct {
		files fstest.MapFS
		want  string
	}{
		"a gap":           {fstest.MapFS{"migrations/0001_a.sql": file(""), "migrations/0003_b.sql": file("")}, "0003_b.sql"},
		"the same number": {fstest.MapFS{"migrations/0001_a.sql": file(""), "migrations/0001_b.sql": file("")}, "0001_b.sql"},
		"no number":       {fstest.MapFS{"migrations/first.sql": file("")}, "first.sql"},
	} {
		_, err := migrations(c.files)
		require.ErrorContains(t, err, c.want, name)
	}
	list, err := migrations(embedded)
	require.NoError(t, err)
	require.NotEmpty(t, list)
}

// later gives the embedded migrations and more of a test's own.
func later(t *testing.T, more ...string) []migration {
	t.Helper()
	list, err := migrations(embedded)
	require.NoError(t, err)
	for _, sql := range more {
		list = append(list, migration{number: len(list) + 1, name: "later", sql: sql})
	}
	return list
}

func versionOf(t *testing.T, path string) (v int) {
	t.Helper()
	v, err := check(path, 1<<20)
	require.NoError(t, err)
	return v
}

func TestAnOlderFileIsCopiedThenBroughtUpToDate(t *testing.T) {
	dir := whole(t)
	path := filepath.Join(dir, FileName)
	had := versionOf(t, path)
	list := later(t, "CREATE TABLE a (b TEXT); INSERT INTO a VALUES ('one')", "ALTER TABLE a ADD c TEXT DEFAULT 'two'")
	s, err := openWith(dir, Options{}, list)
	require.NoError(t, err)
	var b, c string
	require.NoError(t, s.db().QueryRow("SELECT b, c FROM a").Scan(&b, &c))
	require.Equal(t, "one two", b+" "+c)
	learners := must[[]record.Learner](t)(s.Learners())
	require.Len(t, must[[]record.Answer](t)(s.Answers(learners[0].ID)), 60)
	require.NoError(t, s.Close())
	require.Equal(t, had+2, versionOf(t, path))

	copied, err := filepath.Glob(filepath.Join(dir, copies))
	require.NoError(t, err)
	require.Len(t, copied, 1)
	require.Equal(t, had, versionOf(t, copied[0]))

	_, err = Open(dir, Options{})
	require.ErrorIs(t, err, ErrNewer, "the program of before meets the file of after")
}

func TestABrokenMigrationChangesNothing(t *testing.T) {
	for name, broken := range map[string]string{
		"a mistake half-way":       "CREATE TABLE half (a TEXT); CREATE TABLE half (a TEXT)",
		"rows that point nowhere":  "PRAGMA defer_foreign_keys = ON; INSERT INTO seat SELECT 'x', device, at, day, utc_offset, demo, 'nowhere', learner, 0 FROM seat",
		"events changed by a slip": "UPDATE answer SET given = '{}'",
	} {
		t.Run(name, func(t *testing.T) {
			dir := whole(t)
			had := versionOf(t, filepath.Join(dir, FileName))
			_, err := openWith(dir, Options{}, later(t, "CREATE TABLE good (a TEXT)", broken))
			require.ErrorContains(t, err, "later")
			require.Equal(t, had+1, versionOf(t, filepath.Join(dir, FileName)), "the good one stays, the broken one goes")

			s, err := openWith(dir, Options{}, later(t, "CREATE TABLE good (a TEXT)"))
			require.NoError(t, err)
			defer s.Close()
			require.Equal(t, 0, count(t, s.db(), "SELECT count(*) FROM sqlite_schema WHERE name = 'half'"))
			learners := must[[]record.Learner](t)(s.Learners())
			require.Len(t, must[[]record.Answer](t)(s.Answers(learners[0].ID)), 60)
		})
	}
}

func count(t *testing.T, db *sql.DB, query string, args ...any) (n int) {
	t.Helper()
	require.NoError(t, db.QueryRow(query, args...).Scan(&n))
	return n
}

// schemaOf gives the whole schema as text.
func schemaOf(t *testing.T, db *sql.DB) string {
	t.Helper()
	rows, err := all(db, func(s *string) []any { return []any{s} },
		"SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY type, name")
	require.NoError(t, err)
	return strings.Join(rows, ";\n")
}

// From whichever version a file comes, the schema it ends with is the one that
// a new file has.
func TestEveryEarlierVersionReachesTheSameSchema(t *testing.T) {
	list := later(t)
	want := schemaOf(t, openTest(t).db())
	for from := 1; from <= len(list); from++ {
		dir := t.TempDir()
		s := &Store{kept: &kept{}, opt: Options{}.orDefault()}
		require.NoError(t, create(filepath.Join(dir, FileName), list[:from], func(db *sql.DB) error { return s.newDevice(db) }))
		got, err := Open(dir, Options{})
		require.NoError(t, err)
		require.Equal(t, want, schemaOf(t, got.db()), "from version %d", from)
		require.NoError(t, got.Close())
	}
}

// story of the golden files: what a household of each released version holds,
// as this version reads it.
type holding struct {
	Learners    []record.Learner
	Stories     []string
	Marked      []record.Marked
	Words       []record.Word
	Experiences []record.Experience
	Mends       []record.Mend
}

func holds(t *testing.T, s *Store) holding {
	h := holding{Learners: must[[]record.Learner](t)(s.Learners())}
	for _, r := range must[[]record.Story](t)(s.Stories()) {
		h.Stories = append(h.Stories, r.Meta.ID+" "+r.Title+": "+r.Text)
	}
	l := h.Learners[0].ID
	h.Marked = must[[]record.Marked](t)(s.Marked(l))
	h.Words = must[[]record.Word](t)(s.Words(l))
	h.Experiences = must[[]record.Experience](t)(s.Experiences(l))
	h.Mends = must[[]record.Mend](t)(s.Mends(tale.Hash))
	return h
}

// testdata/v1.db, v2.db ... are files as each version wrote them (invented
// data). With -update the file of the present version is made where it is
// missing; one that is there is never written over.
func TestFilesOfEveryVersionOpen(t *testing.T) {
	list := later(t)
	for v := 1; v <= len(list); v++ {
		old := filepath.Join("testdata", "v"+string(rune('0'+v)))
		if _, err := os.Stat(old + ".db"); *update && v == len(list) && os.IsNotExist(err) {
			writeFixture(t, old+".db")
		}
		b, err := os.ReadFile(old + ".db")
		require.NoError(t, err, "a file of version %d is missing: run the tests with -update before the next migration", v)
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, FileName), b, 0o600))
		s, err := Open(dir, Options{})
		require.NoError(t, err)
		got, err := json.MarshalIndent(holds(t, s), "", " ")
		require.NoError(t, err)
		require.NoError(t, s.Close())
		if *update {
			require.NoError(t, os.WriteFile(old+".json", append(got, '\n'), 0o644))
		}
		want, err := os.ReadFile(old + ".json")
		require.NoError(t, err)
		var was, is any
		require.NoError(t, json.Unmarshal(want, &was))
		require.NoError(t, json.Unmarshal(got, &is))
		stillReads(t, old, was, is)
	}
}

// stillReads fails where something that was read is gone or other now; what a
// newer program reads beyond it is no matter.
func stillReads(t *testing.T, at string, was, is any) {
	t.Helper()
	switch was := was.(type) {
	case map[string]any:
		is, ok := is.(map[string]any)
		require.True(t, ok, at)
		for k, v := range was {
			require.Contains(t, is, k, at)
			stillReads(t, at+"."+k, v, is[k])
		}
	case []any:
		is, ok := is.([]any)
		require.True(t, ok, at)
		require.Len(t, is, len(was), at)
		for i := range was {
			stillReads(t, fmt.Sprint(at, "[", i, "]"), was[i], is[i])
		}
	default:
		require.Equal(t, was, is, at)
	}
}

func writeFixture(t *testing.T, path string) {
	s := openTest(t)
	b := laid(t, s, true)
	a := b.answer("m1", 0, "his knees")
	other := b.answer("m1", 1, "cold")
	must[record.Mark](t)(s.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByProgram, Mark: markOf("near")}))
	must[record.Mark](t)(s.AppendMark(record.Mark{AnswerID: a.ID, By: record.ByGuide, Mark: markOf("fits"), Blind: true}))
	must[record.Help](t)(s.RecordHelp(record.Help{Sitting: b.sitting.ID, Seat: b.sitting.Seats[0].ID,
		Learner: b.learner.ID, MomentID: "m1", StepNo: 1, AnswerID: other.ID}))
	must[record.Withdrawal](t)(s.Withdraw(record.Withdrawal{AnswerID: other.ID, Why: "back"}))
	w := must[record.Word](t)(s.SaveWord(record.Word{Learner: b.learner.ID, Form: "fizzy", Family: "worry", Places: []string{"belly"}}))
	must[record.Experience](t)(s.AddExperience(record.Experience{Learner: b.learner.ID, WordID: w.ID, What: "the oven alarm rang"}))
	must[record.Mend](t)(s.SaveMend(record.Mend{Anchor: record.Anchor{TextHash: tale.Hash, Quote: "knees"}, What: record.MendNotAClue}))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, s.Backup(path))
}

func TestReleasedMigrationsHaveAFixture(t *testing.T) {
	names, err := fs.Glob(os.DirFS("testdata"), "v*.db")
	require.NoError(t, err)
	require.Len(t, names, len(later(t)))
}
