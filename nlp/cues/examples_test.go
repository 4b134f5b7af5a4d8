package cues

import (
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/clauses"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

var tagger = sync.OnceValues(tag.Load)

// read runs the stages before this one and this one.
func read(t testing.TB, lx *Lexicon, text string) ([]nlp.Cue, []nlp.Character, *nlp.Document) {
	t.Helper()
	tg, err := tagger()
	require.NoError(t, err)
	d := segment.Split(text)
	tg.Tag(d)
	clauses.Parse(d)
	cast, q := characters.Resolve(d, quotes.Find(d))
	return lx.Find(d, cast, q), cast, d
}

// examples gives the sentences of a row, {} filled with each of its words.
func examples(r *row, frames []string) []string {
	var out []string
	for _, f := range frames {
		if !strings.Contains(f, "{}") {
			out = append(out, f)
			continue
		}
		first, _, _ := strings.Cut(r.pattern, " ")
		for _, w := range strings.Split(first, "|") {
			w, _, _ = strings.Cut(strings.TrimPrefix(w, "="), "/")
			s := strings.ReplaceAll(f, "{}", w)
			if strings.HasPrefix(f, "\"{}") || strings.HasPrefix(f, "{}") {
				i := strings.Index(s, w)
				s = s[:i] + strings.ToUpper(s[i:i+1]) + s[i+1:]
			}
			out = append(out, s)
		}
	}
	return out
}

func TestEveryRowHitsItsExampleAndMissesItsCounterexample(t *testing.T) {
	lx, err := Load()
	require.NoError(t, err)
	for _, r := range shippedRows(t) {
		if r.class == classStop {
			continue
		}
		if len(r.hits) == 0 {
			t.Errorf("%s:%d: no example", r.file, r.line)
		}
		for _, s := range examples(&r, r.hits) {
			cues, _, d := read(t, lx, s)
			if !hit(cues, &r) {
				t.Errorf("%s:%d: %q is not hit by %q%s", r.file, r.line, s, r.name(), tags(d, cues))
			}
		}
		for _, s := range examples(&r, r.misses) {
			cues, _, d := read(t, lx, s)
			if hit(cues, &r) {
				t.Errorf("%s:%d: %q is hit by %q%s", r.file, r.line, s, r.name(), tags(d, cues))
			}
		}
	}
}

func hit(cues []nlp.Cue, r *row) bool {
	for _, c := range cues {
		if c.Rule == r.name() && !c.Denied {
			return true
		}
	}
	return false
}

func tags(d *nlp.Document, cues []nlp.Cue) string {
	var b strings.Builder
	b.WriteString(" [")
	for i, t := range d.Tokens {
		b.WriteString(" " + d.Word(i) + "/" + t.Tag)
	}
	b.WriteString(" ] found")
	for _, c := range cues {
		b.WriteString(" " + c.Rule + ";")
	}
	return b.String()
}
