package exercises

import (
	"strings"
	"unicode/utf8"

	"feltpage/nlp"
)

// Quote makes a stretch of text fit to stand inside quotation marks on one
// line: blanks made single, its own marks at the ends taken off.
func Quote(s string) string {
	return strings.Trim(strings.Join(strings.Fields(s), " "), "\"\u201c\u201d ")
}

// Whose gives the English possessive form of a name: "Nilo's", "the foxes'".
func Whose(name string) string {
	if strings.HasSuffix(name, "s") {
		return name + "'"
	}
	return name + "'s"
}

// Lengths, in words, of what is quoted around a short piece of evidence.
const (
	shortQuote = 3  // from so many words on, the evidence is quoted as it is
	longClause = 10 // a clause up to this long is quoted whole
	fewAround  = 3  // of a longer clause, so many words on either side
)

// QuoteAround makes evidence fit to be quoted. A word or two says little out of
// context, so the clause is quoted with it, or a few words of it on either
// side; never past the sentence or a quotation mark. Spans that do not lie in
// the text give "".
func QuoteAround(text string, e, sentence nlp.Span) string {
	if e.Start < 0 || e.End > len(text) || e.Start >= e.End {
		return ""
	}
	short := e.Of(text)
	if len(strings.Fields(short)) >= shortQuote || !sentence.Contains(e) || sentence.Start < 0 || sentence.End > len(text) {
		return Quote(short)
	}
	from, to := sentence.Start, sentence.End
	if i := strings.LastIndexAny(text[from:e.Start], clauseEnds); i >= 0 {
		_, n := utf8.DecodeRuneInString(text[from+i:])
		from += i + n
	}
	if i := strings.IndexAny(text[e.End:to], clauseEnds); i >= 0 {
		to = e.End + i
	}
	before, after := strings.Fields(text[from:e.Start]), strings.Fields(text[e.End:to])
	// A word cut by the evidence ("fear" of "fearful") stays whole.
	glueLeft := from < e.Start && strings.TrimSpace(text[e.Start-1:e.Start]) != "" && len(before) > 0
	glueRight := e.End < to && strings.TrimSpace(text[e.End:e.End+1]) != "" && len(after) > 0
	if len(before)+len(after)+len(strings.Fields(short)) > longClause {
		before = before[max(0, len(before)-fewAround):]
		after = after[:min(len(after), fewAround)]
	}
	before, after = trimLittle(before, after, glueLeft, glueRight)
	out := strings.Join(before, " ")
	if out != "" && !glueLeft {
		out += " "
	}
	out += short
	if len(after) > 0 && !glueRight {
		out += " "
	}
	return Quote(out + strings.Join(after, " "))
}

const clauseEnds = ",;:.!?()\"\u201c\u201d\u2014\u2026"

// Little words at which no quotation should begin or end.
var (
	notFirst = words("and but or for that which then because")
	notLast  = words("a an the and but or so for that which who to of in on at by with from as than was is were are be been had has his her its their my your")
)

func words(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// trimLittle takes little words off the outer ends.
func trimLittle(before, after []string, glueLeft, glueRight bool) (_, _ []string) {
	for len(before) > 0 && !(len(before) == 1 && glueLeft) && notFirst[strings.ToLower(before[0])] {
		before = before[1:]
	}
	for len(after) > 0 && !(len(after) == 1 && glueRight) && notLast[strings.ToLower(after[len(after)-1])] {
		after = after[:len(after)-1]
	}
	return before, after
}
