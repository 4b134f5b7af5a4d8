// Package pipeline joins the stages of the reading engine. It is the one place
// that knows their order; a stage is replaced here and nowhere else.
package pipeline

import (
	"context"
	"fmt"
	"slices"

	"feltpage/nlp"
	"feltpage/nlp/characters"
	"feltpage/nlp/clauses"
	"feltpage/nlp/cues"
	"feltpage/nlp/quotes"
	"feltpage/nlp/segment"
	"feltpage/nlp/situations"
	"feltpage/nlp/tag"
)

// Version names the engine. Kept analyses carry it: raise it whenever the same
// text may be read differently.
const Version = "0.3.0"

// Engine reads texts. It holds the models, is never changed after New, and may
// be used from several goroutines at once.
type Engine struct {
	tagger     *tag.Tagger
	lexicon    *cues.Lexicon
	situations *situations.Model
}

// New loads the embedded models and lexicons.
func New() (*Engine, error) {
	tagger, err := tag.Load()
	if err != nil {
		return nil, fmt.Errorf("loading the tagger: %w", err)
	}
	lexicon, err := cues.Load()
	if err != nil {
		return nil, fmt.Errorf("loading the cue lexicon: %w", err)
	}
	model, err := situations.Load()
	if err != nil {
		return nil, err
	}
	return &Engine{tagger: tagger, lexicon: lexicon, situations: model}, nil
}

// With gives an engine that also knows the household's own expressions. The
// engine it is called on stays as it was.
func (e *Engine) With(own []cues.Expression) *Engine {
	return &Engine{tagger: e.tagger, lexicon: e.lexicon.With(own), situations: e.situations}
}

// Analyze reads one text. The result depends on the text alone. It ends early
// with the context's error when ctx is done.
func (e *Engine) Analyze(ctx context.Context, text string) (*nlp.Analysis, error) {
	a := &nlp.Analysis{Engine: Version}
	stages := []func(){
		func() { a.Doc = segment.Split(text) },
		func() { e.tagger.Tag(a.Doc) },
		func() { clauses.Parse(a.Doc) },
		func() { a.Quotes = quotes.Find(a.Doc) },
		func() { a.Characters, a.Quotes = characters.Resolve(a.Doc, a.Quotes) },
		func() { a.Cues = e.lexicon.Find(a.Doc, a.Characters, a.Quotes) },
		func() { a.Cues = inOrder(a.Cues, e.situations.Find(a.Doc, a.Characters, a.Quotes, a.Cues)) },
	}
	tell := progress(ctx)
	for i, stage := range stages {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		stage()
		tell(i+1, len(stages))
	}
	return a, nil
}

// inOrder merges two lists of cues that are each in text order; of two that
// start together, what is shown comes before what is guessed.
func inOrder(shown, guessed []nlp.Cue) []nlp.Cue {
	out := append(shown, guessed...)
	slices.SortStableFunc(out, func(a, b nlp.Cue) int { return a.Span.Start - b.Span.Start })
	return out
}
