package check

import (
	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var rawFish = &Rule{
	Code: "S125", Title: "Fish that is served raw.", Family: Safety, Severity: diag.Hint,
	What:    "A dish is served with fish in it that no step heats, and the text has no caution about it.",
	Why:     "Raw fish can carry worms, which deep cold kills and lemon juice does not.",
	Fix:     "Buy fish sold for eating raw, and say in a `caution` that it was frozen for that.",
	Sources: []string{"FDA Food Code 2022, 3-402.11, as seen quoted"},
	Bad: `dish Cured salmon
  rules US
  serves 6
  gather
    500 g    salmon fillet
    40 g     fine salt
  method
    - Rub the salmon with the salt, press it and leave it.
      | work 5 min | stand 1 day, fridge
  serve cold
`,
	At: "5:14",
	Good: `dish Cured salmon
  rules US
  serves 6
  gather
    500 g    salmon fillet
    40 g     fine salt
  method
    - Rub the salmon with the salt, press it and leave it.
      | work 5 min | stand 1 day, fridge | caution frozen at −20 °C for a week first
  serve cold
`,
	Check: func(p *Pass) {
		served(p, hazard.Fish, func(d *plate, at span, i *hazard.Item) {
			p.ReportAs(d.rawFor(), at, "no step heats %s", "the "+i.Line.Name).
				Because("%s The figure seen is −20 °C for 7 days, or −35 °C for 15 hours in a blast freezer (FDA Food Code 2022 3-402.11, as seen quoted). %s", p.rule.Why, comeFirst).
				WithHelp("buy fish that is sold for eating raw, and say in a `| caution` that it was frozen for that")
		})
	},
}
