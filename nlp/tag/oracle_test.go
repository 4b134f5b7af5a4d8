package tag

import (
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/opendata"
	"feltpage/nlp/segment"

	"github.com/jdkato/prose/v2"
)

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

// sharedModel gives prose's model, loaded once.
func sharedModel(t testing.TB) prose.DocOpt {
	t.Helper()
	empty, err := prose.NewDocument("a", prose.WithSegmentation(false), prose.WithExtraction(false))
	if err != nil {
		t.Fatal(err)
	}
	return prose.UsingModel(empty.Model)
}

// The oracle is prose/v2 v2.0.0 with the same weights, before our own second
// pass. It is given one sentence at a time, and only words that occur once in
// it are compared, because prose shares one token between equal words.
// Sentences that it cuts into other tokens are left out and counted.
//
// What may differ: prose adds floating-point numbers and takes the first of
// equal sums, both in the order of a map, so that a near tie may fall now this
// way, now that; and it gives a lone hyphen "-" a tag of its own, by rule.
func TestSameTagsAsProse(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	texts := opendata.Stories(t)
	tagger, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	model := sharedModel(t)
	words, sentences, skipped, differ := 0, 0, 0, map[string]int{}
	for n := 0; n < len(texts); n += 4 {
		d := segment.Split(texts[n])
		var s state
		for _, sent := range d.Sentences {
			in := prepared(d, sent)
			doc, err := prose.NewDocument(strings.Join(in, " "), model, prose.WithSegmentation(false), prose.WithExtraction(false))
			if err != nil {
				t.Fatal(err)
			}
			sentences++
			theirs := doc.Tokens()
			if !sameWords(in, theirs) {
				skipped++
				continue
			}
			s.start(tagger.table, len(in))
			for i, w := range in {
				lower := d.Tokens[sent.First+i].Lower
				if w == "``" || w == "''" {
					lower = w
				}
				s.add(tagger.table, w, lower, "")
			}
			s.tag(tagger.table)
			count := map[string]int{}
			for _, w := range in {
				count[w]++
			}
			for i, w := range in {
				if count[w] != 1 {
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
	t.Logf("%d of %d words differ; %d of %d sentences are cut differently and left out", n, words, skipped, sentences)
	if words == 0 || n*1000 > words {
		t.Errorf("more than one word in a thousand differs")
	}
}

func sameWords(in []string, theirs []prose.Token) bool {
	if len(in) != len(theirs) {
		return false
	}
	for i, w := range in {
		if theirs[i].Text != w {
			return false
		}
	}
	return true
}

// TestMended counts how often the second pass changes a tag, so that whoever
// adds a rule sees how far it reaches.
func TestMended(t *testing.T) {
	texts := opendata.Stories(t)
	tagger, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	words, changed := 0, map[string]int{}
	n := 0
	for i := 0; i < len(texts); i += 4 {
		d := segment.Split(texts[i])
		raw := segment.Split(texts[i])
		tagger.Tag(d)
		tagger.weigh(raw)
		for j := range d.Tokens {
			words++
			if a, b := raw.Tokens[j].Tag, d.Tokens[j].Tag; a != b {
				n++
				changed[a+" to "+b]++
			}
		}
	}
	for c, k := range changed {
		if k*2000 > words {
			t.Logf("%6d %s", k, c)
		}
	}
	t.Logf("%d of %d tags mended (%.1f %%)", n, words, 100*float64(n)/float64(words))
	if n == 0 || n*10 > words {
		t.Error("the second pass mends nothing, or more than a tenth of all tags")
	}
}

// The two benchmarks tag the same stories: ours with cutting, mending and
// lemmas, prose's with cutting, without segmentation and extraction.
func BenchmarkStories(b *testing.B) {
	texts := opendata.Stories(b)
	words := 0
	for _, t := range texts {
		words += len(strings.Fields(t))
	}
	rate := func(b *testing.B) {
		b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
	}
	b.Run("ours", func(b *testing.B) {
		tagger, err := Load()
		if err != nil {
			b.Fatal(err)
		}
		for b.Loop() {
			for _, t := range texts {
				tagger.Tag(segment.Split(t))
			}
		}
		rate(b)
	})
	b.Run("weights-only", func(b *testing.B) {
		tagger, err := Load()
		if err != nil {
			b.Fatal(err)
		}
		var docs []*nlp.Document
		for _, t := range texts {
			docs = append(docs, segment.Split(t))
		}
		b.ResetTimer()
		for b.Loop() {
			for _, d := range docs {
				tagger.weigh(d)
			}
		}
		rate(b)
	})
	b.Run("prose", func(b *testing.B) {
		model := sharedModel(b)
		for b.Loop() {
			for _, t := range texts {
				if _, err := prose.NewDocument(t, model, prose.WithSegmentation(false), prose.WithExtraction(false)); err != nil {
					b.Fatal(err)
				}
			}
		}
		rate(b)
	})
}
