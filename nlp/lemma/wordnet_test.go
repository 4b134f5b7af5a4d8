package lemma

import (
	"bufio"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"
)

// wordnet is where Debian's wordnet-base puts WordNet 3.0.
const wordnet = "/usr/share/wordnet"

// exceptions reads one of WordNet's exception lists, one form a line with the
// lemmas that it may have. Forms of several words are left out.
func exceptions(t *testing.T, name string) map[string][]string {
	t.Helper()
	f, err := os.Open(filepath.Join(wordnet, name))
	if err != nil {
		t.Skip("WordNet is not here (Debian package wordnet-base)")
	}
	defer f.Close()
	out := map[string][]string{}
	for sc := bufio.NewScanner(f); sc.Scan(); {
		if w := strings.Fields(sc.Text()); len(w) > 1 && !strings.Contains(w[0], "_") {
			out[w[0]] = append(out[w[0]], w[1:]...)
		}
	}
	return out
}

// TestAgainstWordNet compares with WordNet's exception lists, which hold the
// inflected forms that its own rules do not reach: doubled consonants, -ied,
// and irregular forms. A verb form may be past, participle, -ing or third
// person; it agrees when the lemma for a tag that its ending allows is among
// WordNet's. The floors are what was reached, rounded down, so that a change
// that costs forms shows; the rest is listed by -v.
//
// What is left: nouns are Greek, Italian and Hebrew plurals that stories lack
// (amanuenses, amoretti, cherubim's rarer kin); verbs are rare compounds
// (browbeaten, countersunk), variant spellings (co-opts for "coopts") and words
// that are not among WordNet's own base forms; most adjectives are nouns on
// -er (archer, foreigner), listed because they are no comparatives, which the
// tag already tells.
func TestAgainstWordNet(t *testing.T) {
	for _, c := range []struct {
		list  string
		tags  []string
		floor float64
	}{
		{"verb.exc", []string{"VBD", "VBN", "VBG", "VBZ"}, 0.91},
		{"noun.exc", []string{"NNS"}, 0.61},
		{"adj.exc", []string{"JJR", "JJS"}, 0.88},
		{"adv.exc", []string{"RBR", "RBS"}, 0.85},
	} {
		t.Run(c.list, func(t *testing.T) {
			forms := exceptions(t, c.list)
			good := 0
			var missed []string
			for form, want := range forms {
				ok := slices.ContainsFunc(c.tags, func(tag string) bool { return slices.Contains(want, Of(form, tag)) })
				if ok {
					good++
				} else {
					missed = append(missed, form+" "+Of(form, c.tags[0])+" for "+strings.Join(want, " or "))
				}
			}
			sort.Strings(missed)
			t.Logf("%d of %d forms agree (%.1f %%); others: %s", good, len(forms), 100*float64(good)/float64(len(forms)), strings.Join(missed, "; "))
			if share := float64(good) / float64(len(forms)); share < c.floor {
				t.Errorf("%.3f agree, floor %.3f", share, c.floor)
			}
		})
	}
}
