// Command tamis turns menus and recipes, written in plain text, into the sheets
// that hang in a kitchen.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"syscall"

	"tamis/lang/source"
)

func main() {
	tendMemory()
	setUp()
	os.Exit(run(interruptible(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// The exit codes.
const (
	exitClean   = 0   // nothing is wrong
	exitFaults  = 1   // the text has errors
	exitTrouble = 2   // the command was misused, or a file could not be read or written
	exitStopped = 130 // Ctrl-C was pressed: what shells say of a program that it ended
)

// run carries out one command and returns the exit code. Results go to out,
// findings and trouble to errOut. When ctx ends the command stops.
func run(ctx context.Context, args []string, in io.Reader, out, errOut io.Writer) int {
	app := newApp(in, out, errOut)
	root := app.root()
	root.SetArgs(args)
	if err := root.ExecuteContext(ctx); stopped(err) {
		app.sayStopped()
		return exitStopped
	} else if err != nil {
		app.trouble(err)
		return exitTrouble
	}
	if err := app.bare.err; err != nil {
		if !errors.Is(err, syscall.EPIPE) { // a reader that has seen enough wants no word about it
			app.trouble(fmt.Errorf("standard output cannot be written: %w", source.Reason(err)))
		}
		return exitTrouble
	}
	return app.code
}
