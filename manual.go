package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// manual prints the manual page of all commands, from the same words as their help.
func (a *app) manual(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "manual",
		Short: "Print the manual page, for `man`",
		Long: `Manual prints the manual page of Tamis, made of what the commands say of themselves. A
system that has man shows it once it lies where man looks.`,
		Example: "  tamis manual | man -l -\n  tamis manual > ~/.local/share/man/man1/tamis.1",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			return writeManual(a.exact, root)
		},
	}
}

// writeManual writes a page in the man macros (man(7)).
func writeManual(w io.Writer, root *cobra.Command) error {
	var b strings.Builder
	section := func(title string) { fmt.Fprintf(&b, ".SH %s\n", roff(title)) }
	fmt.Fprintf(&b, ".TH TAMIS 1\n")
	section("NAME")
	fmt.Fprintf(&b, "tamis \\- %s\n", roff(strings.ToLower(root.Short[:1])+root.Short[1:]))
	section("SYNOPSIS")
	fmt.Fprintf(&b, ".B tamis\n.I COMMAND\n[\\fIFLAGS\\fR] ...\n")
	section("DESCRIPTION")
	paragraphs(&b, root.Long)
	section("COMMANDS")
	for _, c := range root.Commands() {
		if !c.IsAvailableCommand() {
			continue
		}
		fmt.Fprintf(&b, ".SS \"tamis %s\"\n", roff(strings.ReplaceAll(c.Use, "\"", "'")))
		paragraphs(&b, c.Long)
		c.LocalFlags().VisitAll(func(f *pflag.Flag) { flagEntry(&b, f) })
		if c.Example != "" {
			b.WriteString(".PP\nFor example:\n")
			verbatim(&b, c.Example)
		}
	}
	section("FLAGS OF ALL COMMANDS")
	root.PersistentFlags().VisitAll(func(f *pflag.Flag) { flagEntry(&b, f) })
	section("EXIT STATUS")
	for _, e := range []struct {
		code int
		what string
	}{
		{exitClean, "nothing is wrong"},
		{exitFaults, "the text has errors, a strict check has questions, or fmt -l lists a file"},
		{exitTrouble, "something could not be read or written, or the command was misused"},
		{exitStopped, "Ctrl-C stopped it, and no file is half written"},
	} {
		fmt.Fprintf(&b, ".TP\n.B %d\n%s\n", e.code, roff(e.what))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func flagEntry(b *strings.Builder, f *pflag.Flag) {
	if f.Hidden {
		return
	}
	name, what := flagWords(f)
	fmt.Fprintf(b, ".TP\n.B %s\n%s\n", roff(strings.TrimSpace(name)), roff(what))
}

// paragraphs writes running text; lines that stand in from the edge stay as they are.
func paragraphs(b *strings.Builder, text string) {
	for part := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		b.WriteString(".PP\n")
		var kept []string
		for line := range strings.SplitSeq(part, "\n") {
			if strings.HasPrefix(line, "  ") {
				kept = append(kept, line)
				continue
			}
			verbatim(b, strings.Join(kept, "\n"))
			kept = nil
			b.WriteString(roff(line) + "\n")
		}
		verbatim(b, strings.Join(kept, "\n"))
	}
}

func verbatim(b *strings.Builder, text string) {
	if text == "" {
		return
	}
	b.WriteString(".RS 2\n.nf\n")
	for line := range strings.SplitSeq(text, "\n") {
		b.WriteString(roff(strings.TrimPrefix(line, "  ")) + "\n")
	}
	b.WriteString(".fi\n.RE\n")
}

// roff keeps a line from being read as one for the printer of the page: none of our words
// is a request.
func roff(line string) string {
	line = strings.NewReplacer(`\`, `\e`, "-", `\-`, "`", "", "^", `\(ha`, "~", `\(ti`).Replace(line)
	if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
		line = `\&` + line
	}
	return line
}
