// Package store keeps a household's data in one SQLite file: learners, stories,
// sittings, answers, marks and words. Open gives a Store; its methods take and
// give the types of app/record. A Store may be used from several goroutines.
//
// Answers, marks, withdrawals, helps, positions and mends are facts that are
// only added: the database itself refuses to change them. Everything is on
// disk when a method returns. Whole erasure (of a learner, of the demo
// household, of everything) is the one way in which they leave.
//
// Every row has a random id, the device it was made on, its time in UTC, and
// the local day and offset, so that two devices' rows can one day be laid
// together.
package store

import (
	"crypto/rand"
	"database/sql"
	"encoding/base32"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"feltpage/app/datadir"
	"feltpage/app/record"
)

// Options are the store's clock and chance. Now tells the local time (its
// location decides the day); Rand gives the bytes of ids. Both may be nil:
// the computer's clock, and crypto/rand.
type Options struct {
	Now  func() time.Time
	Rand io.Reader
}

func (o Options) orDefault() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Rand == nil {
		o.Rand = rand.Reader
	}
	return o
}

// Store is an open household.
type Store struct {
	*kept
	opt Options
	tx  *sql.Tx // of Together, or nil
}

// kept is what all views of one open file share.
type kept struct {
	dir, path string
	file      atomic.Pointer[sql.DB] // another one after Restore
	lock      *os.File
	mu        sync.Mutex // guards Options.Rand and device
	device    string
}

// Open opens the household in a data folder, making the folder and a new file
// where there is none and bringing an older file up to date (a copy of it is
// kept first). The error wraps ErrNotWritable, ErrLocked, ErrNewer, ErrForeign
// or ErrDamaged; a file that is refused is left as it was.
func Open(dir string, opt Options) (*Store, error) {
	list, err := migrations(embedded)
	if err != nil {
		return nil, err
	}
	return openWith(dir, opt, list)
}

func openWith(dir string, opt Options, list []migration) (_ *Store, err error) {
	s := &Store{opt: opt.orDefault(), kept: &kept{dir: dir, path: filepath.Join(dir, FileName)}}
	if err := datadir.Prepare(dir); err != nil {
		return nil, fmt.Errorf("opening the data: %w", err)
	}
	if s.lock, err = lock(filepath.Join(dir, lockName)); err != nil {
		return nil, fmt.Errorf("opening the data: %w", err)
	}
	defer func() {
		if err != nil {
			s.Close()
		}
	}()
	if !exists(s.path) && exists(s.path+restored) {
		// A restore was cut off after the old file had given way.
		if err := settle(s.path+restored, s.path); err != nil {
			return nil, fmt.Errorf("opening the data: %w", err)
		}
	}
	if exists(s.path) {
		have, err := check(s.path, len(list))
		if err != nil {
			return nil, fmt.Errorf("opening the data: %w", err)
		}
		if have < len(list) {
			if err := s.copyBefore(have); err != nil {
				return nil, fmt.Errorf("copying the data before bringing them up to date: %w", err)
			}
		}
	} else if exists(s.path + "-wal") {
		// A new file would take the log of a lost one for its own.
		return nil, fmt.Errorf("opening the data: %w", &Error{Kind: ErrDamaged, Path: s.path,
			Err: errors.New("its log is here and it is not")})
	} else if err := create(s.path, list, func(db *sql.DB) error { return s.newDevice(db) }); err != nil {
		return nil, fmt.Errorf("making a new data file: %w", err)
	}
	if err := s.openFile(list); err != nil {
		return nil, err
	}
	return s, nil
}

// openFile opens the file that is there and brings it up to date.
func (s *Store) openFile(list []migration) error {
	db, err := open(s.path, "&_journal_mode=WAL")
	if err != nil {
		return s.explain("opening the data", err)
	}
	s.file.Store(db)
	if err := migrate(db, list); err != nil {
		return s.explain("bringing the data up to date", err)
	}
	return s.explain("opening the data", s.readDevice())
}

func (s *Store) db() *sql.DB { return s.file.Load() }

// With gives a view of the same open household with another clock and chance.
// Closing either closes both.
func (s *Store) With(opt Options) *Store {
	if opt.Now == nil {
		opt.Now = s.opt.Now
	}
	if opt.Rand == nil {
		opt.Rand = s.opt.Rand
	}
	return &Store{kept: s.kept, opt: opt, tx: s.tx}
}

// Together does many things as one: all that f does on the Store it is given
// is kept when f returns nil, and nothing of it otherwise. Until then the
// household waits: other calls, and calls on s itself inside f, stand still.
func (s *Store) Together(f func(s *Store) error) error {
	if s.tx != nil {
		return f(s)
	}
	tx, err := s.db().Begin()
	if err != nil {
		return s.explain("beginning", err)
	}
	defer tx.Rollback()
	if err := f(&Store{kept: s.kept, opt: s.opt, tx: tx}); err != nil {
		return err
	}
	return s.explain("keeping all together", tx.Commit())
}

// errTogether is given for what changes the whole file.
var errTogether = errors.New("the whole file cannot be changed from inside Together")

// q is what reads go through.
func (s *Store) q() querier {
	if s.tx != nil {
		return s.tx
	}
	return s.db()
}

// Close closes the file and gives the folder free.
func (s *Store) Close() error {
	var err error
	if db := s.db(); db != nil {
		err = db.Close()
	}
	if s.lock != nil {
		s.lock.Close()
		s.lock = nil
	}
	return err
}

// Dir gives the data folder.
func (s *Store) Dir() string { return s.dir }

// Today gives the local date by the store's clock.
func (s *Store) Today() string { return s.opt.Now().Format(time.DateOnly) }

// idEncoding writes 128 bits as 26 lower-case letters and digits.
var idEncoding = base32.NewEncoding("0123456789abcdefghijklmnopqrstuv").WithPadding(base32.NoPadding)

func (s *Store) newID() (string, error) {
	var b [16]byte
	s.mu.Lock()
	defer s.mu.Unlock()
	if _, err := io.ReadFull(s.opt.Rand, b[:]); err != nil {
		return "", fmt.Errorf("making an id: %w", err)
	}
	return idEncoding.EncodeToString(b[:]), nil
}

// atLayout has one width, so that times sort as text.
const atLayout = "2006-01-02T15:04:05.000000Z"

// stamp makes the Meta of a new row.
func (s *Store) stamp(demo bool) (record.Meta, error) {
	id, err := s.newID()
	if err != nil {
		return record.Meta{}, err
	}
	s.mu.Lock()
	device := s.device
	s.mu.Unlock()
	now := s.opt.Now()
	return record.Meta{ID: id, Device: device, At: now.UTC().Truncate(time.Microsecond),
		Day: now.Format(time.DateOnly), Offset: now.Format("-07:00"), Demo: demo}, nil
}

// execer is a database or a transaction.
type execer interface {
	Exec(query string, args ...any) (sql.Result, error)
}

// newDevice writes down that this file lives on a new device.
func (s *Store) newDevice(db execer) error {
	id, err := s.newID()
	if err != nil {
		return err
	}
	_, err = db.Exec("INSERT INTO device SELECT ?, ?, coalesce(max(seq), 0) + 1 FROM device",
		id, s.opt.Now().UTC().Format(atLayout))
	return err
}

// readDevice finds the device that the file lives on now.
func (s *Store) readDevice() error {
	var id string
	if err := s.db().QueryRow("SELECT id FROM device ORDER BY seq DESC LIMIT 1").Scan(&id); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.device = id
	return nil
}

// write runs f in one transaction, which is on disk when write returns nil; in
// Together, when that does.
func (s *Store) write(doing string, f func(tx *sql.Tx) error) error {
	if s.tx != nil {
		return s.explain(doing, within(s.tx, f))
	}
	tx, err := s.db().Begin()
	if err != nil {
		return s.explain(doing, err)
	}
	defer tx.Rollback()
	if err := f(tx); err != nil {
		return s.explain(doing, err)
	}
	return s.explain(doing, tx.Commit())
}

// within runs f so that it leaves nothing in the transaction when it fails.
func within(tx *sql.Tx, f func(tx *sql.Tx) error) error {
	if _, err := tx.Exec("SAVEPOINT one"); err != nil {
		return err
	}
	if err := f(tx); err != nil {
		_, undo := tx.Exec("ROLLBACK TO one")
		_, end := tx.Exec("RELEASE one")
		return errors.Join(err, undo, end)
	}
	_, err := tx.Exec("RELEASE one")
	return err
}

// tick gives the next place in the order of writing.
func tick(tx *sql.Tx) (n int64, err error) {
	err = tx.QueryRow("UPDATE clock SET n = n + 1 RETURNING n").Scan(&n)
	return n, err
}

// insert adds a row: the columns of m, then name, value, name, value ...
func insert(tx *sql.Tx, table string, m record.Meta, pairs ...any) error {
	cols := []string{"id", "device", "at", "day", "utc_offset", "demo"}
	vals := []any{m.ID, m.Device, m.At.Format(atLayout), m.Day, m.Offset, m.Demo}
	for i := 0; i < len(pairs); i += 2 {
		cols = append(cols, pairs[i].(string))
		vals = append(vals, pairs[i+1])
	}
	_, err := tx.Exec("INSERT INTO "+table+" ("+strings.Join(cols, ", ")+") VALUES (?"+
		strings.Repeat(", ?", len(cols)-1)+")", vals...)
	return err
}
