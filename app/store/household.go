package store

import (
	"database/sql"
	"errors"

	"feltpage/app/record"
)

// Setting gives a setting of the household, or "" where it was never set.
func (s *Store) Setting(name string) (value string, err error) {
	err = s.q().QueryRow("SELECT value FROM setting WHERE name = ?", name).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return value, s.explain("reading a setting", err)
}

// SetSetting keeps a setting of the household.
func (s *Store) SetSetting(name, value string) error {
	return s.write("keeping a setting", func(tx *sql.Tx) error {
		r, err := tx.Exec("UPDATE setting SET value = ? WHERE name = ?", value, name)
		if !errors.Is(changed(r, err), ErrNotFound) {
			return err
		}
		m, err := s.stamp(false)
		if err != nil {
			return err
		}
		return insert(tx, "setting", m, "name", name, "value", value)
	})
}

// Families lists the household's own feeling families by name.
func (s *Store) Families() ([]record.Family, error) {
	out, err := all(s.q(), func(f *record.Family) []any {
		return append(metaInto(&f.Meta), &f.FamilyID, &f.Name, &f.Nearest, &f.Away)
	}, "SELECT "+metaOf("family")+", family, name, nearest, away FROM family ORDER BY name COLLATE NOCASE, at, rowid")
	return out, s.explain("reading the household's families", err)
}

// SaveFamily adds a family of the household that has no ID yet, else keeps the
// changes; its FamilyID stays, since answers name it.
func (s *Store) SaveFamily(f record.Family) (record.Family, error) {
	err := s.write("keeping a family", func(tx *sql.Tx) (err error) {
		if f.Meta.ID != "" {
			return changed(tx.Exec("UPDATE family SET name = ?, nearest = ?, away = ? WHERE id = ?",
				f.Name, f.Nearest, f.Away, f.Meta.ID))
		}
		if f.Meta, err = s.stamp(f.Demo); err != nil {
			return err
		}
		return insert(tx, "family", f.Meta, "family", f.FamilyID, "name", f.Name, "nearest", f.Nearest, "away", f.Away)
	})
	return f, err
}

// Expressions lists the household's own expressions in the order they came.
func (s *Store) Expressions() ([]record.Expression, error) {
	out, err := all(s.q(), func(x *record.Expression) []any {
		return append(metaInto(&x.Meta), &x.Text, &x.Kind, jsonInto{&x.Families}, jsonInto{&x.Places}, &x.Note, &x.Away)
	}, "SELECT "+metaOf("expression")+", text, kind, families, places, note, away FROM expression ORDER BY at, rowid")
	return out, s.explain("reading the household's expressions", err)
}

// SaveExpression adds an expression that has no ID yet, else keeps the changes.
func (s *Store) SaveExpression(x record.Expression) (record.Expression, error) {
	err := s.write("keeping an expression", func(tx *sql.Tx) (err error) {
		if x.Meta.ID != "" {
			return changed(tx.Exec("UPDATE expression SET text = ?, kind = ?, families = ?, places = ?,"+
				" note = ?, away = ? WHERE id = ?", x.Text, x.Kind, asJSON{x.Families}, asJSON{x.Places},
				x.Note, x.Away, x.Meta.ID))
		}
		if x.Meta, err = s.stamp(x.Demo); err != nil {
			return err
		}
		return insert(tx, "expression", x.Meta, "text", x.Text, "kind", x.Kind, "families", asJSON{x.Families},
			"places", asJSON{x.Places}, "note", x.Note, "away", x.Away)
	})
	return x, err
}

// SaveMend keeps the guide's mend of what the engine found. A mend of a story of
// the demo household goes with it.
func (s *Store) SaveMend(m record.Mend) (record.Mend, error) { return s.addMend(m, "") }

// UndoMend takes a mend back; both stay as facts.
func (s *Store) UndoMend(id string) error {
	var m record.Mend
	err := s.q().QueryRow("SELECT text_hash, demo FROM mend WHERE id = ?", id).Scan(&m.TextHash, &m.Demo)
	if err != nil {
		return s.explain("taking a mend back", err)
	}
	_, err = s.addMend(m, id)
	return err
}

func (s *Store) addMend(m record.Mend, undoes string) (record.Mend, error) {
	err := s.write("keeping a mend", func(tx *sql.Tx) (err error) {
		demo, err := demoText(tx, m.TextHash)
		if err != nil {
			return err
		}
		if m.Meta, err = s.stamp(m.Demo || demo); err != nil {
			return err
		}
		seq, err := tick(tx)
		if err != nil {
			return err
		}
		return insert(tx, "mend", m.Meta, "seq", seq, "text_hash", m.TextHash, "quote", m.Quote,
			"before", m.Before, "after", m.After, "character", m.Character, "what", m.What,
			"new_character", m.NewCharacter, "kind", m.Kind, "families", asJSON{m.Families},
			"places", asJSON{m.Places}, "note", m.Note, "undoes", orNull(undoes))
	})
	return m, err
}

// Mends lists the mends of a text that stand, oldest first.
func (s *Store) Mends(textHash string) ([]record.Mend, error) {
	out, err := all(s.q(), func(m *record.Mend) []any {
		return append(metaInto(&m.Meta), &m.TextHash, &m.Quote, &m.Before, &m.After, &m.Character, &m.What,
			&m.NewCharacter, &m.Kind, jsonInto{&m.Families}, jsonInto{&m.Places}, &m.Note)
	}, "SELECT "+metaOf("mend")+", text_hash, quote, before, after, character, what, new_character, kind,"+
		" families, places, note FROM mend WHERE text_hash = ? AND undoes IS NULL"+
		" AND NOT EXISTS (SELECT 1 FROM mend AS later WHERE later.undoes = mend.id) ORDER BY seq", textHash)
	return out, s.explain("reading the mends", err)
}
