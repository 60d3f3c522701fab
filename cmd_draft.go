package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler/draft"
	"tamis/compiler/load"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// draftOptions are the flags of draft.
type draftOptions struct{ out, title, units string }

func (a *app) draft() *cobra.Command {
	var o draftOptions
	cmd := &cobra.Command{
		Use:   "draft FILE",
		Short: "Make a first draft of a letter, a page or a schema.org Recipe",
		Long: `Draft reads a text that is not in the notation and prints a first draft that is:
a letter, a page of an old book, Markdown, a web page, or a schema.org Recipe
(JSON-LD, alone or inside HTML). "-" reads standard input.

What the text says for certain is written. A time or a heat that was read from a
sentence, and a field that was guessed, has a "?": take it away where it is
right. What could not be placed stays as the writer's own words: as ` + "`about`" + `,
` + "`said`" + `, or a comment. No word is lost, no figure is made up, and no measure is
changed into another. Then read it over:

  tamis check --read leeks.tamis`,
		Example: `  tamis draft letter.txt
  tamis draft leeks.html -o leeks.tamis`,
		Args: func(_ *cobra.Command, args []string) error {
			switch len(args) {
			case 1:
				return nil
			case 0:
				return misused{errors.New("draft what? Name a text: tamis draft letter.txt")}
			}
			return misused{fmt.Errorf("draft takes one text, and %d were named", len(args))}
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.drafted(cmd.Context(), args[0], o) },
	}
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "write to this `FILE`, which must not be there yet")
	cmd.Flags().StringVar(&o.title, "title", "", "the title of a text that has none")
	cmd.Flags().StringVar(&o.units, "units", "", "whose cups and pints they are: `SYSTEM` is metric, US, imperial or AU")
	return cmd
}

func (a *app) drafted(ctx context.Context, name string, o draftOptions) error {
	units, known := quantity.SystemNamed(o.units)
	if !known && o.units != "" {
		return fmt.Errorf("there is no system of measures %q: it can be metric, US, imperial or AU", o.units)
	}
	if strings.HasSuffix(name, load.Ending) {
		return fmt.Errorf("%q is in the notation already: tamis check %s", name, name)
	}
	if o.out != "" && !strings.HasSuffix(o.out, load.Ending) {
		return fmt.Errorf("%q does not end in %s, and would not be found: -o NAME%s", o.out, load.Ending, load.Ending)
	}
	var text string
	var err error
	from := name
	if name == "-" {
		b, err := await(ctx, func() ([]byte, error) { return io.ReadAll(io.LimitReader(a.in, load.MaxSize+1)) })
		switch {
		case stopped(err):
			return err
		case err != nil:
			return fmt.Errorf("standard input cannot be read: %w", source.Reason(err))
		case len(b) > load.MaxSize:
			return fmt.Errorf("standard input is longer than %d MB, and no more is read", load.MaxSize>>20)
		}
		text, name = string(b), "draft"
	} else if text, err = load.ReadFile(name); err != nil {
		return err
	}
	made, err := shown(ctx, a.progress, "drafting", func() (*draft.Result, error) {
		return draft.Make(ctx, name, text, draft.Options{Title: o.title, Units: units})
	})
	if err != nil {
		if errors.Is(err, draft.ErrNothing) || errors.Is(err, draft.ErrNoText) {
			if from == "-" {
				return fmt.Errorf("standard input cannot be drafted: %w", err)
			}
			return fmt.Errorf("%q cannot be drafted: %w", name, err)
		}
		return err
	}
	if o.out == "" {
		if _, err := io.WriteString(a.exact, made.Text); err != nil {
			return err
		}
	} else if err := writeNew(o.out, made.Text); err != nil {
		return err
	} else {
		a.written++
		fmt.Fprintln(a.out, o.out)
	}
	fmt.Fprintf(a.errOut, "read as %s: %s, %s; %s\n", made.Kind, plural(made.Lines, "line of a list", "lines of lists"), plural(made.Steps, "step", "steps"), unconfirmed(made.Asked))
	for _, t := range made.Told {
		fmt.Fprintln(a.errOut, t)
	}
	return nil
}

func unconfirmed(n int) string {
	if n == 0 {
		return "nothing has a `?`"
	}
	return plural(n, "`?` is", "`?` are") + " for you to confirm"
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// writeNew writes a file that must not be there yet.
func writeNew(name, text string) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	switch {
	case errors.Is(err, os.ErrExist):
		return fmt.Errorf("%q is there already, and is left as it is: name another", name)
	case err != nil:
		return notWritten(name, err)
	}
	_, err = f.WriteString(text)
	if err := errors.Join(err, f.Close()); err != nil {
		os.Remove(name)
		return notWritten(name, err)
	}
	return nil
}
