package characters_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/quotes"
)

// FuzzResolve puts any bytes through all stages up to the cast: nothing may
// panic, every span must lie in the text, and whole characters stay whole.
func FuzzResolve(f *testing.F) {
	for _, r := range readings {
		f.Add(parse(r.text).text)
	}
	f.Add("\"'‘“”’«»—")
	f.Add("He said. She said. They. It. I you we. His her's. The the of of and and.")
	f.Add("Mr. and Mrs. and Dr. of the King of the Queen's mother's son's wife said \"I")
	f.Add("\xff\xfe She \x80said “\xc3")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<14 {
			return
		}
		d, cs, qs := analyse(text)
		sound(t, d, cs, qs)
	})
}

// sound fails where a cast cannot be right whatever the text says.
func sound(t *testing.T, d *nlp.Document, cs []nlp.Character, qs []nlp.Quote) {
	t.Helper()
	valid := utf8.ValidString(d.Text)
	for i, c := range cs {
		if c.ID != i || c.Name == "" || len(c.Mentions) == 0 {
			t.Fatalf("character %d: id %d, name %q, %d mentions", i, c.ID, c.Name, len(c.Mentions))
		}
		switch c.Kind {
		case nlp.Person, nlp.Animal, nlp.Being, nlp.Thing, nlp.Group:
		default:
			t.Fatalf("kind %q", c.Kind)
		}
		last := -1
		for _, m := range c.Mentions {
			if m.Span.Start < last || m.Span.Start >= m.Span.End || m.Span.End > len(d.Text) {
				t.Fatalf("span %v of %q after %d", m.Span, c.Name, last)
			}
			last = m.Span.Start
			if valid && !utf8.ValidString(m.Span.Of(d.Text)) {
				t.Fatalf("span %v cuts a character", m.Span)
			}
			if m.First < 0 || m.First > m.Head || m.Head >= m.End || m.End > len(d.Tokens) {
				t.Fatalf("tokens %d %d %d of %d", m.First, m.Head, m.End, len(d.Tokens))
			}
		}
	}
	for _, q := range qs {
		if q.Speaker < nlp.None || q.Speaker >= len(cs) || q.Listener < nlp.None || q.Listener >= len(cs) {
			t.Fatalf("speaker %d, listener %d of %d", q.Speaker, q.Listener, len(cs))
		}
	}
}

// TestSameTwice reads long stories twice: the same input gives the same cast.
func TestSameTwice(t *testing.T) {
	text := longText(2000)
	_, cs, qs := analyse(text)
	_, cs2, qs2 := analyse(text)
	if !reflect.DeepEqual(cs, cs2) || !reflect.DeepEqual(qs, qs2) {
		t.Error("two readings of one text differ")
	}
}

// TestDoesNotChangeInput: the document and the quotes given stay as they are.
func TestDoesNotChangeInput(t *testing.T) {
	d, _, _ := analyse(longText(200))
	q := quotes.Find(d)
	before := append([]nlp.Quote(nil), q...)
	characters.Resolve(d, q)
	if !reflect.DeepEqual(q, before) {
		t.Error("the quotes given were changed")
	}
}

// TestDevelopmentStories reads every development tale; each must be sound and
// most must have somebody who speaks.
func TestDevelopmentStories(t *testing.T) {
	dir := os.Getenv("FELTPAGE_SHARED")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared")
	}
	files, _ := filepath.Glob(filepath.Join(dir, "data", "fairytale-dev", "stories", "*.jsonl"))
	if len(files) == 0 {
		t.Skip("the development tales are not here")
	}
	if testing.Short() {
		files = files[:20]
	}
	spoken, told := 0, 0
	for _, f := range files {
		d, cs, qs := analyse(readTale(t, f))
		sound(t, d, cs, qs)
		for _, q := range qs {
			spoken++
			if q.Speaker != nlp.None {
				told++
			}
		}
	}
	if told*10 < spoken*9 {
		t.Errorf("only %d of %d quotes have a speaker", told, spoken)
	}
}

// readTale joins the sections of one tale.
func readTale(t *testing.T, path string) string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var b strings.Builder
	dec := json.NewDecoder(f)
	for dec.More() {
		var s struct{ Text string }
		if err := dec.Decode(&s); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		b.WriteString(s.Text + "\n\n")
	}
	return b.String()
}

func longText(n int) string {
	var b strings.Builder
	for i := 0; i < n; i++ {
		b.WriteString(parse(readings[i%len(readings)].text).text)
		b.WriteString("\n\n")
	}
	return b.String()
}

// BenchmarkResolve reports quotes and cast together; SetBytes gives the speed
// in bytes of text.
func BenchmarkResolve(b *testing.B) {
	d, _, _ := analyse(longText(2000))
	b.SetBytes(int64(len(d.Text)))
	b.ResetTimer()
	for b.Loop() {
		characters.Resolve(d, quotes.Find(d))
	}
	b.ReportMetric(float64(len(d.Tokens))*float64(b.N)/b.Elapsed().Seconds(), "tokens/s")
}
