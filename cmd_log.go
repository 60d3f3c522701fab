package main

import (
	"cmp"
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
change, what was otherwise with a dish, a base or a menu for the cook: when, by
whom, and what. It follows a dish to the name and the folder it had before. It
asks the git that is installed, and writes nothing.`,
		Example: `  tamis log "Slow lamb" examples/harvest-lunch
  tamis log "Herb oil" --most 5`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 || len(args) > 2 {
				return misused{fmt.Errorf("log of what? Name a dish, a base or a menu, in quotes, and perhaps a folder")}
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

// revision is one commit that touched a book, and those it was made from.
type revision struct {
	hash, date, author string
	parents            []string
}

// revisions are the commits that touched a folder, those that were made from others first.
func revisions(ctx context.Context, root string) (all []revision, err error) {
	listed, err := git(ctx, root, "log", "--date-order", "--parents", "--format=%H%x09%P%x09%ad%x09%an", "--date=short", "--", ".")
	for line := range strings.Lines(string(listed)) {
		if p := strings.SplitN(strings.TrimSuffix(line, "\n"), "\t", 4); len(p) == 4 {
			all = append(all, revision{hash: p[0], parents: strings.Fields(p[1]), date: p[2], author: p[3]})
		}
	}
	return all, err
}

// history tells the changes of a dish, the last first. Each commit is compared with those it
// was made from; of two that were put together only what neither had is told.
func (a *app) history(ctx context.Context, dish, root string, most int) error {
	all, err := revisions(ctx, root)
	if err != nil {
		return err
	}
	books := map[string]*compiler.Result{}
	at := func(hash string) (r *compiler.Result, err error) {
		if r = books[hash]; r == nil {
			r, err = bookIn(ctx, root, hash, compiler.Options{NoPages: true, NoPlan: true})
			books[hash] = r
		}
		return r, err
	}
	told, names := 0, map[string]string{} // what the dish is called, by commit
	for _, rev := range all {
		if told == most {
			break
		}
		name := cmp.Or(names[rev.hash], dish)
		now, err := at(rev.hash)
		if err != nil {
			return err
		}
		var lines []string
		for i, parent := range append(rev.parents, "")[:max(1, len(rev.parents))] { // before the first of them there was no book
			was, err := at(parent)
			if err != nil {
				return err
			}
			since := ofDish(changes.Between(was, now), name)
			names[parent] = cmp.Or(names[parent], calledBefore(since, name))
			if i == 0 {
				lines = since
			} else {
				lines = slices.DeleteFunc(lines, func(l string) bool {
					return !slices.ContainsFunc(since, func(s string) bool { return isNow(s) == isNow(l) })
				})
			}
		}
		delete(books, rev.hash)
		if len(lines) == 0 {
			continue
		}
		if told++; told > 1 {
			fmt.Fprintln(a.out)
		}
		fmt.Fprintf(a.out, "%s  %s  %s\n", rev.date, rev.hash[:8], diag.Visible(rev.author))
		for _, l := range lines {
			fmt.Fprintln(a.out, "  "+diag.Visible(l))
		}
	}
	if told == 0 {
		return fmt.Errorf("git has no dish, base or menu %q in its history of %q", dish, root)
	}
	return nil
}

// isNow is a change without what was before it.
func isNow(line string) string {
	now, _, _ := strings.Cut(line, ", before ")
	return now
}

// calledBefore is the name of a dish before some changes.
func calledBefore(lines []string, name string) string {
	for _, l := range lines {
		if before, ok := strings.CutPrefix(l, "was called "); ok {
			return before
		}
	}
	return name
}

// ofDish is what has changed about a dish, a base or a menu; that it has another name from
// then on, where it goes by that.
func ofDish(groups []changes.Group, name string) []string {
	renamed := ""
	for _, g := range groups {
		_, title, _ := strings.Cut(g.Title, " ")
		if strings.EqualFold(title, name) {
			return g.Lines
		}
		if slices.ContainsFunc(g.Lines, func(l string) bool { return strings.EqualFold(l, "was called "+name) }) {
			renamed = fmt.Sprintf("is called %s from here on: `tamis log %q` has what came after", title, title)
		}
	}
	if renamed == "" {
		return nil
	}
	return []string{renamed}
}
