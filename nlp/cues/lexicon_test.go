package cues

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/say"
	"feltpage/nlp"
)

func shippedRows(t testing.TB) []row {
	t.Helper()
	rows, err := readAll(files, "lexicon/en")
	require.NoError(t, err)
	return rows
}

func TestEveryFileStatesSourceAndLicence(t *testing.T) {
	n := 0
	require.NoError(t, fs.WalkDir(files, "lexicon/en", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		n++
		b, err := fs.ReadFile(files, name)
		require.NoError(t, err)
		for _, key := range []string{"@language en", "@source ", "@licence "} {
			require.Contains(t, string(b), key, name)
		}
		return nil
	}))
	require.GreaterOrEqual(t, n, 5)
}

func TestNoRowStandsTwice(t *testing.T) {
	seen := map[string]string{}
	for _, r := range shippedRows(t) {
		key := r.kind + " " + r.class + " " + r.pattern
		require.Empty(t, seen[key], "%s:%d repeats %s", r.file, r.line, key)
		seen[key] = r.file
	}
	words := map[string]int{}
	for _, r := range shippedRows(t) {
		if strings.Contains(r.pattern, " ") || r.class == classStop {
			continue
		}
		for _, w := range strings.Split(r.pattern, "|") {
			key := r.class + " " + w
			require.Zero(t, words[key], "%s:%d: %q stands twice in class %s", r.file, r.line, w, r.class)
			words[key] = r.line
		}
	}
}

func TestEveryFamilyAndPlaceIsReachable(t *testing.T) {
	family, place := map[string]bool{}, map[string]bool{}
	for _, r := range shippedRows(t) {
		for _, w := range r.feelings {
			family[w.Family] = true
			require.Contains(t, nlp.Families, w.Family, "%s:%d", r.file, r.line)
		}
		for _, p := range r.places {
			place[p] = true
			require.Contains(t, nlp.Places, p, "%s:%d", r.file, r.line)
		}
		if r.class != classStop {
			require.NotEmpty(t, r.feelings, "%s:%d", r.file, r.line)
		}
	}
	for _, f := range nlp.Families {
		require.True(t, family[f], "no row shows %s", f)
	}
	for _, p := range nlp.Places {
		require.True(t, place[p], "no row shows the %s", p)
	}
}

func TestEveryReasonAndSignHasItsSentence(t *testing.T) {
	c := say.English()
	for _, code := range []string{"cue.denied", "cue.pretended", "cue.own-words"} {
		require.True(t, c.Has(code), code)
	}
	for _, r := range shippedRows(t) {
		if r.class == classStop {
			continue
		}
		require.True(t, c.Has("cue."+r.code), "%s:%d: no sentence for code %s", r.file, r.line, r.code)
		require.True(t, c.Has("cue."+r.code+"-or"), "%s:%d: no sentence for code %s-or", r.file, r.line, r.code)
		if r.sign != "" && r.kind != nlp.Speech {
			require.True(t, c.Has("sign."+r.sign), "%s:%d: no name for sign %s", r.file, r.line, r.sign)
		}
	}
}

func TestAttributesAreKnown(t *testing.T) {
	uses := set("weak state noun-weak verb-weak weak-cue cry report exclaim at-start question person-object intransitive need-can subject-only whole")
	whose := set("possessor subject object near after")
	classes := set("adj adv noun verb object pattern speech stop")
	for _, r := range shippedRows(t) {
		require.True(t, classes[r.class], "%s:%d: class %q", r.file, r.line, r.class)
		require.True(t, r.use == "" || uses[r.use], "%s:%d: as=%s", r.file, r.line, r.use)
		require.True(t, r.whose == "" || whose[r.whose], "%s:%d: whose=%s", r.file, r.line, r.whose)
		require.True(t, r.strength == "" || r.strength == nlp.Slight || r.strength == nlp.Strong, "%s:%d: strength=%s", r.file, r.line, r.strength)
	}
}
