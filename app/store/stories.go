package store

import (
	"database/sql"
	"errors"
	"strings"

	"feltpage/app/record"
)

const storyCols = "story.title, story.language, story.text, story.text_hash, story.shelf_id, " +
	"story.source, story.licence, story.invented, story.file_name, story.sections, story.read_on, story.away"

func storyInto(r *record.Story) []any {
	return append(metaInto(&r.Meta), &r.Title, &r.Language, &r.Text, &r.Hash, &r.Story.ID,
		&r.Origin.Source, &r.Origin.Licence, &r.Origin.Invented, &r.Origin.FileName,
		jsonInto{&r.Sections}, &r.ReadOn, &r.Away)
}

// Stories lists the stories by title, those taken off the shelf too.
func (s *Store) Stories() ([]record.Story, error) {
	out, err := all(s.q(), storyInto, "SELECT "+metaOf("story")+", "+storyCols+
		" FROM story ORDER BY title COLLATE NOCASE, at, rowid")
	return out, s.explain("reading the stories", err)
}

// Story gives one story by the ID of its row (Meta.ID), or ErrNotFound.
func (s *Store) Story(id string) (record.Story, error) {
	r, err := story(s.q(), "id", id)
	return r, s.explain("reading a story", err)
}

// StoryByHash gives the story with this text, or ErrNotFound.
func (s *Store) StoryByHash(hash string) (record.Story, error) {
	r, err := story(s.q(), "text_hash", hash)
	return r, s.explain("reading a story", err)
}

func story(q querier, by, value string) (r record.Story, err error) {
	err = q.QueryRow("SELECT "+metaOf("story")+", "+storyCols+" FROM story WHERE "+by+" = ?", value).
		Scan(storyInto(&r)...)
	return r, err
}

// AddStory puts a story on the shelf. A text that is already kept is not kept
// twice: its story comes back on the shelf as it was, with its ID. If it was
// the demo household's alone, it is now the real household's, and its guide has
// not read it yet.
func (s *Store) AddStory(r record.Story) (record.Story, error) {
	err := s.write("keeping a story", func(tx *sql.Tx) error {
		had, err := story(tx, "text_hash", r.Hash)
		if err == nil {
			if had.Away = false; had.Demo && !r.Demo {
				had.Demo, had.ReadOn = false, r.ReadOn
			}
			r = had
			_, err = tx.Exec("UPDATE story SET away = 0, demo = ?, read_on = ? WHERE id = ?", r.Demo, r.ReadOn, r.Meta.ID)
			return err
		}
		if !errors.Is(err, sql.ErrNoRows) {
			return err
		}
		if r.Meta, err = s.stamp(r.Demo); err != nil {
			return err
		}
		return insert(tx, "story", r.Meta, "title", r.Title, "language", r.Language, "text", r.Text,
			"text_hash", r.Hash, "shelf_id", r.Story.ID, "source", r.Origin.Source,
			"licence", r.Origin.Licence, "invented", r.Origin.Invented, "file_name", r.Origin.FileName,
			"sections", asJSON{r.Sections}, "read_on", r.ReadOn, "away", r.Away)
	})
	return r, err
}

// TickRead notes today as the day the guide read the story, or takes the tick
// away.
func (s *Store) TickRead(id string, read bool) error {
	day := ""
	if read {
		day = s.Today()
	}
	return s.setStory(id, "read_on", day)
}

// PutAway takes a story off the shelf, or puts it back; answers to it stay.
func (s *Store) PutAway(id string, away bool) error { return s.setStory(id, "away", away) }

// Retitle gives a story another title.
func (s *Store) Retitle(id, title string) error { return s.setStory(id, "title", title) }

func (s *Store) setStory(id, column string, value any) error {
	return s.write("changing a story", func(tx *sql.Tx) error {
		return changed(tx.Exec("UPDATE story SET "+column+" = ? WHERE id = ?", value, id))
	})
}

// RemoveStory erases a story that was never read in a sitting, with its
// analyses; one that was is taken off the shelf, since its answers stay. It
// reports whether the story was erased.
func (s *Store) RemoveStory(id string) (erased bool, err error) {
	err = s.write("removing a story", func(tx *sql.Tx) error {
		var used bool
		if err := tx.QueryRow("SELECT EXISTS (SELECT 1 FROM sitting WHERE story = story.id)"+
			" FROM story WHERE id = ?", id).Scan(&used); err != nil {
			return err
		}
		if used {
			_, err := tx.Exec("UPDATE story SET away = 1 WHERE id = ?", id)
			return err
		}
		erased = true
		if _, err := tx.Exec("DELETE FROM analysis WHERE text_hash ="+
			" (SELECT text_hash FROM story WHERE id = ?)", id); err != nil {
			return err
		}
		_, err := tx.Exec("DELETE FROM story WHERE id = ?", id)
		return err
	})
	return erased && err == nil, err
}

// SearchStories lists the stories whose title or text has all the words, best
// first: words in a title weigh most. Word forms count as the word ("cooking"
// finds "cooked"), and the last word may be unfinished. Without a letter or
// digit in it, it lists all stories.
func (s *Store) SearchStories(words string) ([]record.Story, error) {
	match := matchAll(words)
	if match == "" {
		return s.Stories()
	}
	out, err := all(s.q(), storyInto, "SELECT "+metaOf("story")+", "+storyCols+
		" FROM story_words JOIN story ON story.id = story_words.story WHERE story_words MATCH ?"+
		" ORDER BY bm25(story_words, 0, 10, 1), story.title, story.at", match)
	return out, s.explain("searching the stories", err)
}

// matchAll turns what was typed into a query of FTS5 in which nothing typed is
// an operator (sqlite.org/fts5.html, 3.1: a string in double quotes).
func matchAll(words string) string {
	fields := strings.FieldsFunc(words, func(r rune) bool { return !isWordRune(r) })
	for i, f := range fields {
		fields[i] = `"` + f + `"`
	}
	if len(fields) == 0 {
		return ""
	}
	return strings.Join(fields, " ") + "*"
}
