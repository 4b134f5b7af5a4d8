package pipeline

import (
	"context"
	"encoding/json"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

var engine = sync.OnceValue(func() *Engine {
	e, err := New()
	if err != nil {
		panic(err)
	}
	return e
})

const bakery = `Juniper stood at the bakery door. The wind came off the sea, and her teeth chattered.

"Grandmother," said Moss, "I am so hungry." His belly growled. The old woman laughed and gave him a warm roll.

Juniper was not afraid of the dark, but her heart pounded when the shutter banged. "Who is there?" she whispered.`

func analyze(tb testing.TB, text string) *nlp.Analysis {
	tb.Helper()
	a, err := engine().Analyze(context.Background(), text)
	require.NoError(tb, err)
	return a
}

func TestReadsAStoryEndToEnd(t *testing.T) {
	a := analyze(t, bakery)
	find := func(words string) nlp.Cue {
		for _, c := range a.Cues {
			if strings.Contains(c.Span.Of(bakery), words) {
				return c
			}
		}
		t.Fatalf("no clue holds %q", words)
		return nlp.Cue{}
	}
	name := func(c nlp.Cue) string {
		if c.Character == nlp.None {
			return ""
		}
		return a.Characters[c.Character].Name
	}
	require.Equal(t, "Juniper", name(find("teeth chattered")))
	require.Equal(t, "Moss", name(find("hungry")))
	require.True(t, find("afraid").Denied)
	require.Equal(t, "Juniper", name(find("heart pounded")))
}

// Two readings of a text are the same to the last field, whatever was read
// between them and from however many goroutines.
func TestReadingDependsOnTheTextAlone(t *testing.T) {
	bytes := func() string {
		b, err := json.Marshal(analyze(t, bakery))
		require.NoError(t, err)
		return string(b)
	}
	want := bytes()
	analyze(t, "Hans was glad. He wept. \"Woe!\" cried the giant.")
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if bytes() != want {
				t.Error("a second reading differs from the first")
			}
		})
	}
	wg.Wait()
}

func TestStopsWhenAsked(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := engine().Analyze(ctx, bakery)
	require.ErrorIs(t, err, context.Canceled)
}

// check fails when a span leaves the text or cuts a rune.
func check(t *testing.T, text string, a *nlp.Analysis) {
	t.Helper()
	valid := utf8.ValidString(text)
	border := func(i int) bool { return i == len(text) || !valid || utf8.RuneStart(text[i]) }
	ok := func(what string, s nlp.Span) {
		if s.Start < 0 || s.End < s.Start || s.End > len(text) || !border(s.Start) || !border(s.End) {
			t.Fatalf("%s: span %v of a text of %d bytes", what, s, len(text))
		}
	}
	for _, s := range a.Doc.Sentences {
		ok("sentence", s.Span)
	}
	for _, k := range a.Doc.Tokens {
		ok("token", k.Span)
	}
	for _, q := range a.Quotes {
		ok("quote", q.Span)
	}
	for _, c := range a.Characters {
		for _, m := range c.Mentions {
			ok("mention", m.Span)
		}
	}
	for _, c := range a.Cues {
		ok("cue", c.Span)
		if c.Character != nlp.None && (c.Character < 0 || c.Character >= len(a.Characters)) {
			t.Fatalf("cue of character %d of %d", c.Character, len(a.Characters))
		}
		if c.Event != nil {
			ok("event", *c.Event)
		}
	}
}

// hard is text that no story holds but a paste may.
var hard = map[string]string{
	"empty":             "",
	"blank":             " \n\n\t ",
	"one word":          "Afraid",
	"nested quotes":     strings.Repeat(`"`, 10_000) + "he wept" + strings.Repeat(`"`, 10_000),
	"typographic nest":  strings.Repeat("“‘", 5_000) + "she was glad",
	"one long sentence": strings.Repeat("and the boy was afraid and he ran ", 30_000),
	"no spaces":         strings.Repeat("hewasafraid", 50_000),
	"capitals":          strings.Repeat("THE BOY WAS AFRAID. ", 2_000),
	"verse":             strings.Repeat("O weep, my heart,\nO weep and sigh\n\n", 2_000),
	"stage directions":  strings.Repeat("JUNIPER (weeping). Alas!\nMOSS. [He trembles.] Why?\n", 2_000),
	"broken bytes":      "He was \xff\xfe afraid. \xc3",
	"names only":        strings.Repeat("Juniper Moss Alder ", 20_000),
	"his only":          strings.Repeat("his ", 60_000),
}

func TestHardTextsAreRead(t *testing.T) {
	for name, text := range hard {
		t.Run(name, func(t *testing.T) { check(t, text, analyze(t, text)) })
	}
}

// BenchmarkHard shows that each hard text stays linear: ns per byte are of one
// size with those of plain stories.
func BenchmarkHard(b *testing.B) {
	for name, text := range hard {
		if len(text) < 10_000 {
			continue
		}
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				analyze(b, text)
			}
		})
	}
}

func FuzzAnalyze(f *testing.F) {
	f.Add(bakery)
	for _, t := range hard {
		if len(t) < 1000 {
			f.Add(t)
		}
	}
	f.Fuzz(func(t *testing.T, text string) { check(t, text, analyze(t, text)) })
}
