package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
)

var rawEgg = &Rule{
	Code: "S119", Title: "egg that is served raw", Family: Safety, Severity: diag.Hint,
	What:    "A dish is served with egg in it that no step heats, and the text has no caution about it.",
	Why:     "Raw egg is not for everybody: small children, the old, the pregnant and the ill are told to leave it.",
	Fix:     "Write a `caution`, or use pasteurised egg and say so.",
	Sources: []string{noSource},
	Bad: `dish Chocolate mousse
  serves 4
  gather
    200 g    dark chocolate
    4        eggs, separated
  method
    - Melt the chocolate over hot water.
      | ring low | watch 6 min
    - Beat in the egg yolks, fold in the whipped egg whites and spoon into glasses.
      | work 12 min | uses eggs
  serve cold
`,
	At: "5:14",
	Good: `dish Chocolate mousse
  serves 4
  gather
    200 g    dark chocolate
    4        eggs, separated
  method
    - Melt the chocolate over hot water.
      | ring low | watch 6 min
    - Beat in the egg yolks, fold in the whipped egg whites and spoon into glasses.
      | work 12 min | uses eggs | caution raw egg: ask your guests
  serve cold
`,
	Check: func(p *Pass) {
		served(p, hazard.Egg, func(at span, i *hazard.Item) {
			p.common(p.Report(at, "no step heats %s", "the "+i.Line.Name)).
				WithHelp("say so to those who eat it: `| caution raw egg`, or use pasteurised egg and say so in the note")
		})
	},
}

var rawFish = &Rule{
	Code: "S125", Title: "fish that is served raw", Family: Safety, Severity: diag.Hint,
	What:    "A dish is served with fish in it that no step heats, and the text has no caution about it.",
	Why:     "Raw fish can carry worms, which deep cold kills and lemon juice does not.",
	Fix:     "Buy fish sold for eating raw, and say in a `caution` that it was frozen for that.",
	Sources: []string{"FDA Food Code 2022, 3-402.11, as seen quoted"},
	Bad: `dish Cured salmon
  practice US
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
  practice US
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
		served(p, hazard.Fish, func(at span, i *hazard.Item) {
			p.Report(at, "no step heats %s", "the "+i.Line.Name).
				Because("%s The figure seen is −20 °C for 7 days, or −35 °C for 15 hours in a blast freezer (FDA Food Code 2022 3-402.11, as seen quoted). %s", p.rule.Why, comeFirst).
				WithHelp("buy fish that is sold for eating raw, and say in a `| caution` that it was frozen for that")
		})
	},
}

// served calls f for raw things of a kind that a dish brings to the table
// unheated, where the writer gives no caution. What a base brings counts in the
// dish that draws on it.
func served(p *Pass, k hazard.Kind, f func(at span, i *hazard.Item)) {
	seen := once{}
	for _, d := range p.dishes() {
		if d.recipe.Base || len(d.Stages) == 0 || d.warned() {
			continue
		}
		for _, i := range d.End.Items {
			at := i.Line.AST.Name.Span
			note := strings.ToLower(i.Line.AST.Note.Text)
			if i.Heated || !i.Is(k) || strings.Contains(note, "pasteuri") || strings.Contains(note, "frozen") || hotPoured(d) || seen.again(at) {
				continue
			}
			f(at, i)
		}
	}
}

// hotPoured tells whether a step pours something boiling over or into the rest:
// then it is for the cook to say what is raw.
func hotPoured(d *plate) bool {
	for _, st := range d.Stages {
		if st.Says("syrup", "boiling", "scald") {
			return true
		}
	}
	return false
}

var rawFlour = &Rule{
	Code: "S120", Title: "flour that is eaten raw", Family: Safety, Severity: diag.Query,
	What:    "A dish is served with flour in it that no step heats.",
	Why:     "Flour is milled from a raw crop, and is only a food once it is cooked.",
	Fix:     "Cook or toast the flour first, or say in the step what heats it.",
	Sources: []string{noSource},
	Bad: `dish Cookie dough balls
  serves 4
  gather
    200 g    plain flour
    100 g    butter
    80 g     brown sugar
  method
    - Beat the butter with the sugar and work in the flour.
      | work 8 min
    - Roll into balls and chill.
      | work 6 min | stand 1 h, fridge
  serve cold
`,
	At: "4:14",
	Good: `dish Cookie dough balls
  serves 4
  gather
    200 g    plain flour
    100 g    butter
    80 g     brown sugar
  method
    - Toast the flour on a tray.
      | oven 180 C | watch 8 min | core 74 C
    - Beat the butter with the sugar and work in the toasted flour.
      | work 8 min
    - Roll into balls and chill.
      | work 6 min | stand 1 h, fridge
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if d.recipe.Base || len(d.Stages) == 0 || d.recipe.ServeHow == nil || d.warned() {
				continue // unless it says how it is served it may not be finished
			}
			for _, i := range d.End.Items {
				at := i.Line.AST.Name.Span
				if i.Heated || i.Leftover || !i.Has(larder.RawFlour) || strings.Contains(strings.ToLower(i.Line.AST.Note.Text), "dust") || strings.Contains(strings.ToLower(i.Line.AST.Note.Text), "toast") || i.Line.Serving || hotPoured(d) || seen.again(at) {
					continue
				}
				p.common(p.Report(at, "no step heats %s", "the "+i.Line.Name)).
					WithHelp("cook or toast it first; if a step does heat it, put its heat in the margin: `| ring low`, `| oven 180 C`")
			}
		}
	},
}
