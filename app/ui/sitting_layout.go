package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
)

// Measures of the sitting's screen.
const (
	barHeight   = look.Target + look.M
	paneLeast   = 444 // four answers beside each other, and the padding
	paneMost    = 660
	screenMost  = 1640 // wider windows leave room at both sides
	barButton   = 120  // least width of a fixed button
	tallWindow  = 1000 // from this height on, list and outline of the body stand together
	shortWindow = 700  // below this height, type and gaps of the pane shrink
)

// sittingLayout places the parts of the sitting: the bar at the top, the
// passage left, the question right, and the fixed buttons at the bottom, which
// stand in the same place whatever is shown.
type sittingLayout struct {
	s    *sittingScreen
	size fyne.Size
}

func (l *sittingLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(760, 520) }

func (l *sittingLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	fresh := l.size != size
	l.size = size
	l.place(size)
	if fresh {
		l.s.resized()
	}
}

// place puts everything in its place for a size.
func (l *sittingLayout) place(size fyne.Size) {
	s := l.s
	w := min(size.Width, screenMost)
	x := (size.Width - w) / 2
	pad := look.M
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	// the top
	stop, aa := s.stop.MinSize(), s.aa.MinSize()
	put(s.stop, x+look.S, look.S, stop.Width, look.Target)
	put(s.aa, x+w-look.S-aa.Width, look.S, aa.Width, look.Target)
	// the bottom
	y := size.Height - barHeight
	put(s.rule, 0, y-look.S, size.Width, 1)
	at := x + pad
	for _, b := range []*parts.Button{s.back, s.skip} {
		bw := b.MinSize().Width
		put(b, at, y, bw, look.Target)
		at += bw + look.S
	}
	end := x + w - pad
	for _, b := range []*parts.Button{s.next, s.help} {
		bw := b.MinSize().Width
		end -= bw
		put(b, end, y, bw, look.Target)
		end -= look.S
	}
	hw, sw := s.helped.MinSize().Width, s.steadied.MinSize().Width
	mid := at + (end-at-hw)/2
	if s.steadied.Visible() {
		mid = at + max(0, (end-at-hw-sw-look.S)/2)
		put(s.steadied, mid+hw+look.S, y, sw, look.Target)
	}
	put(s.helped, mid, y, hw, look.Target)
	// between
	top, bottom := look.S+look.Target+look.S, y-look.S
	if s.ending != nil {
		put(s.ending, x+pad, top, w-2*pad, bottom-top)
	}
	share := float32(0.44)
	if s.big {
		share = 0.5
	}
	pane := max(paneLeast, min(w*share, paneMost))
	put(s.pane, x+w-pane-pad, top, pane, bottom-top-look.S)
	lx, lw := x+pad, w-pane-3*pad
	head := look.XL
	const tw = 1.5 * barButton
	put(s.title, lx+pad, top, lw-tw-2*pad, head)
	put(s.part, lx+lw-tw, top, tw, head)
	foot := look.Target + look.S
	put(s.reading, lx, top+head, lw, bottom-top-head-foot-look.XS)
	put(s.earlier, lx, top+head, lw, bottom-top-head-foot-look.XS)
	py := bottom - foot
	bw := s.pageBack.MinSize().Width
	put(s.pageBack, lx+pad, py, bw, look.Target)
	nw := look.Target + look.M
	put(s.pageNo, lx+pad+bw+look.M, py+(look.Target-look.Text*1.45)/2, nw, look.Text*1.45)
	put(s.pageOn, lx+pad+bw+nw+2*look.M, py, s.pageOn.MinSize().Width, look.Target)
}

// column lays things under each other. Those that grow share what is left;
// the head gives way when there is too little, and can then be scrolled.
type column struct {
	gap   float32
	grows map[fyne.CanvasObject]bool
	head  *container.Scroll
}

func (c *column) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Answer, look.Answer)
}

func (c *column) height(o fyne.CanvasObject, width float32) float32 {
	if o == c.head {
		return parts.HeightOf(c.head.Content, width)
	}
	return parts.HeightOf(o, width)
}

func (c *column) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	left, growing, least := size.Height, 0, float32(0)
	objects = slices.DeleteFunc(slices.Clone(objects), func(o fyne.CanvasObject) bool { return !o.Visible() })
	for i, o := range objects {
		if i > 0 {
			left -= c.gap
		}
		if c.grows[o] {
			growing++
			least += room(o)
		} else {
			left -= c.height(o, size.Width)
		}
	}
	short := max(0, least-left)
	y := float32(0)
	for _, o := range objects {
		h := c.height(o, size.Width)
		switch {
		case c.grows[o]:
			h = max(room(o), left/float32(growing))
		case o == c.head:
			h = max(min(h, look.Target), h-short)
		}
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h + c.gap
	}
}

// room is what a growing thing needs at least; empty room needs none.
func room(o fyne.CanvasObject) float32 {
	if _, empty := o.(*fyne.Container); empty {
		return 0
	}
	return look.Answer
}
