package check

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var containsLoose = &Rule{
	Code: "A103", Title: "`contains` names nuts or gluten, and not which.", Family: Allergens, Severity: diag.Hint,
	What:    "An entry of the larder contains nuts, or gluten, without the name of the nut or the cereal.",
	Why:     "The law has the nut and the cereal named: who cannot eat one may well eat another.",
	Fix:     "Name it: `contains almonds`, `contains wheat`.",
	Sources: []string{"Regulation (EU) 1169/2011 Annex II points 1 and 8, as seen reproduced", "FD&C Act 201(qq), as seen quoted"},
	Bad: `larder
  praline paste | contains nuts
`,
	At: "2:28",
	Good: `larder
  praline paste | contains hazelnuts
`,
	Whole: true,
	Check: func(p *Pass) {
		eachContains(p, func(e *resolve.Entry) {
			for _, n := range e.Contains.Substances {
				switch s, _ := larder.Builtin().Substance(n.Text); s {
				case "nuts":
					p.Report(n.Span, "which nuts").WithHelp("name them: `almonds`, `hazelnuts`, `walnuts` …; the label has it")
				case "gluten":
					p.Report(n.Span, "the gluten of which cereal").WithHelp("name it: `wheat`, `rye`, `barley`, `oats`; the label has it")
				}
			}
		})
	},
}
