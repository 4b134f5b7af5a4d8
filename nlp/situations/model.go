package situations

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"sort"
	"strings"

	"feltpage/nlp"
)

// classes is how many Classes there are: a constant, so that sums need no
// room of their own.
const classes = 28

// Classes are the shipped families and, last, "" for "no feeling to speak of".
var Classes = append(append(make([]string, 0, classes), nlp.Families...), "")

// Model is the learned weights. It is read-only after Load and safe for use by
// several goroutines.
type Model struct {
	unit   float64 // log odds of one step of say
	bias   []float64
	words  []string // in byte order
	number map[string]int32
	say    []int8 // word by word, slot by slot, class by class
}

//go:embed weights.bin.gz
var embedded []byte

// Load reads the embedded weights. An error means that the file is broken.
func Load() (*Model, error) {
	m, err := Decode(bytes.NewReader(embedded))
	if err != nil {
		return nil, fmt.Errorf("reading the situation weights: %w", err)
	}
	return m, nil
}

// NewModel makes a model of words in byte order, each once, with what each says
// in each slot, class by class, in log odds; it is rounded to the unit. The
// command that learns calls it.
func NewModel(unit float64, bias []float64, words []string, say func(word int, slot Slot) []float64) *Model {
	m := &Model{unit: unit, bias: bias, words: words, say: make([]int8, 0, len(words)*int(Slots)*len(Classes))}
	for w := range words {
		for s := range Slots {
			for _, x := range say(w, s) {
				m.say = append(m.say, int8(math.Max(-127, math.Min(127, math.Round(x/unit)))))
			}
		}
	}
	m.index()
	return m
}

func (m *Model) index() {
	m.number = make(map[string]int32, len(m.words))
	for i, w := range m.words {
		m.number[w] = int32(i)
	}
}

// magic opens a weights file; its digit is the version of the layout.
const magic = "FPSIT2\n"

// errLayout means bytes that are no weights of this version, or broken ones.
var errLayout = errors.New("not a situation weights file of this version")

// Encode writes the weights, gzipped. The layout, little-endian: magic; unit
// (float64); number of classes and of slots (uint16); biases (float64); number
// of words (uint32); the words, each ended by a line feed; their say, one plane
// a slot and class (such bytes pack smaller). The same model gives the same
// bytes.
func (m *Model) Encode(w io.Writer) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString(magic)
	put := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) } // a bytes.Buffer takes everything
	put(m.unit)
	put(uint16(len(Classes)))
	put(uint16(Slots))
	put(m.bias)
	put(uint32(len(m.words)))
	for _, word := range m.words {
		b.WriteString(word)
		b.WriteByte('\n')
	}
	row := int(Slots) * len(Classes)
	for k := range row {
		for i := range m.words {
			b.WriteByte(byte(m.say[i*row+k]))
		}
	}
	if _, err := z.Write(b.Bytes()); err != nil {
		return err
	}
	return z.Close()
}

// maxFile bounds what a weights file may unpack to, in bytes.
const maxFile = 64 << 20

// Decode reads what Encode wrote.
func Decode(r io.Reader) (*Model, error) {
	z, err := gzip.NewReader(r)
	if err != nil {
		return nil, err
	}
	b, err := io.ReadAll(io.LimitReader(z, maxFile))
	if err != nil {
		return nil, err
	}
	rest, ok := bytes.CutPrefix(b, []byte(magic))
	if !ok {
		return nil, errLayout
	}
	rd := bytes.NewReader(rest)
	var head struct {
		Unit           float64
		Classes, Slots uint16
	}
	if err := binary.Read(rd, binary.LittleEndian, &head); err != nil {
		return nil, err
	}
	if int(head.Classes) != len(Classes) || head.Slots != uint16(Slots) || !(head.Unit > 0 && head.Unit < 1) {
		return nil, errLayout
	}
	m := &Model{unit: head.Unit, bias: make([]float64, head.Classes)}
	if err := binary.Read(rd, binary.LittleEndian, m.bias); err != nil {
		return nil, err
	}
	for _, x := range m.bias {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, errLayout
		}
	}
	var count uint32
	if err := binary.Read(rd, binary.LittleEndian, &count); err != nil {
		return nil, err
	}
	rest = rest[len(rest)-rd.Len():]
	if int(count) > len(rest) {
		return nil, io.ErrUnexpectedEOF
	}
	m.words = make([]string, count)
	for i := range m.words {
		n := bytes.IndexByte(rest, '\n')
		if n < 0 {
			return nil, io.ErrUnexpectedEOF
		}
		m.words[i] = string(rest[:n])
		rest = rest[n+1:]
	}
	if !sort.StringsAreSorted(m.words) {
		return nil, errLayout
	}
	row := int(Slots) * len(Classes)
	if len(rest) != row*len(m.words) {
		return nil, io.ErrUnexpectedEOF
	}
	m.say = make([]int8, len(rest))
	for k := range row {
		plane := rest[k*len(m.words):]
		for i := range m.words {
			m.say[i*row+k] = int8(plane[i])
		}
	}
	m.index()
	return m, nil
}

// Number gives a word's number, or -1 where the model does not know it.
func (m *Model) Number(word string) int32 {
	if n, ok := m.number[word]; ok {
		return n
	}
	return -1
}

// Len is how many words the model knows.
func (m *Model) Len() int { return len(m.words) }

// row gives what a word says in a slot, class by class, in units.
func (m *Model) row(word int32, s Slot) []int8 {
	at := (int(word)*int(Slots) + int(s)) * len(Classes)
	return m.say[at : at+len(Classes)]
}

// Shares gives the probability of each class for the evidence.
func (m *Model) Shares(evidence []Evidence) []float64 {
	var all sums
	m.sum(&all, evidence)
	return m.shares(&all)
}

func (m *Model) shares(all *sums) []float64 {
	p := make([]float64, len(all))
	for i, x := range all {
		p[i] = m.bias[i] + float64(x)*m.unit
	}
	softmax(p)
	return p
}

func softmax(s []float64) {
	top := math.Inf(-1)
	for _, v := range s {
		top = math.Max(top, v)
	}
	sum := 0.0
	for i, v := range s {
		s[i] = math.Exp(v - top)
		sum += s[i]
	}
	for i := range s {
		s[i] /= sum
	}
}

// Say prints what a word says in a slot, loudest first: for reading the model.
func (m *Model) Say(word string, s Slot) string {
	n := m.Number(word)
	if n < 0 {
		return word + ": nothing"
	}
	row := m.row(n, s)
	order := make([]int, len(row))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return row[order[a]] > row[order[b]] })
	var out strings.Builder
	out.WriteString(word + ":")
	for _, i := range order[:4] {
		fmt.Fprintf(&out, " %s %+.2f", Classes[i], float64(row[i])*m.unit)
	}
	return out.String()
}
