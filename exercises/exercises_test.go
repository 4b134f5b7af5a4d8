package exercises

import (
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func TestBestFor(t *testing.T) {
	shook := Evidence{Span: nlp.Span{End: 5}, Weight: .5, Feelings: []nlp.Weight{{Family: "fear", Weight: .6}, {Family: "cold", Weight: .3}}}
	named := Evidence{Span: nlp.Span{End: 9}, Weight: 1, Feelings: []nlp.Weight{{Family: "fear", Weight: 1}}}
	blue := Evidence{Span: nlp.Span{End: 7}, Weight: .4, Feelings: []nlp.Weight{{Family: "cold", Weight: .8}}}
	k := Key{Evidence: []Evidence{shook, named, blue}}
	require.Equal(t, named, k.BestFor("fear"))
	require.Equal(t, blue, k.BestFor("cold"))
	require.Equal(t, named, k.BestFor("joy"), "the weightiest where none speaks for it")
	require.Zero(t, Key{}.BestFor("fear"))
}

func TestOnlyTheOwnStepsAreNeverMarked(t *testing.T) {
	for _, k := range []StepKind{Find, Body, Feeling, Reason} {
		require.True(t, k.Marked(), k)
	}
	require.False(t, AndYou.Marked())
	require.False(t, CouldHelp.Marked())
}

func TestSamePlace(t *testing.T) {
	at := func(id string, start, end int) Moment { return Moment{ID: id, Span: nlp.Span{Start: start, End: end}} }
	require.True(t, at("a", 0, 100).SamePlace(at("a", 500, 600)), "the same id")
	require.True(t, at("a", 0, 100).SamePlace(at("b", 60, 400)))
	require.True(t, at("b", 60, 400).SamePlace(at("a", 0, 100)))
	require.False(t, at("a", 0, 100).SamePlace(at("b", 80, 400)))
	require.False(t, at("a", 0, 100).SamePlace(at("b", 300, 400)))
}
