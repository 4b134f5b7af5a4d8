package quotes

import (
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"feltpage/nlp/segment"
)

// The sentences are our own.
func TestFind(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"tag after", `"The bread is warm," said Moss.`, []string{`"The bread is warm,"`}},
		{"tag before", `Juniper said, "The gulls are back."`, []string{`"The gulls are back."`}},
		{"tag between", `"Come," said Moss, "the tide is out."`, []string{`"Come,"`, `"the tide is out."`}},
		{"typographic", `“Come,” said Moss, “the tide is out.”`, []string{`“Come,”`, `“the tide is out.”`}},
		{"guillemets", `«Come here», said Moss.`, []string{`«Come here»`}},
		{"low opening", `„Come here,“ said Moss. “No.”`, []string{"„Come here,“", `“No.”`}},
		{"backticks", "``Come here,'' said Moss.", []string{"``Come here,''"}},
		{"single straight", `'Come here,' said Moss. 'The tide is out.'`, []string{`'Come here,'`, `'The tide is out.'`}},
		{"single typographic", `‘Come here,’ said Moss. ‘It’s the gulls’ bread.’`, []string{`‘Come here,’`, `‘It’s the gulls’ bread.’`}},
		{"apostrophes alone", `The gulls' cries woke Moss's cousin; 'twas four o'clock, and she couldn't sleep.`, nil},
		{"apostrophes in double", `"Don't take the bakers' bread," said Moss.`, []string{`"Don't take the bakers' bread,"`}},
		{"possessive in single", `'That is the bakers' bread,' said Moss. 'Leave it.'`, []string{`'That is the bakers' bread,'`, `'Leave it.'`}},
		{"clipped words", `'Give 'em the crusts,' said Moss. ''Tis all we have.'`, []string{`'Give 'em the crusts,'`, `''Tis all we have.'`}},
		{"nested single", `"She said, 'Never!' and ran," Moss told us.`, []string{`"She said, 'Never!' and ran,"`, `'Never!'`}},
		{"nested typographic", `“She said, ‘Never!’ and ran,” Moss told us.`, []string{`“She said, ‘Never!’ and ran,”`, `‘Never!’`}},
		{"nested double", `'She said, "Never!" and ran,' said Moss. 'I saw it.'`, []string{`'She said, "Never!" and ran,'`, `"Never!"`, `'I saw it.'`}},
		{"two in a row", `"Is it warm?" "It is."`, []string{`"Is it warm?"`, `"It is."`}},
		{"reopened", "\"The sea rose.\n\n\"Then it fell,\" said Moss.\n\nHe slept.", []string{`"The sea rose.`, `"Then it fell,"`}},
		{"reopened typographic", "“The sea rose.\n\n“Then it fell,” said Moss.", []string{"“The sea rose.", "“Then it fell,”"}},
		{"unclosed", "\"The sea rose, said Moss.\n\nHe slept. \"Good,\" she said.", []string{`"The sea rose, said Moss.`, `"Good,"`}},
		{"unclosed, then more", `"The sea rose. "Come away," said Moss.`, []string{`"The sea rose.`, `"Come away,"`}},
		{"carried over a verse", "\"Hush, the tide comes in,\n\nHush, the tide goes out,\" sang Moss.", []string{"\"Hush, the tide comes in,", "Hush, the tide goes out,\""}},
		{"held at arm's length", `They called it the "old bakery" by the sea.`, nil},
		{"a name in marks", `By the sea stood a house which was called 'Gull Rest.' They were called 'the Crusts,' all of them.`, nil},
		{"a word for a thing", `He wore what he called his “tide-boots,” and whistled.`, nil},
		{"single marks far apart", `' Good morning, ' he said. ' The bread is warm. ' He sat down.`, []string{`' Good morning, '`, `' The bread is warm. '`}},
		{"one word said", `"No," said Moss.`, []string{`"No,"`}},
		{"one word shouted", `He shouted "Fire" and ran.`, []string{`"Fire"`}},
		{"comma outside", `"Yes", said Moss.`, []string{`"Yes"`}},
		{"marks far apart", `" Good morning, "he said. " The bread is warm. "`, []string{`" Good morning, "`, `" The bread is warm. "`}},
		{"dashes", "— Come in! said Moss.\n\n— The tide is out, said Juniper. We can walk.", []string{"— Come in!", "— The tide is out,", "We can walk."}},
		{"a dash is a pause", "The door opened — nobody came in.", nil},
		{"none", "The sea was grey.", nil},
		{"empty", "", nil},
		{"empty marks", `She wrote "" on the slate.`, nil},
	} {
		d := segment.Split(c.text)
		var got []string
		for _, q := range Find(d) {
			got = append(got, q.Span.Of(c.text))
			if q.First >= q.End || d.Tokens[q.First].Span.End <= q.Span.Start || d.Tokens[q.End-1].Span.Start >= q.Span.End {
				t.Errorf("%s: tokens %d..%d do not match span %v", c.name, q.First, q.End, q.Span)
			}
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

func TestSpeechVerbs(t *testing.T) {
	if _, err := parseVerbs(speechVerbs); err != nil {
		t.Fatal(err)
	}
	if _, err := parseVerbs("say said\n"); err == nil {
		t.Error("a file without source and licence was taken")
	}
	for w, want := range map[string]bool{"said": true, "asked": true, "replies": true, "baked": false, "": false} {
		if Reports(w) != want {
			t.Errorf("Reports(%q) = %v", w, !want)
		}
	}
}

func TestManyNestedStayLinear(t *testing.T) {
	for _, text := range []string{
		strings.Repeat("“a ", 10000) + strings.Repeat("b” ", 10000),
		strings.Repeat("“a ‘b ", 5000) + strings.Repeat("c’ d” ", 5000),
		strings.Repeat(`"a '`, 10000),
		strings.Repeat(`'`, 20000),
		strings.Repeat("“", 20000),
		strings.Repeat("— A said b.\n\n", 5000),
	} {
		Find(segment.Split(text))
	}
	q := Find(segment.Split(strings.Repeat("“A ", 10000) + strings.Repeat("b.” ", 10000)))
	if len(q) != 10000 {
		t.Errorf("%d quotes in 10000 nested", len(q))
	}
}

func FuzzFind(f *testing.F) {
	for _, s := range []string{`"a" 'b' ‘c’ “d”`, "“a\n\n“b” —C! said d.\n\n—E", `''''""''"`, "\xff\"\xfe'"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d := segment.Split(text)
		last := -1
		for _, q := range Find(d) {
			if q.Span.Start < last || q.Span.Start >= q.Span.End || q.Span.End > len(text) {
				t.Fatalf("span %v in %q", q.Span, text)
			}
			last = q.Span.Start
			if utf8.ValidString(text) && !utf8.ValidString(q.Span.Of(text)) {
				t.Fatalf("span %v cuts a character of %q", q.Span, text)
			}
			if q.First < 0 || q.First >= q.End || q.End > len(d.Tokens) {
				t.Fatalf("tokens %d..%d of %d", q.First, q.End, len(d.Tokens))
			}
		}
	})
}

func BenchmarkFind(b *testing.B) {
	text := strings.Repeat("\"The bread is warm,\" said Moss, \"and the gulls' cries don't stop.\" The sea was grey and nobody came to the door.\n\n", 500)
	d := segment.Split(text)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		Find(d)
	}
}
