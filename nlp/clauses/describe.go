package clauses

import (
	"fmt"
	"strings"

	"feltpage/nlp"
)

// Describe writes the verb groups of a document, one a line in the order of
// the text, for people who look into a reading and for tests:
//
//	wept: subject "the boy", object "...", negated
func Describe(d *nlp.Document) string {
	var b strings.Builder
	for i := range d.Verbs {
		b.WriteString(describe(d, i))
		b.WriteByte('\n')
	}
	return b.String()
}

func describe(d *nlp.Document, i int) string {
	v := d.Verbs[i]
	var parts []string
	add := func(name, value string) {
		parts = append(parts, fmt.Sprintf("%s %q", name, value))
	}
	phrase := func(name string, n int) {
		if n != nlp.None {
			add(name, PhraseText(d, n))
		}
	}
	phrase("subject", v.Subject)
	phrase("object", v.Object)
	phrase("to", v.Indirect)
	phrase("by", v.By)
	if v.Complement != nlp.None {
		add("is", d.Word(v.Complement))
	}
	if v.Governor != nlp.None {
		add("under", d.Word(d.Verbs[v.Governor].Head))
	}
	if v.Modal != "" {
		parts = append(parts, v.Modal)
	}
	for _, flag := range []struct {
		on   bool
		name string
	}{{v.Copular, "copular"}, {v.Passive, "passive"}, {v.Negated, "negated"}, {v.Participle, "participle"}, {v.Infinitive, "infinitive"}} {
		if flag.on {
			parts = append(parts, flag.name)
		}
	}
	return d.Word(v.Head) + ": " + strings.Join(parts, ", ")
}

// PhraseText gives the words of noun phrase n with single blanks.
func PhraseText(d *nlp.Document, n int) string {
	ph := d.Phrases[n]
	var b strings.Builder
	for i := ph.First; i < ph.End; i++ {
		if i > ph.First && d.Tokens[i].Span.Start > d.Tokens[i-1].Span.End {
			b.WriteByte(' ')
		}
		b.WriteString(d.Word(i))
	}
	return b.String()
}
