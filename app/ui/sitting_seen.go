package ui

import (
	"fmt"
	"sort"
	"strings"

	"fyne.io/fyne/v2"

	"feltpage/app/ui/model"
	"feltpage/app/ui/parts"
)

// tell says to the observer what is on screen and where it can be tapped.
// Words of the passage are targets too: "word:hands", and "word:hands#2" for
// the second of the same.
func (x *sittingScreen) tell() {
	if x.see == nil || x.left {
		return
	}
	v := x.s.View()
	named := x.targets(v)
	objects := []fyne.CanvasObject{x.root}
	for _, o := range named {
		objects = append(objects, o)
	}
	if !drawn(x.app.Driver(), objects...) {
		nextFrame(x.tell)
		return
	}
	seen := model.Seen{Screen: "sitting", Targets: map[string]model.Rect{}, Facts: x.facts(v)}
	k := x.win.Canvas().Scale()
	put := func(name string, o fyne.CanvasObject, off fyne.Position, size fyne.Size) {
		p := x.app.Driver().AbsolutePositionForObject(o).Add(off)
		seen.Targets[name] = model.Rect{X: p.X * k, Y: p.Y * k, W: size.Width * k, H: size.Height * k}
	}
	for name, o := range named {
		put(name, o, fyne.Position{}, o.Size())
	}
	if v.PointText && x.reading.Visible() {
		n := map[string]int{}
		for _, w := range x.reading.InSight() {
			n[w.Text]++
			put(numbered("word:"+w.Text, n[w.Text]), x.reading, w.Pos, w.Size)
		}
	}
	if line := fmt.Sprint(seen.Facts, targetsLine(seen.Targets)); line != x.told {
		x.told = line
		x.see(seen)
	}
}

// facts are what the sitting shows, in short words.
func (x *sittingScreen) facts(v model.SittingView) map[string]string {
	facts := map[string]string{
		"phase": string(v.Phase), "step": string(v.Step), "moment": fmt.Sprint(v.Moment), "stepno": fmt.Sprint(v.StepNo),
		"level": fmt.Sprint(int(v.Level)), "kind": string(v.Kind), "said": v.Said, "ignored": fmt.Sprint(v.Ignored),
		"page": fmt.Sprintf("%d/%d", x.reading.Page()+1, x.reading.Pages()), "sitting": x.s.ID(),
	}
	if x.earlier.Visible() {
		facts["page"] = fmt.Sprintf("before %d/%d", x.earlier.Page()+1, x.earlier.Pages())
	}
	if v.Hint != "" {
		facts["hint"] = v.Hint
	}
	if v.Trouble != "" {
		facts["trouble"] = v.Trouble
	}
	var chosen []string
	for _, s := range v.Chosen {
		chosen = append(chosen, strings.Join(strings.Fields(s.Of(v.Text)), " "))
	}
	for _, ch := range append(v.Choices, v.Standing...) {
		if ch.Chosen {
			chosen = append(chosen, ch.ID)
		}
	}
	facts["chosen"] = strings.Join(chosen, "|")
	return facts
}

// targets are the things that can be pressed now, by name.
func (x *sittingScreen) targets(v model.SittingView) map[string]fyne.CanvasObject {
	out := map[string]fyne.CanvasObject{}
	button := func(name string, b *parts.Button) {
		if b != nil && b.Visible() && !b.Disabled() {
			out[name] = b
		}
	}
	if v.Phase == model.Ended {
		button("done", x.next)
		if v.CanBack {
			button("back", x.back)
		}
		return out
	}
	for name, b := range map[string]*parts.Button{"back": x.back, "skip": x.skip, "help": x.help, "next": x.next, "stop": x.stop,
		"aa": x.aa, "helped": x.helped, "steadied": x.steadied, "page-back": x.pageBack, "page-on": x.pageOn, "instead": x.choose} {
		button(name, b)
	}
	for i, b := range x.pairs {
		button([]string{"whose:story", "whose:mine", "body:other"}[i], b)
	}
	for name, t := range x.choices {
		if x.inSight(t) {
			out[name] = t
		}
	}
	if x.box != nil {
		out["say"] = x.box.Entry
	}
	return out
}

// numbered tells a target from earlier ones of the same name.
func numbered(name string, n int) string {
	if n > 1 {
		return fmt.Sprintf("%s#%d", name, n)
	}
	return name
}

func targetsLine(t map[string]model.Rect) string {
	names := make([]string, 0, len(t))
	for n := range t {
		names = append(names, n)
	}
	sort.Strings(names)
	var b strings.Builder
	for _, n := range names {
		fmt.Fprint(&b, n, t[n])
	}
	return b.String()
}

// inSight reports whether a tile is on the page of its grid that is shown.
func (x *sittingScreen) inSight(t *parts.Tile) bool {
	found := false
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *parts.TileGrid:
			for _, s := range o.Shown() {
				found = found || s == t
			}
		case *fyne.Container:
			for _, in := range o.Objects {
				walk(in)
			}
		}
	}
	walk(x.body)
	return found
}
