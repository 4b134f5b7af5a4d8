package marking

import (
	"encoding/json"
	"os"
	"slices"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/exercises"
	"feltpage/nlp/opendata"
)

// Answers that experts gave to "How did ... feel?" about fairy tales
// (FairytaleQA, Xu et al. 2022, ACL), each judged by hand to families. Reading
// them should find one of the judged families in most, and seldom another one
// instead: an answer that is read as something else is marked unfairly, one
// that is not read is only left to the guide.
func TestFreeAnswersAgainstJudgedOnes(t *testing.T) {
	b, err := os.ReadFile(opendata.Path(t, "data/answer-families.json"))
	require.NoError(t, err)
	var judged map[string][]string
	require.NoError(t, json.Unmarshal(b, &judged))
	c, m := fixture(t)
	c.Book.Words = nil
	m.Span.End = 0 // no passage: only the answer itself
	j := judge{c, m, exercises.Step{}, exercises.Answer{}}
	var right, other, unread int
	var missed, differ []string
	for said, want := range judged {
		if slices.Contains(want, "other") {
			continue // none of the families
		}
		var got []string
		for _, n := range j.read(said) {
			for _, w := range n.families {
				if !n.denied {
					got = append(got, w.Family)
				}
			}
		}
		switch {
		case slices.ContainsFunc(got, func(f string) bool { return slices.Contains(want, f) }):
			right++
		case len(got) == 0:
			unread++
			missed = append(missed, said)
		default:
			other++
			differ = append(differ, said)
		}
	}
	sort.Strings(missed)
	sort.Strings(differ)
	n := right + other + unread
	t.Logf("%d answers: %d read as judged, %d as another family, %d not read", n, right, other, unread)
	t.Logf("another: %q", differ)
	t.Logf("not read: %q", missed)
	require.Greater(t, n, 200)
	// Floors, not goals: the data are for scoring and were not mined for words.
	require.GreaterOrEqual(t, float64(right), 0.75*float64(n))
	require.LessOrEqual(t, float64(other), 0.05*float64(n))
}
