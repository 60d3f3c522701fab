package main

import (
	"context"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/check"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

func (a *app) cooked() *cobra.Command {
	var by, date string
	var dryRun bool
	cmd := &cobra.Command{
		Use:               "cooked DISH WORDS [PATH]",
		ValidArgsFunction: completeRecipe,
		Short:             "Write down that a dish was cooked, and what came of it",
		Long: `Cooked writes a dated line into a dish or a base: who cooked it and what came of it,
as cooks have always done in the margin.

  cooked 2027-05-01, Bea: less salt

The name is that of git's user where git is told one, or what --by says; the day is
today, or what --date says. Of words such as "step 3 took 50 min" the time is understood:
after three such lines check asks whether the margin should have this kitchen's own
figure, and offers it.`,
		Example: `  tamis cooked "Leek soup" "less salt"
  tamis cooked "Slow lamb" "step 3 took 50 min" --by "Bea, Tom" --date 2027-05-01`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 2 && len(args) != 3 {
				return misused{errors.New("cooked what, and what came of it? Name the dish and say it, each in quotes, and perhaps a folder")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx, dir := cmd.Context(), append(args, ".")[2]
			if oneLine(args[1]) == "" {
				return fmt.Errorf("say what came of it: tamis cooked %q \"less salt\"", diag.Visible(args[0]))
			}
			day, err := dayCooked(date, time.Now())
			if err != nil {
				return err
			}
			if by == "" {
				if name, err := git(ctx, load.Root(dir), "config", "user.name"); err == nil {
					by = nameOnly.Replace(string(name))
				}
			}
			r, err := a.read(ctx, dir, compiler.Options{NoPages: true, NoPlan: true})
			if err != nil {
				return err
			}
			recipe, err := recipeNamed(r.Model, args[0])
			if err != nil {
				return err
			}
			return a.record(ctx, r, recipe, entry(day, by, args[1]), oneLine(args[1]), dryRun)
		},
	}
	cmd.Flags().StringVar(&by, "by", "", "`NAMES` of who cooked it, parted by commas; git's user if not said")
	cmd.Flags().StringVar(&date, "date", "", "`DAY` on which it was cooked, as 2027-05-01; today if not said")
	cmd.Flags().BoolVar(&dryRun, "dry-run", false, "show what would be written, and write nothing")
	return cmd
}

// nameOnly takes out of a name from elsewhere what means something in a dated line.
var nameOnly = strings.NewReplacer(",", " ", ":", " ", "|", " ", `"`, " ", "#", " ")

// dayCooked is the day a dish was cooked; today where none is said. A year that nobody
// can mean is a slip of the fingers; books are planned ahead, but not by years.
func dayCooked(date string, today time.Time) (time.Time, error) {
	if date == "" {
		return today, nil
	}
	day, err := time.Parse(time.DateOnly, date)
	switch {
	case err != nil:
		return day, fmt.Errorf("--date %q is no day: write it as 2027-05-01", date)
	case day.Year() < 1900:
		return day, fmt.Errorf("--date %s is before 1900: write the day it was cooked, as 2027-05-01", date)
	case day.After(today.AddDate(2, 0, 0)):
		return day, fmt.Errorf("--date %s is years away: write the day it was cooked, as 2027-05-01", date)
	}
	return day, nil
}

// atMost80 cuts what is quoted in a message.
func atMost80(s string) string {
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}

// entry is a dated line, as the notation has it.
func entry(day time.Time, by, words string) string {
	parts := []string{"cooked " + day.Format(time.DateOnly)}
	for _, name := range strings.Split(by, ",") {
		if name = strings.Join(strings.Fields(name), " "); name != "" {
			parts = append(parts, name)
		}
	}
	return strings.Join(parts, ", ") + ": " + oneLine(words)
}

func oneLine(words string) string { return strings.Join(strings.Fields(words), " ") }

// recipeNamed is the one recipe of a name, which may have its folder before it.
func recipeNamed(m *resolve.Model, name string) (*resolve.Recipe, error) {
	folder, last := "", strings.Join(strings.Fields(name), " ")
	if i := strings.LastIndexByte(last, '/'); i >= 0 {
		folder, last = last[:i], last[i+1:]
	}
	var found []*resolve.Recipe
	var names, where []string
	for _, r := range m.Recipes {
		names = append(names, r.Name)
		also := slices.ContainsFunc(r.Own.Notes.Also, func(t resolve.Text) bool { return strings.EqualFold(t.Text, last) })
		if (also || strings.EqualFold(r.Name, last)) && (folder == "" || folder == r.Scope.Dir) {
			found = append(found, r)
			where = append(where, path.Join(r.Scope.Dir, r.Name))
		}
	}
	if asked := slices.DeleteFunc(slices.Clone(found), func(r *resolve.Recipe) bool { return !r.Asked }); len(asked) == 1 {
		found = asked // the path names it
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return nil, fmt.Errorf("%d recipes are called %s: say which, with its folder: %s", len(found), last, strings.Join(where, ", "))
	}
	if near := diag.Nearest(last, names); near != "" {
		return nil, fmt.Errorf("there is no dish or base %q here: did you mean %s?", diag.Visible(name), diag.Visible(near))
	}
	return nil, fmt.Errorf("there is no dish or base %q here", diag.Visible(name))
}

// record writes a line into a recipe: below the last of its kind, or above its first
// part. What comes of it must read as it was meant.
func (a *app) record(ctx context.Context, r *compiler.Result, recipe *resolve.Recipe, line, words string, dryRun bool) error {
	file := r.Tree.Files[slices.IndexFunc(r.Tree.Files, func(o *load.File) bool { return o.Source == recipe.Span.File })]
	f := file.Source
	var edit diag.Edit
	if n := len(recipe.Own.Notes.Cooked); n > 0 {
		last := recipe.Own.Notes.Cooked[n-1].Span.Position().Line
		end := f.LineSpan(last).End
		edit = diag.Edit{Span: f.Span(end, end), Text: "\n" + f.Indent(last) + line}
	} else {
		edit = above(recipe, line)
	}
	done := diag.Edited([]diag.Edit{edit})
	text := done[f].Text
	tree, err := r.Tree.Change(ctx, map[string]*string{file.Path: &text})
	if err != nil {
		return err
	}
	now := compiler.Compile(ctx, tree, compiler.Options{NoPages: true, NoPlan: true})
	written := slices.IndexFunc(now.Model.Recipes, func(o *resolve.Recipe) bool {
		list := o.Own.Notes.Cooked
		return o.Key == recipe.Key && o.Scope.Dir == recipe.Scope.Dir && len(list) == len(recipe.Own.Notes.Cooked)+1 && list[len(list)-1].Text.Text == words
	})
	if written < 0 || now.Diags.Count(diag.Error) > r.Diags.Count(diag.Error) {
		return fmt.Errorf("%q would not be read as it is meant: the words go on one line, names are parted by commas, and a colon stands behind them", atMost80(diag.Visible(line)))
	}
	if err := a.replace(ctx, done, dryRun); err != nil {
		return err
	}
	a.understood(now.Model.Recipes[written])
	return nil
}

// above is where the first note of a recipe goes: above its first list, its method or its
// headnote, whichever comes first; else below its name.
func above(r *resolve.Recipe, line string) diag.Edit {
	f, indent := r.Span.File, "  "
	if first := r.Own.First; !first.IsZero() {
		indent = f.Indent(first.Position().Line)
	}
	if part := r.Own.Part; !part.IsZero() {
		at := f.LineSpan(part.Position().Line).Start
		return diag.Edit{Span: f.Span(at, at), Text: indent + line + "\n"}
	}
	end := f.LineSpan(r.NameAt.Position().Line).End
	return diag.Edit{Span: f.Span(end, end), Text: "\n" + indent + line}
}

// understood says what was understood of the line that was written last.
func (a *app) understood(r *resolve.Recipe) {
	took := r.Own.Notes.Took()
	last := &r.Own.Notes.Cooked[len(r.Own.Notes.Cooked)-1]
	for _, t := range took {
		if t.Record != last {
			continue
		}
		times := 0
		for _, o := range took {
			if o.Step == t.Step {
				times++
			}
		}
		switch {
		case t.Step > len(r.Steps):
			fmt.Fprintf(a.errOut, "%s has %d steps, and no step %d\n", diag.Visible(r.Name), len(r.Steps), t.Step)
		case times >= check.TookOften:
			fmt.Fprintf(a.errOut, "step %d took %s; it was noted %d times: `tamis check` says whether the margin should have this kitchen's own figure\n", t.Step, quantity.TimeText(t.Length), times)
		default:
			fmt.Fprintf(a.errOut, "step %d took %s; noted %d of the %d times that make a habit\n", t.Step, quantity.TimeText(t.Length), times, check.TookOften)
		}
	}
}
