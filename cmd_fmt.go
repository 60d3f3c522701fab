package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

// formatOptions are the flags of fmt.
type formatOptions struct{ write, list bool }

func (a *app) format() *cobra.Command {
	var o formatOptions
	cmd := &cobra.Command{
		Use:   "fmt FILE",
		Short: "Lay a file out in the one way all files are laid out",
		Long: `Fmt prints a file in the common layout: two spaces a level, amounts and margins
in fixed columns, one fact a line. It keeps every comment and every word of the
prose, and changes no meaning. A file with errors is left as it is.

Without a flag the result is printed. A folder stands for all its files and
those below it, but for names that start with a full stop. "-" reads standard
input and prints the result.

-w follows links, keeps who may read a file, and leaves alone one that is
marked as not to be written, or that was saved while fmt read it.

The exit code is 0 when all is laid out so, or has been written; 1 when a file
has errors, or when -l without -w lists one; 2 when a file could not be read or
written: the others are seen to all the same.`,
		Example: `  tamis fmt supper.tamis
  tamis fmt -w recipes/        write the files in place
  tamis fmt -l recipes/        list those that would change, for a hook`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return misused{errors.New("fmt what? Name a file or folder: tamis fmt supper.tamis")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			if o.write {
				defer sweep(args)
			}
			var failed error // the first of those not yet told
			fail := func(err error) (stop bool) {
				if failed != nil {
					a.trouble(failed)
				}
				failed = err
				return stopped(err)
			}
			for _, arg := range args {
				if arg == "-" {
					if err := a.formatInput(ctx, o); err != nil && fail(err) {
						return err
					}
					continue
				}
				files, err := tamisFiles(ctx, arg)
				if err != nil && fail(err) {
					return err
				}
				for _, f := range files {
					text, err := load.ReadFile(f)
					var fault *load.Fault
					if errors.As(err, &fault) && fault.Strange && f != arg {
						a.trouble(fmt.Errorf("%w, and is passed over", err))
						continue
					}
					if err == nil {
						err = a.formatText(ctx, f, text, f, o)
					}
					if err != nil && fail(err) {
						return err
					}
				}
			}
			return failed
		},
	}
	cmd.Flags().BoolVarP(&o.write, "write", "w", false, "write the result to the file")
	cmd.Flags().BoolVarP(&o.list, "list", "l", false, "list files whose layout would change")
	return cmd
}

// formatInput formats what comes in on standard input. There is no file to
// write, so the result is printed.
func (a *app) formatInput(ctx context.Context, o formatOptions) error {
	text, err := await(ctx, func() ([]byte, error) { return io.ReadAll(io.LimitReader(a.in, load.MaxSize+1)) })
	switch {
	case stopped(err):
		return err
	case err != nil:
		return fmt.Errorf("standard input cannot be read: %w", source.Reason(err))
	case len(text) > load.MaxSize:
		return fmt.Errorf("standard input is longer than %d MB, and no more is read", load.MaxSize>>20)
	}
	o.write = false
	return a.formatText(ctx, "standard input", string(text), "", o)
}

// formatText formats one text; path is where to write it.
func (a *app) formatText(ctx context.Context, name, text, path string, o formatOptions) error {
	type laidOut struct {
		text  string
		found []diag.Diagnostic
	}
	laid, err := shown(ctx, a.progress, "laying out the text", func() (l laidOut, _ error) {
		l.text, l.found = format.Source(source.New(name, text))
		return l, nil
	})
	if err != nil {
		return err
	}
	done, diags := laid.text, &diag.List{}
	for _, d := range laid.found {
		diags.Add(d)
	}
	a.report(diags, diag.Error)
	changed := done != text
	if o.list && changed {
		fmt.Fprintln(a.out, name)
		if !o.write {
			a.code = exitFaults
		}
	}
	if o.write && changed && !diags.HasErrors() {
		err := overwrite(path, []byte(text), []byte(done))
		if err == nil {
			a.written++
		}
		return err
	}
	if !o.write && !o.list {
		_, err := io.WriteString(a.exact, done)
		return err
	}
	return nil
}

// tamisFiles is a file, or all files of ours in a folder and below it.
func tamisFiles(ctx context.Context, name string) (out []string, err error) {
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file or folder %q", name)
	case err != nil:
		return nil, fmt.Errorf("%q cannot be read: %w", name, source.Reason(err))
	case !info.IsDir():
		return []string{name}, nil
	}
	var failed error
	err = filepath.WalkDir(name, func(p string, d os.DirEntry, err error) error {
		switch {
		case ctx.Err() != nil:
			return ctx.Err()
		case err != nil:
			failed = errors.Join(failed, fmt.Errorf("the folder %q cannot be read: %w", p, source.Reason(err)))
			if d != nil && d.IsDir() {
				return fs.SkipDir
			}
		case p != name && load.Hidden(d.Name()):
			if d.IsDir() {
				return fs.SkipDir
			}
		case !d.IsDir() && strings.HasSuffix(p, load.Ending):
			out = append(out, p)
		}
		return nil
	})
	return out, errors.Join(err, failed)
}
