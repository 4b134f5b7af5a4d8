// Package situations finds places where nothing is shown and the event itself
// would make somebody feel it: who lost what he loved, who was given a feast.
//
// A small additive model, learned from open data by the command in train,
// gives each word of an event its say about the feeling of the one who acts
// and of the one it happens to. There is nothing else in it: no text is kept,
// and the say of every word can be printed and read (Model.Say).
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

// Role is whose feeling is asked.
type Role int

// The two roles of an event.
const (
	Actor Role = iota // the one who does it
	Other             // the one it happens to
	roles = 2
)

// Slots of an event's words. A word may speak differently as the verb of the
// event than beside it.
const (
	slotVerb = 'v' // lemma of the verb
	slotRest = 'r' // lemma of another word of the event
	slotPair = 'p' // verb and a word beside it, "lose child"
)

// classes are the shipped families and, last, "no particular feeling".
var classes = append(append([]string{}, nlp.Families...), "")

// row holds one word's say: for each role and class a step in log odds, in
// units of Model.unit.
type row [roles][]int8

// Model is the learned weights. It is read-only after Load.
type Model struct {
	unit float64
	bias [roles][]float64
	rows map[string]row
}

//go:embed weights.bin.gz
var embedded []byte

// Load reads the embedded weights.
func Load() (*Model, error) {
	m, err := decode(bytes.NewReader(embedded))
	if err != nil {
		return nil, fmt.Errorf("reading the situation weights: %w", err)
	}
	return m, nil
}

// magic opens a weights file; its digit is the version of the layout.
const magic = "FPSIT1\n"

// Encode writes the weights: magic, unit, biases, then rows in order of key,
// gzipped. The same model gives the same bytes.
func (m *Model) Encode(w io.Writer) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString(magic)
	put := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) } // a bytes.Buffer takes everything
	put(m.unit)
	put(uint16(len(classes)))
	for r := range roles {
		put(m.bias[r])
	}
	keys := make([]string, 0, len(m.rows))
	for k := range m.rows {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	put(uint32(len(keys)))
	for _, k := range keys {
		put(uint8(len(k)))
		b.WriteString(k)
		for r := range roles {
			put(m.rows[k][r])
		}
	}
	if _, err := z.Write(b.Bytes()); err != nil {
		return err
	}
	return z.Close()
}

var errLayout = errors.New("not a situation weights file of this version")

func decode(r io.Reader) (*Model, error) {
	z, err := gzip.NewReader(r)
	if err != nil {
		return nil, err
	}
	b, err := io.ReadAll(z)
	if err != nil {
		return nil, err
	}
	rest, ok := bytes.CutPrefix(b, []byte(magic))
	if !ok {
		return nil, errLayout
	}
	rd := bytes.NewReader(rest)
	get := func(v any) {
		if err == nil {
			err = binary.Read(rd, binary.LittleEndian, v)
		}
	}
	m := &Model{}
	var n uint16
	get(&m.unit)
	get(&n)
	if err == nil && int(n) != len(classes) {
		return nil, errLayout
	}
	for r := range roles {
		m.bias[r] = make([]float64, n)
		get(m.bias[r])
	}
	var count uint32
	get(&count)
	if err != nil {
		return nil, err
	}
	// One read a row: binary.Read of each field would make start-up slow.
	m.rows = make(map[string]row, count)
	at := len(rest) - rd.Len()
	for range count {
		if at >= len(rest) || at+1+int(rest[at])+int(roles)*int(n) > len(rest) {
			return nil, io.ErrUnexpectedEOF
		}
		size := int(rest[at])
		key := string(rest[at+1 : at+1+size])
		at += 1 + size
		var w row
		for r := range roles {
			w[r] = make([]int8, n)
			for i := range w[r] {
				w[r][i] = int8(rest[at+i])
			}
			at += int(n)
		}
		m.rows[key] = w
	}
	return m, nil
}

// Say prints what a word says, heaviest families first: for reading the model.
func (m *Model) Say(key string, role Role) string {
	w, ok := m.rows[key]
	if !ok {
		return key + ": nothing"
	}
	idx := make([]int, len(classes))
	for i := range idx {
		idx[i] = i
	}
	sort.SliceStable(idx, func(a, b int) bool { return w[role][idx[a]] > w[role][idx[b]] })
	var out strings.Builder
	out.WriteString(key + ":")
	for _, i := range idx[:4] {
		fmt.Fprintf(&out, " %s %+.2f", classes[i], float64(w[role][i])*m.unit)
	}
	return out.String()
}

// shares gives the probability of each class for an event in one role.
func (m *Model) shares(keys []string, role Role) []float64 {
	score := append([]float64(nil), m.bias[role]...)
	for _, k := range keys {
		if w, ok := m.rows[k]; ok {
			for i, v := range w[role] {
				score[i] += float64(v) * m.unit
			}
		}
	}
	softmax(score)
	return score
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

// NewModel begins a model with the biases of each role; the command that
// learns fills it with Put.
func NewModel(bias [2][]float64) *Model {
	return &Model{unit: 1.0 / 24, bias: bias, rows: map[string]row{}}
}

// Put adds a word's say in each role, in log odds, rounded to the model's unit.
// A word that says next to nothing is left out.
func (m *Model) Put(key string, say [2][]float64) {
	var w row
	loud := false
	for r := range roles {
		w[r] = make([]int8, len(say[r]))
		for i, x := range say[r] {
			w[r][i] = int8(math.Round(math.Max(-127, math.Min(127, x/m.unit))))
			loud = loud || math.Abs(x) > 0.25
		}
	}
	if loud && len(key) < 256 {
		m.rows[key] = w
	}
}

// Len is how many words the model knows.
func (m *Model) Len() int { return len(m.rows) }
