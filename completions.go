package main

import (
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
	"tamis/render/page"
)

// What a shell offers where the tabulator key is pressed: the values of flags that take one
// of a few, and the names of dishes. The commands and flags themselves come from cobra's
// own table.

// complete teaches the shell what the flags of all commands take.
func complete(root *cobra.Command) {
	var papers []string
	for _, p := range page.Papers() {
		papers = append(papers, p.Name)
	}
	var units []string
	for _, s := range quantity.Systems() {
		units = append(units, string(s))
	}
	kinds := slices.DeleteFunc(kindNames(), func(k string) bool { return k == ofOneCook })
	few := map[string][]string{
		"color": colours, "to": slices.Sorted(maps.Keys(writers)), "paper": papers, "sheets": kinds,
		"ink": {"full", "light"}, "units": units,
		"check format": checkFormats, "diff format": diffFormats,
	}
	for _, c := range append(root.Commands(), root) {
		for name, values := range few {
			if of, flag, ok := strings.Cut(name, " "); ok {
				if name = flag; c.Name() != of {
					continue
				}
			}
			if c.Flags().Lookup(name) != nil || c.PersistentFlags().Lookup(name) != nil {
				_ = c.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
			}
		}
	}
}

// completeRecipe offers the dishes and bases of the folder one stands in, as the first
// word of a command.
func completeRecipe(cmd *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveDefault
	}
	quiet := newApp(nil, io.Discard, io.Discard)
	r, err := quiet.read(cmd.Context(), load.Root("."), compiler.Options{NoPages: true, NoPlan: true})
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return recipeNames(r.Model, start), cobra.ShellCompDirectiveNoFileComp
}

// recipeNames are those that begin in some way, each with what it is.
func recipeNames(m *resolve.Model, start string) (out []string) {
	for _, r := range m.Recipes {
		kind := "dish"
		if r.Base {
			kind = "base"
		}
		if strings.HasPrefix(strings.ToLower(r.Name), strings.ToLower(start)) {
			out = append(out, r.Name+"\t"+kind)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
