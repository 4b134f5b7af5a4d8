package pipeline

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"feltpage/nlp/opendata"
)

func countWords(texts ...string) int {
	n := 0
	for _, t := range texts {
		n += len(strings.Fields(t))
	}
	return n
}

// BenchmarkStories reads all development stories with the full engine on one
// core. Its words/s stand beside those of BenchmarkProse in nlp/tag and of
// testdata/measure/wink.mjs, run in the same minute.
func BenchmarkStories(b *testing.B) {
	texts := opendata.Stories(b)
	e, err := New()
	if err != nil {
		b.Fatal(err)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	words := countWords(texts...)
	for b.Loop() {
		for _, t := range texts {
			if _, err := e.Analyze(context.Background(), t); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
}

// BenchmarkBothCores reads the same stories on all cores.
func BenchmarkBothCores(b *testing.B) {
	texts := opendata.Stories(b)
	e, err := New()
	if err != nil {
		b.Fatal(err)
	}
	words := countWords(texts...)
	for b.Loop() {
		next := make(chan string)
		done := make(chan error)
		for range runtime.GOMAXPROCS(0) {
			go func() {
				var first error
				for t := range next {
					if _, err := e.Analyze(context.Background(), t); err != nil && first == nil {
						first = err
					}
				}
				done <- first
			}()
		}
		for _, t := range texts {
			next <- t
		}
		close(next)
		for range runtime.GOMAXPROCS(0) {
			if err := <-done; err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
}

// BenchmarkLength reads one text of growing length: words/s must not fall.
func BenchmarkLength(b *testing.B) {
	all := strings.Fields(strings.Join(opendata.Stories(b), " \n\n "))
	e, err := New()
	if err != nil {
		b.Fatal(err)
	}
	for _, n := range []int{10_000, 100_000, 1_000_000} {
		var text strings.Builder
		for i := 0; i < n; i++ {
			text.WriteString(all[i%len(all)])
			text.WriteByte(" \n"[b2i(i%200 == 199)])
			if i%200 == 199 {
				text.WriteByte('\n')
			}
		}
		b.Run(fmt.Sprintf("words=%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := e.Analyze(context.Background(), text.String()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
		})
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// BenchmarkStart is the time until the engine is ready.
func BenchmarkStart(b *testing.B) {
	for b.Loop() {
		if _, err := New(); err != nil {
			b.Fatal(err)
		}
	}
}
