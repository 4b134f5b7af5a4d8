package quotes

import (
	"strings"
	"unicode/utf8"

	"feltpage/nlp"
)

// pairSingles finds quotes between single marks in one paragraph: all of
// them where the text quotes that way, else only those inside double quotes.
// Apostrophes are told apart by their shape and by the short words that
// begin with one.
func pairSingles(text string, p nlp.Span, marks []mark, doubles []nlp.Span, s style) []nlp.Span {
	var ss []mark
	for _, m := range marks {
		if m.kind == single && !(word(m.prev) && word(m.next)) {
			ss = append(ss, m)
		}
	}
	if len(ss) == 0 {
		return nil
	}
	if s.doubles > s.singles || s.singles < 2 {
		return insideDoubles(text, ss, doubles)
	}
	return readSingles(text, p, ss)
}

func insideDoubles(text string, ss []mark, doubles []nlp.Span) []nlp.Span {
	ordered := nest(append([]nlp.Span(nil), doubles...))
	var out []nlp.Span
	at := 0
	for _, q := range ordered {
		for at < len(ss) && ss[at].at < q.Start {
			at++
		}
		from := at
		for at < len(ss) && ss[at].end <= q.End {
			at++
		}
		if at > from {
			out = append(out, readSingles(text, q, ss[from:at])...)
		}
	}
	return out
}

const (
	costApostrophe = 2.5 // a mark before a word that is no known clipped word
	costPossessive = 1.0 // "the boys' room"
	costLoneStop   = 4.0 // a mark right after punctuation that closes nothing
	costSingleEnd  = 2.6 // speech that its region leaves open
)

// readSingles is the cheapest reading of the marks of one region as opening,
// closing or apostrophe.
func readSingles(text string, region nlp.Span, ss []mark) []nlp.Span {
	const far = 1e9
	closed, open := 0.0, far
	type step struct{ closedFromOpen, openFromClosed, reopened bool }
	back := make([]step, len(ss))
	for i, m := range ss {
		asOpen, asClose, asApostrophe := singleCosts(text, m)
		var s step
		c, o := closed+asApostrophe, open+asApostrophe
		if v := open + asClose; v < c {
			c, s.closedFromOpen = v, true
		}
		if v := closed + asOpen; v < o {
			o, s.openFromClosed = v, true
		}
		if v := open + asOpen + costNoClose; v < o {
			o, s.openFromClosed, s.reopened = v, false, true
		}
		closed, open, back[i] = c, o, s
	}
	isOpen := open+costSingleEnd < closed
	until := region.End
	var out []nlp.Span
	for i := len(ss) - 1; i >= 0; i-- {
		switch {
		case !isOpen && back[i].closedFromOpen:
			until, isOpen = ss[i].end, true
		case isOpen && (back[i].openFromClosed || back[i].reopened):
			out = append(out, nlp.Span{Start: ss[i].at, End: trimEnd(text, ss[i].at, until)})
			if isOpen = back[i].reopened; isOpen {
				prev := 0
				if i > 0 {
					prev = ss[i-1].end
				}
				until = firstStop(text, prev, ss[i].at)
			}
		}
	}
	return out
}

func singleCosts(text string, m mark) (open, closing, apostrophe float64) {
	const never = 50
	switch {
	case m.side > 0: // a mark that can only open; now and then a badly set apostrophe
		open, closing, apostrophe = 0, never, 3
		if clipped(text, m) {
			apostrophe = 0.5
		}
		return
	case m.side < 0: // closing mark or apostrophe
		open = never
	case opener(m.prev) && !blank(m.next):
		open = 0
	case blank(m.prev) && blank(m.next):
		open = 0.5
	case !word(m.prev):
		open = 1
	default:
		open = never
	}
	switch {
	case stop(m.prev):
		closing, apostrophe = 0, costLoneStop
	case blank(m.prev) && blank(m.next) || blank(m.prev) && stop(m.next):
		closing, apostrophe = 0.5, 1.5
		if !stop(prevSolid(text, m.at)) {
			closing = 2
		}
	case blank(m.prev) && word(m.next):
		closing, apostrophe = never, costApostrophe
	case word(m.prev):
		closing, apostrophe = 0.8, 1.5
		if m.prev == 's' || m.prev == 'n' || m.prev == 'o' || m.prev == 'd' || m.prev == 'l' || m.prev == 't' {
			apostrophe = costPossessive // boys', goin', an', th', o'
		}
		if !stop(m.next) {
			closing++
		}
	case opener(m.prev):
		closing, apostrophe = 2, 2
	default:
		closing, apostrophe = 0.5, 2
	}
	if clipped(text, m) {
		apostrophe = 0.2
	}
	return
}

// clippedWords are short words that lose their beginning to an apostrophe.
var clippedWords = map[string]bool{}

func init() {
	for _, w := range strings.Fields("tis twas twere twill twould twixt em im er ere cause bout gainst neath midst mongst " +
		"til till round way un uns ee e is as ad ave ud ll ve re d s t m nother coz scuse spose low lowed pon cross fraid ead ouse and n nuff") {
		clippedWords[w] = true
	}
}

// clipped reports whether the word after the mark is one of clippedWords or a
// year ('98).
func clipped(text string, m mark) bool {
	end := m.end
	for end < len(text) && end < m.end+12 {
		r, n := utf8.DecodeRuneInString(text[end:])
		if !word(r) {
			break
		}
		end += n
	}
	w := text[m.end:end]
	if w == "" {
		return false
	}
	if w[0] >= '0' && w[0] <= '9' {
		return true
	}
	// "'Im" at the start of a sentence is as likely a dropped letter as "I'm"
	// is not: only lower case counts, save for the verse words.
	if w[0] >= 'A' && w[0] <= 'Z' {
		return strings.HasPrefix(w, "Tw") || w == "Tis"
	}
	return clippedWords[w]
}
