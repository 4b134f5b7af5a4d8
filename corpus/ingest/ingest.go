// Package ingest turns a file or pasted text into a story. It settles the
// encoding, line ends, hard wraps and wrappers of e-text collections once,
// so that every later span points into a text that no longer changes:
// ingesting a story's text again gives the same text.
//
// Any input gives a story or one *Error, which knows its sentence.
package ingest

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"unicode"

	"feltpage/corpus"
	"feltpage/corpus/level"
	"feltpage/nlp"
)

// MaxBytes is the most text taken in, before and after import: two mebibytes,
// about 350,000 English words.
const MaxBytes = 2 << 20

// Kinds of refusal, for errors.Is.
var (
	ErrEmpty    = errors.New("no text")
	ErrBinary   = errors.New("not a text file")
	ErrTooLarge = errors.New("too large")
	ErrEncoding = errors.New("characters in an unknown or damaged encoding")
	ErrTooShort = errors.New("fewer than two sentences")
	ErrRead     = errors.New("could not be read")
)

// Error says which input was refused and why. It unwraps to one of the kinds
// above and, for ErrRead, to the cause.
type Error struct {
	Name  string // file name; "" for pasted text
	Kind  error
	Cause error // or nil
}

func (e *Error) Error() string {
	name := e.Name
	if name == "" {
		name = "pasted text"
	}
	if e.Cause != nil {
		return fmt.Sprintf("%s: %v: %v", name, e.Kind, e.Cause)
	}
	return fmt.Sprintf("%s: %v", name, e.Kind)
}

// kinds gives the last part of each kind's catalogue key.
var kinds = map[error]string{ErrEmpty: "empty", ErrBinary: "binary", ErrTooLarge: "large",
	ErrEncoding: "encoding", ErrTooShort: "short", ErrRead: "read"}

// Sentence gives the catalogue key and its slots.
func (e *Error) Sentence() (key string, slots map[string]string) {
	if e.Name == "" {
		return "errors.story-pasted-" + kinds[e.Kind], nil
	}
	return "errors.story-file-" + kinds[e.Kind], map[string]string{"file": e.Name}
}

// Unwrap gives kind and cause.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Cause}
}

// Read takes in a file. name is its name or path; the last part of it is kept
// in the story's origin and, where the text brings no title, becomes the
// title. At most MaxBytes+1 bytes are read.
func Read(r io.Reader, name string) (corpus.Story, error) {
	base := filepath.Base(name)
	b, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return corpus.Story{}, &Error{Name: base, Kind: ErrRead, Cause: err}
	}
	s, err := take(b, base, "")
	if err != nil {
		return corpus.Story{}, err
	}
	s.Origin = corpus.Origin{Source: "file", Licence: "unknown", FileName: base}
	if s.Title == "" {
		s.Title = titleFromName(base)
	}
	return s, nil
}

// Remarks gives what to look at in a text that was taken in, as far as it shows
// in the text itself.
func Remarks(text string) []nlp.Reason {
	_, remarks, err := look(text)
	if n, _ := lost(text); n > 0 && err == nil {
		remarks = append(remarks, nlp.Reason{Code: remarkLost})
	}
	return remarks
}

// Text takes in pasted text under a title; with an empty title the text's own
// title line or its first words stand in.
func Text(text, title string) (corpus.Story, error) {
	if len(text) > MaxBytes {
		return corpus.Story{}, &Error{Kind: ErrTooLarge}
	}
	s, err := take([]byte(text), "", oneLine(title))
	if err != nil {
		return corpus.Story{}, err
	}
	s.Origin = corpus.Origin{Source: "pasted", Licence: "unknown"}
	if s.Title == "" {
		s.Title = firstWords(s.Text)
	}
	return s, nil
}

func take(b []byte, name, title string) (corpus.Story, error) {
	refuse := func(kind error) (corpus.Story, error) {
		return corpus.Story{}, &Error{Name: name, Kind: kind}
	}
	if len(b) > MaxBytes {
		return refuse(ErrTooLarge)
	}
	text, remarks, kind := decode(b)
	if kind != nil {
		return refuse(kind)
	}
	text, found := clean(text)
	// Judged after cleaning, so that the text as kept is judged the same.
	missing, tooMany := lost(text)
	if missing > 0 {
		remarks = append(remarks, nlp.Reason{Code: remarkLost})
	}
	switch {
	case signed([]byte(text)):
		return refuse(ErrBinary)
	case tooMany:
		return refuse(ErrEncoding)
	case !strings.ContainsFunc(text, unicode.IsLetter):
		return refuse(ErrEmpty)
	case len(text) > MaxBytes:
		return refuse(ErrTooLarge)
	case level.Sentences(text) < 2:
		return refuse(ErrTooShort)
	}
	if title == "" {
		title = found
	}
	hash := corpus.Hash(text)
	return corpus.Story{
		ID:       hash,
		Title:    title,
		Language: "en",
		Text:     text,
		Hash:     hash,
		Sections: corpus.Split(text),
		Remarks:  remarks,
	}, nil
}

var wordBreaks = regexp.MustCompile(`[-_\s]+`)

func titleFromName(base string) string {
	t := strings.TrimSpace(wordBreaks.ReplaceAllString(strings.TrimSuffix(base, filepath.Ext(base)), " "))
	t = strings.ToValidUTF8(t, "")
	if t == "" || t == "." || t == "/" {
		return base
	}
	r := []rune(t)
	r[0] = unicode.ToUpper(r[0])
	return string(r)
}

func oneLine(s string) string {
	s = strings.ToValidUTF8(s, "")
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// firstWords makes a title of the first line, at most six words.
func firstWords(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	words := strings.Fields(line)
	if len(words) <= 6 {
		return strings.Join(words, " ")
	}
	return strings.TrimRight(strings.Join(words[:6], " "), ",;:.") + " …"
}
