package ui

import (
	"errors"
	"io"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"feltpage/app/say"
)

// saveFile asks where to and lets write fill the file. What goes wrong is said.
func (p *Program) saveFile(name string, write func(io.Writer) error) {
	d := dialog.NewFileSave(func(out fyne.URIWriteCloser, err error) {
		if err == nil && out == nil {
			return
		}
		if err == nil {
			err = errors.Join(write(out), out.Close())
		}
		if err != nil {
			p.trouble(say.Error(err))
		}
	}, p.win)
	d.SetFileName(name)
	if i := strings.LastIndexByte(name, '.'); i >= 0 {
		d.SetFilter(storage.NewExtensionFileFilter([]string{name[i:]}))
	}
	d.Resize(fyne.NewSize(820, 560))
	d.Show()
}

// savePath asks where to and lets write make the file by its path.
func (p *Program) savePath(name string, write func(path string) error) {
	d := dialog.NewFileSave(func(out fyne.URIWriteCloser, err error) {
		if err == nil && out == nil {
			return
		}
		if err == nil {
			path := out.URI().Path()
			if err = out.Close(); err == nil {
				err = write(path)
			}
		}
		if err != nil {
			p.trouble(say.Error(err))
		}
	}, p.win)
	d.SetFileName(name)
	d.Resize(fyne.NewSize(820, 560))
	d.Show()
}

// openPath asks for a file on this machine.
func (p *Program) openPath(ext []string, then func(path string)) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err == nil && r == nil {
			return
		}
		if err == nil {
			path := r.URI().Path()
			if err = r.Close(); err == nil {
				then(path)
				return
			}
		}
		p.trouble(say.Error(err))
	}, p.win)
	if ext != nil {
		d.SetFilter(storage.NewExtensionFileFilter(ext))
	}
	d.Resize(fyne.NewSize(820, 560))
	d.Show()
}

// fileName makes a name that any system takes.
func fileName(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, s)
}
