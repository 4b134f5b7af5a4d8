//go:build headless

package main

import (
	"errors"
	"io"

	"feltpage/app/say"
)

// openWindow says that this edition has none.
func openWindow([]string, io.Writer, io.Writer) error {
	return errors.New(say.T("command.headless"))
}
