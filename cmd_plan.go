package main

import (
	"context"
	"fmt"
	"io"
	"strconv"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/events"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/lang/diag"
	"tamis/render/plantext"
)

// planOptions are the flags of plan.
type planOptions struct {
	step          int
	why, at, late string
	size          sizes
}

func (a *app) plan() *cobra.Command {
	var o planOptions
	cmd := &cobra.Command{
		Use:   "plan PATH",
		Short: "Show the timeline in the terminal, and answer questions about it",
		Long: `Plan works out who does what when, back from the serving time, with the cooks,
the oven and the rings of the menu's kitchen, and prints it in order of time.
A menu without a serving time is planned on a clock that counts from the first
serving.

The letter and number before each step (B3) are those of the prep sheets. A
dot marks the critical chain: the run of steps that leaves nothing to spare
before a serving, and so the place to begin when the meal must be shorter.

Three flags ask about the plan in place of printing it:

  --why STEP         when a step is done, what it waits for, what keeps it
                     from being later, and how much slack it has
  --at TIME          what should be happening: who does what, what is in the
                     oven and on the rings, and what is next
  --late "STEP TIME" a step ends so much later: what is started goes on, the
                     rest is planned again from that moment; if a course is
                     late then, what might mend it is tried (a pause, leaving out
                     what is only done if needed, a cook or a shelf more, serving
                     later), and what came of it is said

STEP is a letter and number (B3), a dish and number (Slow lamb 3) or words of
the step. TIME is 12:30 on the day of serving, Sat 17:30, day before 18:00, or
T-0:40 before the first serving.

The exit code is 0 when all is on time, 1 when it is not or the text has
errors, and 2 when a question could not be understood or a file not be read.`,
		Example: `  tamis plan examples/harvest-lunch
  tamis plan examples/harvest-lunch --why B3
  tamis plan examples/harvest-lunch --why "fork in the almonds"
  tamis plan examples/harvest-lunch --at 12:45
  tamis plan examples/harvest-lunch --at "day before 18:30"
  tamis plan examples/harvest-lunch --late "Slow lamb 6 10 min"`,
		Args: onePath,
		RunE: func(cmd *cobra.Command, args []string) error {
			opt, err := o.check()
			if err != nil {
				return err
			}
			r, err := a.read(cmd.Context(), args[0], opt)
			if err != nil {
				return err
			}
			o.size.unused(r)
			return a.answer(cmd.Context(), args[0], r, o)
		},
	}
	o.size.flags(cmd)
	cmd.Flags().Var(whole{to: &o.step, max: 60, only: []int{1, 5, 10, 15}}, "clock", "step in `MINUTES` of the clock that the times are printed by: 1, 5, 10 or 15; 1, to the minute, if not said. Servings are always to the minute, and the plan is the same")
	cmd.Flags().StringVar(&o.why, "why", "", "say why a `STEP` is done when it is: \"B3\", \"Slow lamb 3\"")
	cmd.Flags().StringVar(&o.at, "at", "", "say what should be happening at a `TIME`: \"12:30\", \"day before 18:00\"")
	cmd.Flags().StringVar(&o.late, "late", "", "plan the rest again after a `DELAY`: \"B3 15 min\"")
	o.complete(cmd)
	return cmd
}

// check looks at the options before anything is read.
func (o *planOptions) check() (compiler.Options, error) {
	opt, err := o.size.options()
	if err != nil {
		return opt, err
	}
	if asked := o.questions(); len(asked) > 1 {
		return opt, fmt.Errorf("%s and %s are two questions: ask one at a time", asked[0], asked[1])
	}
	opt.PlanAll = true
	return opt, nil
}

func (o *planOptions) questions() (asked []string) {
	for _, q := range []struct{ flag, text string }{{"--why", o.why}, {"--at", o.at}, {"--late", o.late}} {
		if q.text != "" {
			asked = append(asked, q.flag)
		}
	}
	return asked
}

// answer prints the plans, or what was asked about them.
func (a *app) answer(ctx context.Context, path string, r *compiler.Result, o planOptions) error {
	var plans []*timeline.Timeline
	for _, t := range r.Timelines {
		if t != nil {
			plans = append(plans, t)
		}
	}
	asked := o.questions()
	if len(asked) == 0 || len(plans) == 0 {
		for _, t := range plans {
			if err := plantext.WriteText(a.out, events.Of(t), events.Minutes(o.step)); err != nil {
				return err
			}
			for i, slip := range planner.Slips(ctx, t, true) {
				if i == 0 {
					fmt.Fprint(a.out, "\nIf it slips:\n")
				}
				fmt.Fprintf(a.out, "  %s\n", slip.Words)
			}
		}
		a.report(r.Diags, diag.Question)
		switch {
		case len(plans) > 0:
		case a.code == exitClean:
			return fmt.Errorf("%q holds no menu, so there is nothing to plan", path)
		case len(asked) > 0:
			fmt.Fprintf(a.errOut, "there is no plan for %s to ask about: mend the errors first\n", asked[0])
		}
		return nil
	}
	a.report(r.Diags, diag.Error)
	switch {
	case o.why != "":
		return a.why(plans, o.why)
	case o.at != "":
		return a.at(plans, o.at)
	}
	return a.late(ctx, plans, o.late)
}

// why explains a step of the first plan that has it.
func (a *app) why(plans []*timeline.Timeline, step string) (err error) {
	for _, t := range plans {
		j, missing := t.Find(step)
		if missing == nil {
			l := events.Of(t)
			return plantext.WriteWhy(a.out, l, l.JobOf(j))
		}
		if err == nil {
			err = fmt.Errorf("--why: %w", missing)
		}
	}
	return err
}

// at says what every plan has at a moment.
func (a *app) at(plans []*timeline.Timeline, text string) error {
	for i, t := range plans {
		m, err := t.Moment(text)
		if err != nil {
			return fmt.Errorf("--at: %w", err)
		}
		if i > 0 {
			fmt.Fprintln(a.out)
		}
		if err := plantext.WriteMoment(a.out, events.Of(t), events.Moment(m)); err != nil {
			return err
		}
	}
	return nil
}

// late plans the rest of the first plan that has the step again.
func (a *app) late(ctx context.Context, plans []*timeline.Timeline, text string) (err error) {
	for _, t := range plans {
		j, by, wrong := t.Delayed(text)
		if wrong != nil {
			if err == nil {
				err = fmt.Errorf("--late: %w", wrong)
			}
			continue
		}
		r, err := shown(ctx, a.progress, "planning the rest", func() (*timeline.Replanned, error) { return planner.Replan(ctx, t, j, by), nil })
		if err != nil {
			return err
		}
		if !r.OnTime() {
			a.code = exitFaults
		}
		l := events.Of(t)
		return plantext.WriteLate(a.out, l, l.RestOf(r))
	}
	return err
}

// complete teaches the shell what the flags take: steps of the plan, courses.
func (o *planOptions) complete(cmd *cobra.Command) {
	steps := func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) == 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		quiet := newApp(nil, io.Discard, io.Discard)
		r, err := quiet.read(cmd.Context(), args[0], compiler.Options{PlanAll: true})
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var out []string
		for _, t := range r.Timelines {
			if t == nil {
				continue
			}
			for _, s := range t.StepNames() {
				out = append(out, s[0]+"\t"+s[1])
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
	fixed := func(words ...string) func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return words, cobra.ShellCompDirectiveNoFileComp
		}
	}
	var grids []string
	for _, n := range []int{1, 5, 10, 15} {
		grids = append(grids, strconv.Itoa(n))
	}
	for flag, f := range map[string]cobra.CompletionFunc{
		"why": steps, "late": steps, "clock": fixed(grids...),
		"at": fixed("12:30\ton the day of serving", "day before 18:00", "T-0:30\thalf an hour before the first serving"),
	} {
		if err := cmd.RegisterFlagCompletionFunc(flag, f); err != nil {
			panic(err) // the flag is not there: a slip in this file
		}
	}
}
