package corpus

import (
	"crypto/sha256"
	"encoding/hex"
	"regexp"
	"strings"

	"feltpage/nlp"
)

// Hash gives the lower-case hex SHA-256 of a story's text: the name under
// which analyses and mends are kept.
func Hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

var (
	ornament = regexp.MustCompile(`^(?:[*#~•⁂—–-]\s*){1,12}$`)
	heading  = regexp.MustCompile(`^(?i:chapter|part|book)\s+(?:[IVXLC]+|\d+|(?i:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve))\b[^\n]{0,80}$`)
)

// Split cuts a text into its sections: at lines of ornament ("* * *"), which
// belong to none, and before chapter headings, which become the title. A text
// without either is one section. Sections are in order and do not overlap;
// each starts and ends at a visible character.
func Split(text string) []Section {
	var out []Section
	start, title := 0, ""
	flush := func(end int) {
		s, e := trim(text, start, end)
		if s < e {
			out = append(out, Section{Title: title, Span: nlp.Span{Start: s, End: e}})
		}
		title = ""
	}
	for at := 0; at < len(text); {
		end := strings.IndexByte(text[at:], '\n')
		next := len(text)
		if end < 0 {
			end = len(text)
		} else {
			end += at
			next = end + 1
		}
		switch line := strings.TrimSpace(text[at:end]); {
		case line == "":
		case ornament.MatchString(line):
			flush(at)
			start = next
		case heading.MatchString(line):
			flush(at)
			start, title = next, line
		}
		at = next
	}
	flush(len(text))
	return out
}

func trim(text string, start, end int) (int, int) {
	part := text[start:end]
	lead := len(part) - len(strings.TrimLeft(part, " \t\n"))
	part = strings.TrimSpace(part)
	return start + lead, start + lead + len(part)
}
