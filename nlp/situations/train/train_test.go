package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp/feelings"
	"feltpage/nlp/situations"
)

// tiny lays out a small invented data folder and returns it with its vectors.
func tiny(t *testing.T) (data, vectors string) {
	t.Helper()
	data = t.TempDir()
	put := func(name string, rows ...any) {
		var b strings.Builder
		for _, r := range rows {
			line, err := json.Marshal(r)
			require.NoError(t, err)
			b.Write(line)
			b.WriteByte('\n')
		}
		name = filepath.Join(data, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, []byte(b.String()), 0o644))
	}
	type m = map[string]any
	put("fairytale-dev/stories/a-bakery.jsonl",
		m{"section": 1, "text": "Juniper kept a goose. A fox stole the goose. Juniper wept. She was sad all day."},
		m{"section": 2, "text": "Moss found the goose. Juniper danced and was glad."})
	put("fairytale-dev/stories/b-boat.jsonl", m{"section": 1, "text": "Moss had a boat. The wind took the boat. Moss was afraid and ran home."})
	put("fairytale-dev/feeling-questions.jsonl",
		m{"story": "a-bakery", "sections": []int{1}, "question": "How did Juniper feel when the fox stole the goose?", "answers": []string{"sad"}, "second_annotator": []string{}, "stated": "implicit"},
		m{"story": "b-boat", "sections": []int{1}, "question": "How did Moss feel when the wind took the boat?", "answers": []string{"afraid", "scared"}, "second_annotator": []string{}, "stated": "explicit"})
	put("event-feelings/train.jsonl", m{"event": "PersonX loses PersonX's purse", "actor": []string{"sad", "upset"}, "others": []string{"none"}},
		m{"event": "PersonX helps PersonY", "actor": []string{"proud"}, "others": []string{"grateful"}})
	put("event-feelings/dev.jsonl", m{"event": "PersonX wins", "actor": []string{"happy"}, "others": []string{}})
	v := m{}
	for i, w := range []string{"goose", "steal", "boat", "fox", "lose"} {
		x := make([]float64, dims)
		x[i] = 2
		v[w] = x
	}
	put("vectors.json", m{"vectors": v})
	return data, filepath.Join(data, "vectors.json")
}

func TestSameDataSameBytes(t *testing.T) {
	data, vectors := tiny(t)
	s := usual
	s.epochs = 2
	var got [][]byte
	for _, name := range []string{"one", "two"} {
		out := filepath.Join(t.TempDir(), name)
		require.NoError(t, run(data, vectors, out, "all", 0, s))
		b, err := os.ReadFile(out)
		require.NoError(t, err)
		got = append(got, b)
	}
	require.Equal(t, got[0], got[1])
	m, err := situations.Decode(bytes.NewReader(got[0]))
	require.NoError(t, err)
	require.Positive(t, m.Len())

	// Half of the stories is learned from: the weights differ.
	out := filepath.Join(t.TempDir(), "half")
	require.NoError(t, run(data, vectors, out, "work", 0, s))
	half, err := os.ReadFile(out)
	require.NoError(t, err)
	require.NotEqual(t, got[0], half)
}

func TestVectorsAreScaled(t *testing.T) {
	_, name := tiny(t)
	v, err := readVectors(name)
	require.NoError(t, err)
	require.Equal(t, float32(1), v["goose"][0])
	require.InDelta(t, 0, cosine(v["goose"], v["fox"]), 1e-6)
}

func TestMissingDataIsAnError(t *testing.T) {
	_, vectors := tiny(t)
	require.Error(t, run(t.TempDir(), vectors, filepath.Join(t.TempDir(), "w"), "all", 0, usual))
	require.Error(t, run(t.TempDir(), vectors, filepath.Join(t.TempDir(), "w"), "some", 0, usual))
	require.Error(t, run(t.TempDir(), "none.json", filepath.Join(t.TempDir(), "w"), "all", 0, usual))
}

func TestOwnFilesHold(t *testing.T) {
	l := labels(t)
	n := 0
	require.NoError(t, readOwn(ownEvents, func(text string, want []float32) {
		n++
		sum := float32(0)
		for _, x := range want {
			sum += x
		}
		require.InDelta(t, 1, sum, 1e-5, text)
	}, l.class))
	require.Greater(t, n, 300)
	for _, bad := range []string{"he fell | fear", "# Source: x\n# Licence: y\nhe fell", "# Source: x\n# Licence: y\nhe fell | dread", "# Source: x\n# Licence: y\nhe fell | fear x"} {
		require.Error(t, readOwn(bad, func(string, []float32) {}, l.class), bad)
	}
}

func labels(t *testing.T) *labeller {
	t.Helper()
	table, err := feelings.Load()
	require.NoError(t, err)
	return newLabeller(table, nil)
}

func TestAnswersBecomeFamilies(t *testing.T) {
	l := labels(t)
	for answer, family := range map[string]string{"very sad": "sadness", "Angry": "anger", "none": "", "afraid": "fear"} {
		got := l.label(answer)
		require.NotNil(t, got, answer)
		best := 0
		for i, x := range got {
			if x > got[best] {
				best = i
			}
		}
		require.Equal(t, family, situations.Classes[best], answer)
	}
	require.Nil(t, l.label("like a spoon"))
}

func TestQuestionsName(t *testing.T) {
	q := question{Question: "How did the old king feel when his son left?"}
	require.Equal(t, "the old king", q.who())
	require.Equal(t, "when his son left", q.tail())
	require.Equal(t, []string{"king"}, content(q.who()))
}
