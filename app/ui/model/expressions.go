package model

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"sync"

	"feltpage/app/record"
	"feltpage/nlp"
	"feltpage/nlp/cues"
	"feltpage/nlp/pipeline"
)

// listening is the engine that also knows the household's own expressions, and
// the version under which its analyses are kept.
type listening struct {
	mu      sync.RWMutex
	engine  Engine
	version string
}

// SetExpressions lets the engine look for the household's own expressions too.
// Analyses made with them are kept under a version of their own, so that every
// story is read anew after one was added or put aside.
func (h *House) SetExpressions(own []record.Expression) {
	var list []cues.Expression
	for _, x := range own {
		if x.Away || len(x.Families) == 0 {
			continue
		}
		c := cues.Expression{Phrase: x.Text, Family: x.Families[0].Family, Kind: x.Kind}
		if len(x.Places) > 0 {
			c.Place = x.Places[0]
		}
		list = append(list, c)
	}
	h.heard.mu.Lock()
	defer h.heard.mu.Unlock()
	h.heard.engine, h.heard.version = nil, ""
	e, ok := h.Engine.(interface {
		With([]cues.Expression) *pipeline.Engine
	})
	if !ok || len(list) == 0 {
		return
	}
	b, err := json.Marshal(list)
	if err != nil {
		return // strings always marshal
	}
	sum := sha256.Sum256(b)
	h.heard.engine, h.heard.version = e.With(list), h.Version+"+"+hex.EncodeToString(sum[:4])
}

// engine gives the engine to read with, and its version.
func (h *House) engine() (Engine, string) {
	h.heard.mu.RLock()
	defer h.heard.mu.RUnlock()
	if h.heard.engine != nil {
		return h.heard.engine, h.heard.version
	}
	return h.Engine, h.Version
}

// ErrEngine says that the engine gave up on a text.
var ErrEngine error = engineError{}

type engineError struct{}

func (engineError) Error() string { return "the reading engine gave up on this text" }

// Sentence gives the catalogue key.
func (engineError) Sentence() (key string, slots map[string]string) { return "errors.engine", nil }

// analyze reads a text. A text on which the engine breaks down costs that text
// and not the window.
func (h *House) analyze(ctx context.Context, text string) (a *nlp.Analysis, err error) {
	engine, version := h.engine()
	defer func() {
		if r := recover(); r != nil {
			a, err = nil, fmt.Errorf("%w: %v", ErrEngine, r)
		}
	}()
	if a, err = engine.Analyze(ctx, text); err != nil {
		return nil, err
	}
	a.Engine = version
	return a, nil
}
