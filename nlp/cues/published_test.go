package cues

import (
	"bufio"
	"os"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/nlp"
)

func table(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	var out [][]string
	for sc := bufio.NewScanner(f); sc.Scan(); {
		if l := sc.Text(); l != "" && l[0] != '#' {
			out = append(out, strings.Split(l, "\t"))
		}
	}
	return out
}

// The words of the lexicon that stand alone, with the families they show.
func singleWords(t *testing.T) map[string][]nlp.Weight {
	t.Helper()
	out := map[string][]nlp.Weight{}
	for _, r := range shippedRows(t) {
		if strings.Contains(r.pattern, " ") || r.class == classStop || r.class == classSpeech {
			continue
		}
		for _, w := range strings.Split(r.pattern, "|") {
			w, _, _ = strings.Cut(strings.TrimPrefix(w, "="), "/")
			if _, ok := out[w]; !ok {
				out[w] = r.feelings
			}
		}
	}
	return out
}

// Lancaster Sensorimotor Norms (Lynott et al. 2020): every word of a body state
// that the lexicon knows ranks above every control word, and no control word is
// a cue. How the rest of the published words stand is only logged: "sweat" is
// seen as much as felt and scores low, "think", "heart" and "stomach" score
// high and are no cue alone, so no cut is asked for.
func TestBodyStatesRankAboveControlWords(t *testing.T) {
	states := set("hunger thirst tiredness pain cold heat sickness")
	words := singleWords(t)
	lowest, highest := 5.0, 0.0
	n := 0
	var others []string
	for _, row := range table(t, "testdata/interoceptive.tsv") {
		v, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		var fam string
		for _, w := range forms(row[0]) {
			if ws, ok := words[w]; ok && fam == "" {
				fam = ws[0].Family
			}
		}
		switch {
		case len(row) > 2 && row[2] == "control":
			require.Empty(t, fam, "the control word %q is a cue", row[0])
			highest = max(highest, v)
		case states[fam]:
			n++
			lowest = min(lowest, v)
		default:
			others = append(others, row[0]+" "+row[1]+" "+fam)
		}
	}
	t.Logf("%d body-state words, lowest %.2f; highest control %.2f; others: %s", n, lowest, highest, strings.Join(others, ", "))
	require.GreaterOrEqual(t, n, 15)
	require.Greater(t, lowest, highest)
}

// Families that a cluster of Shaver et al. (1987) may stand for.
var clusterFamilies = map[string]string{
	"affection": "love", "lust": "love excitement", "longing": "loneliness sadness love",
	"cheerfulness": "joy", "zest": "excitement", "contentment": "joy calm", "pride": "pride",
	"optimism": "excitement joy", "enthrallment": "joy", "relief": "relief", "surprise": "surprise",
	"irritation": "anger frustration", "exasperation": "frustration anger", "rage": "anger", "disgust": "disgust",
	"envy": "jealousy", "torment": "anger pain",
	"suffering": "pain sadness", "sadness": "sadness", "disappointment": "sadness", "shame": "shame guilt",
	"neglect": "loneliness shame sadness", "sympathy": "sadness love",
	"horror": "fear", "nervousness": "worry fear",
}

// Words on which we differ, and why.
var differs = map[string]string{
	"agitation":     "stirred up rather than angry: excitement and worry",
	"loathing":      "we hold loathing with disgust",
	"hate":          "we hold anger first",
	"scorn":         "we hold disgust first, anger second",
	"dislike":       "we hold disgust first, anger second",
	"displeasure":   "in storybooks a king's displeasure is anger",
	"regret":        "we hold sadness first, guilt second",
	"dismay":        "we hold worry and fear first, sadness third",
	"distress":      "we hold sadness first, worry second",
	"shock":         "we hold surprise first",
	"mortification": "we hold shame, not fear",
	"passion":       "in storybooks a passion is a rage",
	"torment":       "pain",
	"hurt":          "pain",
	"insult":        "anger at being insulted",
}

// Shaver et al. (1987): the heaviest family of each of their words that the
// lexicon knows lies in their cluster, or the difference is explained above.
func TestFamiliesAgreeWithPublishedHierarchy(t *testing.T) {
	words := singleWords(t)
	known, agree := 0, 0
	var unknown []string
	for _, row := range table(t, "testdata/emotion-words.tsv") {
		fam, ok := words[row[2]]
		if !ok {
			unknown = append(unknown, row[2])
			continue
		}
		known++
		if strings.Contains(" "+clusterFamilies[row[1]]+" ", " "+fam[0].Family+" ") {
			agree++
			continue
		}
		require.Contains(t, differs, row[2], "%s (%s) is %s here", row[2], row[1], fam[0].Family)
	}
	sort.Strings(unknown)
	t.Logf("%d of 135 words known, %d agree; unknown: %s", known, agree, strings.Join(unknown, " "))
	require.Greater(t, known, 90)
	require.Greater(t, float64(agree)/float64(known), 0.85)
}
