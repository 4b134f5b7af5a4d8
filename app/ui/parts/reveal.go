package parts

import "fyne.io/fyne/v2"

// revealer is told of each widget that gets the keyboard, so that a page can
// bring it in sight. It is one for the program, because the toolkit gives a
// widget no way to what it lies in.
var revealer func(fyne.CanvasObject)

// OnReveal sets who is told; nil is nobody.
func OnReveal(f func(fyne.CanvasObject)) { revealer = f }

// scrolled is told when a page was scrolled, since everything on it then lies
// elsewhere.
var scrolled func()

// OnScrolled sets who is told; nil is nobody.
func OnScrolled(f func()) { scrolled = f }

func reveal(o fyne.CanvasObject) {
	if revealer != nil {
		revealer(o)
	}
}

// Find gives the page that holds an object somewhere under root, or nil; the
// innermost where pages lie in pages.
func Find(root, o fyne.CanvasObject) *Page {
	in, page := hold(root, o)
	if !in {
		return nil
	}
	return page
}

// Holds reports whether an object lies somewhere under root and nothing around
// it is hidden.
func Holds(root, o fyne.CanvasObject) bool {
	in, _ := hold(root, o)
	return in
}

// hold reports whether root holds o, and the innermost page around it.
func hold(root, o fyne.CanvasObject) (bool, *Page) {
	if !root.Visible() {
		return false, nil
	}
	if root == o {
		return true, nil
	}
	var inner []fyne.CanvasObject
	var page *Page
	switch r := root.(type) {
	case *fyne.Container:
		inner = r.Objects
	case *Sheet:
		inner = []fyne.CanvasObject{r.Content}
	case *Page:
		page = r
		inner = r.column.body.Objects
	case *Field:
		inner = r.body.Objects
	case *Pick:
		inner = r.body.Objects
	case *Menu:
		inner = r.body.Objects
	case *Modal:
		inner = []fyne.CanvasObject{r.content}
	}
	for _, x := range inner {
		if in, p := hold(x, o); in {
			if p == nil {
				p = page
			}
			return true, p
		}
	}
	return false, nil
}
