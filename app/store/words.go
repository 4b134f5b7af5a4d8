package store

import (
	"database/sql"

	"feltpage/app/record"
)

// Words lists a learner's words in the order they came, those put away too.
func (s *Store) Words(learner string) ([]record.Word, error) {
	out, err := all(s.q(), func(w *record.Word) []any {
		return append(metaInto(&w.Meta), &w.Learner, &w.Form, &w.Family, &w.Sense, jsonInto{&w.Places},
			&w.Shade, &w.Language, &w.Away)
	}, "SELECT "+metaOf("word")+", learner, form, family, sense, places, shade, language, away FROM word"+
		" WHERE learner = ? ORDER BY at, rowid", learner)
	return out, s.explain("reading the words", err)
}

// SaveWord adds a word that has no ID yet, else keeps the changes.
func (s *Store) SaveWord(w record.Word) (record.Word, error) {
	err := s.write("keeping a word", func(tx *sql.Tx) (err error) {
		if w.Meta.ID != "" {
			return changed(tx.Exec("UPDATE word SET form = ?, family = ?, sense = ?, places = ?, shade = ?,"+
				" language = ?, away = ? WHERE id = ? AND learner = ?", w.Form, w.Family, w.Sense,
				asJSON{w.Places}, w.Shade, w.Language, w.Away, w.Meta.ID, w.Learner))
		}
		if w.Meta, err = s.stampFor(tx, w.Learner); err != nil {
			return err
		}
		return insert(tx, "word", w.Meta, "learner", w.Learner, "form", w.Form, "family", w.Family,
			"sense", w.Sense, "places", asJSON{w.Places}, "shade", w.Shade, "language", w.Language, "away", w.Away)
	})
	return w, err
}

// AddExperience keeps something that happened to the learner under a word.
func (s *Store) AddExperience(e record.Experience) (record.Experience, error) {
	err := s.write("keeping an experience", func(tx *sql.Tx) (err error) {
		if e.Meta, err = s.stampFor(tx, e.Learner); err != nil {
			return err
		}
		return insert(tx, "experience", e.Meta, "learner", e.Learner, "word", e.WordID,
			"happened_on", e.HappenedOn, "what", e.What, "place", e.Place, "how_strong", e.HowStrong,
			"helped", e.Helped, "written_by", e.WrittenBy, "sitting", orNull(e.Sitting))
	})
	return e, err
}

// Experiences lists a learner's experiences in the order they were noted.
func (s *Store) Experiences(learner string) ([]record.Experience, error) {
	out, err := all(s.q(), func(e *record.Experience) []any {
		return append(metaInto(&e.Meta), &e.Learner, &e.WordID, &e.HappenedOn, &e.What, &e.Place,
			&e.HowStrong, &e.Helped, &e.WrittenBy, textInto{&e.Sitting})
	}, "SELECT "+metaOf("experience")+", learner, word, happened_on, what, place, how_strong, helped,"+
		" written_by, sitting FROM experience WHERE learner = ? ORDER BY at, rowid", learner)
	return out, s.explain("reading the experiences", err)
}

// RemoveExperience erases an experience: it is the learner's to take back.
func (s *Store) RemoveExperience(id string) error {
	return s.write("removing an experience", func(tx *sql.Tx) error {
		return changed(tx.Exec("DELETE FROM experience WHERE id = ?", id))
	})
}

// AddWordUse notes a word used unasked in daily life.
func (s *Store) AddWordUse(u record.WordUse) (record.WordUse, error) {
	err := s.write("keeping a word's use", func(tx *sql.Tx) (err error) {
		if u.Meta, err = s.stampFor(tx, u.Learner); err != nil {
			return err
		}
		return insert(tx, "word_use", u.Meta, "learner", u.Learner, "word", u.WordID, "used_on", u.UsedOn, "note", u.Note)
	})
	return u, err
}

// WordUses lists the noted uses of a learner's words by day.
func (s *Store) WordUses(learner string) ([]record.WordUse, error) {
	out, err := all(s.q(), func(u *record.WordUse) []any {
		return append(metaInto(&u.Meta), &u.Learner, &u.WordID, &u.UsedOn, &u.Note)
	}, "SELECT "+metaOf("word_use")+", learner, word, used_on, note FROM word_use WHERE learner = ?"+
		" ORDER BY used_on, at, rowid", learner)
	return out, s.explain("reading the uses of words", err)
}
