package check

import (
	"tamis/lang/diag"
)

var rawFlour = &Rule{
	Code: "S120", Title: "Flour that is eaten raw.", Family: Safety, Severity: diag.Question,
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
			for _, i := range d.RawFlour() {
				at := i.Line.NameAt
				if d.warned(i) || seen.again(at) {
					continue
				}
				p.common(p.Report(at, "no step heats %s", "the "+i.Line.Name)).
					WithHelp("cook or toast it first; if a step does heat it, put its heat in the margin: `| ring low`, `| oven 180 C`")
			}
		}
	},
}
