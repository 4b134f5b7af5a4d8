// Package say is the one catalogue of sentences. Every sentence on screen, in
// print and in a message comes from the files in text/, so that a sentence can
// be found, mended and translated in one place.
//
// A file holds lines "key = sentence with {slot}"; lines that start with #
// are comments. A key stands once over all files of a language. A literal
// line break is written \n.
package say

import (
	"bufio"
	"embed"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"sort"
	"strings"
	"sync"
)

//go:embed text
var files embed.FS

// S gives the slots of a sentence: name to value.
type S map[string]string

var slot = regexp.MustCompile(`\{([a-z][a-z0-9-]*)\}`)

// Catalogue is the sentences of one language.
type Catalogue struct{ lines map[string]string }

var english = sync.OnceValue(func() *Catalogue {
	c, err := Load(files, "text/en")
	if err != nil {
		panic(err) // a broken embedded file is caught by this package's tests
	}
	return c
})

// English gives the embedded English catalogue.
func English() *Catalogue { return english() }

// Load reads every .txt file of a folder. Errors name file and line.
func Load(fsys fs.FS, dir string) (*Catalogue, error) {
	c := &Catalogue{lines: map[string]string{}}
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		return nil, fmt.Errorf("reading the sentences: %w", err)
	}
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		b, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, fmt.Errorf("reading the sentences: %w", err)
		}
		sc := bufio.NewScanner(strings.NewReader(string(b)))
		for n := 1; sc.Scan(); n++ {
			line := strings.TrimSpace(sc.Text())
			if line == "" || line[0] == '#' {
				continue
			}
			key, text, ok := strings.Cut(line, "=")
			key = strings.TrimSpace(key)
			if !ok || key == "" {
				return nil, fmt.Errorf("%s:%d: not \"key = sentence\"", name, n)
			}
			if _, twice := c.lines[key]; twice {
				return nil, fmt.Errorf("%s:%d: %q stands twice", name, n, key)
			}
			c.lines[key] = strings.ReplaceAll(strings.TrimSpace(text), `\n`, "\n")
		}
		if err := sc.Err(); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return c, nil
}

// Has reports whether the catalogue holds the key.
func (c *Catalogue) Has(key string) bool { _, ok := c.lines[key]; return ok }

// Keys lists all keys in order.
func (c *Catalogue) Keys() []string {
	out := make([]string, 0, len(c.lines))
	for k := range c.lines {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// Slots lists the slot names of a sentence in order of appearance.
func (c *Catalogue) Slots(key string) []string {
	var out []string
	for _, m := range slot.FindAllStringSubmatch(c.lines[key], -1) {
		out = append(out, m[1])
	}
	return out
}

// Say gives the sentence with its slots filled. A key that is missing is given
// back in brackets, so that it shows and does not stop the program.
func (c *Catalogue) Say(key string, slots map[string]string) string {
	text, ok := c.lines[key]
	if !ok {
		return "[" + key + "]"
	}
	return slot.ReplaceAllStringFunc(text, func(m string) string {
		if v, ok := slots[m[1:len(m)-1]]; ok {
			return v
		}
		return m
	})
}

// T gives an English sentence; slots may be left out.
func T(key string, slots ...S) string {
	if len(slots) == 0 {
		return English().Say(key, nil)
	}
	return English().Say(key, slots[0])
}
