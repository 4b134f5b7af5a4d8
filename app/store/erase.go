package store

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// EraseLearner erases everything about a learner, for good: the freed places in
// the file are overwritten, and the copies kept from before the file last
// changed are deleted. Backups made by hand are the guide's to delete.
func (s *Store) EraseLearner(id string) error {
	return s.erase("erasing a learner", func(tx *sql.Tx) error {
		tables, err := tablesWith(tx, "learner")
		if err != nil {
			return err
		}
		for _, t := range tables {
			if _, err := tx.Exec("DELETE FROM "+t+" WHERE learner = ?", id); err != nil {
				return err
			}
		}
		if err := changed(tx.Exec("DELETE FROM learner WHERE id = ?", id)); err != nil {
			return err
		}
		if _, err := tx.Exec("DELETE FROM setting WHERE value = ? OR instr(name, ?) > 0", id, id); err != nil {
			return err
		}
		return eraseEmptySittings(tx)
	})
}

// HasDemo reports whether the invented demo household is here.
func (s *Store) HasDemo() (yes bool, err error) {
	err = s.q().QueryRow("SELECT EXISTS (SELECT 1 FROM learner WHERE demo)").Scan(&yes)
	return yes, s.explain("looking for the demo household", err)
}

// RemoveDemo erases the invented demo household and all that was done in it.
// Its stories stay where a real learner has read them.
func (s *Store) RemoveDemo() error {
	return s.erase("removing the demo household", func(tx *sql.Tx) error {
		for _, q := range []string{
			"UPDATE story SET demo = 0 WHERE demo AND EXISTS (SELECT 1 FROM sitting WHERE story = story.id AND NOT demo)",
			"DELETE FROM setting WHERE EXISTS (SELECT 1 FROM learner WHERE demo AND" +
				" (learner.id = setting.value OR instr(setting.name, learner.id) > 0))",
			"UPDATE analysis SET demo = 0 WHERE text_hash IN (SELECT text_hash FROM story WHERE NOT demo)",
		} {
			if _, err := tx.Exec(q); err != nil {
				return err
			}
		}
		tables, err := tablesWith(tx, "demo")
		if err != nil {
			return err
		}
		for _, t := range tables {
			which := "demo"
			if t == "mend" { // the guide's work on a story stays where the story does
				which += " AND NOT EXISTS (SELECT 1 FROM story WHERE text_hash = mend.text_hash AND NOT demo)"
			}
			if _, err := tx.Exec("DELETE FROM " + t + " WHERE " + which); err != nil {
				return err
			}
		}
		return eraseEmptySittings(tx)
	})
}

// EraseAll erases the whole household. The store stays open, empty, as a new
// device.
func (s *Store) EraseAll() error {
	err := s.erase("erasing everything", func(tx *sql.Tx) error {
		tables, err := tablesWith(tx, "utc_offset") // every table of the household
		if err != nil {
			return err
		}
		for _, t := range append(tables, "device") {
			if _, err := tx.Exec("DELETE FROM " + t); err != nil {
				return err
			}
		}
		return s.newDevice(tx)
	})
	if err != nil {
		return err
	}
	if err := s.readDevice(); err != nil {
		return s.explain("erasing everything", err)
	}
	if _, err := s.db().Exec("VACUUM"); err != nil {
		return s.explain("erasing everything", err)
	}
	return s.explain("erasing everything", s.fold())
}

// erase runs f with the guard on events lifted, then sees that nothing of what
// was erased stays in the log or in our own copies.
func (s *Store) erase(doing string, f func(tx *sql.Tx) error) error {
	if s.tx != nil {
		return fmt.Errorf("%s: %w", doing, errTogether)
	}
	err := s.write(doing, func(tx *sql.Tx) error {
		// Rows may go in any order; what would point to nothing is found at commit.
		if _, err := tx.Exec("PRAGMA defer_foreign_keys = ON"); err != nil {
			return err
		}
		if _, err := tx.Exec("INSERT INTO erasing VALUES (?)", doing); err != nil {
			return err
		}
		if err := f(tx); err != nil {
			return err
		}
		_, err := tx.Exec("DELETE FROM erasing")
		return err
	})
	if err != nil {
		return err
	}
	old, err := filepath.Glob(filepath.Join(s.dir, copies))
	if err != nil {
		return s.explain(doing, err)
	}
	for _, path := range old {
		if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
			return s.explain(doing, err)
		}
	}
	return s.explain(doing, s.fold())
}

// fold writes the log into the file and empties it.
func (s *Store) fold() error {
	_, err := s.db().Exec("PRAGMA wal_checkpoint(TRUNCATE)")
	return err
}

func eraseEmptySittings(tx *sql.Tx) error {
	const empty = "(SELECT id FROM sitting WHERE NOT EXISTS (SELECT 1 FROM seat WHERE sitting = sitting.id))"
	if _, err := tx.Exec("DELETE FROM sitting_end WHERE sitting IN " + empty); err != nil {
		return err
	}
	_, err := tx.Exec("DELETE FROM sitting WHERE id IN " + empty)
	return err
}

// tablesWith lists the tables that have a column, so that a table of a later
// migration is not forgotten.
func tablesWith(q querier, column string) ([]string, error) {
	return all(q, func(t *string) []any { return []any{t} },
		"SELECT m.name FROM sqlite_schema AS m JOIN pragma_table_info(m.name) AS c"+
			" WHERE m.type = 'table' AND c.name = ? ORDER BY m.name", column)
}
