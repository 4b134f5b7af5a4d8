package tag

import (
	"strings"
	"sync"
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

var shared = sync.OnceValues(Load)

func document(t testing.TB, text string) *nlp.Document {
	t.Helper()
	tagger, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	d := segment.Split(text)
	tagger.Tag(d)
	return d
}

// The sentences are invented. What each shows: the tags, of the marked words
// alone, after the second pass; own judgement by the Penn Treebank's
// guidelines (Santorini 1990), from memory.
func TestTag(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"The boy ran home.", "The/DT boy/NN ran/VBD home/NN ./."},
		{"“Oh!” she cried.", "“/`` Oh/UH !/. ”/'' she/PRP cried/VBD ./."},

		// Old words and spellings.
		{"Thou art my friend.", "Thou/PRP art/VBP"},
		{"Whither goest thou?", "Whither/WRB thou/PRP"},
		{"The king was wroth.", "wroth/JJ"},
		{"She hath wept.", "hath/VBZ wept/VBN"},
		{"He spake to thee.", "spake/VBD thee/PRP"},
		{"Ye know thy fault.", "Ye/PRP know/VBP thy/PRP$"},
		{"She durst not speak.", "durst/VBD not/RB speak/VB"},
		{"He trode upon it.", "trode/VBD upon/IN"},
		{"It cometh.", "cometh/VBZ"},
		{"'Twas cold.", "'T/PRP was/VBD cold/JJ"},
		{"I shall go anon.", "shall/MD go/VB anon/RB"},
		{"Quoth the gull.", "Quoth/VBD"},
		{"Thou wilt weep, and thou shalt not sleep.", "wilt/MD weep/VB shalt/MD sleep/VB"},
		{"Alas, alack, nay!", "Alas/UH alack/UH nay/UH"},
		{"I know not aught.", "know/VBP not/RB aught/NN"},

		// Past forms that newspapers lack.
		{"The boy wept.", "wept/VBD"},
		{"She crept in and slept.", "crept/VBD slept/VBD"},
		{"He knelt and strove.", "knelt/VBD strove/VBD"},
		{"When the cousins heard this they wept.", "heard/VBD this/DT they/PRP wept/VBD"},
		{"The Princess heard this and wept.", "Princess/NNP heard/VBD"},
		{"The mice ran home.", "mice/NNS ran/VBD"},
		{"The warm bread pleased her very much.", "pleased/VBD her/PRP very/RB"},

		// Predicates.
		{"He was afraid.", "afraid/JJ"},
		{"She felt very lonely.", "lonely/JJ"},
		{"He looked pale.", "pale/JJ"},
		{"They found the room empty.", "empty/JJ"},

		// Verbs after auxiliaries, pronouns and "to".
		{"She did not cry.", "cry/VB"},
		{"Did the gull frighten you?", "frighten/VB"},
		{"The noise made him tremble.", "tremble/VB"},
		{"She saw the boy shiver.", "shiver/VB"},
		{"She wanted to laugh and sing.", "laugh/VB sing/VB"},
		{"They were all weeping.", "weeping/VBG"},
		{"Trembling, the boy hid.", "Trembling/VBG hid/VBD"},
		{"She kept on crying.", "crying/VBG"},
		{"He saw her weeping.", "her/PRP weeping/VBG"},
		{"“Come here!” she said.", "Come/VB"},
		{"He had never been so glad.", "had/VBD been/VBN glad/JJ"},

		{"She opened the door, and put the loaf down.", "put/VBD"},
		{"She let the ring fall.", "ring/NN fall/VB"},
		{"There lay two loaves.", "lay/VBD"},
		{"“Open the door and put the loaf down.”", "put/VB"},
		{"She ate the curds and whey.", "whey/NN"},

		// Smaller things.
		{"I am here.", "am/VBP"},
		{"He fell down before the king.", "before/IN"},
		{"It carried her up.", "her/PRP up/RP"},
		{"He trod upon her foot.", "her/PRP$"},
		{"A voice said no, and that pleased her.", "that/DT"},
		{"The boys' hats and the boy's hat", "'/POS 's/POS"},
		{"THE BOY RAN HOME.", "BOY/NN RAN/VBD"},
		{"She was VERY cold.", "VERY/RB"},
		{"* * *", "*/SYM"},
	} {
		got := " " + tagged(t, c.in) + " "
		for want := range strings.FieldsSeq(c.want) {
			if !strings.Contains(got, " "+want+" ") {
				t.Errorf("got%swant %s", got, want)
			}
		}
	}
}

// check holds what is true of every tagged document.
func check(t *testing.T, d *nlp.Document) {
	t.Helper()
	for i, tok := range d.Tokens {
		if tok.Tag == "" || tok.Lemma == "" {
			t.Fatalf("token %d %q has tag %q and lemma %q", i, d.Word(i), tok.Tag, tok.Lemma)
		}
	}
}

func FuzzTag(f *testing.F) {
	for _, s := range []string{"", "The boy's", "\xff - -- \u2014", "her her her", "'tis that you, no, or", "!!!"} {
		f.Add(s)
	}
	tagger, err := Load()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d := segment.Split(s)
		tagger.Tag(d)
		check(t, d)
		before := append([]nlp.Token(nil), d.Tokens...)
		tagger.Tag(d)
		for i := range before {
			if d.Tokens[i] != before[i] {
				t.Fatalf("token %d is %+v, the second time %+v", i, before[i], d.Tokens[i])
			}
		}
	})
}

// A broken table gives an error, never a panic.
func TestBrokenTable(t *testing.T) {
	for n := 0; n < len(embedded); n += 29989 {
		if _, err := read(embedded[:n]); err == nil {
			t.Fatalf("the first %d bytes were taken for the whole", n)
		}
	}
	for i := 0; i < len(embedded); i += 29983 {
		b := append([]byte(nil), embedded...)
		b[i] ^= 0xff
		_, _ = read(b)
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
