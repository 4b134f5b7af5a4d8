package print

import (
	"bytes"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// Report is a growth report as it is to be set.
type Report struct {
	Title  string
	Under  string // whose, and when made
	Lead   []string
	Chart  []byte  // PNG, or nil
	Ratio  float64 // height of the chart over its width
	Tables []Table
	Notes  []string // how it was counted, what it does not say
	Foot   string
	Made   time.Time
}

// Table is one list of shares.
type Table struct {
	Head string
	Rows []Row
}

// Row is one share with the range it likely lies in, all between 0 and 1.
type Row struct {
	Name, Text    string
	At, Low, High float64
	None          bool
}

// Write sets the report.
func (r Report) Write(out io.Writer, paper Paper) error {
	p := newPage(paper, r.Title, r.Foot, r.Made)
	p.words(r.Title, display, true, black)
	p.words(r.Under, text, false, soft)
	p.gap(lead)
	for i, s := range r.Lead {
		size, g := text, soft
		if i == 0 {
			size, g = lead, black
		}
		p.words(s, size, false, g)
		p.gap(4)
	}
	if len(r.Chart) > 0 {
		h := p.width() * r.Ratio
		p.need(h + 2*lead)
		p.gap(lead)
		opt := fpdf.ImageOptions{ImageType: "PNG"}
		p.RegisterImageOptionsReader("chart", opt, bytes.NewReader(r.Chart))
		p.ImageOptions("chart", margin, p.GetY(), p.width(), h, false, opt, 0, "")
		p.SetY(p.GetY() + h)
	}
	for _, t := range r.Tables {
		if len(t.Rows) > 0 {
			p.table(t)
		}
	}
	p.gap(lead)
	for _, s := range r.Notes {
		p.words(s, small, false, soft)
		p.gap(3)
	}
	return p.write(out)
}

// table sets a list of shares: name, a dot on a line, the share in words.
func (p *page) table(t Table) {
	const high = 20.0
	p.need(lead*leading + 2*high + lead)
	p.gap(lead)
	p.words(t.Head, lead, true, black)
	p.gap(3)
	name, line := p.width()*0.26, p.width()*0.28
	for _, r := range t.Rows {
		p.need(high)
		y := p.GetY()
		p.SetFont("Andika", "", text)
		p.ink(black)
		p.CellFormat(name, high, r.Name, "", 0, "L", false, 0, "")
		x0, w, mid := margin+name, line, y+high/2
		p.SetDrawColor(int(rule), int(rule), int(rule))
		p.SetLineWidth(0.8)
		p.Line(x0, mid, x0+w, mid)
		if !r.None {
			p.SetDrawColor(int(black), int(black), int(black))
			p.SetFillColor(int(black), int(black), int(black))
			p.SetLineWidth(2)
			p.Line(x0+w*r.Low, mid, x0+w*r.High, mid)
			p.Circle(x0+w*r.At, mid, 3.4, "F")
		}
		p.SetX(x0 + w + 14)
		p.SetFont("Andika", "", small)
		p.ink(soft)
		p.CellFormat(p.width()-name-line-14, high, r.Text, "", 0, "L", false, 0, "")
		p.SetY(y + high)
	}
}
