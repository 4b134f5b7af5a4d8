package clauses

import (
	"strings"
	"testing"

	"feltpage/nlp/opendata"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

// page is invented.
const page = `"It is cold," said Moss to his cousin, and he pulled the old coat closer round him. They walked on along the shore until the lamps of the bakery were lit. Juniper, who had not slept, was too tired to speak; her knees shook, and she felt very lonely.

When the grandmother saw them coming she ran out, wiping her hands. "You poor things!" she cried. "Come in and sit by the oven." The boy, shivering, sat down and wept.

`

func BenchmarkStages(b *testing.B) {
	text := strings.Repeat(page, 200)
	words := len(strings.Fields(text))
	tagger, err := tag.Load()
	if err != nil {
		b.Fatal(err)
	}
	rate := func(b *testing.B) {
		b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
	}
	b.Run("segment", func(b *testing.B) {
		for b.Loop() {
			segment.Split(text)
		}
		rate(b)
	})
	d := segment.Split(text)
	b.Run("tag", func(b *testing.B) {
		for b.Loop() {
			tagger.Tag(d)
		}
		rate(b)
	})
	b.Run("clauses", func(b *testing.B) {
		for b.Loop() {
			Parse(d)
		}
		rate(b)
	})
	b.Run("all", func(b *testing.B) {
		for b.Loop() {
			d := segment.Split(text)
			tagger.Tag(d)
			Parse(d)
		}
		rate(b)
	})
}

// BenchmarkStories runs the three stages over the 232 development stories.
func BenchmarkStories(b *testing.B) {
	texts := opendata.Stories(b)
	words := 0
	for _, text := range texts {
		words += len(strings.Fields(text))
	}
	tagger, err := tag.Load()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for _, text := range texts {
			d := segment.Split(text)
			tagger.Tag(d)
			Parse(d)
		}
	}
	b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
}
