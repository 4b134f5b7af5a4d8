package print

import (
	"io"
	"strings"
	"time"
)

// Sheets is a story's passages for use away from the computer: a page a
// passage, and at the end a key for the guide.
type Sheets struct {
	Title   string
	Under   string
	Sheets  []Sheet
	KeyHead string
	KeyNote string
	Foot    string
	Made    time.Time
}

// Sheet is one passage with its questions.
type Sheet struct {
	Head    string
	Passage string
	Asks    []Ask
	Key     []string // for the guide
}

// Ask is one question: places to point at, lines to write on, or both.
type Ask struct {
	Prompt  string
	Choices []string
	Lines   int
	Note    string // "only yours, never marked"
}

// Measures of what is pointed at: large, since aim may be poor.
const (
	passage = 15.0
	prompt  = 13.0
	target  = 40.0
)

// Write sets the sheets.
func (s Sheets) Write(out io.Writer, paper Paper) error {
	if len(s.Sheets) == 0 {
		return ErrNothing
	}
	p := newPage(paper, s.Title, s.Foot, s.Made)
	for i, sheet := range s.Sheets {
		if i > 0 {
			p.AddPage()
		}
		p.words(s.Title, small, false, soft)
		p.words(sheet.Head, lead, true, black)
		p.gap(10)
		p.SetFont("Andika", "", passage)
		p.ink(black)
		for _, para := range strings.Split(sheet.Passage, "\n") {
			if para = strings.Join(strings.Fields(para), " "); para != "" {
				p.MultiCell(p.width(), passage*1.6, para, "", "L", false)
				p.gap(5)
			}
		}
		p.gap(4)
		p.SetDrawColor(int(rule), int(rule), int(rule))
		p.SetLineWidth(0.8)
		p.Line(margin, p.GetY(), p.wide-margin, p.GetY())
		p.gap(8)
		for _, a := range sheet.Asks {
			p.ask(a)
		}
	}
	p.key(s)
	return p.write(out)
}

// ask sets one question and keeps it together on a page.
func (p *page) ask(a Ask) {
	p.SetFont("Andika", "B", prompt)
	lines := len(p.SplitText(a.Prompt, p.width()))
	rows := p.rows(a.Choices)
	p.need(float64(lines)*prompt*leading + float64(len(rows))*(target+8) + float64(a.Lines)*30 + 16)
	p.words(a.Prompt, prompt, true, black)
	if a.Note != "" {
		p.words(a.Note, small, false, soft)
	}
	p.gap(5)
	for _, row := range rows {
		x, y := margin, p.GetY()
		for _, c := range row {
			w := p.box(c)
			p.SetDrawColor(int(soft), int(soft), int(soft))
			p.SetLineWidth(1)
			p.RoundedRect(x, y, w, target, 6, "1234", "D")
			p.SetXY(x, y)
			p.ink(black)
			p.CellFormat(w, target, c, "", 0, "C", false, 0, "")
			x += w + 8
		}
		p.SetXY(margin, y+target+8)
	}
	for range a.Lines {
		p.gap(26)
		p.SetDrawColor(int(rule), int(rule), int(rule))
		p.SetLineWidth(0.8)
		p.Line(margin, p.GetY(), p.wide-margin, p.GetY())
	}
	p.gap(12)
}

// box gives the width of the box around a choice.
func (p *page) box(c string) float64 {
	p.SetFont("Andika", "", prompt)
	return min(max(p.GetStringWidth(c)+24, 64), p.width())
}

// rows lays choices into rows of boxes.
func (p *page) rows(choices []string) [][]string {
	var out [][]string
	x := 0.0
	for _, c := range choices {
		w := p.box(c)
		if len(out) == 0 || x+w > p.width() {
			out = append(out, nil)
			x = 0
		}
		out[len(out)-1] = append(out[len(out)-1], c)
		x += w + 8
	}
	return out
}

// key sets the guide's page.
func (p *page) key(s Sheets) {
	any := false
	for _, x := range s.Sheets {
		any = any || len(x.Key) > 0
	}
	if !any {
		return
	}
	p.AddPage()
	p.words(s.KeyHead, display, true, black)
	p.words(s.KeyNote, text, false, soft)
	for _, x := range s.Sheets {
		p.need(80)
		p.gap(10)
		p.words(x.Head, text, true, black)
		for _, l := range x.Key {
			p.words(l, text, false, black)
		}
	}
}
