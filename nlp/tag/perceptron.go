package tag

import "unicode/utf8"

// word is what the features need to know of one token; all indices were looked
// up once, so that scoring only follows them.
type word struct {
	context int32 // of the normalised word in table.words, or 0 for unknown
	suffix  int32 // of the word's last three bytes in table.suffixes, or 0
	near    int32 // the same of the normalised word, as its neighbours see it
	first   uint8 // first byte
	tag     uint8
	settled bool // the tag needs no scoring
}

// state is the working memory of one call.
type state struct {
	words  []word // two marks of the border on either side
	scores [64]int32
}

// start makes room for a sentence of n words.
func (s *state) start(t *table, n int) {
	if cap(s.words) < n+4 {
		s.words = make([]word, 0, 2*n+4)
	}
	s.words = append(s.words[:0], t.border[0], t.border[1])
}

// add appends a word: as written, in lower case, and its tag where it is known
// beforehand.
func (s *state) add(t *table, text, lower, tag string) {
	w := word{first: text[0]}
	if tag != "" {
		w.settled = true
		w.tag = t.class[tag]
		if tag == "``" || tag == "''" {
			// The treebank writes quotes as their tags.
			text, lower = tag, tag
		}
	}
	norm := normal(lower, text)
	if i, ok := t.words[norm]; ok {
		w.context = i
		w.near = t.wordSuffix[i]
	} else {
		w.near = t.suffixes[suffixKey(norm)]
	}
	if !w.settled {
		if c, ok := t.known[text]; ok {
			w.tag, w.settled = c, true
		} else if len(text) == len(norm) && text[max(0, len(text)-3):] == norm[max(0, len(norm)-3):] {
			w.suffix = w.near
		} else {
			w.suffix = t.suffixes[suffixKey(text)]
		}
	}
	s.words = append(s.words, w)
}

// tag scores the words of the sentence from left to right.
func (s *state) tag(t *table) {
	s.words = append(s.words, t.border[2], t.border[3])
	p1, p2 := t.start1, t.start2
	for i := 2; i < len(s.words)-2; i++ {
		w := &s.words[i]
		if !w.settled {
			w.tag = s.predict(t, i, int(p1), int(p2))
		}
		p2, p1 = p1, w.tag
	}
}

// predict gives the best tag of word i after the tags p1 and, before it, p2.
func (s *state) predict(t *table, i, p1, p2 int) uint8 {
	s.scores = t.bias
	w := s.words[i-2 : i+3]
	s.sum(t, t.suffixRow(w[2].suffix, 0))
	s.sum(t, t.firstRow[w[2].first])
	s.sum(t, t.tagRow(p1, 0))
	s.sum(t, t.tagRow(p2, 1))
	s.sum(t, t.pairRow(p1, p2))
	s.sum(t, t.wordRow(w[2].context, 0))
	s.sum(t, t.afterRow(w[2].context, p1))
	s.sum(t, t.wordRow(w[1].context, 1))
	s.sum(t, t.suffixRow(w[1].near, 1))
	s.sum(t, t.wordRow(w[0].context, 2))
	s.sum(t, t.wordRow(w[3].context, 3))
	s.sum(t, t.suffixRow(w[3].near, 2))
	s.sum(t, t.wordRow(w[4].context, 4))
	best := 0
	for c := 1; c < len(t.tags); c++ {
		if s.scores[c] > s.scores[best] {
			best = c
		}
	}
	return uint8(best)
}

// sum adds the weights of one feature.
func (s *state) sum(t *table, row uint32) {
	for _, e := range t.entries[t.rows[row]:t.rows[row+1]] {
		s.scores[e&63] += e >> 6
	}
}

// normal is how a word looks to the features of its neighbours.
func normal(lower, text string) string {
	c := text[0]
	if c != '-' {
		for i := 1; i < len(text); i++ {
			if text[i] == '-' {
				return "!HYPHEN"
			}
		}
	}
	if c >= '0' && c <= '9' {
		if len(text) == 4 && allDigits(text) {
			return "!YEAR"
		}
		return "!DIGITS"
	}
	return lower
}

func allDigits(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// letters reports a word that has a letter, a digit or a mark that the model
// may know: anything but a lone sign.
func letters(s string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= utf8.RuneSelf || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' {
			return true
		}
	}
	return false
}

// suffixKey packs the last three bytes of a word and their number.
func suffixKey(w string) uint32 {
	n := min(len(w), 3)
	key := uint32(n)
	for _, c := range []byte(w[len(w)-n:]) {
		key = key<<8 | uint32(c)
	}
	return key
}
