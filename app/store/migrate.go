package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"sort"
	"strconv"
	"strings"
)

//go:embed migrations/*.sql
var embedded embed.FS

// migration is one numbered step of the schema.
type migration struct {
	number int
	name   string
	sql    string
}

// migrations reads the numbered files of a folder: 0001_first.sql and so on,
// without gaps.
func migrations(fsys fs.FS) ([]migration, error) {
	names, err := fs.Glob(fsys, "migrations/*.sql")
	if err != nil {
		return nil, fmt.Errorf("reading the migrations: %w", err)
	}
	sort.Strings(names)
	var out []migration
	for i, name := range names {
		base := strings.TrimPrefix(name, "migrations/")
		digits, _, ok := strings.Cut(base, "_")
		n, err := strconv.Atoi(digits)
		if !ok || err != nil || n != i+1 {
			return nil, fmt.Errorf("migration %s: expected number %d", base, i+1)
		}
		body, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, fmt.Errorf("migration %s: %w", base, err)
		}
		out = append(out, migration{number: n, name: base, sql: string(body)})
	}
	return out, nil
}

// migrate brings a database from its user_version to the last of the list,
// each step in one transaction together with its number.
func migrate(db *sql.DB, list []migration) error {
	var have int
	if err := db.QueryRow("PRAGMA user_version").Scan(&have); err != nil {
		return fmt.Errorf("reading the schema's number: %w", err)
	}
	for _, m := range list {
		if m.number <= have {
			continue
		}
		if err := step(db, m); err != nil {
			return fmt.Errorf("migration %s: %w", m.name, err)
		}
	}
	return nil
}

func step(db *sql.DB, m migration) error {
	ctx := context.Background()
	// One connection: what is begun on it ends on it.
	conn, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	// A migration may rebuild a table others point to; the check before commit
	// takes the place of SQLite's own (sqlite.org/lang_altertable.html, 7).
	if _, err := conn.ExecContext(ctx, "PRAGMA foreign_keys = OFF"); err != nil {
		return err
	}
	defer conn.ExecContext(ctx, "PRAGMA foreign_keys = ON")
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if _, err := tx.Exec(m.sql); err != nil {
		return err
	}
	var broken int
	if err := tx.QueryRow("SELECT count(*) FROM pragma_foreign_key_check").Scan(&broken); err != nil {
		return err
	}
	if broken > 0 {
		return fmt.Errorf("%d rows point to nothing", broken)
	}
	for _, pragma := range []string{
		fmt.Sprintf("PRAGMA application_id = %d", applicationID),
		fmt.Sprintf("PRAGMA user_version = %d", m.number),
	} {
		if _, err := tx.Exec(pragma); err != nil {
			return err
		}
	}
	return tx.Commit()
}
