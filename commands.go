package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/lang/diag"
)

// app is what the commands share.
type app struct {
	in          io.Reader
	out, errOut io.Writer
	code        int
	color       string // auto, always, never
}

func (a *app) root() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tamis",
		Short: "Press a menu through a fine sieve: prep sheets from plain text",
		Long: `Tamis reads menus and recipes written in plain text, works out how much of
everything is needed, plans the cooking back from the serving time, and prints
what hangs in a kitchen: prep sheets, mise-en-place list, shopping list and one
combined timeline.

Start here:
  tamis check examples/harvest-lunch       is it all there, does it add up?
  tamis plan examples/harvest-lunch        who does what when, in the terminal
  tamis build examples/harvest-lunch       print the sheets, as PDF and HTML

A first recipe, in a file called supper.tamis:

  dish Buttered leeks
    serves 4
    gather
      800 g    leeks, sliced
      40 g     butter
    method
      - Melt the butter, add the leeks and cook gently until soft.
        | ring low | work 3 min | leave 15 min
    serve hot, within 10 min`,
		Example:       "",
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	cmd.SetIn(a.in)
	cmd.SetOut(a.out)
	cmd.SetErr(a.errOut)
	cmd.PersistentFlags().StringVar(&a.color, "color", "auto", "colour the messages: auto, always or never")
	cmd.AddCommand(a.check(), a.build(), a.plan(), a.format(), a.explain())
	return cmd
}

// trouble prints what went wrong with the command itself.
func (a *app) trouble(err error) {
	text := err.Error()
	fmt.Fprintf(a.errOut, "tamis: %s\n", text)
	if strings.HasPrefix(text, "unknown command") || strings.HasPrefix(text, "unknown flag") || strings.HasPrefix(text, "unknown shorthand") {
		fmt.Fprintln(a.errOut, "`tamis --help` lists the commands, `tamis COMMAND --help` what each takes.")
	}
}

// read loads a path and compiles it.
func (a *app) read(name string, opt compiler.Options) (*compiler.Result, error) {
	tree, err := load.Path(name)
	if err != nil {
		return nil, err
	}
	return compiler.Compile(context.Background(), tree, opt), nil
}

// report prints findings to errOut, with a line that counts them, and sets the
// exit code. least leaves out what is less grave.
func (a *app) report(diags *diag.List, least diag.Severity) {
	var shown []diag.Diagnostic
	for _, d := range diags.Sorted() {
		if d.Severity >= least {
			shown = append(shown, d)
		}
	}
	if len(shown) > 0 {
		diag.WriteText(a.errOut, shown, diag.TextOptions{Colour: a.coloured(), Width: a.width()})
		fmt.Fprintln(a.errOut, count(shown))
	}
	if diags.HasErrors() {
		a.code = exitFaults
	}
}

// count says how many findings there are: "2 errors and 1 query".
func count(shown []diag.Diagnostic) string {
	n := map[diag.Severity]int{}
	for _, d := range shown {
		n[d.Severity]++
	}
	var parts []string
	for _, s := range []struct {
		s         diag.Severity
		one, many string
	}{{diag.Error, "error", "errors"}, {diag.Warning, "warning", "warnings"}, {diag.Query, "query", "queries"}, {diag.Hint, "hint", "hints"}} {
		switch c := n[s.s]; {
		case c == 1:
			parts = append(parts, "1 "+s.one)
		case c > 1:
			parts = append(parts, fmt.Sprintf("%d %s", c, s.many))
		}
	}
	if len(parts) > 1 {
		parts = append(parts[:len(parts)-2], parts[len(parts)-2]+" and "+parts[len(parts)-1])
	}
	return strings.Join(parts, ", ")
}

func (a *app) coloured() bool {
	switch a.color {
	case "always":
		return true
	case "never":
		return false
	}
	f, ok := a.errOut.(*os.File)
	return ok && os.Getenv("NO_COLOR") == "" && term.IsTerminal(int(f.Fd())) && showsColour(f)
}

func (a *app) width() int {
	if f, ok := a.errOut.(*os.File); ok {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
			return w
		}
	}
	return 100
}
