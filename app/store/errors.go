package store

import (
	"database/sql"
	"errors"
	"fmt"

	"github.com/mattn/go-sqlite3"

	"feltpage/app/datadir"
)

// What can be wrong with a data folder or a request. Test with errors.Is.
var (
	ErrNewer       = errors.New("the data come from a newer version")
	ErrForeign     = errors.New("the file is not ours")
	ErrDamaged     = errors.New("the data file is damaged")
	ErrLocked      = errors.New("the data are in use by another window")
	ErrFull        = errors.New("the disk is full")
	ErrNotFound    = errors.New("not kept here")
	ErrItself      = errors.New("this is the data file itself")
	ErrNotWritable = datadir.ErrNotWritable
)

var sentences = map[error]string{
	ErrNewer:       "errors.data-newer",
	ErrForeign:     "errors.data-foreign",
	ErrDamaged:     "errors.data-damaged",
	ErrLocked:      "errors.data-locked",
	ErrFull:        "errors.data-full",
	ErrNotFound:    "errors.data-not-found",
	ErrItself:      "errors.data-itself",
	ErrNotWritable: "errors.data-not-writable",
}

// ofBackup holds the sentences for a backup that is no good: unlike our own
// file, another one can be chosen.
var ofBackup = map[error]string{
	ErrNewer:       "errors.backup-newer",
	ErrForeign:     "errors.backup-foreign",
	ErrDamaged:     "errors.backup-damaged",
	ErrNotWritable: "errors.backup-not-readable",
}

// Error is one of the errors above with the file or folder it is about.
type Error struct {
	Kind   error  // one of the Err… values
	Path   string // file or folder, or ""
	Backup bool   // about a backup that was to be put back
	Err    error  // what lies beneath, or nil
}

// Error gives the detail for a log; Sentence gives what a person reads.
func (e *Error) Error() string {
	text := e.Kind.Error()
	if e.Path != "" {
		text += ": " + e.Path
	}
	if e.Err != nil {
		text += ": " + e.Err.Error()
	}
	return text
}

// Unwrap lets errors.Is find the kind and what lies beneath.
func (e *Error) Unwrap() []error {
	if e.Err == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Err}
}

// Sentence gives the catalogue key and its slots.
func (e *Error) Sentence() (key string, slots map[string]string) {
	key = sentences[e.Kind]
	if e.Backup && ofBackup[e.Kind] != "" {
		key = ofBackup[e.Kind]
	}
	return key, map[string]string{"file": e.Path, "folder": e.Path}
}

// explain gives SQLite's errors a kind where there is one, and context.
func (s *Store) explain(doing string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", doing, kindOf(s.path, err))
}

func kindOf(path string, err error) error {
	if _, done := errors.AsType[*Error](err); done {
		return err
	}
	if errors.Is(err, sql.ErrNoRows) {
		return &Error{Kind: ErrNotFound, Err: err}
	}
	lite, ok := errors.AsType[sqlite3.Error](err)
	if !ok {
		return err
	}
	switch lite.Code {
	case sqlite3.ErrNotADB:
		return &Error{Kind: ErrForeign, Path: path, Err: err}
	case sqlite3.ErrCorrupt:
		return &Error{Kind: ErrDamaged, Path: path, Err: err}
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return &Error{Kind: ErrLocked, Path: path, Err: err}
	case sqlite3.ErrFull:
		return &Error{Kind: ErrFull, Path: path, Err: err}
	case sqlite3.ErrReadonly, sqlite3.ErrCantOpen, sqlite3.ErrPerm, sqlite3.ErrIoErr:
		return &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	return err
}
