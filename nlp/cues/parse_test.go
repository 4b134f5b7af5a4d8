package cues

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

const head = "@language en\n@kind body\n@source own\n@licence own\n@code body-sign\n@class pattern\n"

func TestParseRow(t *testing.T) {
	rows, err := parse("x.txt", head+"POSS knee knock ; cold 0.2, fear 0.8 ; at=legs sign=shaking ; + His knees knocked. ; - He knocked.\n")
	require.NoError(t, err)
	require.Len(t, rows, 1)
	r := rows[0]
	require.Equal(t, []nlp.Weight{{Family: "fear", Weight: 0.8}, {Family: "cold", Weight: 0.2}}, r.feelings)
	require.Equal(t, []string{"legs"}, r.places)
	require.Equal(t, "shaking", r.sign)
	require.Equal(t, []string{"His knees knocked."}, r.hits)
	require.Equal(t, []string{"He knocked."}, r.misses)
	require.Equal(t, 7, r.line)
}

func TestParseNamesTheLine(t *testing.T) {
	for _, c := range []struct{ text, why string }{
		{"POSS knee knock ; fear 1\n", "row before @"},
		{head + "x ; fear 2\n", "above 0 to 1"},
		{head + "x ; fear\n", "above 0 to 1"},
		{head + "x ; fear 1, fear 0.5\n", "twice"},
		{head + "x ; fear 1 ; at\n", "key=value"},
		{head + "x ; fear 1 ; colour=red\n", "unknown attribute"},
		{head + "x ; fear 1 ; ; nonsense\n", "begins with + or -"},
		{head + " ; fear 1\n", "no pattern"},
		{"@language\n", "has no value"},
	} {
		_, err := parse("x.txt", c.text)
		var pe *ParseError
		require.True(t, errors.As(err, &pe), c.text)
		require.Equal(t, "x.txt", pe.File)
		require.Positive(t, pe.Line)
		require.Contains(t, pe.Why, c.why)
	}
}

func TestCompileRefuses(t *testing.T) {
	for _, p := range []string{"", "POSS", "...", "a ...", "... a", "a ... ... b", "a|", "POSS|a b", "SELF OBJ"} {
		_, err := compile(&row{pattern: p})
		require.Error(t, err, "%q", p)
	}
}

func FuzzPattern(f *testing.F) {
	for _, r := range shippedRows(f)[:40] {
		f.Add(r.pattern)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := compile(&row{pattern: s})
		if err == nil && (p.anchor < 0 || p.anchor >= len(p.elements) || p.elements[p.anchor].kind != elWord) {
			t.Fatalf("%q compiles without a word to find it by", s)
		}
	})
}

func FuzzParse(f *testing.F) {
	f.Add(head + "POSS knee knock ; fear 0.8 ; at=legs ; + His knees knocked.")
	f.Fuzz(func(t *testing.T, s string) {
		_, err := parse("x", s)
		var pe *ParseError
		if err != nil && !errors.As(err, &pe) {
			t.Fatal(err)
		}
	})
}
