package store

import (
	"database/sql"

	"feltpage/app/record"
)

const learnerCols = "learner.nickname, learner.mode, learner.look, learner.away"

func learnerInto(l *record.Learner) []any {
	return append(metaInto(&l.Meta), &l.Nickname, &l.Mode, jsonInto{&l.Look}, &l.Away)
}

// Learners lists the learners in the order they were set up, those put aside
// too.
func (s *Store) Learners() ([]record.Learner, error) {
	out, err := all(s.q(), learnerInto, "SELECT "+metaOf("learner")+", "+learnerCols+
		" FROM learner ORDER BY at, rowid")
	return out, s.explain("reading the learners", err)
}

// Learner gives one learner, or ErrNotFound.
func (s *Store) Learner(id string) (record.Learner, error) {
	var l record.Learner
	err := s.q().QueryRow("SELECT "+metaOf("learner")+", "+learnerCols+
		" FROM learner WHERE id = ?", id).Scan(learnerInto(&l)...)
	return l, s.explain("reading a learner", err)
}

// SaveLearner adds a learner who has no ID yet, else keeps the changes. It
// gives the learner as kept.
func (s *Store) SaveLearner(l record.Learner) (record.Learner, error) {
	err := s.write("keeping a learner", func(tx *sql.Tx) (err error) {
		if l.Meta.ID != "" {
			return changed(tx.Exec("UPDATE learner SET nickname = ?, mode = ?, look = ?, away = ? WHERE id = ?",
				l.Nickname, l.Mode, asJSON{l.Look}, l.Away, l.Meta.ID))
		}
		if l.Meta, err = s.stamp(l.Demo); err != nil {
			return err
		}
		return insert(tx, "learner", l.Meta, "nickname", l.Nickname, "mode", l.Mode,
			"look", asJSON{l.Look}, "away", l.Away)
	})
	return l, err
}

// stampFor makes the Meta of a new row about a learner: of the demo household
// where the learner is. ErrNotFound where there is no such learner.
func (s *Store) stampFor(tx *sql.Tx, learner string) (record.Meta, error) {
	var demo bool
	if err := tx.QueryRow("SELECT demo FROM learner WHERE id = ?", learner).Scan(&demo); err != nil {
		return record.Meta{}, err
	}
	return s.stamp(demo)
}

// AddPhaseLine draws a line on the learner's growth chart.
func (s *Store) AddPhaseLine(p record.PhaseLine) (record.PhaseLine, error) {
	err := s.write("keeping a phase line", func(tx *sql.Tx) (err error) {
		if p.Meta, err = s.stampFor(tx, p.Learner); err != nil {
			return err
		}
		return insert(tx, "phase_line", p.Meta, "learner", p.Learner, "before_day", p.On, "label", p.Label)
	})
	return p, err
}

// PhaseLines lists a learner's phase lines by day.
func (s *Store) PhaseLines(learner string) ([]record.PhaseLine, error) {
	out, err := all(s.q(), func(p *record.PhaseLine) []any {
		return append(metaInto(&p.Meta), &p.Learner, &p.On, &p.Label)
	}, "SELECT "+metaOf("phase_line")+", learner, before_day, label FROM phase_line WHERE learner = ?"+
		" ORDER BY before_day, at, rowid", learner)
	return out, s.explain("reading the phase lines", err)
}

// RemovePhaseLine takes a line off the chart.
func (s *Store) RemovePhaseLine(id string) error {
	return s.write("removing a phase line", func(tx *sql.Tx) error {
		return changed(tx.Exec("DELETE FROM phase_line WHERE id = ?", id))
	})
}

// AddBodyNote keeps how a learner's body is today.
func (s *Store) AddBodyNote(n record.BodyNote) (record.BodyNote, error) {
	err := s.write("keeping a body note", func(tx *sql.Tx) (err error) {
		if n.Meta, err = s.stampFor(tx, n.Learner); err != nil {
			return err
		}
		return insert(tx, "body_note", n.Meta, "learner", n.Learner, "sitting", orNull(n.Sitting),
			"places", asJSON{n.Places}, "said", n.Said)
	})
	return n, err
}

// BodyNotes lists a learner's body notes, oldest first. They belong in no
// report unless the guide picks one.
func (s *Store) BodyNotes(learner string) ([]record.BodyNote, error) {
	out, err := all(s.q(), func(n *record.BodyNote) []any {
		return append(metaInto(&n.Meta), &n.Learner, textInto{&n.Sitting}, jsonInto{&n.Places}, &n.Said)
	}, "SELECT "+metaOf("body_note")+", learner, sitting, places, said FROM body_note WHERE learner = ?"+
		" ORDER BY at, rowid", learner)
	return out, s.explain("reading the body notes", err)
}

// RemoveBodyNote erases a body note: it is the learner's to take back.
func (s *Store) RemoveBodyNote(id string) error {
	return s.write("removing a body note", func(tx *sql.Tx) error {
		return changed(tx.Exec("DELETE FROM body_note WHERE id = ?", id))
	})
}
