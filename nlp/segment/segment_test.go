package segment

import (
	"strings"
	"testing"
	"unicode/utf8"

	"feltpage/nlp"
)

// cutText writes a document with its tokens joined by blanks, its sentences by
// " | " and its paragraphs by " ¶ ".
func cutText(d *nlp.Document) string {
	var b strings.Builder
	for i, s := range d.Sentences {
		if i > 0 {
			if s.Paragraph != d.Sentences[i-1].Paragraph {
				b.WriteString(" ¶ ")
			} else {
				b.WriteString(" | ")
			}
		}
		for t := s.First; t < s.End; t++ {
			if t > s.First {
				b.WriteByte(' ')
			}
			b.WriteString(d.Word(t))
		}
	}
	return b.String()
}

// All examples are invented. Token cuts follow the Penn Treebank's tokenizer;
// sentence cuts are common practice, no source.
func TestSplit(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"empty", "", ""},
		{"blank", " \n\t\n ", ""},
		{"one", "Moss ran.", "Moss ran ."},
		{"no stop", "Moss ran", "Moss ran"},
		{"two", "Moss ran. Juniper sat.", "Moss ran . | Juniper sat ."},
		{"hard wrap", "Moss ran down\nto the sea. He\nsat.", "Moss ran down to the sea . | He sat ."},
		{"blank line", "Moss ran.\n\nHe sat.", "Moss ran . ¶ He sat ."},
		{"windows lines", "Moss ran.\r\n\r\nHe sat\r\ndown.", "Moss ran . ¶ He sat down ."},
		{"long lines are paragraphs", "The wind blew in from the sea all that day, and the loaves went cold upon the sill while the cousins waited for the boats to come.\n\"Look!\" said Moss.\nNobody looked.",
			"The wind blew in from the sea all that day , and the loaves went cold upon the sill while the cousins waited for the boats to come . ¶ \" Look ! \" said Moss . ¶ Nobody looked ."},
		{"verse", "O wind of the west,\nBlow soft on the sand,\nAnd carry my boat\nTo a kindlier land.", "O wind of the west , Blow soft on the sand , And carry my boat To a kindlier land ."},
		{"heading", "THE BAKER\n\nShe baked.", "THE BAKER ¶ She baked ."},
		{"heading without blank line", "THE BAKER\nShe baked.", "THE BAKER ¶ She baked ."},
		{"numbered heading", "IV. The Goat\n\nIt ate.", "IV . The Goat ¶ It ate ."},

		{"exclaimed", `"Oh!" he cried.`, `" Oh ! " he cried .`},
		{"asked", `"Who is it?" asked the goat. "I," said Moss.`, `" Who is it ? " asked the goat . | " I , " said Moss .`},
		{"name reports", `"Oh!" Juniper cried. "Look!"`, `" Oh ! " Juniper cried . | " Look ! "`},
		{"capital reports", `"Where?" Asked the boy.`, `" Where ? " Asked the boy .`},
		{"not a report", `"Oh!" The boy ran.`, `" Oh ! " | The boy ran .`},
		{"comma", `"I am here," said Moss. He was.`, `" I am here , " said Moss . | He was .`},
		{"full stop in quote", `He said, "Go home." Then he left.`, `He said , " Go home . " | Then he left .`},
		{"quote after quote", `"Ah!" "Oh!"`, `" Ah ! " | " Oh ! "`},
		{"two in a quote", `"Sit down. Eat," said she.`, `" Sit down . | Eat , " said she .`},
		{"typographic", "“Oh!” he cried. “No…”", "“ Oh ! ” he cried . | “ No … ”"},
		{"british", "‘Come in!’ said the fox. ‘It’s cold.’", "‘ Come in ! ’ said the fox . | ‘ It ’s cold . ’"},
		{"straight british", "'Come in!' said the fox. 'It's cold.'", "' Come in ! ' said the fox . | ' It 's cold . '"},
		{"late quote", `'Oh! 'said the fox. "No. "cried he.`, `' Oh ! ' said the fox . | " No . " cried he .`},
		{"nested", `"He said 'no' to me," said Moss.`, `" He said ' no ' to me , " said Moss .`},
		{"tex quotes", "``No,'' said he.", "`` No , '' said he ."},
		{"dash after quote", `"Oh!"--and he ran.`, `" Oh ! " -- and he ran .`},
		{"interjection", "Alas! alas! he is gone.", "Alas ! alas ! he is gone ."},
		{"stops in a row", "What?! No!!", "What ? ! | No ! !"},
		{"ellipsis", "He waited... and waited. . . . Then he slept.", "He waited ... and waited . . . . | Then he slept ."},
		{"parenthesis", "He ran (fast!) to her. (She hid.) Then", "He ran ( fast ! ) to her . | ( She hid . ) | Then"},

		{"titles", "Mr. Hill met Mrs. Dale and Dr. Rook in St. Ives.", "Mr. Hill met Mrs. Dale and Dr. Rook in St. Ives ."},
		{"initials", "J. R. Hill sat. It was I. He knew.", "J. R. Hill sat . | It was I . | He knew ."},
		{"etc", "Figs, nuts, etc. were sold. Figs, etc. Then", "Figs , nuts , etc. were sold . | Figs , etc. | Then"},
		{"no", `"No. I will not." No. 7 was shut.`, `" No . | I will not . " | No. 7 was shut .`},
		{"latin", "Big ones, e.g. whales, swim.", "Big ones , e.g. whales , swim ."},

		{"not", "I don't, can't, won't, shan't and cannot.", "I do n't , ca n't , wo n't , sha n't and can not ."},
		{"clitics", "He's sure they'll say I'm what we've been; you'd know.", "He 's sure they 'll say I 'm what we 've been ; you 'd know ."},
		{"old clitics", "Thou'rt late; thou'lt see. 'Tis cold; 'twas not.", "Thou 'rt late ; thou 'lt see . | 'T is cold ; 't was not ."},
		{"double clitic", "She'd've gone; he couldn't've.", "She 'd 've gone ; he could n't 've ."},
		{"possessive", "The boy's hat and the boys' hats.", "The boy 's hat and the boys ' hats ."},
		{"possessive in single quotes", "'The boys' hats,' said he.", "' The boys ' hats , ' said he ."},
		{"scare quotes", "The 'birds' sang.", "The ' birds ' sang ."},
		{"elided", "Give 'em bread, ma'am, at three o'clock o' the day, goin' home.", "Give 'em bread , ma'am , at three o'clock o' the day , goin' home ."},
		{"hyphen", "a well-to-do half-blind sea-dog", "a well-to-do half-blind sea-dog"},
		{"dashes", "He ran--fast—very – so.", "He ran -- fast — very – so ."},
		{"numbers", "It cost 1,000.50 at 4:30.", "It cost 1,000.50 at 4:30 ."},
		{"emphasis", "It was _so_ cold, *so* cold. _No!_", "It was so cold , so cold . | No !"},
		{"accents", "Zoë’s café naïveté", "Zoë ’s café naïveté"},
		{"scene break", "He ran.\n\n* * *\n\nShe sat.", "He ran . ¶ * * * ¶ She sat ."},
	} {
		d := Split(c.in)
		if got := cutText(d); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
		check(t, d)
	}
}

func TestQuoteMarks(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{`"Oh!" he said, "no" "yes"`, "``''``''``''"},
		{"'Oh!' he said, 'it's the dogs' bowl.'", "``''``POS''"},
		{"“Oh!” ‘no’ «so»", "``''``''``''"},
		{"\"First\n\n\"Second\"", "````''"},
	} {
		got := ""
		for _, tok := range Split(c.in).Tokens {
			got += tok.Tag
		}
		if got != c.want {
			t.Errorf("%s: got %s, want %s", c.in, got, c.want)
		}
	}
}

func TestLower(t *testing.T) {
	d := Split("“DON’T” – said ZOË… ‘Well-known’ —")
	want := "\" do n't \" -- said zoë ... ' well-known ' --"
	var got []string
	for _, tok := range d.Tokens {
		got = append(got, tok.Lower)
	}
	if g := strings.Join(got, " "); g != want {
		t.Errorf("got %s, want %s", g, want)
	}
}

// check holds what is true of every document.
func check(t *testing.T, d *nlp.Document) {
	t.Helper()
	border := func(i int) bool { return i == len(d.Text) || utf8.RuneStart(d.Text[i]) || !insideRune(d.Text, i) }
	last := 0
	for i, tok := range d.Tokens {
		if tok.Span.Start < last || tok.Span.End <= tok.Span.Start || tok.Span.End > len(d.Text) {
			t.Fatalf("token %d has span %v after %d in %d bytes", i, tok.Span, last, len(d.Text))
		}
		if !border(tok.Span.Start) || !border(tok.Span.End) {
			t.Fatalf("token %d cuts a character: %q", i, d.Word(i))
		}
		if tok.Lower == "" || !utf8.ValidString(tok.Lower) {
			t.Fatalf("token %d has Lower %q", i, tok.Lower)
		}
		s := d.Sentences[tok.Sentence]
		if i < s.First || i >= s.End || !s.Span.Contains(tok.Span) {
			t.Fatalf("token %d is not in its sentence", i)
		}
		last = tok.Span.End
	}
	next := 0
	for i, s := range d.Sentences {
		if s.First != next || s.End <= s.First || !d.Paragraphs[s.Paragraph].Contains(s.Span) {
			t.Fatalf("sentence %d is %+v after token %d", i, s, next)
		}
		next = s.End
	}
	if next != len(d.Tokens) {
		t.Fatalf("sentences end at token %d of %d", next, len(d.Tokens))
	}
}

// insideRune reports whether i lies within a valid multi-byte character.
func insideRune(s string, i int) bool {
	for j := max(0, i-3); j < i; j++ {
		if r, n := utf8.DecodeRuneInString(s[j:]); r != utf8.RuneError && j+n > i && utf8.RuneStart(s[j]) {
			return true
		}
	}
	return false
}

func FuzzSplit(f *testing.F) {
	for _, s := range []string{"", "\"Oh!\" he cried.", "‘’Tis’", "a'b'c'd'e's", "İ'S don\u2019t", "\xff\xfe'\x80s", "_*_", "'t", "1,2.3:4",
		"U.S.A. e.g. J. x", "\u201e\u201c", "''``'", ". . .", "--\u2014-", "A\nB.\n\"C", "K'S\u2019ST"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { check(t, Split(s)) })
}

func TestHostile(t *testing.T) {
	for name, s := range map[string]string{
		"nested quotes": strings.Repeat("\"'", 10000) + "x" + strings.Repeat("'\"", 10000),
		"one sentence":  strings.Repeat("and on it went ", 70000),
		"no blanks":     strings.Repeat("x", 1<<20),
		"apostrophes":   strings.Repeat("x'", 1<<19),
		"points":        strings.Repeat("a.", 1<<19),
		"line breaks":   strings.Repeat("a\n", 1<<19),
		"dashes":        strings.Repeat("-", 1<<20),
		"closers":       strings.Repeat(".\")", 1<<18),
	} {
		t.Run(name, func(t *testing.T) { check(t, Split(s)) })
	}
}

func BenchmarkSplit(b *testing.B) {
	text := strings.Repeat("“It’s cold,” said Moss to his cousin, and he pulled the old coat round him. They walked on\nalong the shore until the bakery's lamps were lit.\n\n", 400)
	words := len(strings.Fields(text))
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		Split(text)
	}
	b.ReportMetric(float64(words)*float64(b.N)/b.Elapsed().Seconds(), "words/s")
}
