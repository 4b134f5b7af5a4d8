package tag

import (
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/segment"
)

// tagged writes the tokens of text with their tags.
func tagged(t *testing.T, text string) string {
	t.Helper()
	d := document(t, text)
	var out []string
	for i, tok := range d.Tokens {
		out = append(out, d.Word(i)+"/"+tok.Tag)
	}
	return strings.Join(out, " ")
}

func document(t testing.TB, text string) *nlp.Document {
	t.Helper()
	tagger, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	d := segment.Split(text)
	tagger.Tag(d)
	return d
}

func TestTag(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"The boy ran home.", "The/DT boy/NN ran/VBD home/NN ./."},
		{"“Oh!” she cried.", "“/`` Oh/UH !/. ”/'' she/PRP cried/VBD ./."},
	} {
		if got := tagged(t, c.in); got != c.want {
			t.Errorf("got %s\nwant %s", got, c.want)
		}
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
