package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

func (a *app) plan() *cobra.Command {
	var grid int
	var size sizes
	cmd := &cobra.Command{
		Use:   "plan PATH",
		Short: "Show the timeline in the terminal",
		Long: `Plan works out who does what when, back from the serving time, with the cooks,
the oven and the rings of the menu's kitchen, and prints it in order of time.
A menu without a serving time is planned on a clock that counts from the first
serving.`,
		Example: "  tamis plan examples/harvest-lunch",
		Args:    onePath,
		RunE: func(_ *cobra.Command, args []string) error {
			opt, err := size.options()
			if err != nil {
				return err
			}
			opt.Grid, opt.PlanAll = grid, true
			r, err := a.read(args[0], opt)
			if err != nil {
				return err
			}
			shown := false
			for _, t := range r.Timelines {
				if t != nil {
					timeline.WriteText(a.out, t)
					shown = true
				}
			}
			a.report(r.Diags, diag.Query)
			if !shown && a.code == exitClean {
				return fmt.Errorf("%q holds no menu, so there is nothing to plan", args[0])
			}
			return nil
		},
	}
	size.flags(cmd)
	cmd.Flags().IntVar(&grid, "clock", 0, "step of the printed clock in minutes: 1, 5, 10 or 15 (5 if not said)")
	return cmd
}
