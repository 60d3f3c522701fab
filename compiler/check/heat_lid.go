package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// lid hints at a long simmer of which nobody says whether it is covered.
var lid = &Rule{
	Code: "H107", Title: "A long simmer, and no word of the lid.", Family: Heat, Severity: diag.Hint,
	What:    "Something is left on a ring for 45 minutes or longer, and neither this step nor one before it says whether the lid is on.",
	Why:     "In that time an open pot boils down by a third or more.",
	Fix:     "Say `covered`, `uncovered` or `with the lid ajar`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    2 litres water\n  method\n    - Simmer the leeks in the water. | ring low | leave 1 h\n",
	At:      "7:7",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    2 litres water\n  method\n    - Simmer the leeks in the water, covered. | ring low | leave 1 h\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		told := map[*resolve.Recipe]bool{}
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			told[r] = told[r] || lidWord.MatchString(prose.text)
			if s.Rings == 0 || told[r] || !simmers.MatchString(prose.text) {
				return
			}
			for i := range s.Phases {
				sp := &s.Phases[i]
				if sp.Kind != resolve.Leave {
					continue
				}
				if _, usual, _, _ := spellLengths(sp); usual >= 45*time.Minute {
					m := simmers.FindStringIndex(prose.text)
					p.Report(prose.place(m[0], m[1]), "nobody says whether the lid is on").
						WithHelp("say `covered` or `uncovered`")
					told[r] = true
					return
				}
			}
		})
	},
}

var (
	lidWord = mustCompile(`(?i)\b(lid|cover|covered|covering|uncover|uncovered|open|foil|cartouche|ajar|skim|skimming|reduce|reduced|boil(ed)? down|stir|stirring|evaporates?)\b`)
	simmers = mustCompile(`(?i)\b(simmer|braise|stew|cook)\b`)
)
