package say

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

type sayer struct{}

func (sayer) Error() string { return "detail" }
func (sayer) Sentence() (string, map[string]string) {
	return "errors.data-not-writable", map[string]string{"folder": "/nowhere"}
}

func TestErrorFindsTheSentenceInside(t *testing.T) {
	got := Error(fmt.Errorf("opening: %w", sayer{}))
	require.Contains(t, got, "/nowhere")
	require.NotContains(t, got, "{")
	require.Contains(t, Error(errors.New("the cat sat on it")), "the cat sat on it")
	require.Equal(t, T("errors.cancelled"), Error(fmt.Errorf("reading: %w", context.Canceled)))
	require.Empty(t, Error(nil))
}
