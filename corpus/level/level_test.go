package level

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The first text and its values are from the tests of the textstat library;
// the second is worked out by hand from the published formulas.
func TestWorkedExamples(t *testing.T) {
	l := Of("Cool dogs wear da sunglasses.")
	require.Equal(t, 5, l.Words)
	require.Equal(t, 1, l.Sentences)
	require.InDelta(t, 83.32, l.Ease, 0.005)
	require.InDelta(t, 2.88, l.Grade, 0.005)

	l = Of("The fox ran fast. It was very hungry.")
	require.Equal(t, 8, l.Words)
	require.Equal(t, 2, l.Sentences)
	require.InDelta(t, 97.025, l.Ease, 0.0005)
	require.InDelta(t, 0.72, l.Grade, 0.005)
}
