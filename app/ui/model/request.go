package model

import (
	"feltpage/exercises"
	"feltpage/nlp"

	"feltpage/app/record"
)

// SittingRequest asks for one sitting. A sitting that was begun and not ended
// is named by Resume and goes on where it stopped; the rest is then as it was
// at the start.
type SittingRequest struct {
	Learner  record.Learner
	Story    record.Story
	Analysis *nlp.Analysis
	Moments  []exercises.Moment // in story order
	Kind     record.SittingKind
	Resume   *record.Sitting
}
