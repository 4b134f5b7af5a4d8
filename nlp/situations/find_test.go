package situations

import (
	"bytes"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"feltpage/app/say"
	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/clauses"
	"feltpage/nlp/cues"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

var (
	tagger  = sync.OnceValue(func() *tag.Tagger { return must(tag.Load()) })
	lexicon = sync.OnceValue(func() *cues.Lexicon { return must(cues.Load()) })
	model   = sync.OnceValue(func() *Model { return must(Load()) })
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

type reading struct {
	d      *nlp.Document
	cast   []nlp.Character
	quotes []nlp.Quote
	shown  []nlp.Cue
}

func read(text string) reading {
	d := segment.Split(text)
	tagger().Tag(d)
	clauses.Parse(d)
	cast, q := characters.Resolve(d, quotes.Find(d))
	return reading{d, cast, q, lexicon().Find(d, cast, q)}
}

func (r reading) find() []nlp.Cue { return model().Find(r.d, r.cast, r.quotes, r.shown) }

// of gives the situation cues of the character of a name.
func (r reading) of(name string) (out []nlp.Cue) {
	for _, c := range r.find() {
		if r.cast[c.Character].Name == name {
			out = append(out, c)
		}
	}
	return out
}

// Invented sentences: most events that move somebody are found with a fitting
// family, and what moves nobody is passed over. Those that fail are listed.
func TestInventedEvents(t *testing.T) {
	b, err := os.ReadFile("testdata/events.txt")
	require.NoError(t, err)
	var moved, fit, quiet, passed int
	for _, line := range strings.Split(string(b), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		f := strings.Split(line, " | ")
		require.Len(t, f, 3, line)
		got := read(f[1]).of(f[0])
		if f[2] == "-" {
			quiet++
			if len(got) == 0 {
				passed++
			} else {
				t.Logf("moves nobody: %s: %v", f[1], got[0].Feelings)
			}
			continue
		}
		moved++
		ok := false
		for _, c := range got {
			ok = ok || strings.Contains(" "+f[2]+" ", " "+c.Feelings[0].Family+" ")
		}
		if ok {
			fit++
		} else {
			var said []nlp.Weight
			for _, c := range got {
				said = append(said, c.Feelings...)
			}
			t.Logf("not found: %s: %v, not %s", f[1], said, f[2])
		}
	}
	t.Logf("fitting %d of %d; quiet %d of %d", fit, moved, passed, quiet)
	require.GreaterOrEqual(t, float64(fit), 0.6*float64(moved))
	require.GreaterOrEqual(t, float64(passed), 0.9*float64(quiet))
}

func TestShownFeelingLeavesNothingToGuess(t *testing.T) {
	r := read("Juniper lived by the sea. A wolf sprang at Juniper. Juniper was afraid. Juniper ran home.")
	require.NotEmpty(t, r.shown)
	require.Empty(t, r.of("Juniper"))
}

// Every cue keeps what is promised of it.
func checkCues(t testing.TB, r reading, got []nlp.Cue) {
	catalogue := say.English()
	text := r.d.Text
	for i, c := range got {
		require.Equal(t, nlp.Situation, c.Kind)
		require.True(t, c.Character >= 0 && c.Character < len(r.cast))
		require.NotNil(t, c.Event)
		for _, s := range []nlp.Span{c.Span, *c.Event} {
			require.True(t, s.Start >= 0 && s.Start < s.End && s.End <= len(text), "%v of %d", s, len(text))
			if utf8.ValidString(text) {
				require.True(t, utf8.ValidString(s.Of(text)))
			}
		}
		require.NotEmpty(t, c.Feelings)
		require.LessOrEqual(t, c.Feelings[0].Weight, heaviest)
		require.True(t, sort.SliceIsSorted(c.Feelings, func(a, b int) bool { return c.Feelings[a].Weight > c.Feelings[b].Weight }))
		require.True(t, catalogue.Has(c.Reason.Code), c.Reason.Code)
		if i > 0 {
			require.LessOrEqual(t, got[i-1].Span.Start, c.Span.Start)
		}
	}
}

func TestCuesOfTheShelf(t *testing.T) {
	files, err := filepath.Glob("../../corpus/shelf/stories/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	n := 0
	for _, f := range files[:min(6, len(files))] {
		b, err := os.ReadFile(f)
		require.NoError(t, err)
		r := read(string(b))
		got := r.find()
		checkCues(t, r, got)
		require.Equal(t, got, r.find(), "the same text is read the same")
		n += len(got)
	}
	require.Positive(t, n)
}

// What Find adds up in parts is what Evidence lists word by word.
func TestSumsAreTheEvidence(t *testing.T) {
	b, err := os.ReadFile(must(filepath.Glob("../../corpus/shelf/stories/*.txt"))[0])
	require.NoError(t, err)
	x, m := read(string(b)), model()
	r := Read(x.d, x.cast, x.quotes, x.shown, m.Number)
	scenes, strands := m.add(r)
	for s := range x.d.Sentences {
		for _, who := range r.People(s) {
			a, b := m.Shares(r.Evidence(s, who)), m.shares(m.about(r, s, who, scenes, strands))
			require.InDeltaSlice(t, a, b, 1e-4)
		}
	}
}

func FuzzFind(f *testing.F) {
	f.Add("A wolf sprang at Juniper. Juniper ran. \"Moss!\" said Juniper.")
	f.Add("\"\"\"he lost\xff\xfe his—child?!")
	f.Add(strings.Repeat("the king's son's dog bit him and ", 40))
	f.Fuzz(func(t *testing.T, text string) {
		r := read(text)
		checkCues(t, r, r.find())
	})
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-z~' ]{1,12}`), 0, 20, rapid.ID[string]).Draw(t, "words")
		sort.Strings(words)
		bias := rapid.SliceOfN(rapid.Float64Range(-9, 9), len(Classes), len(Classes)).Draw(t, "bias")
		m := NewModel(1.0/32, bias, words, func(int, Slot) []float64 {
			return rapid.SliceOfN(rapid.Float64Range(-9, 9), len(Classes), len(Classes)).Draw(t, "say")
		})
		var a, b bytes.Buffer
		if err := m.Encode(&a); err != nil {
			t.Fatal(err)
		}
		if err := m.Encode(&b); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Fatal("not the same bytes", err)
		}
		got, err := Decode(&a)
		if err != nil {
			t.Fatal(err)
		}
		if len(got.words) != len(m.words) || !bytes.Equal(asBytes(got.say), asBytes(m.say)) || got.unit != m.unit {
			t.Fatal("not what was written")
		}
	})
}

func asBytes(v []int8) []byte {
	out := make([]byte, len(v))
	for i, x := range v {
		out[i] = byte(x)
	}
	return out
}

func TestBrokenWeights(t *testing.T) {
	var b bytes.Buffer
	m := NewModel(1.0/32, make([]float64, len(Classes)), []string{"die", "wolf"}, func(int, Slot) []float64 { return make([]float64, len(Classes)) })
	require.NoError(t, m.Encode(&b))
	whole := b.Bytes()
	for name, bad := range map[string][]byte{
		"empty": nil, "not gzip": []byte("wolf"), "cut short": whole[:len(whole)/2], "no checksum": whole[:len(whole)-4],
	} {
		_, err := Decode(bytes.NewReader(bad))
		require.Error(t, err, name)
	}
	for i := range whole {
		bad := bytes.Clone(whole)
		bad[i] ^= 0x55
		if m, err := Decode(bytes.NewReader(bad)); err == nil {
			require.Equal(t, 2, m.Len(), "byte %d", i) // a byte of the gzip header that means nothing
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(embedded[:min(2000, len(embedded))])
	f.Fuzz(func(_ *testing.T, b []byte) { _, _ = Decode(bytes.NewReader(b)) })
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		must(Load())
	}
}

func BenchmarkFind(b *testing.B) {
	text := string(must(os.ReadFile(must(filepath.Glob("../../corpus/shelf/stories/*.txt"))[0])))
	r := read(text)
	words := len(strings.Fields(text))
	for b.Loop() {
		r.find()
	}
	b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
}
