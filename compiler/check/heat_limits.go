package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/prose"
)

// limits finds temperatures of one step that cannot both be kept.
var limits = &Rule{
	Code: "H116", Title: "Temperatures that cannot all be kept.", Family: Heat, Severity: diag.Warning,
	What:    "A step must reach a temperature that it must never pass, or one that is hotter than its oven.",
	Why:     "Whatever the cook does, one of the two is broken.",
	Fix:     "Correct one of the two figures.",
	Bad:     "dish Custard\n  serves 4\n  gather\n    6 egg yolks\n    500 ml whole milk\n  method\n    - Stir the egg yolks and whole milk until thick. | ring low | watch 10 min | reach 85 C | never above 82 C\n",
	At:      "7:82",
	Good:    "dish Custard\n  serves 4\n  gather\n    6 egg yolks\n    500 ml whole milk\n  method\n    - Stir the egg yolks and whole milk until thick. | ring low | watch 10 min | reach 82 C | never above 85 C\n",
	Sources: []string{"the Tamis notation, 2.8"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, _ saying) {
			top, never := 0, limitOf(s)
			for _, h := range s.Heats {
				top = max(top, h.High)
			}
			for _, c := range s.Margin {
				c, ok := c.(*resolve.Target)
				if !ok || c.Temp == nil || c.Word == resolve.WordNeverAbove {
					continue
				}
				wants := prose.Celsius(c.Temp.Low, c.Temp.Scale)
				switch {
				case never != nil && never.Temp != nil && wants > prose.Celsius(never.Temp.High, never.Temp.Scale):
					p.Report(c.Span, "%s is wanted, and %s", degreesOf(c), never.Span.Text()).
						See(never.Span, "the limit").WithHelp("correct one of the two")
				case top > 0 && wants > float64(top):
					p.Report(c.Span, "%s is hotter than the oven it is in", degreesOf(c)).WithHelp("correct one of the two")
				}
			}
		})
	},
}

func degreesOf(c *resolve.Target) string { return c.Temp.String() }

// limitOf is the first `never above` of a step, or nil.
func limitOf(s *resolve.Step) *resolve.Target {
	c, _ := resolve.FirstOf(s.Margin, resolve.WordNeverAbove).(*resolve.Target)
	return c
}
