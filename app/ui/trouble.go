package ui

import (
	"fyne.io/fyne/v2"

	"feltpage/app/say"
	"feltpage/app/ui/look"
	"feltpage/app/ui/parts"
)

// ShowTrouble shows one sentence in a small window and runs until it is
// closed: for what stands in the way before the household can be opened.
func ShowTrouble(a fyne.App, sentence string) {
	a.Settings().SetTheme(look.New(look.AlwaysLight))
	w := a.NewWindow(say.T("name.program"))
	w.SetContent(parts.NewPage(560, look.L,
		parts.NewWords(sentence, look.Lead),
		parts.AtLeft(parts.NewButton(say.T("trouble.close"), parts.Main, a.Quit)),
	))
	w.Resize(fyne.NewSize(640, 280))
	w.CenterOnScreen()
	w.ShowAndRun()
}
