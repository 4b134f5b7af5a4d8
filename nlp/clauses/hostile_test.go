package clauses

import (
	"strings"
	"testing"

	"feltpage/nlp"
	"feltpage/nlp/segment"
	"feltpage/nlp/tag"
)

// check holds what is true of every reading.
func check(t *testing.T, d *nlp.Document) {
	t.Helper()
	n := len(d.Tokens)
	phrase := func(i int) bool { return i == nlp.None || i >= 0 && i < len(d.Phrases) }
	for i, p := range d.Phrases {
		switch {
		case p.First < 0 || p.End > n || p.First >= p.End || p.Head < p.First || p.Head >= p.End:
			t.Fatalf("phrase %d is %+v of %d tokens", i, p, n)
		case d.Tokens[p.First].Sentence != d.Tokens[p.End-1].Sentence:
			t.Fatalf("phrase %d crosses sentences", i)
		case !phrase(p.Of) || !phrase(p.Conjunct) || p.Of == i || p.Conjunct == i || p.Possessor >= n || p.Possessor < nlp.None:
			t.Fatalf("phrase %d has links %+v", i, p)
		}
		if i > 0 && (p.First < d.Phrases[i-1].First || p.First == d.Phrases[i-1].First && p.End > d.Phrases[i-1].End) {
			t.Fatalf("phrase %d is out of order", i)
		}
	}
	for i, v := range d.Verbs {
		switch {
		case v.First < 0 || v.End > n || v.Head < v.First || v.Head >= v.End:
			t.Fatalf("verb %d is %+v of %d tokens", i, v, n)
		case !phrase(v.Subject) || !phrase(v.Object) || !phrase(v.Indirect) || !phrase(v.By):
			t.Fatalf("verb %d has roles %+v", i, v)
		case v.Governor < nlp.None || v.Governor >= len(d.Verbs) || v.Governor == i || v.Complement < nlp.None || v.Complement >= n:
			t.Fatalf("verb %d has links %+v", i, v)
		case i > 0 && v.Head <= d.Verbs[i-1].Head:
			t.Fatalf("verb %d is out of order", i)
		}
		for _, r := range []int{v.Subject, v.Object, v.Indirect, v.By} {
			if r != nlp.None && d.Tokens[d.Phrases[r].First].Sentence != d.Tokens[v.Head].Sentence {
				t.Fatalf("verb %d has a role in another sentence", i)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, c := range sentences {
		f.Add(c.in)
	}
	f.Add("\xff's the \"so' of him who. to not never -- and, whose")
	tagger, err := tag.Load()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d := segment.Split(s)
		tagger.Tag(d)
		Parse(d)
		check(t, d)
	})
}

// TestHostile reads text that would be slow in a parser that backs up; each
// takes well under a second where every step is linear.
func TestHostile(t *testing.T) {
	for name, s := range map[string]string{
		"nested quotes":  strings.Repeat("\"Oh 'he said ", 5000) + strings.Repeat("'\"", 5000),
		"one sentence":   strings.Repeat("and on it went to the boy who saw ", 20000),
		"adjectives":     strings.Repeat("cold, dark and ", 20000) + "wood",
		"adverbs":        strings.Repeat("very ", 50000) + "cold",
		"participles":    strings.Repeat("weeping, to look, ", 20000) + "he ran.",
		"possession":     strings.Repeat("the king's ", 20000) + "son",
		"of":             strings.Repeat("the son of ", 20000) + "him",
		"who":            strings.Repeat("the boy who ", 20000) + "ran",
		"auxiliaries":    strings.Repeat("had been ", 20000) + "seen",
		"to":             strings.Repeat("to not ", 20000) + "see",
		"only capitals":  strings.ToUpper(strings.Repeat("The boy ran home and wept. ", 5000)),
		"no blanks":      strings.Repeat("x", 1<<20),
		"lists":          strings.Repeat("the fox, ", 20000) + "and the goat ran",
		"stage talk":     strings.Repeat("MOSS. (weeping) Oh!\nJUNIPER. No.\n", 5000),
		"inverted":       strings.Repeat("did ", 50000),
		"questions":      strings.Repeat("Did he who wept see? ", 5000),
		"dashes":         strings.Repeat("-- he ", 20000),
		"nothing but \"": strings.Repeat("\"", 50000),
	} {
		t.Run(name, func(t *testing.T) { check(t, parse(t, s)) })
	}
}

// TestSame reads a text twice, once after another text.
func TestSame(t *testing.T) {
	a := Describe(parse(t, page))
	parse(t, strings.Repeat("The goat who ate, ran. ", 50))
	if b := Describe(parse(t, page)); a != b {
		t.Errorf("read differently the second time:\n%s\n%s", a, b)
	}
}
