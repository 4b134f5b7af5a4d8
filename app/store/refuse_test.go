package store

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/say"
)

// sums gives the content of every file of a folder.
func sums(t *testing.T, dir string) map[string][32]byte {
	t.Helper()
	out := map[string][32]byte{}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		if e.Name() != lockName { // the lock itself is empty and ours
			out[e.Name()] = sha256.Sum256(b)
		}
	}
	return out
}

// whole makes a data folder with a household in it, closed.
func whole(t *testing.T) (dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "data")
	s := must[*Store](t)(Open(dir, Options{Now: newClock().now, Rand: chance()}))
	b := laid(t, s, false)
	for i := range 60 {
		b.answer("m1", i, strings.Repeat("wobbly ", 20))
	}
	require.NoError(t, s.Close())
	return dir
}

func raw(t *testing.T, path string, queries ...string) {
	t.Helper()
	db, err := sql.Open("sqlite3", path)
	require.NoError(t, err)
	defer db.Close()
	for _, q := range queries {
		_, err := db.Exec(q)
		require.NoError(t, err)
	}
}

func TestOpenRefusesWhatIsNotItsToWrite(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(t *testing.T, path string)
		kind  error
	}{
		"a newer version": {func(t *testing.T, path string) {
			raw(t, path, "PRAGMA user_version = 9999", "PRAGMA journal_mode = DELETE")
		}, ErrNewer},
		"another program's database": {func(t *testing.T, path string) {
			require.NoError(t, os.Remove(path))
			raw(t, path, "CREATE TABLE recipe (name)", "INSERT INTO recipe VALUES ('rye')", "PRAGMA application_id = 7")
		}, ErrForeign},
		"a database of nobody": {func(t *testing.T, path string) {
			require.NoError(t, os.Remove(path))
			raw(t, path, "CREATE TABLE recipe (name)")
		}, ErrForeign},
		"a text": {func(t *testing.T, path string) {
			require.NoError(t, os.WriteFile(path, []byte("flour, water, salt\n"), 0o600))
		}, ErrForeign},
		"an empty file": {func(t *testing.T, path string) {
			require.NoError(t, os.Truncate(path, 0))
		}, ErrDamaged},
		"a file cut short": {func(t *testing.T, path string) {
			info, err := os.Stat(path)
			require.NoError(t, err)
			require.NoError(t, os.Truncate(path, info.Size()/2))
		}, ErrDamaged},
		"noise in the middle": {func(t *testing.T, path string) {
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			for i := len(b) / 4; i < len(b)*3/4; i++ {
				b[i] = byte(i * 31)
			}
			require.NoError(t, os.WriteFile(path, b, 0o600))
		}, ErrDamaged},
		"a log without its file": {func(t *testing.T, path string) {
			require.NoError(t, os.Rename(path, path+"-wal"))
		}, ErrDamaged},
	} {
		t.Run(name, func(t *testing.T) {
			dir := whole(t)
			path := filepath.Join(dir, FileName)
			c.spoil(t, path)
			before := sums(t, dir)
			_, err := Open(dir, Options{})
			require.ErrorIs(t, err, c.kind)
			require.Equal(t, before, sums(t, dir), "the file was touched")
			sentence := say.Error(err)
			require.NotContains(t, sentence, "{")
			require.Contains(t, sentence, path)
			require.NotEqual(t, say.T("errors.unknown", say.S{"detail": err.Error()}), sentence)

			_, err = Open(dir, Options{})
			require.ErrorIs(t, err, c.kind, "the lock is still held")
		})
	}
}

// A newer version that is only in the log, as after a kill, is seen too.
func TestOpenRefusesANewerVersionInTheLog(t *testing.T) {
	dir := whole(t)
	path := filepath.Join(dir, FileName)
	db, err := sql.Open("sqlite3", path)
	require.NoError(t, err)
	defer db.Close()
	_, err = db.Exec("PRAGMA user_version = 9999")
	require.NoError(t, err)
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	require.False(t, bytes.Contains(b[:100], []byte{0x27, 0x0f}), "9999 is in the file already")
	_, err = Open(dir, Options{})
	require.ErrorIs(t, err, ErrNewer)
}

func TestEverySortOfErrorHasASentence(t *testing.T) {
	for kind, key := range sentences {
		require.True(t, say.English().Has(key), key)
		got := say.Error(fmt.Errorf("doing: %w", &Error{Kind: kind, Path: "/bakery"}))
		require.NotContains(t, got, "{")
		require.NotContains(t, got, "[")
	}
	for kind, key := range ofBackup {
		require.True(t, say.English().Has(key), key)
		got := say.Error(fmt.Errorf("doing: %w", &Error{Kind: kind, Path: "/bakery", Backup: true}))
		require.Equal(t, say.T(key, say.S{"file": "/bakery"}), got)
	}
}

func TestOneWindowAtATime(t *testing.T) {
	s := openTest(t)
	_, err := Open(s.Dir(), Options{})
	require.ErrorIs(t, err, ErrLocked)
	require.Equal(t, say.T("errors.data-locked"), say.Error(err))
	require.NoError(t, s.Close())
	again, err := Open(s.Dir(), Options{})
	require.NoError(t, err)
	require.NoError(t, again.Close())
}

func TestAFullDiskIsSaidAndNothingIsLost(t *testing.T) {
	b := laid(t, openTest(t), false)
	kept := b.answer("m1", 0, "cold")
	var pages int
	require.NoError(t, b.db().QueryRow("PRAGMA page_count").Scan(&pages))
	_, err := b.db().Exec(fmt.Sprintf("PRAGMA max_page_count = %d", pages))
	require.NoError(t, err)
	r := tale
	r.Hash, r.Text = "h2", strings.Repeat("The tide came in. ", 20000)
	_, err = b.AddStory(r)
	require.ErrorIs(t, err, ErrFull)
	require.Equal(t, say.T("errors.data-full"), say.Error(err))
	require.Len(t, must[[]any](t)(anys(b.Stories())), 1)
	require.Equal(t, kept, must[[]any](t)(anys(b.Answers(b.learner.ID)))[0])
}

func anys[T any](vs []T, err error) ([]any, error) {
	var out []any
	for _, v := range vs {
		out = append(out, v)
	}
	return out, err
}

func TestOpenSaysWhereItCannotWrite(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := Open(filepath.Join(file, "data"), Options{})
	require.ErrorIs(t, err, ErrNotWritable)
	require.Contains(t, say.Error(err), filepath.Join(file, "data"))
}

func TestFilesAreTheOwnersAlone(t *testing.T) {
	s := openTest(t)
	laid(t, s, false)
	require.NoError(t, s.Backup(filepath.Join(s.Dir(), "feltpage-mine.db")))
	entries, err := os.ReadDir(s.Dir())
	require.NoError(t, err)
	require.Greater(t, len(entries), 3, "the file, its log, the lock, the backup")
	for _, e := range entries {
		info, err := e.Info()
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o600), info.Mode().Perm(), e.Name())
	}
}

// Whatever lies where our file should be, looking at it gives one of the known
// errors or finds our file, and leaves it as it was.
func FuzzCheck(f *testing.F) {
	dir := f.TempDir()
	s, err := Open(dir, Options{})
	require.NoError(f, err)
	require.NoError(f, s.Close())
	good, err := os.ReadFile(filepath.Join(dir, FileName))
	require.NoError(f, err)
	f.Add(good[:4096])
	f.Add(good[:100])
	f.Add([]byte("flour"))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, b []byte) {
		path := filepath.Join(t.TempDir(), FileName)
		require.NoError(t, os.WriteFile(path, b, 0o600))
		if _, err := check(path, 1); err != nil {
			require.True(t, errors.Is(err, ErrForeign) || errors.Is(err, ErrDamaged) || errors.Is(err, ErrNewer), "%v", err)
		}
		after, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, b, after)
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		require.Len(t, entries, 1)
	})
}
