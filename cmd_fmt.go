package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

func (a *app) format() *cobra.Command {
	var write, list bool
	cmd := &cobra.Command{
		Use:   "fmt FILE",
		Short: "Lay a file out in the one way all files are laid out",
		Long: `Fmt prints a file in the common layout: two blanks a level, amounts and margins
in fixed columns, one fact a line. It keeps every comment and every word of the
prose, and changes no meaning. A file with errors is left as it is.

Without a flag the result is printed. A folder stands for all its files; "-"
reads from standard input.`,
		Example: `  tamis fmt supper.tamis
  tamis fmt -w recipes/        write the files in place
  tamis fmt -l recipes/        list those that would change`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 1 && args[0] == "-" {
				text, err := io.ReadAll(io.LimitReader(a.in, load.MaxSize+1))
				if err != nil {
					return err
				}
				return a.formatText("standard input", string(text), "", false, list)
			}
			for _, arg := range args {
				files, err := tamisFiles(arg)
				if err != nil {
					return err
				}
				for _, f := range files {
					text, err := os.ReadFile(f)
					if err != nil {
						return fmt.Errorf("%q cannot be read: %w", f, err)
					}
					if len(text) > load.MaxSize {
						return fmt.Errorf("%q is %d MB long; no more than %d MB is read from one file", f, len(text)>>20, load.MaxSize>>20)
					}
					if err := a.formatText(f, string(text), f, write, list); err != nil {
						return err
					}
				}
			}
			return nil
		},
	}
	cmd.Flags().BoolVarP(&write, "write", "w", false, "write the result to the file")
	cmd.Flags().BoolVarP(&list, "list", "l", false, "list files whose layout would change")
	return cmd
}

// formatText formats one text; path is where to write it.
func (a *app) formatText(name, text, path string, write, list bool) error {
	done, found := format.Source(source.New(name, text))
	diags := &diag.List{}
	for _, d := range found {
		diags.Add(d)
	}
	a.report(diags, diag.Error)
	changed := done != text
	if list && changed {
		fmt.Fprintln(a.out, name)
	}
	if write && changed && path != "" && !diags.HasErrors() {
		if err := overwrite(path, []byte(text), []byte(done)); err != nil {
			return err
		}
	}
	if !write && !list {
		_, err := io.WriteString(a.out, done)
		return err
	}
	return nil
}

// tamisFiles is a file, or all files of ours in a folder and below it.
func tamisFiles(name string) ([]string, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, fmt.Errorf("there is no file or folder %q", name)
	}
	if !info.IsDir() {
		return []string{name}, nil
	}
	var out []string
	err = filepath.WalkDir(name, func(p string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.HasSuffix(p, load.Ending) {
			out = append(out, p)
		}
		return err
	})
	return out, err
}
