package store

import (
	"database/sql"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"feltpage/app/datadir"
)

// copies is the pattern of the copies that are kept before the whole file
// changes.
const copies = "feltpage-before-*"

// Backup writes a whole copy of the household to a file and opens it again to
// see that it is good. A file that is already there is replaced only once the
// new one is.
func (s *Store) Backup(path string) error {
	if s.tx != nil {
		return fmt.Errorf("backing up: %w", errTogether)
	}
	if sameFile(path, s.path) {
		return fmt.Errorf("backing up: %w", &Error{Kind: ErrItself, Path: path})
	}
	return s.explain("backing up", backup(s.db(), path))
}

func sameFile(a, b string) bool {
	ia, errA := os.Stat(a)
	ib, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(ia, ib)
}

func backup(db *sql.DB, path string) error {
	passing := path + "-new"
	f, err := os.OpenFile(passing, os.O_CREATE|os.O_TRUNC|os.O_RDWR, 0o600)
	if err != nil {
		return &Error{Kind: ErrNotWritable, Path: filepath.Dir(path), Err: err}
	}
	defer os.Remove(passing)
	f.Close()
	if _, err := db.Exec("VACUUM INTO ?", passing); err != nil {
		return err
	}
	if _, err := check(passing, math.MaxInt32); err != nil {
		return fmt.Errorf("looking the copy over: %w", err)
	}
	if f, err = os.OpenFile(passing, os.O_RDWR, 0); err != nil {
		return err
	}
	if err := errors.Join(f.Sync(), f.Close()); err != nil {
		return err
	}
	return settle(passing, path)
}

// copyBefore keeps a copy of a file of an older schema, which is then brought
// up to date.
func (s *Store) copyBefore(have int) error {
	db, err := look(s.path)
	if err != nil {
		return kindOf(s.path, err)
	}
	defer db.Close()
	return kindOf(s.path, backup(db, filepath.Join(s.dir, fmt.Sprintf("feltpage-before-%04d.db", have+1))))
}

// beforeRestore is what the file that gave way to a backup is called.
const beforeRestore = "feltpage-before-restore.db"

// restored is the end of the name of a backup that is about to take the place
// of our file.
const restored = "-restored"

// Restore puts a backup in place of the household in a data folder that is not
// open, as where its file is damaged. What was there is kept beside it as
// feltpage-before-restore.db, in place of an earlier one. A backup that is no
// good is refused, as Open would refuse it, before anything is changed.
func Restore(dir, from string, opt Options) error {
	err := func() error {
		if err := datadir.Prepare(dir); err != nil {
			return err
		}
		held, err := lock(filepath.Join(dir, lockName))
		if err != nil {
			return err
		}
		defer held.Close()
		s := &Store{kept: &kept{dir: dir, path: filepath.Join(dir, FileName)}, opt: opt.orDefault()}
		passing, err := s.fetch(from)
		if err != nil {
			return err
		}
		return s.swap(passing)
	}()
	if err != nil {
		return fmt.Errorf("putting a backup back: %w", err)
	}
	return nil
}

// Restore puts a backup in place of the open household, which then goes on
// from there; calls made meanwhile may fail. It is else as the function.
func (s *Store) Restore(from string) error {
	if s.tx != nil {
		return fmt.Errorf("putting a backup back: %w", errTogether)
	}
	list, err := migrations(embedded)
	if err != nil {
		return err
	}
	passing, err := s.fetch(from)
	if err != nil {
		return s.explain("putting a backup back", err)
	}
	err = s.db().Close()
	if err == nil {
		err = s.swap(passing)
	}
	// Whether the backup is in place or not: what is there is open again.
	if err := errors.Join(err, s.openFile(list)); err != nil {
		return fmt.Errorf("putting a backup back: %w", err)
	}
	return nil
}

// fetch copies a backup, once it was found good, to a file beside ours.
func (s *Store) fetch(from string) (passing string, err error) {
	list, err := migrations(embedded)
	if err != nil {
		return "", err
	}
	if _, err := check(from, len(list)); err != nil {
		return "", unfit(from, err)
	}
	if sameFile(from, s.path) {
		return "", &Error{Kind: ErrItself, Path: from}
	}
	passing = s.path + restored
	if err := os.Remove(passing + "-journal"); err != nil && !errors.Is(err, os.ErrNotExist) {
		return "", err // left by a run that was killed, it would be taken for the new file's
	}
	db, err := look(from)
	if err != nil {
		return "", unfit(from, err)
	}
	err = backup(db, passing)
	db.Close()
	if err != nil {
		return "", kindOf(from, err)
	}
	// From here on it is written on as on another device, so that nothing is
	// mixed up should the place it came from go on as well.
	if db, err = open(passing, ""); err != nil {
		return "", kindOf(passing, err)
	}
	return passing, errors.Join(s.newDevice(db), db.Close())
}

// unfit says of an error that it lies in the backup.
func unfit(from string, err error) error {
	if e, ok := errors.AsType[*Error](kindOf(from, err)); ok {
		about := *e
		about.Backup = true
		return &about
	}
	return err
}

// swap puts a file in the place of ours, which is set aside.
func (s *Store) swap(passing string) error {
	if err := setAside(s.path, filepath.Join(s.dir, beforeRestore)); err != nil {
		return err
	}
	return settle(passing, s.path)
}

// setAside renames a database with its log. A log must never stay behind: the
// next file of that name would take it for its own.
func setAside(path, to string) error {
	if _, err := check(path, math.MaxInt32); err == nil {
		// Opening and closing it folds the log into the file.
		if db, err := open(path, "&_journal_mode=WAL"); err == nil {
			db.Close()
		}
	}
	for _, tail := range []string{"-wal", "-shm", ""} {
		if err := os.Remove(to + tail); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
		if err := os.Rename(path+tail, to+tail); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return nil
}
