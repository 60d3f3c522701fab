package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// wrongVerb hints at verbs that do not fit what they act on.
var wrongVerb = &Rule{
	Code: "E119", Title: "A verb that does not fit.", Family: Style, Severity: diag.Hint,
	What:    "A sentence pours a dough, kneads a batter, or rolls out a sauce.",
	Why:     "The verb tells the cook how it should feel; with the wrong one something else went wrong before.",
	Fix:     "Write the verb that fits, or the right word for what it is by now.",
	Bad:     "dish Buns\n  serves 4\n  gather\n    600 g bun dough\n  method\n    - Pour the bun dough into the tin. | work 2 min\n    - Bake. | oven 200 C | leave 20 min\n",
	At:      "6:7",
	Good:    "dish Buns\n  serves 4\n  gather\n    600 g bun dough\n  method\n    - Press the bun dough into the tin. | work 2 min\n    - Bake. | oven 200 C | leave 20 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, _ *resolve.Step, prose saying) {
			for _, m := range prose.find(misfit) {
				p.Report(prose.place(m[0], m[1]), "%q: is this the right verb", prose.text[m[0]:m[1]]).
					WithHelp("a dough is kneaded, rolled or pressed; a batter or a sauce is poured, spooned or spread")
			}
		})
	},
}

var misfit = mustCompile(`(?i)\b(?:pour|ladle)(?: in| over| out)? the (?:\w+ )?(?:dough|pastry)\b|\b(?:knead|roll out|plait) the (?:\w+ )?(?:batter|sauce|soup|custard|glaze|dressing)\b`)
