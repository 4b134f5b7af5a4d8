package tag

import (
	"bufio"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/segment"

	"github.com/jdkato/prose/v2"
)

// stories gives the texts of the development stories, or skips: they are in
// FELTPAGE_SHARED or beside the repository.
func stories(t testing.TB) []string {
	t.Helper()
	root := os.Getenv("FELTPAGE_SHARED")
	if root == "" {
		root = filepath.Join("..", "..", "..", "shared")
	}
	files, _ := filepath.Glob(filepath.Join(root, "data", "fairytale-dev", "stories", "*.jsonl"))
	if len(files) == 0 {
		t.Skip("the development stories are not here (data/fairytale-dev)")
	}
	var out []string
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		var story []string
		sc := bufio.NewScanner(f)
		sc.Buffer(nil, 1<<24)
		for sc.Scan() {
			var section struct{ Text string }
			if err := json.Unmarshal(sc.Bytes(), &section); err != nil {
				t.Fatal(err)
			}
			story = append(story, section.Text)
		}
		f.Close()
		out = append(out, strings.Join(story, "\n\n"))
	}
	return out
}

// prepared cuts a sentence as we do and writes it so that prose cuts it alike.
func prepared(d *nlp.Document, s nlp.Sentence) []string {
	var out []string
	for i := s.First; i < s.End; i++ {
		w := plain(d, i)
		if t := d.Tokens[i].Tag; t == "``" || t == "''" {
			w = t
		}
		out = append(out, w)
	}
	return out
}

// The oracle is prose/v2 with the same weights. It is given one sentence at a
// time, and only words that occur once in it are compared, because prose
// shares one token between equal words.
func TestSameTagsAsProse(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	texts := stories(t)
	tagger, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	empty, err := prose.NewDocument("a", prose.WithSegmentation(false), prose.WithExtraction(false))
	if err != nil {
		t.Fatal(err)
	}
	model := prose.UsingModel(empty.Model)
	words, skipped, differ := 0, 0, map[string]int{}
	for n := 0; n < len(texts); n += 8 {
		d := segment.Split(texts[n])
		var s state
		for _, sent := range d.Sentences {
			in := prepared(d, sent)
			doc, err := prose.NewDocument(strings.Join(in, " "), model, prose.WithSegmentation(false), prose.WithExtraction(false))
			if err != nil {
				t.Fatal(err)
			}
			theirs := doc.Tokens()
			if len(theirs) != len(in) {
				skipped++
				continue
			}
			s.start(tagger.table, len(in))
			for i, w := range in {
				s.add(tagger.table, w, d.Tokens[sent.First+i].Lower, "")
			}
			s.tag(tagger.table)
			count := map[string]int{}
			for _, w := range in {
				count[w]++
			}
			for i, w := range in {
				if count[w] != 1 || theirs[i].Text != w {
					continue
				}
				words++
				if ours := tagger.table.tags[s.words[i+2].tag]; ours != theirs[i].Tag {
					differ[w+" ours "+ours+" theirs "+theirs[i].Tag]++
				}
			}
		}
	}
	n := 0
	for d, c := range differ {
		n += c
		t.Logf("%d %s", c, d)
	}
	t.Logf("%d of %d words differ; %d sentences cut differently", n, words, skipped)
}
