package characters

import (
	"strings"
	"testing"

	"feltpage/nlp"
)

func TestLexiconLoads(t *testing.T) {
	l, err := load(nounsText, peopleText, namesText, placesText)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ word, kind, gender string }{
		{"grandmother", nlp.Person, nlp.Female}, {"baker", nlp.Person, ""}, {"king", nlp.Person, nlp.Male},
		{"gull", nlp.Animal, ""}, {"mare", nlp.Animal, nlp.Female}, {"giant", nlp.Being, nlp.Male}, {"fairy", nlp.Being, nlp.Female},
		{"crowd", nlp.Group, ""}, {"pot", nlp.Thing, ""}, {"knee", "", ""}, {"have", "", ""},
	} {
		if n := l.nouns[c.word]; n.kind != c.kind || n.gender != c.gender {
			t.Errorf("%s is %q %q, want %q %q", c.word, n.kind, n.gender, c.kind, c.gender)
		}
	}
	if _, err := parseWeights(salienceText); err != nil {
		t.Error(err)
	}
}

func TestLexiconRejects(t *testing.T) {
	const head = "# Source: x\n# Licence: y\n"
	ok := []string{head + "baker p\n", head + "p f kin mother\n", head + "f: Ann\n", head + "place: Hull\n"}
	if _, err := load(ok[0], ok[1], ok[2], ok[3]); err != nil {
		t.Fatal(err)
	}
	for i, bad := range []string{head + "baker z\n", head + "p f what mother\n", head + "x: Ann\n", head + "street: Hull\n"} {
		for _, text := range []string{bad, strings.Replace(ok[i], "# Licence: y\n", "", 1)} {
			in := append([]string(nil), ok...)
			in[i] = text
			if _, err := load(in[0], in[1], in[2], in[3]); err == nil {
				t.Errorf("file %d was taken: %q", i, text)
			}
		}
	}
	if _, err := parseWeights(head + "latest 1 2\n"); err == nil {
		t.Error("a weight line too short was taken")
	}
}
