package look

import (
	_ "embed"

	"fyne.io/fyne/v2"
)

//go:embed fonts/Andika-Regular.ttf
var regular []byte

//go:embed fonts/Andika-Bold.ttf
var bold []byte

//go:embed fonts/Andika-Italic.ttf
var italic []byte

// FontLicence is the licence of the embedded typeface, for the page that
// names what the program is made from.
//
//go:embed fonts/OFL.txt
var FontLicence string

// The typeface.
var (
	Regular = fyne.NewStaticResource("Andika-Regular.ttf", regular)
	Bold    = fyne.NewStaticResource("Andika-Bold.ttf", bold)
	Italic  = fyne.NewStaticResource("Andika-Italic.ttf", italic)
)
