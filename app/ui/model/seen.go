// Package model holds what the screens show, without a screen: it imports no
// Fyne. Each view model reads from small interfaces that the store and the
// reading engine satisfy, turns errors into a person's sentence, and tells the
// screen through one change callback. A screen only draws what it finds here.
package model

// Rect is a rectangle in window pixels, origin top left.
type Rect struct{ X, Y, W, H float32 }

// Seen is what a screen tells whoever watches the program from outside: its
// name, the facts it shows, and where its named targets lie. It is sent at
// each change of screen, so that a test can wait for a state instead of for
// time to pass.
type Seen struct {
	Screen  string
	Facts   map[string]string
	Targets map[string]Rect
}

// Observer receives what is seen; nil is allowed everywhere.
type Observer func(Seen)
