package store

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"slices"
)

// ExportVersion is the version of what Export writes. Columns may be added
// within a version; none changes its meaning.
const ExportVersion = 1

// jsonColumns hold JSON, which is exported as it is and not as a string.
var jsonColumns = []string{"look", "sections", "plan", "places", "families", "moment", "step", "given", "why"}

// Export writes the raw data as JSON, one object a line. The first line tells
// the version of the export and of the schema; each other line is one row, with
// the name of its table in "table". Analyses are left out: they can be made
// again from the stories.
func (s *Store) Export(w io.Writer) error {
	// All lines are of one instant.
	// They are gathered first, so that a slow disk or stick holds nobody up.
	var lines bytes.Buffer
	if err := s.Together(func(s *Store) error { return s.explain("exporting", s.export(s.tx, &lines)) }); err != nil {
		return err
	}
	if _, err := lines.WriteTo(w); err != nil {
		return fmt.Errorf("exporting: %w", err)
	}
	return nil
}

func (s *Store) export(tx *sql.Tx, out *bytes.Buffer) error {
	var schema int
	if err := tx.QueryRow("PRAGMA user_version").Scan(&schema); err != nil {
		return err
	}
	var device string
	if err := tx.QueryRow("SELECT id FROM device ORDER BY seq DESC LIMIT 1").Scan(&device); err != nil {
		return err
	}
	now := s.opt.Now()
	fmt.Fprintf(out, `{"table":"export","version":%d,"schema":%d,"device":%q,"at":%q,"left_out":["analysis"]}`+"\n",
		ExportVersion, schema, device, now.UTC().Format(atLayout))
	tables, err := tablesWith(tx, "utc_offset")
	if err != nil {
		return err
	}
	for _, t := range tables {
		if t == "analysis" {
			continue
		}
		if err := exportTable(tx, out, t); err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
	}
	return nil
}

func exportTable(tx *sql.Tx, out *bytes.Buffer, table string) error {
	rows, err := tx.Query("SELECT * FROM " + table + " ORDER BY at, id")
	if err != nil {
		return err
	}
	defer rows.Close()
	cols, err := rows.Columns()
	if err != nil {
		return err
	}
	vals := make([]any, len(cols))
	into := make([]any, len(cols))
	for i := range vals {
		into[i] = &vals[i]
	}
	for rows.Next() {
		if err := rows.Scan(into...); err != nil {
			return err
		}
		fmt.Fprintf(out, `{"table":%q`, table)
		for i, c := range cols {
			v := vals[i]
			if text, ok := v.(string); ok && slices.Contains(jsonColumns, c) {
				v = json.RawMessage(text)
			}
			b, err := json.Marshal(v)
			if err != nil {
				return fmt.Errorf("column %s: %w", c, err)
			}
			fmt.Fprintf(out, `,%q:%s`, c, b)
		}
		out.WriteString("}\n")
	}
	return rows.Err()
}
