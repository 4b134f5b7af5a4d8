package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
)

// showPrint offers what can go on paper.
func (p *Program) showPrint() {
	p.tab = tabPrint
	targets := map[string]fyne.CanvasObject{}
	p.guide(view{name: "print", targets: targets, content: parts.NewPage(880, look.L, title(say.T("print.title"), ""))})
}
