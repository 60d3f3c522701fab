package check

import (
	"tamis/lang/diag"
)

var optionalPlain = &Rule{
	Code: "U304", Title: "Optional in the list, not in the step.", Family: Names, Severity: diag.Hint,
	What: "The list says that a thing is optional, and the sentence that takes it does not say what to do without.",
	Why:  "A cook who has left it out stops at the step.",
	Fix:  "Write `if using` after it, or `| only if needed` in the margin of a step that is only about it.",
	Bad: `dish Tomato soup
  serves 4
  gather
    800 g    tomatoes
    5 g      dried chilli flakes               | optional
  method
    - Simmer the tomatoes, covered, until soft. | ring low | leave 20 min
    - Stir in the chilli flakes and blend. | work 4 min
`,
	At: "8:19",
	Good: `dish Tomato soup
  serves 4
  gather
    800 g    tomatoes
    5 g      dried chilli flakes               | optional
  method
    - Simmer the tomatoes, covered, until soft. | ring low | leave 20 min
    - Stir in the chilli flakes, if using, and blend. | work 4 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkOptionalPlain,
}

var leavesOpen = mustCompile(`(?i)\b(if|unless|optional|optionally|perhaps|may|might|like|wish|want|prefer)\b`)

func checkOptionalPlain(p *Pass) {
	for _, r := range p.Recipes() {
		rds := p.readings(r)
		for _, s := range r.Steps {
			if s.OnlyIfNeeded || !mine(r, s.Span) {
				continue
			}
			for _, t := range takesOf(rds, s) {
				if t.Line == nil || !t.Line.Optional || t.Refers || t.ByMargin {
					continue
				}
				prose := p.saying(s)
				at := prose.offset(t.NameAt)
				if at < 0 || leavesOpen.MatchString(prose.sentenceAt(at)) || hasWord(prose.sentenceAt(at), "everything") {
					continue
				}
				p.Report(t.NameAt, "%s is optional in the list, and here it is not", t.Line.Name).
					See(t.Line.Span, "optional here").
					WithHelp("write `%s, if using`", t.NameAt.Text())
			}
		}
	}
}
