package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/clauses"
	"feltpage/nlp/cues"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

// engine is the stages that a situation is found after.
type engine struct {
	tagger  *tag.Tagger
	lexicon *cues.Lexicon
}

func newEngine() (*engine, error) {
	t, err := tag.Load()
	if err != nil {
		return nil, err
	}
	l, err := cues.Load()
	if err != nil {
		return nil, err
	}
	return &engine{t, l}, nil
}

// story is one text as the engine reads it, without situation cues.
type story struct {
	name     string
	doc      *nlp.Document
	cast     []nlp.Character
	quotes   []nlp.Quote
	cues     []nlp.Cue
	sections map[int]nlp.Span
	fold     int
}

func (e *engine) parse(text string) *nlp.Document {
	d := segment.Split(text)
	e.tagger.Tag(d)
	clauses.Parse(d)
	return d
}

func (e *engine) read(name, text string) *story {
	s := &story{name: name, doc: e.parse(text)}
	s.cast, s.quotes = characters.Resolve(s.doc, quotes.Find(s.doc))
	s.cues = e.lexicon.Find(s.doc, s.cast, s.quotes)
	return s
}

// readStories reads every story of a folder, in order of name.
func readStories(e *engine, dir string) ([]*story, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.jsonl"))
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("no stories in %s", dir)
	}
	sort.Strings(files)
	var out []*story
	for _, f := range files {
		var text strings.Builder
		sections := map[int]nlp.Span{}
		err := each(f, func(b []byte) error {
			var row struct {
				Section int
				Text    string
			}
			if err := json.Unmarshal(b, &row); err != nil {
				return err
			}
			from := text.Len()
			text.WriteString(row.Text + "\n\n")
			sections[row.Section] = nlp.Span{Start: from, End: text.Len()}
			return nil
		})
		if err != nil {
			return nil, err
		}
		s := e.read(strings.TrimSuffix(filepath.Base(f), ".jsonl"), text.String())
		s.sections = sections
		out = append(out, s)
	}
	return out, nil
}

// question is a question of an expert reader with the experts' answers.
type question struct {
	Story    string
	Sections []int
	Question string
	Answers  []string
	Second   []string `json:"second_annotator"`
	Stated   string
}

func readQuestions(name string) ([]question, error) {
	var out []question
	err := each(name, func(b []byte) error {
		var q question
		if err := json.Unmarshal(b, &q); err != nil {
			return err
		}
		out = append(out, q)
		return nil
	})
	return out, err
}

// each calls f with each line of a file.
func each(name string, f func([]byte) error) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	sc := bufio.NewScanner(file)
	sc.Buffer(nil, 16<<20)
	for n := 1; sc.Scan(); n++ {
		if len(sc.Bytes()) == 0 {
			continue
		}
		if err := f(sc.Bytes()); err != nil {
			return fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return sc.Err()
}
