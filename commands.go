package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/lang/diag"
)

// app is what the commands share. Text goes through out and errOut, which let
// nothing through that a terminal obeys or a reader does not see; what must
// arrive byte for byte goes to exact.
type app struct {
	in          io.Reader
	out, errOut io.Writer
	exact       io.Writer
	bare        *sticky   // standard output itself
	bareErr     io.Writer // where findings go, which are made visible as they are printed
	progress    progress
	code        int
	color       string // auto, always, never
	written     int    // the files that have been put in place
}

func newApp(in io.Reader, out, errOut io.Writer) *app {
	a := &app{in: in, bare: &sticky{w: out}, bareErr: errOut, errOut: diag.NewPlain(errOut), progress: progressOn(errOut)}
	a.out, a.exact = diag.NewPlain(a.bare), a.bare
	if a.onTerminal() {
		a.exact = a.out
	}
	return a
}

// onTerminal tells whether results are read on a terminal.
func (a *app) onTerminal() bool {
	f, ok := a.bare.w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// sticky is a writer that remembers what went wrong first, and then writes no
// more.
type sticky struct {
	w   io.Writer
	err error
}

func (s *sticky) Write(p []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	n, err := s.w.Write(p)
	s.err = err
	return n, err
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
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			var names []string
			for _, c := range cmd.Commands() {
				names = append(names, c.Name())
			}
			if near := diag.Nearest(args[0], names); near != "" {
				return misused{fmt.Errorf("there is no command %q: did you mean %s?", args[0], near)}
			}
			return misused{fmt.Errorf("there is no command %q: there are %s", args[0], strings.Join(names, ", "))}
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			if asked, _ := cmd.Flags().GetBool("version"); asked {
				_, err := fmt.Fprintln(a.out, "tamis "+version())
				return err
			}
			return cmd.Help()
		},
		PersistentPreRunE: func(cmd *cobra.Command, _ []string) error { return a.flagsMakeSense(cmd) },
		SilenceUsage:      true,
		SilenceErrors:     true,
	}
	cmd.SetIn(a.in)
	cmd.SetOut(a.out)
	cmd.SetErr(a.errOut)
	cmd.PersistentFlags().StringVar(&a.color, "color", "auto", "colour the messages: `WHEN` is auto, always or never")
	cmd.PersistentFlags().BoolP("help", "h", false, "say what the command does, and how it is called")
	cmd.Flags().Bool("version", false, "say which build of Tamis this is")
	cmd.AddCommand(a.check(), a.build(), a.plan(), a.format(), a.diff(), a.log(), a.rename(), a.cooked(), a.preview(), a.lsp(), a.draft(), a.begin(), a.explain(), a.completion(cmd), a.manual(cmd))
	complete(cmd)
	ownWords(cmd)
	return cmd
}

// trouble prints what went wrong with the command itself.
func (a *app) trouble(err error) {
	fmt.Fprintf(a.errOut, "tamis: %s\n", err)
	var m misused
	if errors.As(err, &m) {
		fmt.Fprintln(a.errOut, "`tamis --help` lists the commands, `tamis COMMAND --help` what each takes.")
	}
}

// plansKept finds the plans of earlier commands in a context: who runs many in one process
// need not have one meal planned for each.
type plansKept struct{}

// read loads a path and compiles it.
func (a *app) read(ctx context.Context, name string, opt compiler.Options) (*compiler.Result, error) {
	return shown(ctx, a.progress, "reading and planning", func() (*compiler.Result, error) {
		tree, err := load.PathContext(ctx, name)
		if err != nil {
			return nil, err
		}
		opt.Plans, _ = ctx.Value(plansKept{}).(*plan.Memory)
		return compiler.Compile(ctx, tree, opt), nil
	})
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
		diag.WriteText(a.bareErr, shown, diag.TextOptions{Colour: a.coloured(), Width: a.width()})
		fmt.Fprintln(a.errOut, count(shown))
	}
	if diags.HasErrors() {
		a.code = exitFaults
	}
}

// count says how many findings there are: "2 errors and 1 question".
func count(shown []diag.Diagnostic) string {
	n := map[diag.Severity]int{}
	for _, d := range shown {
		n[d.Severity]++
	}
	var parts []string
	for _, s := range []struct {
		s         diag.Severity
		one, many string
	}{{diag.Error, "error", "errors"}, {diag.Warning, "warning", "warnings"}, {diag.Question, "question", "questions"}, {diag.Hint, "hint", "hints"}} {
		if n := n[s.s]; n > 0 {
			parts = append(parts, plural(n, s.one, s.many))
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
	f, ok := a.bareErr.(*os.File)
	return ok && os.Getenv("NO_COLOR") == "" && term.IsTerminal(int(f.Fd())) && showsColour(f)
}

func (a *app) width() int {
	if f, ok := a.bareErr.(*os.File); ok {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
			return w
		}
	}
	return 100
}
