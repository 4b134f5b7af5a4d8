package store

import (
	"errors"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
)

func TestTogetherKeepsAllOrNothing(t *testing.T) {
	s := openTest(t)
	stop := errors.New("stop")
	require.ErrorIs(t, s.Together(func(s *Store) error {
		laid(t, s, false).answer("m1", 0, "never kept")
		require.Len(t, must[[]record.Learner](t)(s.Learners()), 1)
		return stop
	}), stop)
	require.Empty(t, must[[]record.Learner](t)(s.Learners()))

	require.NoError(t, s.Together(func(s *Store) error {
		b := laid(t, s, false)
		b.answer("m1", 0, "kept")
		// One step that fails takes back itself alone.
		_, err := b.AppendAnswer(record.Answer{Learner: b.learner.ID, Sitting: "none", Seat: "none", StoryID: "none"})
		require.ErrorContains(t, err, "FOREIGN KEY")
		require.ErrorIs(t, s.EraseAll(), errTogether)
		require.ErrorIs(t, s.Backup("x"), errTogether)
		require.NoError(t, s.Export(io.Discard))
		return s.Together(func(s *Store) error { return s.SetSetting("a", "b") })
	}))
	l := must[[]record.Learner](t)(s.Learners())
	require.Len(t, l, 1)
	require.Len(t, must[[]record.Answer](t)(s.Answers(l[0].ID)), 1)
	require.Equal(t, "b", must[string](t)(s.Setting("a")))
}
