package say

import (
	"context"
	"errors"
)

// Sayer is an error that knows its sentence: a key of the catalogue and the
// slots for it. Packages that do not import app can satisfy it too.
type Sayer interface {
	error
	Sentence() (key string, slots map[string]string)
}

// Error gives the one sentence for an error, the same on screen and on the
// command line. The outermost error that knows a sentence decides; an error
// without one is said in general words with its detail.
func (c *Catalogue) Error(err error) string {
	if err == nil {
		return ""
	}
	if s, ok := errors.AsType[Sayer](err); ok {
		return c.Say(s.Sentence())
	}
	if errors.Is(err, context.Canceled) {
		return c.Say("errors.cancelled", nil)
	}
	return c.Say("errors.unknown", S{"detail": err.Error()})
}

// Error gives the English sentence for an error.
func Error(err error) string { return English().Error(err) }
