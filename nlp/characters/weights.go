package characters

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed salience.txt
var salienceText string

// weights gives the feature weights for each use of a pronoun.
var weights = sync.OnceValue(func() *[uses][features]float64 {
	w, err := parseWeights(salienceText)
	if err != nil {
		panic(err) // a test reads the same embedded file
	}
	return w
})

// parseWeights reads lines of feature, weight as subject, as object, as
// possessive, in speech.
func parseWeights(text string) (*[uses][features]float64, error) {
	if !strings.Contains(text, "# Source:") || !strings.Contains(text, "# Licence:") {
		return nil, fmt.Errorf("characters: salience.txt states no source or licence")
	}
	index := map[string]int{}
	for i, n := range featureNames {
		index[n] = i
	}
	var w [uses][features]float64
	for n, line := range strings.Split(text, "\n") {
		f := strings.Fields(line)
		if len(f) == 0 || strings.HasPrefix(line, "#") {
			continue
		}
		k, ok := index[f[0]]
		if !ok || len(f) != 1+uses {
			return nil, fmt.Errorf("characters: salience.txt line %d: want a feature and %d weights, have %q", n+1, uses, line)
		}
		for u := range uses {
			v, err := strconv.ParseFloat(f[1+u], 64)
			if err != nil {
				return nil, fmt.Errorf("characters: salience.txt line %d: %w", n+1, err)
			}
			w[u][k] = v
		}
	}
	return &w, nil
}
