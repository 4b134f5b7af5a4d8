package store

import (
	"database/sql"
	"errors"
	"fmt"

	"feltpage/app/record"
)

// StartSitting begins a sitting. It is a demo sitting where all its learners
// are the demo household's. Seats without an ID get one.
func (s *Store) StartSitting(g record.Sitting) (record.Sitting, error) {
	if len(g.Seats) == 0 {
		return g, errors.New("starting a sitting: nobody has a seat")
	}
	seats := make([]record.Seat, len(g.Seats))
	copy(seats, g.Seats)
	g.Seats, g.Ended = seats, ""
	err := s.write("starting a sitting", func(tx *sql.Tx) error {
		metas, demo := make([]record.Meta, len(seats)), true
		for i := range seats {
			m, err := s.stampFor(tx, seats[i].Learner)
			if err != nil {
				return err
			}
			metas[i], seats[i].ID = m, m.ID
			demo = demo && m.Demo
		}
		seq, err := tick(tx)
		if err != nil {
			return err
		}
		if g.Meta, err = s.stamp(demo); err != nil {
			return err
		}
		if err := insert(tx, "sitting", g.Meta, "seq", seq, "kind", g.Kind, "story", g.StoryID,
			"plan", asJSON{g.Plan}, "seed", g.Seed, "engine", g.Engine); err != nil {
			return err
		}
		for i, seat := range seats {
			if err := insert(tx, "seat", metas[i], "sitting", g.ID, "learner", seat.Learner, "place", i); err != nil {
				return err
			}
		}
		return nil
	})
	return g, err
}

// endOf gives how a sitting ended: the newest word on it, or NULL.
const endOf = "(SELECT how FROM sitting_end WHERE sitting = sitting.id ORDER BY seq DESC LIMIT 1)"

// Sittings lists a learner's sittings, oldest first; of all learners for "".
func (s *Store) Sittings(learner string) ([]record.Sitting, error) {
	out, err := sittings(s.q(), "? = '' OR id IN (SELECT sitting FROM seat WHERE learner = ?)", learner, learner)
	return out, s.explain("reading the sittings", err)
}

// Sitting gives one sitting, or ErrNotFound.
func (s *Store) Sitting(id string) (record.Sitting, error) {
	out, err := sittings(s.q(), "id = ?", id)
	if err == nil && len(out) == 0 {
		err = sql.ErrNoRows
	}
	if err != nil {
		return record.Sitting{}, s.explain("reading a sitting", err)
	}
	return out[0], nil
}

func sittings(q querier, where string, args ...any) ([]record.Sitting, error) {
	out, err := all(q, func(g *record.Sitting) []any {
		return append(metaInto(&g.Meta), &g.Kind, &g.StoryID, jsonInto{&g.Plan}, &g.Seed, &g.Engine,
			textInto{&g.Ended}, jsonInto{&g.Seats})
	}, "SELECT "+metaOf("sitting")+", kind, story, plan, seed, engine, "+endOf+
		", (SELECT json_group_array(json_object('ID', id, 'Learner', learner) ORDER BY place)"+
		" FROM seat WHERE sitting = sitting.id) FROM sitting WHERE "+where+" ORDER BY seq", args...)
	return out, err
}

// EndSitting ends a sitting: "done" or "stopped".
func (s *Store) EndSitting(id, how string) error {
	if how != "done" && how != "stopped" {
		return fmt.Errorf("ending a sitting: %q is neither done nor stopped", how)
	}
	return s.write("ending a sitting", func(tx *sql.Tx) error {
		m, seq, err := s.stampSitting(tx, id)
		if err != nil {
			return err
		}
		return insert(tx, "sitting_end", m, "seq", seq, "sitting", id, "how", how)
	})
}

func (s *Store) stampSitting(tx *sql.Tx, sitting string) (m record.Meta, seq int64, err error) {
	var demo bool
	if err = tx.QueryRow("SELECT demo FROM sitting WHERE id = ?", sitting).Scan(&demo); err != nil {
		return m, 0, err
	}
	if m, err = s.stamp(demo); err != nil {
		return m, 0, err
	}
	seq, err = tick(tx)
	return m, seq, err
}

// stampEvent makes the Meta and the place in the order of writing of a new
// event about a learner.
func (s *Store) stampEvent(tx *sql.Tx, learner string) (m record.Meta, seq int64, err error) {
	if m, err = s.stampFor(tx, learner); err != nil {
		return m, 0, err
	}
	seq, err = tick(tx)
	return m, seq, err
}

// SavePosition notes how far a seat has come.
func (s *Store) SavePosition(p record.Position) (record.Position, error) {
	err := s.write("keeping the place", func(tx *sql.Tx) error {
		m, seq, err := s.stampEvent(tx, p.Learner)
		if err != nil {
			return err
		}
		p.Meta = m
		return insert(tx, "position", m, "seq", seq, "sitting", p.Sitting, "seat", p.Seat,
			"learner", p.Learner, "moment_no", p.MomentNo, "step_no", p.StepNo, "state", p.State)
	})
	return p, err
}

// Unfinished gives a learner's sittings that were begun and not ended, oldest
// first, with all that is needed to go on where they were left. It is empty
// where there is none.
func (s *Store) Unfinished(learner string) ([]record.Resume, error) {
	open, err := sittings(s.q(), endOf+" IS NULL AND id IN (SELECT sitting FROM seat WHERE learner = ?)", learner)
	if err != nil {
		return nil, s.explain("reading the unfinished sittings", err)
	}
	var out []record.Resume
	for _, g := range open {
		r := record.Resume{Sitting: g}
		if r.Answers, err = marked(s.q(), "answer.sitting = ? AND answer.learner = ?", r.Sitting.ID, learner); err != nil {
			return nil, s.explain("reading the unfinished sittings", err)
		}
		places, err := all(s.q(), func(p *record.Position) []any {
			return append(metaInto(&p.Meta), &p.Sitting, &p.Seat, &p.Learner, &p.MomentNo, &p.StepNo, &p.State)
		}, "SELECT "+metaOf("position")+", sitting, seat, learner, moment_no, step_no, state FROM position"+
			" WHERE sitting = ? AND learner = ? ORDER BY seq DESC LIMIT 1", r.Sitting.ID, learner)
		if err != nil {
			return nil, s.explain("reading the unfinished sittings", err)
		}
		if len(places) > 0 {
			r.Position = &places[0]
		}
		out = append(out, r)
	}
	return out, nil
}
