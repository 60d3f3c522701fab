package check

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
)

// WriteTitles lists the code and title of every rule, one a line, by family.
func WriteTitles(w io.Writer) {
	first := true
	for _, f := range Families {
		rules := Of(f)
		if len(rules) == 0 {
			continue
		}
		if !first {
			fmt.Fprintln(w)
		}
		first = false
		fmt.Fprintln(w, larder.Capital(string(f)))
		for _, r := range rules {
			fmt.Fprintf(w, "  %s  %s\n", r.Code, r.Title)
		}
	}
}

// WriteRule explains one rule to a person at a terminal.
func WriteRule(w io.Writer, r *Rule) {
	fmt.Fprintf(w, "%s  %s\n%s · %s\n\n", r.Code, r.Title, r.Family, r.Severity)
	wrapped(w, "", r.What)
	wrapped(w, "Why  ", r.Why)
	wrapped(w, "Try  ", r.Fix)
	for _, e := range []struct{ head, text string }{{"This has it", r.Bad}, {"This has not", r.Good}} {
		if e.text == "" {
			continue
		}
		head := e.head
		if e.text == r.Bad && r.At != "" {
			head += ", at " + r.At
		}
		fmt.Fprintf(w, "\n%s:\n\n", head)
		for line := range strings.Lines(Visible(e.text)) {
			fmt.Fprintln(w, strings.TrimRight("  "+line, " \n"))
		}
	}
	fmt.Fprintf(w, "\nSource: %s.\n", strings.Join(r.Sources, "; "))
}

// Of are the rules of a family, by code.
func Of(f Family) (out []*Rule) {
	for _, r := range All {
		if r.Family == f {
			out = append(out, r)
		}
	}
	return out
}

// Visible writes what cannot be seen or printed in an example as ‹U+200B›, and
// a byte that is no letter as ‹byte E8›, so that an example may be shown.
func Visible(text string) string {
	var b strings.Builder
	for len(text) > 0 {
		c, n := utf8.DecodeRuneInString(text)
		switch {
		case c == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, "‹byte %02X›", text[0])
		case c == '\t':
			b.WriteString("‹tab›")
		case c != '\n' && !unicode.IsPrint(c):
			fmt.Fprintf(&b, "‹U+%04X›", c)
		default:
			b.WriteRune(c)
		}
		text = text[n:]
	}
	return b.String()
}

// wrapped prints a paragraph of at most 78 columns, hanging under its head.
func wrapped(w io.Writer, head, text string) {
	const width = 78
	indent := strings.Repeat(" ", len(head))
	line := head
	for i, word := range strings.Fields(text) {
		if i > 0 && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			fmt.Fprintln(w, line)
			line = indent + word
			continue
		}
		if i > 0 {
			line += " "
		}
		line += word
	}
	fmt.Fprintln(w, line)
}
