package store

import (
	"bytes"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// Names of our files in a data folder.
const (
	FileName = "feltpage.db"
	lockName = "feltpage.lock"
)

// applicationID marks a database as ours ("Felt" in ASCII); it stands at byte
// 68 of the file, user_version at byte 60 (sqlite.org/fileformat2.html, 1.3).
const applicationID = 0x46656c74

var magic = []byte("SQLite format 3\x00")

// dsn gives the address of a database file (an absolute path) with the settings every connection
// needs. FULL makes each commit reach the disk before it returns, so that
// neither a kill nor a power cut loses an answer once given.
func dsn(path string, more string) string {
	p := filepath.ToSlash(path)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p // C:/... on Windows
	}
	u := url.URL{Scheme: "file", Path: p}
	return u.String() + "?_foreign_keys=1&_recursive_triggers=1&_secure_delete=1" +
		"&_busy_timeout=5000&_synchronous=FULL&_txlock=immediate" + more
}

// open opens a database file through one connection, so that what is pragma'd
// or begun holds for all that follows.
func open(path, more string) (*sql.DB, error) {
	path, err := filepath.Abs(path) // an address has no working folder
	if err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite3", dsn(path, more))
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(1)
	// On macOS a plain fsync leaves data in the drive's own memory; elsewhere
	// this changes nothing (sqlite.org/pragma.html#pragma_fullfsync).
	if _, err := db.Exec("PRAGMA fullfsync = ON"); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}

// look opens a database file for reading alone, leaving no trace beside it.
func look(path string) (*sql.DB, error) {
	if exists(path + "-wal") {
		return open(path, "&mode=ro") // what is in the log counts
	}
	// Without a log there is nothing to share, and SQLite need not make one; a
	// file on a read-only disk can be read too.
	return open(path, "&mode=ro&immutable=1")
}

// check looks at a database file without changing it and gives its schema
// number. The error is an *Error: ErrForeign, ErrDamaged or ErrNewer (a schema
// number above latest).
func check(path string, latest int) (version int, err error) {
	f, err := os.Open(path)
	if err != nil {
		return 0, &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	header := make([]byte, 100)
	n, _ := f.Read(header)
	f.Close()
	if n == 0 {
		return 0, &Error{Kind: ErrDamaged, Path: path, Err: errors.New("the file is empty")}
	}
	if n < len(header) || !bytes.HasPrefix(header, magic) {
		return 0, &Error{Kind: ErrForeign, Path: path, Err: errors.New("not an SQLite file")}
	}
	// The first schema is written before the file gets its name, so the id is
	// in the file itself, never only in its write-ahead log.
	if id := binary.BigEndian.Uint32(header[68:]); id != applicationID {
		return 0, &Error{Kind: ErrForeign, Path: path, Err: fmt.Errorf("application id %#x", id)}
	}
	if v := int(binary.BigEndian.Uint32(header[60:])); v > latest {
		return v, &Error{Kind: ErrNewer, Path: path, Err: fmt.Errorf("schema %d, known up to %d", v, latest)}
	}
	db, err := look(path)
	if err != nil {
		return 0, kindOf(path, err)
	}
	defer db.Close()
	if err := db.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		return 0, kindOf(path, err)
	}
	if version > latest {
		return version, &Error{Kind: ErrNewer, Path: path, Err: fmt.Errorf("schema %d, known up to %d", version, latest)}
	}
	var says string
	if err := db.QueryRow("PRAGMA quick_check(1)").Scan(&says); err != nil {
		return version, kindOf(path, err)
	}
	if says != "ok" {
		return version, &Error{Kind: ErrDamaged, Path: path, Err: errors.New(says)}
	}
	return version, nil
}

// create makes a new database under a passing name and gives it its own name
// once it is whole.
func create(path string, list []migration, first func(*sql.DB) error) error {
	passing := path + "-new"
	for _, left := range []string{passing, passing + "-journal"} { // of a run that was killed
		if err := os.Remove(left); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return &Error{Kind: ErrNotWritable, Path: path, Err: err}
		}
	}
	// Made here so that it, and the log files that take after it, are the
	// owner's alone from the first byte.
	f, err := os.OpenFile(passing, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
	if err != nil {
		return &Error{Kind: ErrNotWritable, Path: path, Err: err}
	}
	f.Close()
	db, err := open(passing, "")
	if err != nil {
		return kindOf(path, err)
	}
	err = migrate(db, list)
	if err == nil {
		err = first(db)
	}
	if closing := db.Close(); err == nil {
		err = closing
	}
	if err != nil {
		os.Remove(passing)
		return kindOf(path, err)
	}
	return settle(passing, path)
}

// settle gives a finished file its name and makes that last.
func settle(from, to string) error {
	if err := os.Rename(from, to); err != nil {
		return &Error{Kind: ErrNotWritable, Path: to, Err: err}
	}
	return syncDir(filepath.Dir(to))
}

func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // a folder cannot be synced there; the rename is journalled
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}

// exists reports whether a file is there; anything that stops us from knowing
// counts as there, so that it is looked at and not written over.
func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}
