package datadir

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/say"
)

func TestFindFollowsThePlatformAndTheOverride(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_DATA_HOME", home)
	dir, err := Find("")
	require.NoError(t, err)
	if runtime.GOOS == "linux" { // XDG Base Directory Specification 0.8: $XDG_DATA_HOME
		require.Equal(t, filepath.Join(home, "feltpage"), dir)
	}
	require.NoDirExists(t, dir)

	dir, err = Find("some/where")
	require.NoError(t, err)
	require.True(t, filepath.IsAbs(dir))
	require.Equal(t, "where", filepath.Base(dir))
}

func mode(t *testing.T, path string) os.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	require.NoError(t, err)
	return info.Mode().Perm()
}

func TestPrepareMakesAFolderForItsOwnerOnly(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b")
	require.NoError(t, Prepare(dir))
	require.Equal(t, os.FileMode(0o700), mode(t, dir))
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Empty(t, entries, "the probe is left behind")
}

func TestPrepareTakesBackWidePermissions(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "d")
	require.NoError(t, os.Mkdir(dir, 0o755))
	require.NoError(t, os.Chmod(dir, 0o755))
	ours := filepath.Join(dir, "feltpage.db")
	require.NoError(t, os.WriteFile(ours, nil, 0o644))
	left := filepath.Join(dir, probeName+"left")
	require.NoError(t, os.WriteFile(left, nil, 0o600))
	require.NoError(t, Prepare(dir))
	require.NoFileExists(t, left, "the probe of a run that was killed")
	require.Equal(t, os.FileMode(0o700), mode(t, dir))
	require.Equal(t, os.FileMode(0o600), mode(t, ours))
}

func TestPrepareLeavesOthersAlone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "home")
	require.NoError(t, os.Mkdir(dir, 0o755))
	require.NoError(t, os.Chmod(dir, 0o755))
	theirs, ours := filepath.Join(dir, "letter.txt"), filepath.Join(dir, "feltpage.db")
	require.NoError(t, os.WriteFile(theirs, nil, 0o644))
	require.NoError(t, os.WriteFile(ours, nil, 0o666))
	require.NoError(t, Prepare(dir))
	require.Equal(t, os.FileMode(0o755), mode(t, dir))
	require.Equal(t, os.FileMode(0o644), mode(t, theirs))
	require.Equal(t, os.FileMode(0o600), mode(t, ours))
}

func TestPrepareSaysWhatCannotBeWritten(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, []byte("kept"), 0o600))
	under := filepath.Join(file, "data")
	readOnly := func(string) error { return &os.PathError{Op: "open", Path: "probe", Err: syscall.EROFS} }

	for name, err := range map[string]error{
		"below a file":     Prepare(under),
		"is a file":        Prepare(file),
		"a read-only disk": wrap(under, prepare(t.TempDir(), readOnly)),
	} {
		require.ErrorIs(t, err, ErrNotWritable, name)
		require.Contains(t, say.Error(err), filepath.Dir(under), name)
		require.NotContains(t, say.Error(err), "{", name)
	}
	require.True(t, errors.Is(wrap(under, prepare(t.TempDir(), readOnly)), syscall.EROFS))
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, "kept", string(got))
}
