package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// coldestOven is the least that an oven is set to: enough to prove a dough.
// Common practice, no source.
const coldestOven = 25

// coldOven asks about an oven that is not hot.
var coldOven = &Rule{
	Code: "H140", Title: "An oven colder than any oven is set.", Family: Heat, Severity: diag.Question,
	What:    "A step asks for an oven below 25 °C. At 0 °C or less that is an error.",
	Why:     "No oven is set so low, and nothing would cook.",
	Fix:     "Write the heat that is meant, or `room` for a place that is not heated.",
	Bad:     "dish Roast\n  serves 4\n  gather\n    1 kg turnips\n  method\n    - Roast the turnips. | oven 0 C | work 5 min | leave 1 h\n",
	At:      "6:28",
	Good:    "dish Roast\n  serves 4\n  gather\n    1 kg turnips\n  method\n    - Roast the turnips. | oven 200 C | work 5 min | leave 1 h\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, _ saying) {
			for _, h := range s.Heats {
				if h.High >= coldestOven {
					continue
				}
				at := s.Span
				for _, c := range s.Margin {
					if o, ok := c.(*resolve.InOven); ok {
						at = o.Span
						break
					}
				}
				d := p.Report(at, "this sets the oven to %s", h.Written.Print(quantity.HeatStyle{})).WithHelp("write the heat that is meant")
				if h.High <= 0 { // nothing that a cook could do
					d.Severity = diag.Error
				}
				return
			}
		})
	},
}
