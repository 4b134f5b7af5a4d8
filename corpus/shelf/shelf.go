// Package shelf holds the starter stories: old tales from many places, retold
// in this project's own words and free for any use (CC0-1.0). Each lies in a
// readable file whose header says which tale it is, where it was told and how
// hard it is; a file without a full header is refused.
package shelf

import (
	"bufio"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"feltpage/corpus"
)

//go:embed stories/*.txt
var files embed.FS

// Tale is a starter story with what its header says.
type Tale struct {
	corpus.Story
	Retells string // which old tale it retells, one name per tale
	Region  string // where that tale was told
	Grade   int    // Flesch-Kincaid grade of the telling, rounded, at least 1; a test holds it to the text
	Wonder  bool   // magic, talking animals or gods; false for what could have happened
}

// Errors of a story file; they come wrapped with file name and line.
var (
	ErrHeader = errors.New("header line missing or not understood")
	ErrText   = errors.New("story text missing or not UTF-8")
)

// Tales gives all starter stories, easiest first by their headers, then by
// title.
func Tales() ([]Tale, error) { return load(files, "stories") }

// Stories gives the same stories without the header's extras.
func Stories() ([]corpus.Story, error) {
	tales, err := Tales()
	if err != nil {
		return nil, err
	}
	out := make([]corpus.Story, len(tales))
	for i, t := range tales {
		out[i] = t.Story
	}
	return out, nil
}

func load(fsys fs.FS, dir string) ([]Tale, error) {
	names, err := fs.Glob(fsys, path.Join(dir, "*.txt"))
	if err != nil {
		return nil, fmt.Errorf("listing the shelf: %w", err)
	}
	var out []Tale
	for _, name := range names {
		b, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, fmt.Errorf("reading the shelf: %w", err)
		}
		t, err := parse(name, string(b))
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Grade != out[j].Grade {
			return out[i].Grade < out[j].Grade
		}
		return out[i].Title < out[j].Title
	})
	return out, nil
}

// fields are the header lines a file must have, "# key: value".
var fields = []string{"title", "origin", "tale", "region", "licence", "grade", "wonder"}

// parse reads one story file: header lines that start with #, a blank line,
// then the text. The text excludes the header.
func parse(name, content string) (Tale, error) {
	if !utf8.ValidString(content) {
		return Tale{}, fmt.Errorf("%s: %w", name, ErrText)
	}
	head := map[string]string{}
	sc := bufio.NewScanner(strings.NewReader(content))
	read := 0
	for n := 1; sc.Scan(); n++ {
		line := sc.Text()
		if !strings.HasPrefix(line, "#") {
			break
		}
		read += len(line) + 1
		key, value, ok := strings.Cut(strings.TrimSpace(line[1:]), ":")
		value = strings.TrimSpace(value)
		if !ok || value == "" {
			return Tale{}, fmt.Errorf("%s:%d: %w", name, n, ErrHeader)
		}
		head[strings.ToLower(key)] = value
	}
	if err := sc.Err(); err != nil {
		return Tale{}, fmt.Errorf("%s: %w", name, err)
	}
	for _, f := range fields {
		if head[f] == "" {
			return Tale{}, fmt.Errorf("%s: %w: no %q", name, ErrHeader, f)
		}
	}
	grade, err := strconv.Atoi(head["grade"])
	if err != nil {
		return Tale{}, fmt.Errorf("%s: %w: grade %q", name, ErrHeader, head["grade"])
	}
	if w := head["wonder"]; w != "yes" && w != "no" {
		return Tale{}, fmt.Errorf("%s: %w: wonder %q is neither yes nor no", name, ErrHeader, w)
	}
	text := strings.TrimSpace(content[min(read, len(content)):])
	if text == "" {
		return Tale{}, fmt.Errorf("%s: %w", name, ErrText)
	}
	return Tale{
		Story: corpus.Story{
			ID:       strings.TrimSuffix(path.Base(name), ".txt"),
			Title:    head["title"],
			Language: "en",
			Text:     text,
			Hash:     corpus.Hash(text),
			Origin:   corpus.Origin{Source: head["origin"], Licence: head["licence"]},
			Sections: corpus.Split(text),
		},
		Retells: head["tale"],
		Region:  head["region"],
		Grade:   grade,
		Wonder:  head["wonder"] == "yes",
	}, nil
}
