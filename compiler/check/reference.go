package check

import (
	"fmt"
	"io"
	"strings"

	"tamis/compiler/larder"
)

// WriteReference writes the page of all findings, spec/checks.md, as Markdown.
func WriteReference(w io.Writer) {
	fmt.Fprint(w, `# The findings

<!-- Written by "go test ./compiler/check -update" from the rules in compiler/check. Edit them there. -->

Every finding has a code: a letter for who would raise it, and three figures. A code is never used for anything
else. `+"`tamis explain CODE`"+` says in a terminal what stands here.

An *error* stops a build. A *warning* is a likely fault, a *question* a question, a *hint* a remark: these three can be
silenced in the block they are found in, with a reason that stays in the file: `+"`allow U201: the sprigs are for the photograph`"+`.
Where a finding is made in more than one way its severity may differ; the usual one stands here.

Findings about what can hurt somebody name who says so. They are cautions: local rules and qualified people come first.
`)
	for _, f := range Families {
		rules := Of(f)
		if len(rules) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n## %s\n\n| code | finding | |\n| --- | --- | --- |\n", larder.Capital(string(f)))
		for _, r := range rules {
			fmt.Fprintf(w, "| [%s](#%s) | %s | %s |\n", r.Code, strings.ToLower(r.Code), strings.ReplaceAll(r.Title, "|", `\|`), r.Severity)
		}
		for _, r := range rules {
			writeSection(w, r)
		}
	}
}

func writeSection(w io.Writer, r *Rule) {
	fmt.Fprintf(w, "\n### %s\n\n**%s** (%s) %s\n\n", r.Code, r.Title, r.Severity, r.What)
	fmt.Fprintf(w, "*Why:* %s *Instead:* %s\n", r.Why, r.Fix)
	if r.Bad != "" {
		at := ""
		if r.At != "" {
			at = ", at " + r.At
		}
		fmt.Fprintf(w, "\nThis has it%s:\n\n```\n%s\n```\n", at, strings.TrimRight(Visible(r.Bad), "\n"))
		fmt.Fprintf(w, "\nThis has not:\n\n```\n%s\n```\n", strings.TrimRight(Visible(r.Good), "\n"))
	}
	fmt.Fprintf(w, "\n*Source:* %s.\n", strings.Join(r.Sources, "; "))
}
