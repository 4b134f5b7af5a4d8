package exercises

import "strings"

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
