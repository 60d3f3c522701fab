package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/changes"
	"tamis/compiler/load"
	"tamis/lang/diag"
)

func (a *app) log() *cobra.Command {
	var most int
	cmd := &cobra.Command{
		Use:               "log DISH [PATH]",
		ValidArgsFunction: completeRecipe,
		Short:             "Say how a dish came to be as it is",
		Long: `Log goes back through the git repository that holds a book and says, change by
change, what was otherwise with a dish or a base for the cook: when, by whom, and
what. It follows a dish to the name and the folder it had before. It asks the git
that is installed, and writes nothing.`,
		Example: `  tamis log "Slow lamb" examples/harvest-lunch
  tamis log "Herb oil" --most 5`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 || len(args) > 2 {
				return misused{fmt.Errorf("log of what? Name a dish or a base, in quotes, and perhaps a folder")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if most < 1 {
				return fmt.Errorf("--most is how many changes are told, at least 1")
			}
			return a.history(cmd.Context(), args[0], load.Root(append(args, ".")[1]), most)
		},
	}
	cmd.Flags().IntVar(&most, "most", 20, "tell the last `N` changes")
	return cmd
}

// revision is one commit, and the book as it was then.
type revision struct{ hash, date, author string }

// history tells the changes of a dish, the last first.
func (a *app) history(ctx context.Context, dish, root string, most int) error {
	listed, err := git(ctx, root, "log", "--format=%H%x09%ad%x09%an", "--date=short", "--", ".")
	if err != nil {
		return err
	}
	var all []revision
	for line := range strings.Lines(string(listed)) {
		if p := strings.SplitN(strings.TrimSuffix(line, "\n"), "\t", 3); len(p) == 3 {
			all = append(all, revision{p[0], p[1], p[2]})
		}
	}
	at := func(i int) (*compiler.Result, error) {
		hash := "" // before the first of them there was no book
		if i < len(all) {
			hash = all[i].hash
		}
		return bookIn(ctx, root, hash, compiler.Options{NoPages: true, NoPlan: true})
	}
	told := 0
	newer, err := at(0)
	if err != nil {
		return err
	}
	for i := 0; i < len(all) && told < most; i++ {
		older, err := at(i + 1)
		if err != nil {
			return err
		}
		groups := changes.Between(older, newer)
		g := slices.IndexFunc(groups, func(g changes.Group) bool {
			return strings.EqualFold(g.Title, "dish "+dish) || strings.EqualFold(g.Title, "base "+dish)
		})
		newer = older
		if g < 0 {
			continue
		}
		if told++; told > 1 {
			fmt.Fprintln(a.out)
		}
		fmt.Fprintf(a.out, "%s  %s  %s\n", all[i].date, all[i].hash[:8], diag.Visible(all[i].author))
		for _, l := range groups[g].Lines {
			fmt.Fprintln(a.out, "  "+diag.Visible(l))
			if before, ok := strings.CutPrefix(l, "was called "); ok {
				dish = before
			}
		}
	}
	if told == 0 {
		return fmt.Errorf("git has no dish or base %q in its history of %q", dish, root)
	}
	return nil
}
