package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler/check"
	"tamis/lang/diag"
)

func (a *app) explain() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "explain [CODE]",
		Short: "Say what a finding means",
		Long: `Explain says what the code of a finding means, why it matters, what to write
instead, with a text that has the fault and one that has not, and who says so.
Without a code it lists all of them, a line each.`,
		Example: `  tamis explain U201
  tamis explain           every code with its title`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				check.WriteTitles(a.out)
				return nil
			}
			for i, code := range args {
				r := check.Find(code)
				if r == nil {
					return unknownCode(code)
				}
				if i > 0 {
					fmt.Fprintln(a.out)
				}
				check.WriteRule(a.out, r)
			}
			return nil
		},
		ValidArgsFunction: completeCode,
	}
	return cmd
}

// unknownCode names the codes that are near to one that is not there.
func unknownCode(code string) error {
	var all []string
	for _, r := range check.All {
		all = append(all, r.Code)
	}
	if near := diag.Nearest(code, all); near != "" {
		return fmt.Errorf("no finding has the code %q. The nearest is %s: %s", code, near, check.Find(near).Title)
	}
	return fmt.Errorf("no finding has the code %q: a code is a letter and three figures. `tamis explain` lists them all", code)
}

// completeCode offers codes to the shell, each with its title.
func completeCode(_ *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
	var out []string
	for _, r := range check.All {
		if strings.HasPrefix(r.Code, strings.ToUpper(start)) {
			out = append(out, r.Code+"\t"+r.Title)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
