package model

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"time"

	"gonum.org/v1/plot/vg"

	"feltpage/app/chart"
	"feltpage/app/print"
	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/exercises/steps"
)

// The size of the chart on paper and in a saved file, in points.
const (
	ChartWide vg.Length = 760
	ChartHigh vg.Length = 340
)

// Report lays out the growth report of a learner. It holds counts and nothing
// that was told in And-you or in a body note.
func (g *Growth) Report(now time.Time) (print.Report, error) {
	r := print.Report{
		Title: say.T("growth.title", say.S{"name": g.learner.Nickname}),
		Under: say.T("print.made", say.S{"day": DayName(now.Format(time.DateOnly)), "year": now.Format("2006")}),
		Ratio: float64(ChartHigh / ChartWide), Foot: say.T("print.foot"), Made: now,
	}
	if g.learner.Demo {
		r.Under += " " + say.T("print.invented")
	}
	for _, s := range []string{g.Sentence(), g.Doubt(), g.Agreement(), g.Blind(), g.WordsText()} {
		if s != "" {
			r.Lead = append(r.Lead, s)
		}
	}
	c, err := chart.Growth(g.Series(), g.Words(), chart.PaperInk)
	if err != nil {
		return r, fmt.Errorf("drawing the chart: %w", err)
	}
	var b bytes.Buffer
	if err := chart.PNG(&b, c, ChartWide, ChartHigh); err != nil {
		return r, err
	}
	r.Chart = b.Bytes()
	for _, t := range []struct {
		head string
		rows []Share
	}{{"growth.by-step", g.ByStep()}, {"growth.by-kind", g.ByKind()}, {"growth.by-feeling", g.ByFeeling()}} {
		table := print.Table{Head: say.T(t.head)}
		for _, s := range t.rows {
			row := print.Row{Name: s.Name, Text: s.Text, Low: s.Low, High: s.Hi, None: s.N == 0}
			if s.N > 0 {
				row.At = float64(s.X) / float64(s.N)
			}
			table.Rows = append(table.Rows, row)
		}
		r.Tables = append(r.Tables, table)
	}
	r.Notes = []string{say.T("growth.how-counted"), say.T("cautions.practice")}
	return r, nil
}

// Sheets lays out a story's passages for paper, with the learner's own words
// to point at. The order of choices follows from the story alone.
func (h *House) Sheets(l record.Learner, s record.Story, own []record.Family) (print.Sheets, error) {
	out := print.Sheets{Title: s.Title, KeyHead: say.T("print.key"), KeyNote: say.T("print.key-note"), Foot: say.T("print.foot"), Made: h.Now()}
	r, err := h.Read(context.Background(), s)
	if err != nil {
		return out, err
	}
	book, err := h.Book(l.ID)
	if err != nil {
		return out, err
	}
	var seed uint64
	for _, b := range []byte(s.Hash) {
		seed = seed*31 + uint64(b)
	}
	rng := rand.New(rand.NewPCG(seed, 1))
	for i, m := range r.Moments {
		sheet := print.Sheet{Head: say.T("story.moment", say.S{"n": Number(i + 1), "name": say.Name(m.CharacterName)}), Passage: m.Span.Of(s.Text)}
		var fits []string
		for _, f := range m.Key.Fits {
			fits = append(fits, FamilyName(f, own))
		}
		sheet.Key = append(sheet.Key, say.T("print.fits", say.S{"feelings": Or(fits)}))
		for _, e := range m.Key.Evidence {
			sheet.Key = append(sheet.Key, ReasonText(e.Reason))
		}
		for _, st := range steps.Build(m, r.Mended, h.Table, book, rng, steps.Options{NoOffer: true, Distance: h.ApartFor(l.ID)}) {
			ask := print.Ask{Prompt: ReasonText(st.Prompt)}
			if !st.Kind.Marked() {
				ask.Note = say.T("print.only-yours")
			}
			if st.PointText {
				ask.Note = say.T("print.point")
			}
			for _, c := range st.Choices {
				// Of the body the places alone stand on paper; what it is like is
				// said or written.
				if st.Kind != exercises.Body || c.ID == c.Place {
					ask.Choices = append(ask.Choices, choiceText(c))
				}
			}
			if len(ask.Choices) > 0 {
				ask.Choices = append(ask.Choices, say.T("print.cant-tell"))
			}
			if st.Kind == exercises.Reason || st.Kind == exercises.Body || len(ask.Choices) == 0 && !st.PointText {
				ask.Lines = 2
			}
			sheet.Asks = append(sheet.Asks, ask)
		}
		out.Sheets = append(out.Sheets, sheet)
	}
	return out, nil
}
