package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"feltpage/app/evaluate"
	"feltpage/app/inspect"
	"feltpage/app/say"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
)

// inspectFiles reads each file, or standard input for "-" and for no file at
// all, and prints one JSON object a line. A file that cannot be read is named
// and stops the command; lines already printed stay.
func inspectFiles(names []string, in io.Reader, out io.Writer) error {
	if len(names) == 0 {
		names = []string{"-"}
	}
	engine, table, err := load()
	if err != nil {
		return err
	}
	w := bufio.NewWriter(out)
	defer w.Flush()
	for _, name := range names {
		var b []byte
		if name == "-" {
			b, err = io.ReadAll(in)
		} else {
			b, err = os.ReadFile(name)
		}
		if err != nil {
			return fmt.Errorf("reading %s: %w", name, err)
		}
		if err := inspect.Write(context.Background(), w, engine, table, name, string(b)); err != nil {
			return err
		}
	}
	return w.Flush()
}

// load makes the engine and the feelings table once.
func load() (*pipeline.Engine, *feelings.Table, error) {
	engine, err := pipeline.New()
	if err != nil {
		return nil, nil, fmt.Errorf("starting the reading engine: %w", err)
	}
	table, err := feelings.Load()
	if err != nil {
		return nil, nil, fmt.Errorf("reading the feelings: %w", err)
	}
	return engine, table, nil
}

// evaluateData prints the accuracy table.
func evaluateData(args []string, out io.Writer) error {
	fs := flag.NewFlagSet("evaluate", flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	data := fs.String("data", "", "")
	half := fs.String("half", "", "")
	if err := fs.Parse(args); err != nil {
		return errors.New(say.T("command.usage", say.S{"why": err.Error()}))
	}
	if *data == "" {
		return errors.New(say.T("command.data-needed"))
	}
	engine, table, err := load()
	if err != nil {
		return err
	}
	rows, err := evaluate.Run(context.Background(), engine, table, os.DirFS(*data), evaluate.Half(*half))
	if err != nil {
		return err
	}
	return evaluate.Print(out, rows)
}
