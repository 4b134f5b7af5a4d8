package pipeline

import "context"

type progressKey struct{}

// WithProgress gives a context under which Analyze tells how many of its
// stages are done. tell is called on the goroutine that analyses.
func WithProgress(ctx context.Context, tell func(done, of int)) context.Context {
	return context.WithValue(ctx, progressKey{}, tell)
}

// progress gives what is to be told, or a function that does nothing.
func progress(ctx context.Context) func(done, of int) {
	if tell, ok := ctx.Value(progressKey{}).(func(done, of int)); ok {
		return tell
	}
	return func(int, int) {}
}
