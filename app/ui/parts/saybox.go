package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// SayBox is where the words of the learner are typed, by the guide or by the
// learner: the learner's name above, large type below.
type SayBox struct {
	widget.BaseWidget
	Entry *SayEntry
	name  *Words
	body  fyne.CanvasObject
}

// SayEntry is the box itself. Tab leaves it, and shortcuts of the screen work
// from inside it.
type SayEntry struct {
	widget.Entry
	Shortcut func(fyne.Shortcut) bool // reports whether it was taken
}

// AcceptsTab keeps the keyboard from being caught in the box.
func (e *SayEntry) AcceptsTab() bool { return false }

// TypedShortcut hands a shortcut to the screen first.
func (e *SayEntry) TypedShortcut(s fyne.Shortcut) {
	if _, own := s.(*desktop.CustomShortcut); own && e.Shortcut != nil && e.Shortcut(s) {
		return
	}
	e.Entry.TypedShortcut(s)
}

// largeType is the theme with running text in the lead size.
type largeType struct{ fyne.Theme }

func (l largeType) Size(n fyne.ThemeSizeName) float32 {
	if n == theme.SizeNameText {
		return look.Lead
	}
	return l.Theme.Size(n)
}

// NewSayBox makes a box headed by name, holding text.
func NewSayBox(name, text string, changed func(string)) *SayBox {
	e := &SayEntry{}
	e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
	e.ExtendBaseWidget(e)
	e.SetText(text)
	e.OnChanged = changed
	e.SetMinRowsVisible(2)
	b := &SayBox{Entry: e, name: NewSoft(name, look.Text)}
	b.body = container.NewThemeOverride(container.NewBorder(b.name, nil, nil, nil, e), largeType{fyne.CurrentApp().Settings().Theme()})
	b.ExtendBaseWidget(b)
	return b
}

// HeightFor gives the height the box wants.
func (b *SayBox) HeightFor(width float32) float32 {
	return b.name.HeightFor(width) + look.XS + max(look.Answer, b.Entry.MinSize().Height)
}

// CreateRenderer draws the box.
func (b *SayBox) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(b.body) }
