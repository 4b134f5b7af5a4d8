// Package evaluate measures the reading engine against open data that two
// readers or experts have marked: cues in passages, questions about feelings,
// and people, pronouns and quotes in novels. What each figure means is told
// beside the data, in their README; the definitions here are the same.
//
// The data are never part of the program: they are read from a folder, and
// nothing of them is kept.
package evaluate

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strings"
	"text/tabwriter"

	"feltpage/app/inspect"
	"feltpage/exercises/growth"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
)

// Half names which half of each set to use: rules are worked out on one half
// and confirmed on the other. The halves are the passages, stories or books
// with even and with odd place in the set.
type Half string

// Halves.
const (
	All     Half = ""
	Work    Half = "work"
	Confirm Half = "confirm"
)

// takes reports whether item i belongs to the half.
func (h Half) takes(i int) bool {
	switch h {
	case Work:
		return i%2 == 0
	case Confirm:
		return i%2 == 1
	}
	return true
}

// Row is one figure. A share has Of > 0 and a Wilson interval; a mean (credit,
// macro, F1) has Of 0 and N items behind it.
type Row struct {
	Set, Name string
	Value     float64
	Hits, Of  int
	N         int
	Low, High float64 // 95 % Wilson interval of a share
}

func share(set, name string, hits, of int) Row {
	r := Row{Set: set, Name: name, Hits: hits, Of: of, N: of, Value: math.NaN()}
	if of > 0 {
		r.Value = float64(hits) / float64(of)
		r.Low, r.High = growth.Wilson(hits, of, 1.959963984540054)
	}
	return r
}

func mean(set, name string, value float64, n int) Row {
	return Row{Set: set, Name: name, Value: value, N: n}
}

// reader turns texts into what inspect prints for them.
type reader struct {
	ctx    context.Context
	engine *pipeline.Engine
	table  *feelings.Table
}

func (r reader) read(text string) (inspect.Object, error) {
	a, err := r.engine.Analyze(r.ctx, text)
	if err != nil {
		return inspect.Object{}, err
	}
	return inspect.Describe(a, r.table, "text"), nil
}

// Run measures on the data folder. A set whose files are missing is left out;
// when none is there, the error says so.
func Run(ctx context.Context, e *pipeline.Engine, t *feelings.Table, data fs.FS, half Half) ([]Row, error) {
	switch half {
	case All, Work, Confirm:
	default:
		return nil, fmt.Errorf("there is no half %q: say %q or %q", half, Work, Confirm)
	}
	rd := reader{ctx, e, t}
	var rows []Row
	for _, part := range []func(reader, fs.FS, Half) ([]Row, error){cueRows, questionRows, bookRows} {
		got, err := part(rd, data, half)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		rows = append(rows, got...)
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("the data folder holds none of the sets: %w", fs.ErrNotExist)
	}
	return rows, nil
}

// Print writes the rows as a table.
func Print(w io.Writer, rows []Row) error {
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tw, "set\tfigure\tvalue\tn\t95 % (Wilson)")
	for _, r := range rows {
		switch {
		case math.IsNaN(r.Value):
			fmt.Fprintf(tw, "%s\t%s\t–\t0\t\n", r.Set, r.Name)
		case r.Of > 0:
			fmt.Fprintf(tw, "%s\t%s\t%.3f\t%d/%d\t%.3f–%.3f\n", r.Set, r.Name, r.Value, r.Hits, r.Of, r.Low, r.High)
		default:
			fmt.Fprintf(tw, "%s\t%s\t%.3f\t%d\t\n", r.Set, r.Name, r.Value, r.N)
		}
	}
	return tw.Flush()
}

// lines decodes a JSON-lines file.
func lines[T any](fsys fs.FS, name string) ([]T, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var out []T
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 64<<20)
	for n := 1; sc.Scan(); n++ {
		if strings.TrimSpace(sc.Text()) == "" {
			continue
		}
		var v T
		if err := json.Unmarshal(sc.Bytes(), &v); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, n, err)
		}
		out = append(out, v)
	}
	if err := sc.Err(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return out, nil
}

// object decodes a JSON file.
func object[T any](fsys fs.FS, name string) (T, error) {
	var v T
	b, err := fs.ReadFile(fsys, name)
	if err != nil {
		return v, err
	}
	if err := json.Unmarshal(b, &v); err != nil {
		return v, fmt.Errorf("%s: %w", name, err)
	}
	return v, nil
}
