package quotes

import (
	"unicode"
	"unicode/utf8"

	"feltpage/nlp"
)

// Costs of the cheapest reading of a paragraph's double marks. They only
// order the readings: a mark that looks the wrong way round is a lesser slip
// than a closing mark left out, and that than a stray mark.
const (
	costShape    = 1.0
	costSide     = 6.0 // a typographic mark used the wrong way round
	costNoClose  = 3.0
	costStray    = 5.0
	costEndOpen  = 2.0
	costCarry    = 1.5
	costContinue = 0.2
)

const (
	closedToOpen = iota // opens
	openToClosed        // closes
	openToOpen          // the close before it was left out
	stray               // stands outside and means nothing
)

// pairDoubles pairs the double marks of one paragraph: the cheapest way to
// read each as opening or closing. carry says that the last paragraph ended
// inside speech that this one need not reopen, reopens that the next begins
// with a mark. It reports whether the paragraph ends inside speech.
func pairDoubles(text string, p nlp.Span, marks []mark, carry, reopens bool) ([]nlp.Span, bool) {
	ds := make([]mark, 0, len(marks))
	for _, m := range marks {
		if m.kind == double {
			ds = append(ds, m)
		}
	}
	if len(ds) == 0 {
		return nil, false
	}
	if spans, ok := balanced(ds); ok {
		return spans, false
	}
	const far = 1e9
	closed, open := 0.0, far
	if carry {
		open = costCarry
	}
	back := make([][2]uint8, len(ds)) // best step into closed, into open
	for i, m := range ds {
		asOpen, asClose := openCost(text, m), closeCost(text, m)
		c, cs := open+asClose, uint8(openToClosed)
		if v := closed + costStray; v < c {
			c, cs = v, stray
		}
		o, os := closed+asOpen, uint8(closedToOpen)
		if v := open + costNoClose + asOpen; v < o {
			o, os = v, openToOpen
		}
		closed, open = c, o
		back[i] = [2]uint8{cs, os}
	}
	end := costEndOpen
	if reopens {
		end = costContinue
	}
	isOpen := open+end < closed
	ends := isOpen
	spans := make([]nlp.Span, 0, len(ds)/2+1)
	until := p.End // where the quote being read backwards ends
	for i := len(ds) - 1; i >= 0; i-- {
		if !isOpen {
			if back[i][0] == openToClosed {
				until, isOpen = ds[i].end, true
			}
			continue
		}
		spans = append(spans, nlp.Span{Start: ds[i].at, End: trimEnd(text, ds[i].at, until)})
		if isOpen = back[i][1] == openToOpen; isOpen {
			prev := 0
			if i > 0 {
				prev = ds[i-1].end
			}
			until = firstStop(text, prev, ds[i].at)
		}
	}
	if isOpen { // carried over from the paragraph before
		spans = append(spans, nlp.Span{Start: p.Start, End: until})
	}
	return spans, ends
}

// balanced pairs marks that show their side and come out even, nested ones
// included.
func balanced(ds []mark) ([]nlp.Span, bool) {
	var spans []nlp.Span
	var open []int
	for _, m := range ds {
		switch {
		case m.side > 0:
			open = append(open, m.at)
		case m.side < 0 && len(open) > 0:
			spans = append(spans, nlp.Span{Start: open[len(open)-1], End: m.end})
			open = open[:len(open)-1]
		default:
			return nil, false
		}
	}
	return spans, len(open) == 0
}

func openCost(text string, m mark) float64 {
	switch {
	case m.side > 0:
		return 0
	case m.side < 0:
		return costSide
	}
	c := 0.0
	if !opener(m.prev) && !blank(m.next) {
		c += costShape / 2 // glued between two words
	}
	if blank(m.next) && !opener(m.prev) {
		c += costShape
	}
	if r := nextSolid(text, m.end); unicode.IsLower(r) {
		c += costShape / 4
	}
	return c
}

func closeCost(text string, m mark) float64 {
	switch {
	case m.side > 0:
		return costSide
	case m.side < 0:
		return 0
	}
	c := 0.0
	if opener(m.prev) && !dash(m.prev) && !closer(m.next) {
		c += costShape
	}
	if !stop(prevSolid(text, m.at)) {
		c += costShape / 4
	}
	return c
}

func nextSolid(text string, at int) rune {
	for at < len(text) {
		r, n := utf8.DecodeRuneInString(text[at:])
		if !unicode.IsSpace(r) {
			return r
		}
		at += n
	}
	return 0
}

func prevSolid(text string, at int) rune {
	for at > 0 {
		r, n := utf8.DecodeLastRuneInString(text[:at])
		if !unicode.IsSpace(r) {
			return r
		}
		at -= n
	}
	return 0
}

// firstStop gives where speech whose closing mark was left out may have
// ended: after the first mark of punctuation that ends a sentence, else
// before the next opening mark.
func firstStop(text string, from, to int) int {
	for i := from; i < to; i++ {
		switch text[i] {
		case '.', '!', '?':
			for i+1 < to && (text[i+1] == '.' || text[i+1] == '!' || text[i+1] == '?') {
				i++
			}
			return i + 1
		}
	}
	return trimEnd(text, from, to)
}

// trimEnd moves end back over spaces, not before from.
func trimEnd(text string, from, end int) int {
	for end > from {
		r, n := utf8.DecodeLastRuneInString(text[:end])
		if !unicode.IsSpace(r) {
			break
		}
		end -= n
	}
	return end
}
