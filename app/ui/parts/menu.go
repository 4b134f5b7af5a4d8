package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"feltpage/app/ui/look"
)

// Menu is one choice of many, opened by a press: for lists too long to lie
// open.
type Menu struct {
	widget.BaseWidget
	Select *widget.Select
	body   *fyne.Container
}

// NewMenu makes it; at is the one taken. changed is told of a choice made by
// the person alone.
func NewMenu(choices []string, at int, changed func(i int)) *Menu {
	m := &Menu{}
	m.Select = widget.NewSelect(choices, nil)
	if at >= 0 && at < len(choices) {
		m.Select.SetSelectedIndex(at)
	}
	m.Select.OnChanged = func(string) {
		if changed != nil {
			changed(m.Select.SelectedIndex())
		}
	}
	m.body = AtLeast(0, look.Target, m.Select)
	m.ExtendBaseWidget(m)
	return m
}

// CreateRenderer shows the choice.
func (m *Menu) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(m.body) }
