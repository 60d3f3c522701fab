package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/changes"
	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
	"tamis/render/html"
)

var diffFormats = []string{"text", "html"}

func (a *app) diff() *cobra.Command {
	var rev, form string
	var textconv bool
	cmd := &cobra.Command{
		Use:   "diff A B",
		Short: "Say what has changed for the cook",
		Long: `Diff compares two folders, or two files, and says what is otherwise for the
cook: not which characters, but that the salt is 12 g instead of 10, that a roast
takes five minutes longer, that a meal now needs two rings, starts earlier, or
holds another allergen. What was renamed or moved is known again.

With --git it compares a book as it was in a revision with the book as it lies
there now; it asks the git that is installed, and writes nothing.

--textconv prints one file for git's own diff: laid out, and below each sentence what
it takes. lang/git.md in the repository of Tamis says how git is told.

The exit code is 0 whether or not anything has changed, and 2 when something
could not be read.`,
		Example: `  tamis diff old/harvest-lunch harvest-lunch
  tamis diff --git HEAD~1 harvest-lunch
  tamis diff --git last-summer . --format html > changes.html`,
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case textconv && (rev != "" || len(args) != 1):
				return misused{errors.New("diff --textconv takes one file")}
			case textconv:
				return nil
			case rev == "" && len(args) != 2:
				return misused{errors.New("diff compares two: name the one as it was and the one as it is, or a revision with --git")}
			case rev != "" && len(args) > 1:
				return misused{errors.New("diff --git takes one folder")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if !slices.Contains(diffFormats, form) {
				return fmt.Errorf("there is no format %q: it can be text or html", form)
			}
			ctx := cmd.Context()
			if textconv {
				return a.asRead(ctx, args[0])
			}
			var was, now *compiler.Result
			var err error
			if rev == "" {
				if was, err = a.read(ctx, args[0], compiler.Options{NoPages: true}); err != nil {
					return err
				}
				now, err = a.read(ctx, args[1], compiler.Options{NoPages: true})
			} else {
				was, now, err = a.sinceRevision(ctx, rev, append(args, ".")[0])
			}
			if err != nil {
				return err
			}
			for _, r := range []*compiler.Result{was, now} {
				if r.Diags.HasErrors() {
					fmt.Fprintf(a.errOut, "%s has errors: what depends on them cannot be compared. `tamis check` says what they are\n", r.Tree.Root)
				}
			}
			groups := changes.Between(was, now)
			if form == "html" {
				return html.Write(a.exact, changes.Document(groups))
			}
			if len(groups) == 0 {
				fmt.Fprintln(a.out, "nothing has changed for the cook")
			}
			for i, g := range groups {
				if i > 0 {
					fmt.Fprintln(a.out)
				}
				fmt.Fprintln(a.out, diag.Visible(g.Title))
				for _, l := range g.Lines {
					fmt.Fprintln(a.out, "  "+diag.Visible(l))
				}
			}
			return nil
		},
	}
	cmd.Flags().StringVar(&rev, "git", "", "compare with the `REVISION` of a git repository")
	cmd.Flags().BoolVar(&textconv, "textconv", false, "print one file as it is read, for git's own diff")
	cmd.Flags().StringVar(&form, "format", "text", "`FORMAT` on standard output: text or html")
	return cmd
}

// sinceRevision compiles a book as it was in a revision and as it is.
func (a *app) sinceRevision(ctx context.Context, rev, dir string) (was, now *compiler.Result, err error) {
	root := load.Root(dir)
	texts, err := textsOf(ctx, root, rev)
	if err != nil {
		return nil, nil, err
	}
	tree, err := load.Texts(ctx, rev+":"+path.Base(root), texts)
	if err != nil {
		return nil, nil, fmt.Errorf("in %q there is no %s file of this folder", rev, load.Ending)
	}
	if now, err = a.read(ctx, root, compiler.Options{NoPages: true}); err != nil {
		return nil, nil, err
	}
	return compiler.Compile(ctx, tree, compiler.Options{NoPages: true}), now, nil
}

// asRead prints a file laid out, with what each sentence takes below it. It is read by
// itself: of what git hands over, only the file is there. One that does not read is
// printed as it is.
func (a *app) asRead(ctx context.Context, name string) error {
	text, err := load.ReadFile(name)
	if err != nil {
		return err
	}
	laid, _ := format.Source(source.New("", text))
	tree, err := load.Texts(ctx, "", map[string]*string{"text" + load.Ending: &laid})
	if err != nil {
		return err
	}
	r := compiler.Compile(ctx, tree, compiler.Options{NoPages: true, NoPlan: true})
	_, err = io.WriteString(a.exact, changes.AsRead(r, tree.Files[0]))
	return err
}
