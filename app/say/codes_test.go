package say

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Codes of exercises are written out in its source; this looks for each in the
// catalogue, so that no mark or question shows as a code in brackets.
func TestEveryCodeOfExercisesHasASentence(t *testing.T) {
	code := regexp.MustCompile(`"((?:mark|step|growth|moment)\.[a-z0-9.-]*[a-z0-9])"`)
	c, found := English(), 0
	require.NoError(t, filepath.WalkDir("../../exercises", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, m := range code.FindAllStringSubmatch(string(b), -1) {
			found++
			require.True(t, c.Has(m[1]), "%s: %s", path, m[1])
			switch {
			case strings.HasPrefix(m[1], "mark.body.") && m[1] != "mark.body.self":
				require.True(t, c.Has(m[1]+".place") && c.Has(m[1]+".sign"), m[1])
			case m[1] == "mark.feeling.not-yet" || m[1] == "mark.feeling.negated":
				require.True(t, c.Has(m[1]+".body"), m[1])
			}
		}
		return nil
	}))
	require.Greater(t, found, 40)
}

// The learner is never scolded, praised or ordered about.
func TestLearnersSentencesKeepTheTone(t *testing.T) {
	c := English()
	bad := regexp.MustCompile(`(?i)\b(wrong|correct|incorrect|mistake|error|good job|well done|great|excellent|oops|sorry|must|try harder|failed?|score|points?)\b|!`)
	for _, k := range c.Keys() {
		if strings.HasPrefix(k, "mark.") || strings.HasPrefix(k, "step.") {
			require.NotRegexp(t, bad, c.lines[k], k)
		}
	}
}
