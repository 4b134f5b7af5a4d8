// Package datadir says where the household's data live and makes that folder
// fit to keep them: present, writable, and readable by its owner only.
package datadir

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/adrg/xdg"
)

// Name is the folder's name inside the platform's data folder; our files
// inside it begin with the same word.
const Name = "feltpage"

// ErrNotWritable is wrapped by the error that Prepare gives when the folder
// cannot be made or written.
var ErrNotWritable = errors.New("the data folder cannot be written")

// Error tells which folder is no good, and why.
type Error struct {
	Dir string
	Err error // what the system said
}

// Error gives the detail for a log; Sentence gives what a person reads.
func (e *Error) Error() string { return fmt.Sprintf("%v: %s: %v", ErrNotWritable, e.Dir, e.Err) }

// Unwrap lets errors.Is find ErrNotWritable and the system's error.
func (e *Error) Unwrap() []error { return []error{ErrNotWritable, e.Err} }

// Sentence gives the catalogue key and its slots.
func (e *Error) Sentence() (key string, slots map[string]string) {
	return "errors.data-not-writable", map[string]string{"folder": e.Dir}
}

// Find gives the absolute path of the data folder: the override where there is
// one (the --data flag), else the platform's place for a program's data: on
// Linux $XDG_DATA_HOME/feltpage (XDG Base Directory Specification), on macOS
// ~/Library/Application Support/feltpage, on Windows %LOCALAPPDATA%\feltpage.
// It touches nothing.
func Find(override string) (string, error) {
	dir := override
	if dir == "" {
		xdg.Reload() // the environment may have been set since the program began
		dir = filepath.Join(xdg.DataHome, Name)
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("finding the data folder: %w", err)
	}
	return abs, nil
}

// Prepare makes the folder if it is missing, takes back permissions that are
// too wide from the folder and from our own files in it, and writes a small
// file to see that it can. A folder that holds anything else than our own
// files keeps the permissions it has: it may be somebody's home. The error is
// an *Error.
func Prepare(dir string) error { return wrap(dir, prepare(dir, probe)) }

func wrap(dir string, err error) error {
	if err == nil {
		return nil
	}
	return &Error{Dir: dir, Err: err}
}

func prepare(dir string, probe func(dir string) error) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	if err := probe(dir); err != nil {
		return err
	}
	if runtime.GOOS == "windows" {
		return nil // the profile's access list keeps others out; modes mean nothing there
	}
	return narrow(dir)
}

// probeName begins the names of probes.
const probeName = Name + "-probe-"

// probe writes, syncs and removes a file: permission bits alone do not tell
// about read-only mounts, full disks or quotas.
func probe(dir string) error {
	f, err := os.CreateTemp(dir, probeName+"*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	if _, err := f.WriteString("can this be written?\n"); err != nil {
		f.Close()
		return err
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// narrow sets our files to 0600 and, where all in the folder is ours, the
// folder to 0700.
func narrow(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	allOurs := true
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), Name) {
			allOurs = false
			continue
		}
		if strings.HasPrefix(e.Name(), probeName) {
			_ = os.Remove(filepath.Join(dir, e.Name())) // of a run that was killed; it holds nothing
			continue
		}
		if e.Type().IsRegular() {
			if err := take(filepath.Join(dir, e.Name()), 0o600); err != nil {
				return err
			}
		}
	}
	if allOurs {
		return take(dir, 0o700)
	}
	return nil
}

func take(path string, most os.FileMode) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if info.Mode().Perm()&^most == 0 {
		return nil
	}
	return os.Chmod(path, info.Mode().Perm()&most)
}
