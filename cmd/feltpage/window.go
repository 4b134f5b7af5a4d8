//go:build !headless

package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"runtime"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"feltpage/app/datadir"
	"feltpage/app/demo"
	"feltpage/app/say"
	"feltpage/app/store"
	"feltpage/app/ui"
	"feltpage/app/ui/model"
	"feltpage/corpus/shelf"
	"feltpage/nlp/pipeline"
)

// demoSeed makes the demo household the same everywhere, but for its dates.
const demoSeed = 11

// openWindow opens the household and shows it until the window is closed. What
// stands in the way is shown in a window as one sentence, and returned.
func openWindow(args []string, out, errs io.Writer) error {
	fs := flag.NewFlagSet("feltpage", flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	data := fs.String("data", "", "")
	tell := fs.Bool("tell", false, "")
	if err := fs.Parse(args); err != nil {
		return errors.New(say.T("command.usage", say.S{"why": err.Error()}))
	}
	if fs.NArg() > 0 {
		return errors.New(say.T("command.unknown", say.S{"command": fs.Arg(0)}))
	}
	if !screen() {
		return errors.New(say.T("command.no-display"))
	}
	// No id: all that is kept lies in the data folder, nothing in Fyne's own.
	app.SetMetadata(fyne.AppMetadata{Name: say.T("name.program"), Migrations: map[string]bool{"fyneDo": true}})
	a := app.New()
	st, err := household(*data)
	if err != nil {
		err = errors.New(say.Error(err))
		ui.ShowTrouble(a, err.Error())
		return err
	}
	defer func() {
		if err := st.Close(); err != nil {
			fmt.Fprintln(errs, err)
		}
	}()
	engine, table, err := load()
	if err != nil {
		return err
	}
	stories, err := shelf.Stories()
	if err != nil {
		return fmt.Errorf("reading the starter shelf: %w", err)
	}
	now := uint64(time.Now().UnixNano())
	deps := ui.Deps{Store: st, Engine: engine, Version: pipeline.Version, Table: table, Shelf: stories,
		SeedDemo: func() error {
			return demo.Seed(context.Background(), st, engine, stories, time.Now(), demoSeed)
		},
		Now: time.Now, Rand: rand.New(rand.NewPCG(now, now>>32))}
	if *tell {
		deps.Observer = teller(out)
	}
	ui.New(a, deps).ShowAndRun()
	return nil
}

// household opens the store in the named folder, or in the platform's.
func household(folder string) (*store.Store, error) {
	dir, err := datadir.Find(folder)
	if err != nil {
		return nil, err
	}
	return store.Open(dir, store.Options{})
}

// screen reports whether a window can be shown.
func screen() bool {
	return runtime.GOOS != "linux" || os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// teller prints a line "seen {json}" at each change of screen.
func teller(out io.Writer) model.Observer {
	var mu sync.Mutex
	return func(s model.Seen) {
		b, err := json.Marshal(s)
		if err != nil {
			return // strings and numbers always marshal
		}
		mu.Lock()
		defer mu.Unlock()
		fmt.Fprintf(out, "seen %s\n", b)
	}
}
