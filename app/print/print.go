// Package print sets what goes on paper, as PDF: the growth report, and a
// story's passages with their questions for use away from the computer. It
// holds no sentence of its own; the words come in with what is to be set. The
// same input gives the same bytes.
package print

import (
	"errors"
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"feltpage/app/andika"
)

// Paper is a size of paper.
type Paper string

// Papers.
const (
	A4     Paper = "A4"
	Letter Paper = "Letter"
)

// Measures in points, the unit of every length here.
const (
	margin  = 54.0
	text    = 11.0
	small   = 9.0
	lead    = 14.0
	display = 20.0
	leading = 1.45
)

// ErrNothing says that there is nothing to set.
var ErrNothing = errors.New("nothing to print")

// page is a document under way.
type page struct {
	*fpdf.Fpdf
	wide, high float64 // of the paper
	foot       string
}

// newPage opens a document in our typeface. made is the time written into the
// file; foot stands at the foot of each page, before its number.
func newPage(paper Paper, title, foot string, made time.Time) *page {
	f := fpdf.New("P", "pt", string(paper), "")
	f.AddUTF8FontFromBytes("Andika", "", andika.Regular)
	f.AddUTF8FontFromBytes("Andika", "B", andika.Bold)
	f.SetTitle(title, true)
	f.SetCreator("Feltpage", true)
	f.SetCreationDate(made.UTC())
	f.SetModificationDate(made.UTC())
	f.SetCatalogSort(true)
	f.SetMargins(margin, margin, margin)
	f.SetAutoPageBreak(true, margin+12)
	p := &page{Fpdf: f, foot: foot}
	p.wide, p.high = f.GetPageSize()
	f.SetFooterFunc(func() {
		f.SetY(-margin + 10)
		p.ink(soft)
		f.SetFont("Andika", "", small)
		f.CellFormat(p.width()*0.85, small*leading, p.foot, "", 0, "L", false, 0, "")
		f.CellFormat(p.width()*0.15, small*leading, fmt.Sprint(f.PageNo()), "", 0, "R", false, 0, "")
	})
	f.AddPage()
	return p
}

func (p *page) width() float64 { return p.wide - 2*margin }

// grey is the neutrals of print.
type grey int

const (
	black grey = 0x22
	soft  grey = 0x55
	rule  grey = 0xBB
)

func (p *page) ink(g grey) { p.SetTextColor(int(g), int(g), int(g)) }

// words sets wrapped text over the width and moves down.
func (p *page) words(s string, size float64, bold bool, g grey) {
	if s == "" {
		return
	}
	style := ""
	if bold {
		style = "B"
	}
	p.SetFont("Andika", style, size)
	p.ink(g)
	p.MultiCell(p.width(), size*leading, s, "", "L", false)
}

func (p *page) gap(h float64) { p.SetY(p.GetY() + h) }

// need begins a new page where fewer than h points are left.
func (p *page) need(h float64) {
	if p.GetY()+h > p.high-margin-12 {
		p.AddPage()
	}
}

func (p *page) write(out io.Writer) error {
	if err := p.Output(out); err != nil {
		return fmt.Errorf("writing the pages: %w", err)
	}
	return nil
}
