package clauses

import (
	"os"
	"strings"
	"testing"

	"feltpage/nlp"
)

// TestDump prints the reading of a text, for whoever mends the parser:
//
//	FELTPAGE_PARSE="The boy wept." go test -v -run Dump ./nlp/clauses
func TestDump(t *testing.T) {
	text := os.Getenv("FELTPAGE_PARSE")
	if text == "" {
		t.Skip("no text in FELTPAGE_PARSE")
	}
	d := parse(t, text)
	v := 0
	for _, s := range d.Sentences {
		var b strings.Builder
		for i := s.First; i < s.End; i++ {
			b.WriteString(d.Word(i) + "/" + d.Tokens[i].Tag + " ")
		}
		b.WriteString("\n")
		for n, ph := range d.Phrases {
			if ph.First >= s.First && ph.End <= s.End {
				b.WriteString("[" + PhraseText(d, n) + "]")
				if ph.Of != nlp.None {
					b.WriteString(" of [" + PhraseText(d, ph.Of) + "]")
				}
				if ph.Conjunct != nlp.None {
					b.WriteString(" and [" + PhraseText(d, ph.Conjunct) + "]")
				}
				b.WriteString(" ")
			}
		}
		for ; v < len(d.Verbs) && d.Verbs[v].Head < s.End; v++ {
			b.WriteString("\n    " + describe(d, v))
		}
		t.Log(b.String())
	}
}
