package ui

import (
	"feltpage/app/record"
	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
)

// sample shows a few words of a story as the learner would see them.
type sample struct {
	sheet *parts.Sheet
	words *parts.Words
}

func newSample(text string, l record.Look) *sample {
	s := &sample{words: parts.NewWords(text, 0)}
	s.sheet = parts.NewCard(s.words)
	s.set(l)
	return s
}

func (s *sample) set(l record.Look) {
	s.words.Type, s.words.Leading = look.PointsToUnits(l.SizePt), float32(l.Line)
	s.words.Refresh()
}
