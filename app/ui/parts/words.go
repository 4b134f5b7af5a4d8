package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Words is text that wraps at its width and stands still: a prompt, a line of
// feedback, a paragraph. Unlike a label it tells its height for a width, so a
// layout needs one pass.
type Words struct {
	widget.BaseWidget
	Text    string
	Type    float32             // size; 0 is look.Text
	Leading float32             // line height over size; 0 is 1.45
	Colour  fyne.ThemeColorName // "" is the foreground
	Style   fyne.TextStyle
	Align   fyne.TextAlign
	MinW    float32 // least width asked for; 0 is the widest word
}

// NewWords makes wrapped text.
func NewWords(text string, size float32) *Words {
	w := &Words{Text: text, Type: size}
	w.ExtendBaseWidget(w)
	return w
}

// NewSoft makes wrapped text that steps back.
func NewSoft(text string, size float32) *Words {
	w := NewWords(text, size)
	w.Colour = look.ColourSoft
	return w
}

// SetText changes the words.
func (w *Words) SetText(t string) { w.Text = t; w.Refresh() }

func (w *Words) size() float32 {
	if w.Type > 0 {
		return w.Type
	}
	return look.Text
}

func (w *Words) line() float32 {
	if w.Leading > 0 {
		return w.size() * w.Leading
	}
	return w.size() * 1.45
}

func (w *Words) wrap(width float32) []string {
	return wrapText(w.Text, width, func(s string) float32 { return measure(s, w.size(), w.Style).Width })
}

// Resize sets the text to a new width; the height it asks for changes with it.
func (w *Words) Resize(s fyne.Size) {
	old := w.Size()
	w.BaseWidget.Resize(s)
	if old.Width != s.Width {
		w.Refresh()
	}
}

// HeightFor gives the height of the text set to a width.
func (w *Words) HeightFor(width float32) float32 {
	return float32(len(w.wrap(width))) * w.line()
}

// CreateRenderer draws the text.
func (w *Words) CreateRenderer() fyne.WidgetRenderer { return &wordsRenderer{w: w} }

type wordsRenderer struct {
	w     *Words
	lines []*canvas.Text
}

func (r *wordsRenderer) MinSize() fyne.Size {
	w := r.w
	least := w.MinW
	if least == 0 {
		for _, f := range strings.Fields(w.Text) {
			least = max(least, measure(f, w.size(), w.Style).Width)
		}
		least = min(least, 480)
	}
	width := max(least, w.Size().Width)
	return fyne.NewSize(least, w.HeightFor(width))
}

func (r *wordsRenderer) Layout(s fyne.Size) {
	w := r.w
	lines := w.wrap(s.Width)
	for len(r.lines) < len(lines) {
		r.lines = append(r.lines, canvas.NewText("", nil))
	}
	r.lines = r.lines[:len(lines)]
	name := w.Colour
	if name == "" {
		name = theme.ColorNameForeground
	}
	for i, l := range lines {
		t := r.lines[i]
		t.Text, t.TextSize, t.TextStyle, t.Color = l, w.size(), w.Style, theme.Color(name)
		m := measure(l, w.size(), w.Style)
		x := float32(0)
		switch w.Align {
		case fyne.TextAlignCenter:
			x = (s.Width - m.Width) / 2
		case fyne.TextAlignTrailing:
			x = s.Width - m.Width
		}
		t.Move(fyne.NewPos(x, float32(i)*w.line()+(w.line()-m.Height)/2-rise(w.size())))
		t.Resize(m)
	}
}

func (r *wordsRenderer) Refresh() {
	r.Layout(r.w.Size())
	canvas.Refresh(r.w)
}

func (r *wordsRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(r.lines))
	for i, l := range r.lines {
		out[i] = l
	}
	return out
}
func (r *wordsRenderer) Destroy() {}

// wrapText breaks text into lines no wider than width where its words allow;
// a single word that is wider is cut. Line breaks in the text are kept.
func wrapText(text string, width float32, wide func(string) float32) []string {
	var out []string
	for _, para := range strings.Split(text, "\n") {
		line := ""
		for _, f := range strings.Fields(para) {
			try := f
			if line != "" {
				try = line + " " + f
			}
			if width <= 0 || wide(try) <= width {
				line = try
				continue
			}
			if line != "" {
				out = append(out, line)
			}
			for wide(f) > width {
				n := cutAt(f, width, wide)
				if n == len(f) {
					break
				}
				out = append(out, f[:n])
				f = f[n:]
			}
			line = f
		}
		out = append(out, line)
	}
	return out
}

// cutAt gives the byte length of the longest start of word that fits, at least
// one rune; after a hyphen where there is one.
func cutAt(word string, width float32, wide func(string) float32) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && wide(word[:end]) > width {
			break
		}
		n = end
	}
	if i := strings.LastIndexByte(word[:n], '-'); i > 0 && n < len(word) {
		return i + 1
	}
	return n
}
