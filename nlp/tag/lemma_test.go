package tag

import (
	"bufio"
	"os"
	"sort"
	"strings"
	"testing"

	"feltpage/nlp/lemma"
	"feltpage/nlp/opendata"
	"feltpage/nlp/segment"
)

// wordnetIndex reads the base forms of one part of speech from WordNet 3.0.
func wordnetIndex(t *testing.T, name string) map[string]bool {
	t.Helper()
	f, err := os.Open("/usr/share/wordnet/index." + name)
	if err != nil {
		t.Skip("WordNet is not here (Debian package wordnet-base)")
	}
	defer f.Close()
	out := map[string]bool{}
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<20)
	for sc.Scan() {
		w, _, _ := strings.Cut(sc.Text(), " ")
		out[w] = true
	}
	return out
}

// TestLemmasInWordNet takes every inflected word of the development stories
// (plurals, verb forms, comparatives) that changes into its lemma, and asks
// whether WordNet's index has that lemma under the same part of speech. What
// is not there are compounds with hyphens, old spellings, and tags that are
// wrong; -v lists the most frequent.
func TestLemmasInWordNet(t *testing.T) {
	index := map[byte]map[string]bool{'V': wordnetIndex(t, "verb"), 'N': wordnetIndex(t, "noun"), 'J': wordnetIndex(t, "adj"), 'R': wordnetIndex(t, "adv")}
	texts := opendata.Stories(t)
	tagger, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	forms, known, missing := 0, 0, map[string]int{}
	for _, text := range texts {
		d := segment.Split(text)
		tagger.Tag(d)
		for _, tok := range d.Tokens {
			in := index[tok.Tag[0]]
			if in == nil || tok.Lemma == tok.Lower || len(tok.Tag) < 3 || tok.Tag == "NNP" || tok.Tag == "NNPS" || strings.HasPrefix(tok.Lower, "'") || tok.Lower == "n't" {
				continue
			}
			forms++
			if in[tok.Lemma] || tok.Tag[0] == 'R' && index['J'][tok.Lemma] {
				known++
			} else {
				missing[tok.Lower+"/"+tok.Tag+" "+tok.Lemma]++
			}
		}
	}
	var names []string
	for m := range missing {
		names = append(names, m)
	}
	sort.Slice(names, func(a, b int) bool {
		if missing[names[a]] != missing[names[b]] {
			return missing[names[a]] > missing[names[b]]
		}
		return names[a] < names[b]
	})
	share := float64(known) / float64(forms)
	t.Logf("%d of %d inflected words have a lemma that WordNet knows (%.2f %%); not known, most frequent: %s", known, forms, 100*share, strings.Join(names[:min(len(names), 60)], "; "))
	if share < 0.99 {
		t.Errorf("only %.4f of the lemmas are known", share)
	}
}

func BenchmarkLemma(b *testing.B) {
	words := [][2]string{{"walked", "VBD"}, {"wept", "VBD"}, {"trembling", "VBG"}, {"knees", "NNS"}, {"wolves", "NNS"}, {"the", "DT"}, {"boy", "NN"}, {"happier", "JJR"}}
	n := 0
	for b.Loop() {
		for _, w := range words {
			lemma.Of(w[0], w[1])
		}
		n += len(words)
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "words/s")
}
