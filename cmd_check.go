package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tamis/compiler"
	"tamis/compiler/check"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

// checkOptions are the flags of check.
type checkOptions struct {
	read, errorsOnly, fix, dryRun, offered, strict bool
	format, merge                                  string
}

func (a *app) check() *cobra.Command {
	var o checkOptions
	var size sizes
	cmd := &cobra.Command{
		Use:   "check PATH",
		Short: "Find what does not add up",
		Long: `Check reads a folder, or one file, and says what is wrong with it: a name that
means nothing, an amount that runs short, a plan no kitchen could keep. Each
finding names the place, says why it matters and what to write instead.

Errors stop a build. Queries are questions: the text has two readings, or
something looks odd. Silence one with a reason, in the block it stands in:

  allow E104: the book prints it so

The exit code is 0 when there is no error, 1 when there is, and 2 when the
files could not be read. With --strict questions and warnings give 1 too, for a
hook; hints never do.

--merge tells what two branches of a git repository break together though no line of
theirs clashes: a name that one changed and the other still says, a sentence that takes
something else than it takes in either. It is given a merge that was made, MERGE_HEAD
for the one that is being made, or a branch that is to be merged, and gives 1 when there
is anything. ` + "`tamis explain CODE`" + ` says more about a finding.`,
		Example: `  tamis check examples/harvest-lunch
  tamis check supper.tamis --read       what each sentence takes, leaves and waits for
  tamis check supper.tamis --fix --dry-run     show what the fixes that change no meaning would do
  tamis check supper.tamis --fix --offered     write the times and heats that were read from the sentences, each with a ?
  tamis check . --merge winter          what merging the branch winter would break
  tamis check . --format sarif          for a code host`,
		Args: onePath,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.check(); err != nil {
				return err
			}
			opt, err := size.options()
			if err != nil {
				return err
			}
			opt.NoPages = true
			if o.merge != "" {
				found, err := a.merged(cmd.Context(), args[0], o.merge)
				if err != nil {
					return err
				}
				return a.mergeFindings(found, o)
			}
			r, err := a.read(cmd.Context(), args[0], opt)
			if err != nil {
				return err
			}
			size.unused(r)
			if o.fix || o.dryRun {
				return a.fix(cmd.Context(), r, o)
			}
			if o.read {
				resolve.WriteReading(a.out, r.Model)
			}
			return a.findings(r.Diags, o)
		},
	}
	cmd.Flags().BoolVar(&o.read, "read", false, "show what each sentence takes, what it leaves and what it waits for")
	cmd.Flags().BoolVar(&o.errorsOnly, "errors", false, "show errors only")
	cmd.Flags().BoolVar(&o.strict, "strict", false, "questions and warnings fail the check too")
	cmd.Flags().StringVar(&o.format, "format", "text", "how findings are written: `FORMAT` is text, or json or sarif, on standard output")
	cmd.Flags().BoolVar(&o.fix, "fix", false, "carry out the fixes that change no meaning")
	cmd.Flags().BoolVar(&o.offered, "offered", false, "with --fix, write into the margins what was read from the sentences, each with a ?")
	cmd.Flags().BoolVar(&o.dryRun, "dry-run", false, "show what --fix would change, and change nothing")
	cmd.Flags().StringVar(&o.merge, "merge", "", "what a merge breaks: `REVISION` is a branch, a merge, or MERGE_HEAD")
	size.flags(cmd)
	return cmd
}

var checkFormats = []string{"text", "json", "sarif"}

// check looks at the options before anything is read.
func (o checkOptions) check() error {
	switch data := o.format != "text"; {
	case !slices.Contains(checkFormats, o.format):
		return fmt.Errorf("there is no format %q: it can be text, json or sarif", o.format)
	case data && o.read:
		return fmt.Errorf("--read is for people and --format %s for programs: ask for one at a time", o.format)
	case data && (o.fix || o.dryRun):
		return fmt.Errorf("--fix shows what changes to people and --format %s is for programs: ask for one at a time; the findings hold their fixes", o.format)
	case o.read && (o.fix || o.dryRun):
		return fmt.Errorf("--read and --fix are two questions: ask one at a time")
	case o.offered && !o.fix && !o.dryRun:
		return fmt.Errorf("--offered says what --fix writes: ask for both, or for `--dry-run --offered` to see it first")
	case o.merge != "" && (o.read || o.fix || o.dryRun):
		return fmt.Errorf("--merge compares two branches, and --read and --fix are about one text: ask one at a time")
	case o.strict && o.errorsOnly:
		return fmt.Errorf("--errors hides the questions that --strict fails on: leave one of them out")
	}
	return nil
}

// findings prints what was found in the format asked for.
func (a *app) findings(diags *diag.List, o checkOptions) error {
	least := diag.Hint
	if o.errorsOnly {
		least = diag.Error
	}
	if diags.HasErrors() || o.strict && diags.Count(diag.Question)+diags.Count(diag.Warning) > 0 {
		a.code = exitFaults
	}
	if o.format == "text" {
		a.report(diags, least)
		return nil
	}
	shown := slices.DeleteFunc(diags.Sorted(), func(d diag.Diagnostic) bool { return d.Severity < least })
	if o.format == "json" {
		return diag.WriteJSON(a.exact, shown)
	}
	return diag.WriteSARIF(a.exact, shown, sarifRules())
}

func sarifRules() (out []diag.SARIFRule) {
	for _, r := range check.All {
		help := r.Fix
		if len(r.Sources) > 0 {
			help += " Sources: " + strings.Join(r.Sources, "; ") + "."
		}
		out = append(out, diag.SARIFRule{Code: r.Code, Title: r.Title, What: r.What, Help: strings.TrimSpace(help), Severity: r.Severity})
	}
	return out
}

// fix carries out the safe fixes, or shows them.
func (a *app) fix(ctx context.Context, r *compiler.Result, o checkOptions) error {
	done := diag.Apply(r.Diags.Sorted(), func(f diag.Fix) bool { return f.Safe || f.Offered && o.offered })
	if o.offered {
		inForm(r, done)
	}
	if err := a.replace(ctx, done, o.dryRun); err != nil {
		return err
	}
	if len(done) == 0 {
		fmt.Fprintln(a.errOut, "there is nothing that can be mended without asking you")
	}
	a.report(r.Diags, diag.Error)
	if !o.dryRun && len(done) > 0 && a.code == exitFaults {
		fmt.Fprintln(a.errOut, "the files have changed: check them again")
	}
	return nil
}

// inForm lays files out that offers were written into.
func inForm(r *compiler.Result, done map[*source.File]diag.Applied) {
	for _, f := range r.Tree.Files {
		n, ok := done[f.Source]
		if !ok {
			continue
		}
		if text, ok := format.Text(n.Text, f.Reading); ok {
			n.Text = text
			done[f.Source] = n
		}
	}
}

// onePath asks for exactly one file or folder.
func onePath(cmd *cobra.Command, args []string) error {
	switch len(args) {
	case 1:
		return nil
	case 0:
		return misused{fmt.Errorf("%s what? Name a folder or a .tamis file: tamis %s", cmd.Name(), cmd.Use)}
	}
	return misused{fmt.Errorf("%s takes one folder or file, and %d were named", cmd.Name(), len(args))}
}
