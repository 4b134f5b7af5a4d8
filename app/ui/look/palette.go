package look

import "image/color"

// Palette is every colour of one variant. All are opaque, so that the contrast
// of any two is what the tests compute.
type Palette struct {
	Ground color.NRGBA // behind everything: paper
	Card   color.NRGBA // a thing that lies on the ground
	Sunk   color.NRGBA // a place to write in, a pressed thing
	Aside  color.NRGBA // the other ground, of what is only the learner's own
	Ink    color.NRGBA // text
	Soft   color.NRGBA // text that steps back; still 7:1
	Edge   color.NRGBA // outline of a control; 3:1
	Rule   color.NRGBA // a dividing line that carries no meaning
	Hue    color.NRGBA // the one hue: main action, chosen, focus
	OnHue  color.NRGBA // text on Hue
	Deep   color.NRGBA // Hue while pressed or hovered; OnHue reads on it too
	Tint   color.NRGBA // a wash of the hue behind chosen words; Ink reads on it
	Lit    color.NRGBA // a paler wash, behind a sentence to look at, and hover
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xff}
}

// Light is ink on paper, with the blue-green of a northern sea.
var Light = Palette{
	Ground: rgb(0xf5f0e6),
	Card:   rgb(0xfcf9f3),
	Sunk:   rgb(0xece5d7),
	Aside:  rgb(0xe4ebe8),
	Ink:    rgb(0x2a2620),
	Soft:   rgb(0x4d473d),
	Edge:   rgb(0x81786a),
	Rule:   rgb(0xdcd3c2),
	Hue:    rgb(0x1b5260),
	OnHue:  rgb(0xfcf9f3),
	Deep:   rgb(0x123e4a),
	Tint:   rgb(0xc4dde0),
	Lit:    rgb(0xe0e9e6),
}

// Dark is the same room in the evening.
var Dark = Palette{
	Ground: rgb(0x1d1b18),
	Card:   rgb(0x272420),
	Sunk:   rgb(0x151311),
	Aside:  rgb(0x1c2829),
	Ink:    rgb(0xece5d8),
	Soft:   rgb(0xcdc5b6),
	Edge:   rgb(0x8d8475),
	Rule:   rgb(0x3a362f),
	Hue:    rgb(0x8cc6d1),
	OnHue:  rgb(0x14201f),
	Deep:   rgb(0xa9d8e1),
	Tint:   rgb(0x284b53),
	Lit:    rgb(0x27393c),
}
