package pipeline

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestProgressReachesTheEndInOrder(t *testing.T) {
	e, err := New()
	require.NoError(t, err)
	var seen []int
	last := 0
	_, err = e.Analyze(WithProgress(context.Background(), func(done, of int) { seen, last = append(seen, done), of }), "Nilo was afraid. He ran.")
	require.NoError(t, err)
	require.IsIncreasing(t, seen)
	require.Equal(t, last, seen[len(seen)-1])
}
