package pipeline

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

// A reading is one invented passage with what a teacher finds in it.
type reading struct {
	id      string
	text    string
	finds   []expected
	nothing bool // nobody in it feels anything
}

// expected is one finding of a reading.
type expected struct {
	span      nlp.Span
	quote     string
	optional  bool // may be found, need not be
	kinds     []string
	owner     string // head noun, name or pronoun; "-" where the text does not tell
	families  []string
	places    []string
	denied    bool
	pretended bool
}

// readReadings reads one file of testdata/readings. The file must open with
// comments that state its source, licence and format; an item is
//
//	[id]
//	the text, each line a paragraph
//	> quote | kinds | owner | families that fit; acceptable ones | denied, pretended, at: places
//	? the same, for what need not be found
//
// with + for ? where the finding was added after the engine had made it, and
// "> nothing" where nobody feels anything.
func readReadings(name, content string) ([]reading, error) {
	var items []reading
	var paragraphs []string
	head := map[string]bool{}
	bad := func(line int, format string, args ...any) error {
		return fmt.Errorf("%s:%d: %s", name, line, fmt.Sprintf(format, args...))
	}
	scan := bufio.NewScanner(strings.NewReader(content))
	for n := 1; scan.Scan(); n++ {
		line := scan.Text()
		switch {
		case line == "":
		case strings.HasPrefix(line, "#"):
			key, _, _ := strings.Cut(strings.TrimSpace(line[1:]), ":")
			head[key] = true
		case strings.HasPrefix(line, "[") && strings.HasSuffix(line, "]"):
			for _, key := range []string{"source", "licence", "format"} {
				if !head[key] {
					return nil, bad(n, "the head does not state the %s", key)
				}
			}
			items = append(items, reading{id: line[1 : len(line)-1]})
			paragraphs = nil
		case len(items) == 0:
			return nil, bad(n, "text before the first item")
		case line == "> nothing":
			items[len(items)-1].nothing = true
		case strings.HasPrefix(line, "> "), strings.HasPrefix(line, "? "), strings.HasPrefix(line, "+ "):
			it := &items[len(items)-1]
			e, err := readExpected(line, it.text)
			if err != nil {
				return nil, bad(n, "%v", err)
			}
			it.finds = append(it.finds, e)
		default:
			it := &items[len(items)-1]
			if it.nothing || it.finds != nil {
				return nil, bad(n, "text after findings")
			}
			paragraphs = append(paragraphs, line)
			it.text = strings.Join(paragraphs, "\n\n")
		}
	}
	for _, it := range items {
		if it.text == "" || it.nothing == (len(it.finds) > 0) {
			return nil, fmt.Errorf("%s: %s needs a text, and either findings or nothing", name, it.id)
		}
	}
	return items, scan.Err()
}

func readExpected(line, text string) (expected, error) {
	cols := strings.Split(line[2:], " | ")
	if len(cols) != 4 && len(cols) != 5 {
		return expected{}, fmt.Errorf("a finding has 4 or 5 columns, this has %d", len(cols))
	}
	e := expected{optional: line[0] != '>', quote: cols[0], kinds: strings.Split(cols[1], "/"), owner: cols[2]}
	if strings.Count(text, e.quote) != 1 {
		return e, fmt.Errorf("%q is not in the text just once", e.quote)
	}
	e.span.Start = strings.Index(text, e.quote)
	e.span.End = e.span.Start + len(e.quote)
	for _, k := range e.kinds {
		if !slices.Contains([]string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation}, k) {
			return e, fmt.Errorf("no kind of cue is called %q", k)
		}
	}
	for f := range strings.FieldsFuncSeq(cols[3], func(r rune) bool { return strings.ContainsRune(",; ", r) }) {
		if !slices.Contains(nlp.Families, f) {
			return e, fmt.Errorf("no family is called %q", f)
		}
		e.families = append(e.families, f)
	}
	if len(cols) == 5 {
		for f := range strings.FieldsFuncSeq(cols[4], func(r rune) bool { return strings.ContainsRune(",; ", r) }) {
			switch place := strings.TrimPrefix(f, "at:"); {
			case place == "":
			case f == "denied":
				e.denied = true
			case f == "pretended":
				e.pretended = true
			case slices.Contains(nlp.Places, place):
				e.places = append(e.places, place)
			default:
				return e, fmt.Errorf("%q is neither a flag nor a place", f)
			}
		}
	}
	return e, nil
}

// loadReadings gives the items of testdata/readings by file name without its
// ending, which is their category.
func loadReadings(t *testing.T) (names []string, by map[string][]reading) {
	t.Helper()
	files, err := filepath.Glob("testdata/readings/*.txt")
	require.NoError(t, err)
	sort.Strings(files)
	by = map[string][]reading{}
	ids := map[string]bool{}
	for _, f := range files {
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		items, err := readReadings(f, string(b))
		require.NoError(t, err)
		name := strings.TrimSuffix(filepath.Base(f), ".txt")
		for _, it := range items {
			require.False(t, ids[it.id], "%s is used twice", it.id)
			require.True(t, strings.HasPrefix(it.id, name+"-"), "%s lies in %s", it.id, f)
			ids[it.id] = true
		}
		names = append(names, name)
		by[name] = items
	}
	return names, by
}

// The passages are as many and as wide as they are meant to be: every family,
// every place, every kind, denied and pretended ones.
func TestReadingsAreBroad(t *testing.T) {
	names, by := loadReadings(t)
	seen := map[string]int{}
	others := 0
	for _, name := range names {
		if slices.Contains(nlp.Families, name) {
			require.GreaterOrEqual(t, len(by[name]), 15, name)
		} else {
			others += len(by[name])
		}
		for _, it := range by[name] {
			for _, e := range it.finds {
				for _, list := range [][]string{e.kinds, e.places, e.families[:1]} {
					for _, x := range list {
						seen[x]++
					}
				}
				if e.denied {
					seen["denied"]++
				}
				if e.pretended {
					seen["pretended"]++
				}
			}
			if it.nothing {
				seen["nothing"]++
			}
		}
	}
	require.GreaterOrEqual(t, others, 250)
	for _, x := range slices.Concat(nlp.Families, nlp.Places,
		[]string{nlp.Named, nlp.Body, nlp.FaceVoice, nlp.Action, nlp.Speech, nlp.Situation, "denied", "pretended", "nothing"}) {
		require.NotZero(t, seen[x], "no passage shows %s", x)
	}
}

func TestReadingsFileIsChecked(t *testing.T) {
	const head = "# source: x\n# licence: x\n# format: x\n"
	for _, c := range []struct{ content, say string }{
		{"[a-1]\nHe wept.\n> nothing\n", "does not state the source"},
		{head + "He wept.\n", "before the first item"},
		{head + "[a-1]\nHe wept.\n", "needs a text"},
		{head + "[a-1]\nHe wept.\n> wept | body | he\n", "columns"},
		{head + "[a-1]\nHe wept.\n> slept | body | he | sadness\n", "not in the text just once"},
		{head + "[a-1]\nHe wept.\n> wept | bodily | he | sadness\n", "no kind"},
		{head + "[a-1]\nHe wept.\n> wept | body | he | woe\n", "no family"},
		{head + "[a-1]\nHe wept.\n> wept | body | he | sadness | at: nose\n", "neither a flag nor a place"},
		{head + "[a-1]\nHe wept.\n> nothing\nAnd slept.\n", "after findings"},
	} {
		_, err := readReadings("x.txt", c.content)
		require.ErrorContains(t, err, c.say)
	}
	items, err := readReadings("x.txt", head+"[a-1]\nHe ran.\nHe wept.\n? wept | body/action | he | sadness; joy | denied; at: eyes, face\n")
	require.NoError(t, err)
	require.Equal(t, []reading{{id: "a-1", text: "He ran.\n\nHe wept.", finds: []expected{{
		span: nlp.Span{Start: 12, End: 16}, quote: "wept", optional: true, kinds: []string{"body", "action"}, owner: "he",
		families: []string{"sadness", "joy"}, places: []string{"eyes", "face"}, denied: true}}}}, items)
}
