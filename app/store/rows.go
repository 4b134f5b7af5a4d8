package store

import (
	"database/sql"
	"database/sql/driver"
	"encoding/json"
	"fmt"
	"time"

	"feltpage/app/record"
)

// metaOf names the columns of record.Meta in the order that metaInto fills.
func metaOf(table string) string {
	return table + ".id, " + table + ".device, " + table + ".at, " + table + ".day, " +
		table + ".utc_offset, " + table + ".demo"
}

func metaInto(m *record.Meta) []any {
	return []any{&m.ID, &m.Device, timeInto{&m.At}, &m.Day, &m.Offset, &m.Demo}
}

// timeInto scans the text of a time.
type timeInto struct{ t *time.Time }

// Scan implements sql.Scanner.
func (i timeInto) Scan(v any) error {
	text, ok := v.(string)
	if !ok {
		return fmt.Errorf("a time is not text but %T", v)
	}
	t, err := time.Parse(atLayout, text)
	if err != nil {
		return err
	}
	*i.t = t
	return nil
}

// jsonInto scans the text of a JSON value.
type jsonInto struct{ v any }

// Scan implements sql.Scanner.
func (i jsonInto) Scan(v any) error {
	text, ok := v.(string)
	if !ok {
		return fmt.Errorf("JSON is not text but %T", v)
	}
	return json.Unmarshal([]byte(text), i.v)
}

// textInto scans text that may be NULL, which reads as "".
type textInto struct{ s *string }

// Scan implements sql.Scanner.
func (i textInto) Scan(v any) error {
	switch v := v.(type) {
	case nil:
		*i.s = ""
	case string:
		*i.s = v
	default:
		return fmt.Errorf("text is %T", v)
	}
	return nil
}

// asJSON gives a value to a JSON column.
type asJSON struct{ v any }

// Value implements driver.Valuer.
func (o asJSON) Value() (driver.Value, error) {
	b, err := json.Marshal(o.v)
	if err != nil {
		return nil, fmt.Errorf("%T cannot be kept: %w", o.v, err)
	}
	return string(b), nil
}

// orNull keeps "" as NULL, for columns that point to another row.
func orNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// querier is a database or a transaction.
type querier interface {
	Query(query string, args ...any) (*sql.Rows, error)
	QueryRow(query string, args ...any) *sql.Row
}

// all reads every row of a query.
func all[T any](q querier, into func(*T) []any, query string, args ...any) ([]T, error) {
	rows, err := q.Query(query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []T
	for rows.Next() {
		var v T
		if err := rows.Scan(into(&v)...); err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, rows.Err()
}

// changed gives ErrNotFound where an update met no row.
func changed(r sql.Result, err error) error {
	if err != nil {
		return err
	}
	n, err := r.RowsAffected()
	if err == nil && n == 0 {
		err = &Error{Kind: ErrNotFound}
	}
	return err
}
