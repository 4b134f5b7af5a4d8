package lemma

import "testing"

func TestOf(t *testing.T) {
	for _, c := range []struct{ word, tag, want string }{
		{"walked", "VBD", "walk"}, {"baked", "VBD", "bake"}, {"stopped", "VBD", "stop"}, {"hoped", "VBD", "hope"},
		{"hopped", "VBD", "hop"}, {"wondered", "VBD", "wonder"}, {"carried", "VBD", "carry"}, {"trembling", "VBG", "tremble"},
		{"running", "VBG", "run"}, {"being", "VBG", "be"}, {"dying", "VBG", "die"}, {"agreed", "VBD", "agree"},
		{"pulled", "VBD", "pull"}, {"travelled", "VBD", "travel"}, {"kissed", "VBD", "kiss"}, {"sobbed", "VBD", "sob"},
		{"breathed", "VBD", "breathe"}, {"clothed", "VBN", "clothe"}, {"frightened", "VBN", "frighten"}, {"sighed", "VBD", "sigh"},
		{"rises", "VBZ", "rise"}, {"watches", "VBZ", "watch"}, {"aches", "VBZ", "ache"}, {"goes", "VBZ", "go"},
		{"cries", "VBZ", "cry"}, {"has", "VBZ", "have"}, {"'s", "VBZ", "be"}, {"'d", "MD", "would"}, {"'d", "VBD", "have"},
		{"lay", "VBD", "lie"}, {"lay", "VB", "lay"}, {"saw", "VBD", "see"}, {"felt", "VBD", "feel"}, {"fell", "VBD", "fall"},
		{"shew", "VB", "show"}, {"shewed", "VBD", "show"}, {"spake", "VBD", "speak"}, {"wept", "VBD", "weep"}, {"crept", "VBD", "creep"},
		{"trode", "VBD", "tread"}, {"durst", "VBD", "dare"}, {"hath", "VBZ", "have"}, {"saith", "VBZ", "say"}, {"goeth", "VBZ", "go"},
		{"cometh", "VBZ", "come"}, {"knowest", "VBP", "know"}, {"wilt", "MD", "will"}, {"sha", "MD", "shall"}, {"n't", "RB", "not"},
		{"knees", "NNS", "knee"}, {"wolves", "NNS", "wolf"}, {"ladies", "NNS", "lady"}, {"pies", "NNS", "pie"}, {"boxes", "NNS", "box"},
		{"horses", "NNS", "horse"}, {"glasses", "NNS", "glass"}, {"houses", "NNS", "house"}, {"heroes", "NNS", "hero"}, {"toes", "NNS", "toe"},
		{"children", "NNS", "child"}, {"women", "NNS", "woman"}, {"sheep", "NNS", "sheep"}, {"voices", "NNS", "voice"}, {"brethren", "NNS", "brother"},
		{"happier", "JJR", "happy"}, {"colder", "JJR", "cold"}, {"bigger", "JJR", "big"}, {"nicest", "JJS", "nice"}, {"better", "JJR", "good"},
		{"better", "RBR", "well"}, {"faster", "RBR", "fast"}, {"eldest", "JJS", "old"}, {"smaller", "JJR", "small"}, {"gentlest", "JJS", "gentle"},
		{"sadly", "RB", "sadly"}, {"his", "PRP$", "his"}, {"moss", "NNP", "moss"}, {"an", "DT", "a"}, {"x", "", "x"}, {"", "VBD", ""},
	} {
		if got := Of(c.word, c.tag); got != c.want {
			t.Errorf("Of(%q, %q) = %q, want %q", c.word, c.tag, got, c.want)
		}
	}
}

func FuzzOf(f *testing.F) {
	f.Add("walked", "VBD")
	f.Add("ing", "VBG")
	f.Add("es", "NNS")
	f.Add("s", "VBZ")
	f.Add("\xffer", "JJR")
	f.Fuzz(func(t *testing.T, w, tag string) {
		if l := Of(w, tag); (l == "") != (w == "") {
			t.Fatalf("Of(%q, %q) = %q", w, tag, l)
		}
	})
}
