package look

import (
	"fyne.io/fyne/v2"

	"feltpage/app/andika"
)

// The typeface.
var (
	Regular = fyne.NewStaticResource("Andika-Regular.ttf", andika.Regular)
	Bold    = fyne.NewStaticResource("Andika-Bold.ttf", andika.Bold)
	Italic  = fyne.NewStaticResource("Andika-Italic.ttf", andika.Italic)
)
