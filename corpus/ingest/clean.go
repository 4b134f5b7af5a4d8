package ingest

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// passes bounds how often clean is repeated; ordinary texts settle in two.
const passes = 100

// clean settles a text: one kind of line end, no wrapper, no control
// characters, paragraphs apart by one blank line and each prose paragraph on
// one line. It is repeated until nothing changes. title is the one that a
// wrapper's head names, or "".
func clean(text string) (out, title string) {
	for range passes {
		next := lines(text)
		var t string
		next, t = unwrap(next)
		if title == "" {
			title = oneLine(t)
		}
		next = marks(next)
		next = paragraphs(next)
		next = norm.NFC.String(next)
		if next == text {
			return text, title
		}
		text = next
	}
	return text, title
}

// lines settles line ends, blanks and control characters.
func lines(text string) string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\v", "\n", "\u2029", "\n\n", "\f", "\n\n").Replace(text)
	text = strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t', r == '\u00a0', unicode.Is(unicode.Zs, r):
			return ' '
		case unicode.IsControl(r), r == '\ufeff', r == '\u00ad', r == '\u200b', r == '\u2060':
			return -1 // soft hyphens and the like would cut words
		}
		return r
	}, text)
	ls := strings.Split(text, "\n")
	for i, l := range ls {
		ls[i] = strings.Join(strings.Fields(l), " ")
	}
	return strings.TrimSpace(strings.Join(ls, "\n"))
}

var (
	start = []string{"*** START OF THE PROJECT GUTENBERG", "*** START OF THIS PROJECT GUTENBERG", "***START OF THE PROJECT GUTENBERG", "***START OF THIS PROJECT GUTENBERG", "*END*THE SMALL PRINT", "*END THE SMALL PRINT"}
	end   = []string{"*** END OF THE PROJECT GUTENBERG", "*** END OF THIS PROJECT GUTENBERG", "***END OF THE PROJECT GUTENBERG", "***END OF THIS PROJECT GUTENBERG", "END OF THE PROJECT GUTENBERG", "END OF PROJECT GUTENBERG", "END OF THIS PROJECT GUTENBERG"}
	maker = []string{"PRODUCED BY ", "E-TEXT PREPARED BY ", "THIS ETEXT WAS PREPARED BY ", "THIS ETEXT WAS PRODUCED BY ", "TRANSCRIBED FROM "}
)

// startLines is how far down a start mark may stand; the rule of the
// header-stripping libraries. End marks are looked for everywhere, since a
// short story ends before those libraries begin to look.
const startLines = 600

// unwrap takes off the head and foot of a Project Gutenberg text: all through
// the last start mark and from the first end mark after it. Marks stand at
// the start of a line.
func unwrap(text string) (out, title string) {
	ls, found := strings.Split(text, "\n"), false
	for {
		from, to := between(ls)
		if from == 0 && to == len(ls) {
			break
		}
		if !found {
			title = titleLine(ls[:from])
		}
		found = true
		ls = ls[from:to]
		// Who made the e-text stands in a paragraph of its own below the mark.
		for from > 0 {
			for len(ls) > 0 && ls[0] == "" {
				ls = ls[1:]
			}
			if len(ls) == 0 || !begins(ls[0], maker) {
				break
			}
			for len(ls) > 0 && ls[0] != "" {
				ls = ls[1:]
			}
		}
	}
	if !found {
		return text, ""
	}
	return strings.TrimSpace(strings.Join(ls, "\n")), title
}

// between gives the range of lines that the marks leave.
func between(ls []string) (from, to int) {
	for i := range min(len(ls), startLines) {
		if begins(ls[i], start) {
			from = i + 1
		}
	}
	for to = from; to < len(ls); to++ {
		if begins(ls[to], end) {
			break
		}
	}
	return from, to
}

func titleLine(head []string) string {
	for _, l := range head {
		if t, ok := strings.CutPrefix(l, "Title: "); ok {
			return t
		}
	}
	return ""
}

func begins(line string, marks []string) bool {
	for _, m := range marks {
		if len(line) >= len(m) && strings.EqualFold(line[:len(m)], m) {
			return true
		}
	}
	return false
}

// insertion begins an editor's bracket that is no part of the story.
var insertion = regexp.MustCompile(`^\[(?i:illustration|frontispiece|transcriber['’]s notes?|footnote \w{1,4}|note)\b`)

// unbracket takes out editor's brackets with all inside them.
func unbracket(text string) string {
	if !strings.Contains(text, "[") {
		return text
	}
	out := make([]byte, 0, len(text))
	var open []int // where in out the open brackets stand
	for i := range len(text) {
		out = append(out, text[i])
		switch text[i] {
		case '[':
			open = append(open, len(out)-1)
		case ']':
			if len(open) == 0 {
				continue
			}
			at := open[len(open)-1]
			open = open[:len(open)-1]
			if insertion.Match(out[at:min(len(out), at+40)]) {
				out = out[:at]
			}
		}
	}
	return string(out)
}

// marks takes out the marks of plain-text typesetting: editor's brackets,
// and underscores around words in italics. Two hyphens stay as they are.
func marks(text string) string {
	text = unbracket(text)
	if !strings.Contains(text, "_") {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		if text[i] != '_' {
			b.WriteByte(text[i])
			i++
			continue
		}
		j := i
		for j < len(text) && text[j] == '_' {
			j++
		}
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[j:])
		inWord := wordRune(before) && wordRune(after)
		if j-i > 2 || inWord { // a blank to fill in; a name like a_b
			b.WriteString(text[i:j])
		}
		i = j
	}
	return b.String()
}

func wordRune(r rune) bool {
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

// Line lengths in characters that tell wrapped prose from verse and from text
// with one paragraph a line. Typists of e-texts wrapped near 70 to 75; verse
// lines are mostly under 50. Own judgement.
const (
	shortestWrap = 50 // a narrower block is verse, a list or an address
	verseWrap    = 62 // up to here a block of lines that all open with a capital is verse
	longestWrap  = 100
)

// paragraphs puts one blank line between paragraphs and joins the lines of
// wrapped prose.
func paragraphs(text string) string {
	var out []string
	for _, block := range strings.Split(text, "\n\n") {
		ls := strings.FieldsFunc(block, func(r rune) bool { return r == '\n' })
		switch {
		case len(ls) == 0:
		case wrapped(ls):
			out = append(out, join(ls))
		case widest(ls) > longestWrap:
			out = append(out, ls...) // each line is a paragraph
		default:
			out = append(out, strings.Join(ls, "\n"))
		}
	}
	return strings.Join(out, "\n\n")
}

func widest(ls []string) int {
	w := 0
	for _, l := range ls {
		w = max(w, utf8.RuneCountInString(l))
	}
	return w
}

// wrapped reports whether the lines are one paragraph broken at a width: each
// line but the last is full, that is, the next line's first word would not
// have fitted into the block's width. One line in ten may be short by a word.
func wrapped(ls []string) bool {
	if len(ls) < 2 {
		return false
	}
	width := widest(ls)
	if width < shortestWrap || width > longestWrap {
		return false
	}
	capital := 0
	for _, l := range ls {
		r, _ := utf8.DecodeRuneInString(strings.TrimLeft(l, "\"'“‘([«—-"))
		if unicode.IsUpper(r) {
			capital++
		}
	}
	if capital == len(ls) && (width <= verseWrap || len(ls) >= 4) {
		return false
	}
	slack := 0
	for i, l := range ls[:len(ls)-1] {
		word, _, _ := strings.Cut(ls[i+1], " ")
		if utf8.RuneCountInString(l)+1+utf8.RuneCountInString(word) <= width {
			slack++
		}
	}
	return slack*10 <= len(ls)-1
}

// join puts lines together with a space, or with none after a dash or hyphen
// that ended a line and stood close to its word.
func join(ls []string) string {
	var b strings.Builder
	for i, l := range ls {
		b.WriteString(l)
		bare := strings.TrimRight(l, "-—")
		if i+1 < len(ls) && (bare == l || bare == "" || strings.HasSuffix(bare, " ")) {
			b.WriteByte(' ')
		}
	}
	return b.String()
}
