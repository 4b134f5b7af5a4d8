// Package andika embeds the one typeface of the program: Andika by SIL
// International, made for readers. It stands apart so that screen, chart and
// print set the same letters without any of them importing another.
//
// The files are Andika 6.101 as packed by Debian (fonts-sil-andika),
// unchanged, under the SIL Open Font License 1.1 (OFL.txt).
package andika

import _ "embed" // the font files

// The faces, as TrueType files.
var (
	//go:embed Andika-Regular.ttf
	Regular []byte
	//go:embed Andika-Bold.ttf
	Bold []byte
	//go:embed Andika-Italic.ttf
	Italic []byte
)

// Licence is the text that has to travel with the font.
//
//go:embed OFL.txt
var Licence string
