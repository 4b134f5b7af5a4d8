package tag

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math/bits"
	"strings"
)

// table holds the weights. A row is the weights of one feature; equal groups
// of features have their rows side by side, so that a row is found by adding.
// Row 0 is empty and stands for every unknown feature.
type table struct {
	tags    []string         // sorted
	class   map[string]uint8 // tag to its index
	known   map[string]uint8 // words that have only one tag
	entries []int32          // weight in thousandths << 6 | tag
	rows    []uint32         // row r is entries[rows[r]:rows[r+1]]

	bias       [64]int32
	contexts   int         // number of tags, the two before a sentence included
	tagBase    uint32      // first row of the features of earlier tags
	firstRow   [256]uint32 // by first byte
	suffixes   map[uint32]int32
	suffixBase uint32
	words      map[string]int32
	wordSuffix []int32 // by word
	wordBase   []uint32
	wordAfter  []uint64 // by word: bit set of the tags before it that have a row

	border         [4]word // -START-, -START2-, -END-, -END2-
	start1, start2 uint8   // as tags
}

const magic = "feltpage tags 1\n"

var errBroken = errors.New("broken table")

// reader reads numbers and strings; after an error it gives zeros.
type reader struct {
	rest []byte
	err  error
}

// fail notes the first error.
func (r *reader) fail() {
	if r.err == nil {
		r.err = fmt.Errorf("%w, %d bytes before its end", errBroken, len(r.rest))
	}
	r.rest = nil
}

func (r *reader) number() int {
	n, size := binary.Uvarint(r.rest)
	if size <= 0 || n > 1<<30 {
		r.fail()
		return 0
	}
	r.rest = r.rest[size:]
	return int(n)
}

// count is a number of things that take at least one byte each.
func (r *reader) count() int {
	n := r.number()
	if n > len(r.rest) {
		r.fail()
		return 0
	}
	return n
}

func (r *reader) text() string {
	n := r.count()
	s := string(r.rest[:n])
	r.rest = r.rest[n:]
	return s
}

func (r *reader) row(t *table) {
	for n := r.count(); n > 0; n-- {
		if len(r.rest) < 2 || int(r.rest[0]) >= len(t.tags) {
			r.fail()
			return
		}
		c := r.rest[0]
		v, size := binary.Varint(r.rest[1:])
		if size <= 0 || v != v<<38>>38 {
			r.fail()
			return
		}
		r.rest = r.rest[1+size:]
		t.entries = append(t.entries, int32(v)<<6|int32(c))
	}
	t.rows = append(t.rows, uint32(len(t.entries)))
}

// read reads the table that gen wrote.
func read(data []byte) (*table, error) {
	rest, ok := strings.CutPrefix(string(data), magic)
	if !ok {
		return nil, fmt.Errorf("%w: no %q at its start", errBroken, strings.TrimSpace(magic))
	}
	r := &reader{rest: []byte(rest)}
	t := &table{
		class:   map[string]uint8{},
		entries: make([]int32, 0, len(data)/4),
		rows:    make([]uint32, 2, len(data)/6),
	}
	for n := r.count(); n > 0; n-- {
		t.class[r.text()] = uint8(len(t.tags))
		t.tags = append(t.tags, "")
	}
	if len(t.class) != len(t.tags) || len(t.tags) > 60 {
		return nil, errBroken
	}
	for name, c := range t.class {
		t.tags[c] = name
	}
	known := r.count()
	t.known = make(map[string]uint8, known)
	for ; known > 0; known-- {
		w := r.text()
		c := r.number()
		if c >= len(t.tags) {
			return nil, errBroken
		}
		t.known[w] = uint8(c)
	}

	first := len(t.entries)
	r.row(t) // bias
	for _, e := range t.entries[first:] {
		t.bias[e&63] += e >> 6
	}
	t.contexts = len(t.tags) + 2
	t.tagBase = t.next()
	for range t.contexts * (t.contexts + 2) {
		r.row(t)
	}
	for n := r.count(); n > 0; n-- {
		if c := []rune(r.text()); len(c) == 1 && c[0] < 256 {
			t.firstRow[c[0]] = t.next()
		}
		r.row(t)
	}
	suffixes := r.count()
	t.suffixes = make(map[uint32]int32, suffixes)
	t.suffixBase = t.next() - 3
	for i := range suffixes {
		t.suffixes[suffixKey(r.text())] = int32(i + 1)
		r.row(t)
		r.row(t)
		r.row(t)
	}
	words := r.count()
	t.words = make(map[string]int32, words)
	t.wordSuffix = make([]int32, words+1)
	t.wordBase = make([]uint32, words+1)
	t.wordAfter = make([]uint64, words+1)
	for i := 1; i <= words; i++ {
		w := r.text()
		t.words[w] = int32(i)
		t.wordSuffix[i] = t.suffixes[suffixKey(w)]
		t.wordBase[i] = t.next()
		pairs := r.count()
		for range pairs {
			t.wordAfter[i] |= 1 << (r.number() & 63)
		}
		if bits.OnesCount64(t.wordAfter[i]) != pairs {
			r.fail()
			break
		}
		for range 5 + pairs {
			r.row(t)
		}
	}
	if r.err == nil && len(r.rest) > 0 {
		r.err = fmt.Errorf("%w: %d bytes too many", errBroken, len(r.rest))
	}
	if r.err != nil {
		return nil, r.err
	}
	for i, w := range []string{"-START-", "-START2-", "-END-", "-END2-"} {
		t.border[i] = word{context: t.words[w], near: t.suffixes[suffixKey(w)]}
	}
	t.start1, t.start2 = uint8(len(t.tags)), uint8(len(t.tags)+1)
	return t, nil
}

// next gives the number of the row that is read next.
func (t *table) next() uint32 { return uint32(len(t.rows) - 1) }

// tagRow is the row of the tag before (back 0) or the one before that (1).
func (t *table) tagRow(tag, back int) uint32 {
	return t.tagBase + uint32(tag*(t.contexts+2)+back)
}

// pairRow is the row of both.
func (t *table) pairRow(p1, p2 int) uint32 {
	return t.tagBase + uint32(p1*(t.contexts+2)+2+p2)
}

// suffixRow is the row of a suffix of the word itself (at 0), the one before
// (1) or after it (2).
func (t *table) suffixRow(suffix int32, at uint32) uint32 {
	if suffix == 0 {
		return 0
	}
	return t.suffixBase + uint32(suffix)*3 + at
}

// wordRow is the row of the word itself (at 0), or of one that stands one or
// two before (1, 2) or after (3, 4) the word to be tagged.
func (t *table) wordRow(word int32, at uint32) uint32 {
	if word == 0 {
		return 0
	}
	return t.wordBase[word] + at
}

// afterRow is the row of a word after a tag.
func (t *table) afterRow(word int32, p1 int) uint32 {
	set := t.wordAfter[word]
	if set&(1<<p1) == 0 {
		return 0
	}
	return t.wordBase[word] + 5 + uint32(bits.OnesCount64(set&(1<<p1-1)))
}
