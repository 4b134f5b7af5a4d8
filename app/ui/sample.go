package ui

import (
	"feltpage/app/record"
	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
	"feltpage/app/ui/parts/typeset"
)

// sample shows a few words of a story as the learner would see them, in the
// learner's own reading view.
type sample struct {
	sheet *parts.Sheet
	text  *parts.Reading
}

// sampleHigh leaves room for three lines of the largest letters.
const sampleHigh float32 = 196

func newSample(text string, l record.Look) *sample {
	all := typeset.Span{Start: 0, End: len(text)}
	s := &sample{text: parts.NewReading(readLook(l))}
	s.text.SetText(text, all, []typeset.Span{all}, []typeset.Span{all})
	s.sheet = parts.NewCard(parts.AtLeast(0, sampleHigh, s.text))
	s.sheet.Pad = look.S
	return s
}

func (s *sample) set(l record.Look) { s.text.SetLook(readLook(l)) }

// readLook turns a learner's look into measures of the screen.
func readLook(l record.Look) parts.ReadLook {
	return parts.ReadLook{Size: look.PointsToUnits(l.SizePt), Letter: l.Letter, Word: l.Word, Line: l.Line}
}
