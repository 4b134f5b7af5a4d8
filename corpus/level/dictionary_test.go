package level

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/corpus/shelf"
	"feltpage/nlp/opendata"
)

// oracle prints, for each word of standard input, the counts that the CMU
// Pronouncing Dictionary gives (stressed and unstressed vowels; "-" where it
// lacks the word) and what the rule-based library "syllable" says.
const oracle = `
import {dictionary} from 'cmu-pronouncing-dictionary'
import {syllable} from 'syllable'
import fs from 'fs'
const counts = Object.create(null)
for (const [key, sounds] of Object.entries(dictionary)) {
  const word = key.replace(/\(\d+\)$/, '')
  ;(counts[word] ??= new Set()).add((sounds.match(/\d/g) || []).length)
}
for (const w of fs.readFileSync(0, 'utf8').split('\n'))
  if (w) console.log(w, counts[w] ? [...counts[w]].join(',') : '-', syllable(w))
`

// Every word of the shelf that the dictionary knows; a count is right if it
// is one of the dictionary's. The rules were written from knowledge of the
// language and mended where these words showed a rule to be wrong, so the
// wider vocabulary of WordNet beside it shows what they are worth elsewhere.
// A general rule-based library is the yardstick: ours must not do worse.
func TestSyllablesAgainstPronouncingDictionary(t *testing.T) {
	// The CMU Pronouncing Dictionary (BSD) and the library syllable (MIT).
	dir := filepath.Dir(opendata.Node(t, "cmu-pronouncing-dictionary", "syllable"))
	tales, err := shelf.Stories()
	require.NoError(t, err)
	ours := map[string]bool{}
	for _, s := range tales {
		for _, w := range Words(s.Text) {
			ours[strings.ToLower(w)] = true
		}
	}
	compare(t, dir, "shelf", ours)

	wide := map[string]bool{}
	for _, part := range []string{"noun", "verb", "adj", "adv"} {
		f, err := os.Open("/usr/share/wordnet/index." + part)
		if err != nil {
			t.Log("WordNet is not installed; compared on the shelf's words alone")
			return
		}
		defer f.Close()
		for sc := bufio.NewScanner(f); sc.Scan(); {
			w, _, _ := strings.Cut(sc.Text(), " ")
			if w != "" && strings.Trim(w, "abcdefghijklmnopqrstuvwxyz") == "" {
				wide[w] = true
			}
		}
	}
	compare(t, dir, "WordNet", wide)
}

func compare(t *testing.T, dir, name string, words map[string]bool) {
	var in bytes.Buffer
	for w := range words {
		in.WriteString(w + "\n")
	}
	cmd := exec.Command("node", "--input-type=module", "-e", oracle)
	cmd.Dir, cmd.Stdin, cmd.Stderr = dir, &in, os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	n, right, rival, drift := 0, 0, 0, 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		f := strings.Fields(line)
		if len(f) != 3 || f[1] == "-" {
			continue
		}
		n++
		mine := Syllables(f[0])
		has := func(c int) bool { return strings.Contains(","+f[1]+",", ","+strconv.Itoa(c)+",") }
		if has(mine) {
			right++
		} else {
			first, _ := strconv.Atoi(strings.Split(f[1], ",")[0])
			drift += mine - first
		}
		if c, _ := strconv.Atoi(f[2]); has(c) {
			rival++
		}
	}
	require.Greater(t, n, 1000)
	t.Logf("%s: %d of %d words as the dictionary counts (%.1f %%), library syllable %d; %+.4f syllables a word too many", name, right, n, 100*float64(right)/float64(n), rival, float64(drift)/float64(n))
	require.GreaterOrEqual(t, right, rival)
}
