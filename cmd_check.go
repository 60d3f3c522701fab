package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

func (a *app) check() *cobra.Command {
	var read, quiet bool
	var size sizes
	cmd := &cobra.Command{
		Use:   "check PATH",
		Short: "Find what does not add up",
		Long: `Check reads a folder, or one file, and says what is wrong with it: a name that
means nothing, an amount that runs short, a plan no kitchen could keep. Each
finding names the place, says why it matters and what to write instead.

Errors stop a build. Queries are questions: the text has two readings, or
something looks odd. The exit code is 0 when there is no error, 1 when there
is, and 2 when the files could not be read.`,
		Example: `  tamis check examples/harvest-lunch
  tamis check supper.tamis --read     what each sentence takes, leaves and waits for`,
		Args: onePath,
		RunE: func(_ *cobra.Command, args []string) error {
			opt, err := size.options()
			if err != nil {
				return err
			}
			opt.NoPages = true
			r, err := a.read(args[0], opt)
			if err != nil {
				return err
			}
			if read {
				resolve.WriteReading(a.out, r.Model)
			}
			least := diag.Hint
			if quiet {
				least = diag.Error
			}
			a.report(r.Diags, least)
			return nil
		},
	}
	cmd.Flags().BoolVar(&read, "read", false, "show what each sentence takes, what it leaves and what it waits for")
	cmd.Flags().BoolVar(&quiet, "errors", false, "show errors only")
	size.flags(cmd)
	return cmd
}

// onePath asks for exactly one file or folder.
func onePath(cmd *cobra.Command, args []string) error {
	switch len(args) {
	case 1:
		return nil
	case 0:
		return fmt.Errorf("%s what? Name a folder or a .tamis file: tamis %s", cmd.Name(), cmd.Use)
	}
	return fmt.Errorf("%s takes one folder or file, and %d were named", cmd.Name(), len(args))
}
