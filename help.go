package main

import (
	"errors"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"tamis/lang/diag"
)

// misused is an error about how the command was called.
type misused struct{ error }

func (m misused) Unwrap() error { return m.error }

// version is which build this is: its number if it has one, else the commit it
// was made from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "of an unknown build"
	}
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	name := "without a number"
	switch rev := set["vcs.revision"]; {
	case rev != "":
		name = "commit " + rev[:min(12, len(rev))]
		if set["vcs.modified"] == "true" {
			name += ", changed since"
		}
	case strings.HasPrefix(info.Main.Version, "v") && strings.Count(info.Main.Version, "-") == 0:
		name = info.Main.Version
	}
	return fmt.Sprintf("%s (%s, %s/%s)", name, info.GoVersion, runtime.GOOS, runtime.GOARCH)
}

// ownWords has help and complaints printed in our words, for a command and all
// below it.
func ownWords(root *cobra.Command) {
	cobra.MousetrapHelpText = "Tamis is a command: open a terminal, and type `tamis --help` there.\n"
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetHelpCommand(&cobra.Command{
		Use: "help [COMMAND]", Hidden: true, Short: "Say what a command does",
		RunE: func(cmd *cobra.Command, args []string) error {
			c, _, err := root.Find(args)
			if err != nil || len(args) > 0 && c == root {
				return root.Args(root, args)
			}
			return c.Help()
		},
	})
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { writeHelp(cmd.OutOrStdout(), cmd) })
	root.SetFlagErrorFunc(flagError)
}

// writeHelp prints what a command does, how it is called, what it takes.
func writeHelp(w io.Writer, cmd *cobra.Command) {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\nCalled so:\n  %s\n", cmd.Long, strings.Replace(cmd.UseLine(), " [flags]", " [FLAGS]", 1))
	if cmd.HasAvailableSubCommands() {
		fmt.Fprintf(&b, "  %s COMMAND ...\n\nCommands:\n", cmd.Name())
		for _, c := range cmd.Commands() {
			if c.IsAvailableCommand() {
				fmt.Fprintf(&b, "  %-12s %s\n", c.Name(), c.Short)
			}
		}
		fmt.Fprintf(&b, "\n`%s COMMAND --help` says more about one of them.\n", cmd.Name())
	}
	if cmd.Example != "" {
		fmt.Fprintf(&b, "\nFor example:\n%s\n", cmd.Example)
	}
	fmt.Fprintf(&b, "\nFlags:\n%s", flagTable(cmd))
	io.WriteString(w, b.String())
}

// flagTable is a line for each flag: its names, what it wants, what it does.
func flagTable(cmd *cobra.Command) string {
	var names, what []string
	add := func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		name, text := flagWords(f)
		names, what = append(names, name), append(what, text)
	}
	cmd.LocalFlags().VisitAll(add)
	cmd.InheritedFlags().VisitAll(add)
	room := 0
	for _, n := range names {
		room = max(room, len(n))
	}
	var b strings.Builder
	for i, n := range names {
		fmt.Fprintf(&b, "  %-*s  %s\n", room, n, what[i])
	}
	return b.String()
}

// flagWords are the names of a flag with what it wants, and what it does.
func flagWords(f *pflag.Flag) (name, what string) {
	wants, what := pflag.UnquoteUsage(f)
	name = "    --" + f.Name
	if f.Shorthand != "" {
		name = "-" + f.Shorthand + ", --" + f.Name
	}
	if f.Value.Type() != "bool" {
		if wants == "" || wants == strings.ToLower(wants) {
			wants = "TEXT"
		}
		name += " " + wants
		if def := strings.Trim(f.DefValue, "[]"); def != "" && def != "0" {
			what += "; " + def + " if not said"
		}
	}
	return name, what
}

// flagError says what is wrong with a flag in plain words.
func flagError(cmd *cobra.Command, err error) error {
	var names []string
	visit := func(f *pflag.Flag) { names = append(names, "--"+f.Name) }
	cmd.Flags().VisitAll(visit)
	cmd.InheritedFlags().VisitAll(visit)
	var (
		none   *pflag.NotExistError
		wants  *pflag.ValueRequiredError
		value  *pflag.InvalidValueError
		syntax *pflag.InvalidSyntaxError
	)
	switch {
	case errors.As(err, &none):
		name := none.GetSpecifiedName()
		if none.GetSpecifiedShortnames() != "" {
			return misused{fmt.Errorf("%s has no flag -%s", cmd.Name(), name)}
		}
		if near := diag.Nearest("--"+name, names); near != "" {
			return misused{fmt.Errorf("%s has no flag --%s: did you mean %s?", cmd.Name(), name, near)}
		}
		return misused{fmt.Errorf("%s has no flag --%s", cmd.Name(), name)}
	case errors.As(err, &wants):
		return misused{fmt.Errorf("--%s wants something after it: %s", wants.GetFlag().Name, strings.ReplaceAll(wants.GetFlag().Usage, "`", ""))}
	case errors.As(err, &value):
		f := value.GetFlag()
		if f.Value.Type() == "bool" {
			return misused{fmt.Errorf("--%s is said or not said, and takes no %q", f.Name, value.GetValue())}
		}
		return misused{fmt.Errorf("--%s %q: %w", f.Name, value.GetValue(), value.Unwrap())}
	case errors.As(err, &syntax):
		return misused{fmt.Errorf("%q is no flag: a flag is written --name", syntax.GetSpecifiedFlag())}
	}
	return misused{err}
}

// colours are when the messages are coloured.
var colours = []string{"auto", "always", "never"}

// flagsMakeSense refuses what no flag can mean: a value that says nothing, a
// colour that is none.
func (a *app) flagsMakeSense(cmd *cobra.Command) (err error) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		empty := strings.TrimSpace(f.Value.String()) == ""
		if list, ok := f.Value.(pflag.SliceValue); ok {
			empty = len(list.GetSlice()) == 0 || slices.ContainsFunc(list.GetSlice(), func(s string) bool { return strings.TrimSpace(s) == "" })
		}
		if empty && err == nil {
			err = fmt.Errorf("--%s is given nothing: say what, or leave it out", f.Name)
		}
	})
	if err == nil && !slices.Contains(colours, a.color) {
		err = fmt.Errorf("--color %q: it can be auto, always or never", a.color)
	}
	return err
}

// whole is a flag for a whole number within bounds, or one of a few.
type whole struct {
	to       *int
	min, max int
	only     []int
}

func (w whole) String() string {
	if w.to == nil || *w.to == 0 {
		return ""
	}
	return fmt.Sprint(*w.to)
}

func (whole) Type() string { return "number" }

func (w whole) Set(text string) error {
	n, digits := 0, text != ""
	for _, c := range text {
		if c < '0' || c > '9' {
			digits = false
			break
		}
		if n = n*10 + int(c-'0'); n > w.max {
			break
		}
	}
	switch {
	case len(w.only) > 0 && (!digits || !slices.Contains(w.only, n)):
		list := strings.Trim(strings.ReplaceAll(fmt.Sprint(w.only), " ", ", "), "[]")
		last := strings.LastIndex(list, ", ")
		return fmt.Errorf("it can be %s or %s", list[:last], list[last+2:])
	case !digits || n < w.min || n > w.max:
		return fmt.Errorf("say a whole number from %d to %d", w.min, w.max)
	}
	*w.to = n
	return nil
}

// completion makes the script that teaches a shell the commands and flags.
func (a *app) completion(root *cobra.Command) *cobra.Command {
	shells := map[string]func() error{
		"bash":       func() error { return root.GenBashCompletionV2(a.exact, true) },
		"zsh":        func() error { return root.GenZshCompletion(a.exact) },
		"fish":       func() error { return root.GenFishCompletion(a.exact, true) },
		"powershell": func() error { return root.GenPowerShellCompletionWithDesc(a.exact) },
	}
	names := []string{"bash", "zsh", "fish", "powershell"}
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Teach your shell to complete commands, flags, steps and codes",
		Long: `Completion prints a script for bash, zsh, fish or powershell. Load it when the
shell starts, and the tabulator key completes commands, flags and what they take,
dishes, the steps of a plan and the codes of findings.`,
		Example:   "  source <(tamis completion bash)         in ~/.bashrc\n  tamis completion fish | source           in config.fish",
		ValidArgs: names,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 || shells[args[0]] == nil {
				return misused{fmt.Errorf("completion is for one shell: %s", strings.Join(names, ", "))}
			}
			return shells[args[0]]()
		},
	}
}
