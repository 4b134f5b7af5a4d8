// Command feltpage opens the Feltpage window, or runs one of the commands that
// need none. Built with -tags headless it has the commands alone and needs no
// graphics libraries.
//
//	feltpage [--data DIR]          open the window
//	feltpage inspect [FILE...]     read stories, print JSON lines
//	feltpage evaluate --data DIR   measure the reading against open data
//	feltpage version
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"feltpage/app/say"
	"feltpage/nlp/pipeline"
)

func main() {
	if err := run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run picks the command. Errors are sentences for a person.
func run(args []string, in io.Reader, out, errs io.Writer) error {
	if len(args) > 0 && args[0] != "" {
		switch args[0] {
		case "inspect":
			return inspectFiles(args[1:], in, out)
		case "evaluate":
			return evaluateData(args[1:], out)
		case "version", "--version":
			_, err := fmt.Fprintln(out, say.T("command.version", say.S{"engine": pipeline.Version}))
			return err
		case "help", "--help", "-h":
			_, err := fmt.Fprintln(out, say.T("command.help"))
			return err
		}
		if args[0][0] != '-' {
			return errors.New(say.T("command.unknown", say.S{"command": args[0]}))
		}
	}
	return openWindow(args, out, errs)
}
