package main

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/desk"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

func (a *app) rename() *cobra.Command {
	var in string
	var dryRun bool
	cmd := &cobra.Command{
		Use:               "rename OLD NEW [PATH]",
		ValidArgsFunction: completeRecipe,
		Short:             "Give a thing another name wherever it is named",
		Long: `Rename gives a dish, a base, a by-product, a kitchen or something gathered another
name in all files of a book: in lists, menus, margins and sentences, in the number and
with the capital it has there. What is gathered under a name is renamed in every recipe,
or with --in in one.

The larder's row of a thing goes with it. The texts are then read again with the new name.
Where any sentence would be read in another way than before, or anything would lose an
allergen or another fact that is known of it, nothing is renamed, and you are told where. Mind that the words
of old books (said) and comments stay as they are.`,
		Example: `  tamis rename "Herb oil" "Green oil"
  tamis rename citron lemon examples/harvest-lunch --dry-run
  tamis rename leeks "spring onions" --in "Leek soup"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 2 && len(args) != 3 {
				return misused{fmt.Errorf("rename what, and to what? Name a thing as it is called and as it shall be, in quotes, and perhaps a folder")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := cmd.Context()
			r, err := a.read(ctx, append(args, ".")[2], compiler.Options{NoPages: true, NoPlan: true})
			if err != nil {
				return err
			}
			list, err := desk.Rename(ctx, r, args[0], args[1], in)
			if err != nil {
				return fmt.Errorf("%s", diag.Visible(err.Error()))
			}
			if len(list) == 0 {
				fmt.Fprintln(a.errOut, "it is called that already")
				return nil
			}
			done := diag.Edited(list)
			laidOutAgain(r, done)
			return a.replace(ctx, done, dryRun)
		},
	}
	cmd.Flags().StringVar(&in, "in", "", "only what is gathered in this `RECIPE`, or made in it")
	cmd.Flags().BoolVar(&dryRun, "dry-run", false, "show what would change, and change nothing")
	return cmd
}

// laidOutAgain lays out the files that were laid out before: a longer name moves what
// stands behind it. How others lie is their writer's.
func laidOutAgain(r *compiler.Result, done map[*source.File]diag.Applied) {
	tidy := map[*source.File]diag.Applied{}
	for _, f := range r.Tree.Files {
		n, ok := done[f.Source]
		if !ok {
			continue
		}
		if text, _ := format.SourceWith(f.Source, f.Reading); text == f.Source.Text {
			tidy[f.Source] = n
		}
	}
	inForm(r, tidy)
	maps.Copy(done, tidy)
}

// replace writes some files, all or none, and shows what changed; for show it only shows.
func (a *app) replace(ctx context.Context, done map[*source.File]diag.Applied, dryRun bool) error {
	var files []rewritten
	for f, n := range done {
		files = append(files, rewritten{f.Name, f.Text, n.Text})
	}
	slices.SortFunc(files, func(x, y rewritten) int { return strings.Compare(x.name, y.name) })
	if err := ctx.Err(); err != nil {
		return err
	}
	if !dryRun {
		for _, f := range files {
			defer sweep([]string{f.name})
		}
		if err := overwriteAll(files); err != nil {
			return err
		}
		a.written += len(files)
	}
	for _, f := range files {
		fmt.Fprint(a.exact, difference(f.name, f.before, f.text))
	}
	return nil
}
