package parts

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Tile is an answer to point at: at least 96 by 96 units, its words wrapped in
// the middle. Like a button it is pressed by tap, Space or Return.
type Tile struct {
	Button
	Faint bool // one of the answers that are always there: quieter, as large

	arrow func(fyne.KeyName)
}

// NewTile makes a tile.
func NewTile(text string, tapped func()) *Tile {
	t := &Tile{}
	t.Text, t.OnTapped = text, tapped
	t.ExtendBaseWidget(t)
	return t
}

// TypedKey presses the tile, or hands an arrow to the grid it lies in.
func (t *Tile) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		if t.arrow != nil {
			t.arrow(e.Name)
		}
		return
	}
	t.Button.TypedKey(e)
}

func (t *Tile) typeSize() float32 {
	if t.Type > 0 {
		return t.Type
	}
	return look.Lead
}

func (t *Tile) lines(width float32) []string {
	return wrapText(t.Text, width-2*look.S, func(s string) float32 { return measure(s, t.typeSize(), fyne.TextStyle{}).Width })
}

// HeightFor gives the height of the tile at a width.
func (t *Tile) HeightFor(width float32) float32 {
	return max(look.Answer, t.MinH, float32(len(t.lines(width)))*t.typeSize()*1.3+2*look.M)
}

// CreateRenderer draws the tile.
func (t *Tile) CreateRenderer() fyne.WidgetRenderer {
	r := &tileRenderer{t: t, box: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type tileRenderer struct {
	t         *Tile
	box, ring *canvas.Rectangle
	lines     []*canvas.Text
}

// MinSize is wide enough for the longest word.
func (r *tileRenderer) MinSize() fyne.Size {
	w := max(look.Answer, r.t.MinW)
	for _, f := range strings.Fields(r.t.Text) {
		w = max(w, min(measure(f, r.t.typeSize(), fyne.TextStyle{}).Width+2*look.S, 3*look.Answer))
	}
	return fyne.NewSize(w, r.t.HeightFor(max(w, r.t.Size().Width)))
}

func (r *tileRenderer) Layout(s fyne.Size) {
	r.box.Resize(s)
	out := look.FocusGap + look.FocusRing
	r.ring.Move(fyne.NewPos(-out, -out))
	r.ring.Resize(s.AddWidthHeight(2*out, 2*out))
	lines := r.t.lines(s.Width)
	size := r.t.typeSize()
	step := size * 1.3
	y := (s.Height - step*float32(len(lines))) / 2
	for len(r.lines) < len(lines) {
		r.lines = append(r.lines, canvas.NewText("", color.Black))
	}
	r.lines = r.lines[:len(lines)]
	ink := look.Now().Ink
	if r.t.Faint && !r.t.Chosen {
		ink = look.Now().Soft
	}
	for i, l := range lines {
		m := measure(l, size, fyne.TextStyle{})
		c := r.lines[i]
		c.Text, c.TextSize, c.Color = l, size, ink
		c.Move(fyne.NewPos((s.Width-m.Width)/2, y+(step-m.Height)/2-rise(size)))
		c.Resize(m)
		y += step
	}
}

func (r *tileRenderer) Refresh() {
	t, p := r.t, look.Now()
	r.box.FillColor, r.box.StrokeColor, r.box.StrokeWidth, r.box.CornerRadius = p.Card, p.Edge, look.Border, look.Radius
	if t.Faint {
		r.box.FillColor = color.Transparent
	}
	if t.hovered {
		r.box.FillColor = p.Lit
	}
	if t.Chosen {
		r.box.FillColor, r.box.StrokeColor, r.box.StrokeWidth = p.Tint, p.Hue, look.FocusRing
	}
	drawRing(r.ring, t.focused)
	r.Layout(t.Size())
	canvas.Refresh(t)
}

func (r *tileRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.ring, r.box}
	for _, l := range r.lines {
		out = append(out, l)
	}
	return out
}
func (r *tileRenderer) Destroy() {}

// TileGrid lays tiles of one size in rows that are as even as they can be.
// What does not fit goes to further pages, reached by a tile of its own; a
// grid never scrolls. Arrow keys move between tiles.
type TileGrid struct {
	widget.BaseWidget
	Cell float32 // least width of a tile; 0 is look.Answer
	High float32 // height of a tile where there is room; 0 is look.Answer

	tiles []*Tile
	more  *Tile
	page  int
	cols  int
	shown []*Tile
}

// NewTileGrid makes a grid; more is the text of the tile that shows the rest.
func NewTileGrid(more string, tiles ...*Tile) *TileGrid {
	g := &TileGrid{tiles: tiles}
	g.more = NewTile(more, func() { g.page++; g.Refresh() })
	g.more.Faint = true
	for _, t := range append(tiles, g.more) {
		t.arrow = func(k fyne.KeyName) { g.move(t, k) }
	}
	g.ExtendBaseWidget(g)
	return g
}

// Shown gives the tiles in sight, in reading order.
func (g *TileGrid) Shown() []*Tile { return g.shown }

// fit computes columns, cell size and how many rows there is room for. Where
// not all tiles have room in cells as wide as asked for, narrower ones serve.
func (g *TileGrid) fit(s fyne.Size) (cols, rows int, w, h float32) {
	cols, rows, w, h = g.fitCells(s, max(look.Answer, g.Cell))
	if cols*rows < len(g.tiles) && g.Cell > look.Answer {
		cols, rows, w, h = g.fitCells(s, look.Answer)
	}
	return cols, rows, w, h
}

func (g *TileGrid) fitCells(s fyne.Size, least float32) (cols, rows int, w, h float32) {
	for _, t := range g.tiles {
		least = max(least, min(t.MinSize().Width, s.Width))
	}
	fitting := max(1, int((s.Width+gap)/(least+gap)))
	cell := func(cols int) (w, h float32, rows int) {
		w = min((s.Width-gap*float32(cols-1))/float32(cols), 3.3*look.Answer)
		h = look.Answer
		for _, t := range g.tiles {
			h = max(h, t.HeightFor(w))
		}
		return w, h, max(1, int((s.Height+gap)/(h+gap)))
	}
	cols = fitting
	if need := (len(g.tiles) + fitting - 1) / fitting; need > 0 {
		cols = (len(g.tiles) + need - 1) / need // even rows, where all tiles have room
	}
	w, h, rows = cell(cols)
	if cols*rows < len(g.tiles) {
		cols = fitting
		w, h, rows = cell(cols)
	} else if n := float32((len(g.tiles) + cols - 1) / cols); n > 0 {
		h = max(h, min(g.High, (s.Height+gap)/n-gap))
	}
	return cols, rows, w, h
}

// HeightFor gives the height in which all tiles are in sight.
func (g *TileGrid) HeightFor(width float32) float32 {
	if len(g.tiles) == 0 {
		return 0
	}
	cols, _, _, h := g.fit(fyne.NewSize(width, 0))
	rows := (len(g.tiles) + cols - 1) / cols
	return float32(rows)*(h+gap) - gap
}

func (g *TileGrid) move(t *Tile, k fyne.KeyName) {
	at := -1
	for i, x := range g.shown {
		if x == t {
			at = i
		}
	}
	switch k {
	case fyne.KeyLeft:
		at--
	case fyne.KeyRight:
		at++
	case fyne.KeyUp:
		at -= g.cols
	case fyne.KeyDown:
		at += g.cols
	}
	if at >= 0 && at < len(g.shown) {
		if c := fyne.CurrentApp().Driver().CanvasForObject(g); c != nil {
			c.Focus(g.shown[at])
		}
	}
}

// CreateRenderer draws the grid.
func (g *TileGrid) CreateRenderer() fyne.WidgetRenderer { return &gridRenderer{g: g} }

type gridRenderer struct{ g *TileGrid }

func (r *gridRenderer) MinSize() fyne.Size { return fyne.NewSize(look.Answer, look.Answer) }

func (r *gridRenderer) Layout(s fyne.Size) {
	g := r.g
	cols, rows, w, h := g.fit(s)
	room := cols * rows
	g.cols, g.shown = cols, g.tiles
	if len(g.tiles) > room {
		each := max(1, room-1)
		pages := (len(g.tiles) + each - 1) / each
		g.page %= pages
		from := g.page * each
		g.shown = append(append([]*Tile{}, g.tiles[from:min(from+each, len(g.tiles))]...), g.more)
	}
	for i, t := range g.shown {
		t.Move(fyne.NewPos(float32(i%cols)*(w+gap), float32(i/cols)*(h+gap)))
		t.Resize(fyne.NewSize(w, h))
	}
}

func (r *gridRenderer) Refresh() {
	r.Layout(r.g.Size())
	for _, t := range r.g.shown {
		t.Refresh()
	}
	canvas.Refresh(r.g)
}

func (r *gridRenderer) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, len(r.g.shown))
	for i, t := range r.g.shown {
		out[i] = t
	}
	return out
}
func (r *gridRenderer) Destroy() {}
