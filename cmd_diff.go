package main

import (
	"archive/tar"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"path"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/changes"
	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/render/html"
)

func (a *app) diff() *cobra.Command {
	var rev, form string
	cmd := &cobra.Command{
		Use:   "diff A B",
		Short: "Say what has changed for the cook",
		Long: `Diff compares two folders, or two files, and says what is otherwise for the
cook: not which characters, but that the salt is 12 g instead of 10, that a roast
takes five minutes longer, that a meal now needs two rings, starts earlier, or
holds another allergen. What was renamed or moved is known again.

With --git it compares a book as it was in a revision with the book as it lies
there now; it asks the git that is installed, and writes nothing.

The exit code is 0 whether or not anything has changed, and 2 when something
could not be read.`,
		Example: `  tamis diff old/harvest-lunch harvest-lunch
  tamis diff --git HEAD~1 harvest-lunch
  tamis diff --git last-summer . --format html > changes.html`,
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case rev == "" && len(args) != 2:
				return misused{errors.New("diff compares two: name the one as it was and the one as it is, or a revision with --git")}
			case rev != "" && len(args) > 1:
				return misused{errors.New("diff --git takes one folder")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if form != "text" && form != "html" {
				return fmt.Errorf("there is no format %q: it can be text or html", form)
			}
			ctx := cmd.Context()
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

// textsOf are the texts of a folder in a revision, by their paths below it, as the
// installed git hands them out.
func textsOf(ctx context.Context, dir, rev string) (map[string]*string, error) {
	commit, err := git(ctx, dir, "rev-parse", "--verify", "--quiet", "--end-of-options", rev+"^{commit}")
	if err != nil {
		return nil, err
	}
	archive, err := git(ctx, dir, "archive", "--format=tar", strings.TrimSpace(string(commit)))
	if err != nil {
		return nil, err
	}
	texts, size := map[string]*string{}, int64(0)
	for r := tar.NewReader(bytes.NewReader(archive)); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return texts, nil
		}
		if err != nil {
			return nil, fmt.Errorf("what git hands out of %q cannot be read: %w", rev, err)
		}
		if size += h.Size; h.Typeflag != tar.TypeReg || !strings.HasSuffix(h.Name, load.Ending) || h.Size > load.MaxSize || size > load.MaxText {
			continue
		}
		raw, err := io.ReadAll(r)
		if err != nil {
			return nil, fmt.Errorf("what git hands out of %q cannot be read: %w", rev, err)
		}
		text := string(raw)
		texts[path.Clean(h.Name)] = &text
	}
}

// git asks the installed git something about a folder.
func git(ctx context.Context, dir string, args ...string) ([]byte, error) {
	var out, said bytes.Buffer
	cmd := exec.CommandContext(ctx, "git", append([]string{"-C", dir}, args...)...)
	cmd.Stdout, cmd.Stderr = &out, &said
	err := cmd.Run()
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.Is(err, exec.ErrNotFound):
		return nil, errors.New("--git asks the program git, which is not installed here")
	case err != nil && args[0] == "rev-parse" && said.Len() == 0:
		return nil, fmt.Errorf("git knows no revision %q", strings.TrimSuffix(args[len(args)-1], "^{commit}"))
	case err != nil:
		return nil, fmt.Errorf("git says: %s", strings.TrimSpace(said.String()))
	}
	return out.Bytes(), nil
}
