package model

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/nlp/feelings"
)

func TestTableOf(t *testing.T) {
	shipped, err := feelings.Load()
	require.NoError(t, err)
	table, err := TableOf(shipped, []record.Family{
		{FamilyID: "overloaded", Name: "too much", Nearest: "worry"},
		{FamilyID: "itch", Name: "itchy", Nearest: "gone from a later version"},
		{FamilyID: "anger", Name: "mad"},
		{FamilyID: "bored", Name: "bored", Away: true},
	})
	require.NoError(t, err)
	require.Equal(t, append(shipped.IDs(), "overloaded", "itch"), table.IDs())
	require.True(t, table.Near("overloaded", "worry"))
	same, err := TableOf(shipped, nil)
	require.NoError(t, err)
	require.Same(t, shipped, same)
}
