package store

import (
	"bytes"
	"compress/gzip"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"unicode"

	"feltpage/nlp"
)

// PutAnalysis keeps what the engine says about the text with this hash, in
// place of what the same engine version said before.
func (s *Store) PutAnalysis(textHash string, a *nlp.Analysis) error {
	var body bytes.Buffer
	z := gzip.NewWriter(&body)
	if err := errors.Join(json.NewEncoder(z).Encode(a), z.Close()); err != nil {
		return fmt.Errorf("keeping an analysis: %w", err)
	}
	return s.write("keeping an analysis", func(tx *sql.Tx) error {
		demo, err := demoText(tx, textHash)
		if err != nil {
			return err
		}
		m, err := s.stamp(demo)
		if err != nil {
			return err
		}
		if _, err := tx.Exec("DELETE FROM analysis WHERE text_hash = ? AND engine = ?", textHash, a.Engine); err != nil {
			return err
		}
		return insert(tx, "analysis", m, "text_hash", textHash, "engine", a.Engine, "body", body.Bytes())
	})
}

// demoText reports whether a text is a story of the demo household; what is
// kept of it then goes when that does.
func demoText(tx *sql.Tx, hash string) (demo bool, err error) {
	err = tx.QueryRow("SELECT demo FROM story WHERE text_hash = ?", hash).Scan(&demo)
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	return demo, err
}

// Analysis gives what an engine version says about a text, or ErrNotFound.
func (s *Store) Analysis(textHash, engine string) (*nlp.Analysis, error) {
	var body []byte
	if err := s.q().QueryRow("SELECT body FROM analysis WHERE text_hash = ? AND engine = ?",
		textHash, engine).Scan(&body); err != nil {
		return nil, s.explain("reading an analysis", err)
	}
	z, err := gzip.NewReader(bytes.NewReader(body))
	if err != nil {
		return nil, &Error{Kind: ErrDamaged, Path: s.path, Err: err}
	}
	var a nlp.Analysis
	if err := json.NewDecoder(z).Decode(&a); err != nil {
		return nil, &Error{Kind: ErrDamaged, Path: s.path, Err: err}
	}
	return &a, nil
}

func isWordRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)
}
