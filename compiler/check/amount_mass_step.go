package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// massOutOfStep compares what a step makes or divides with all that went in
// so far.
var massOutOfStep = &Rule{
	Code: "D209", Title: "A step gives more than went in.", Family: Amounts, Severity: diag.Error,
	What:    "What a step makes, draws, or divides into pieces weighs more than everything gathered for the steps down to it, counted at the heaviest.",
	Why:     "The pieces come out smaller or fewer than the sheets say.",
	Fix:     "Correct the amount, or the list.",
	Bad:     "dish Buns\n  serves 12\n  gather\n    500 g strong flour\n    300 ml water\n  method\n    - Knead the strong flour with the water. | work 10 min\n    - Shape into buns. | into 12 buns, 90 g each | work 10 min\n    - Bake. | oven 220 C | leave 15 min\n",
	At:      "8:26",
	Good:    "dish Buns\n  serves 12\n  gather\n    500 g strong flour\n    300 ml water\n  method\n    - Knead the strong flour with the water. | work 10 min\n    - Shape into buns. | into 12 buns, 65 g each | work 10 min\n    - Bake. | oven 220 C | leave 15 min\n",
	Sources: []string{"the Tamis notation, 2.12", "common practice, no source, for the 3% that are let pass"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if r.Reading == nil || drinks(r) {
				continue
			}
			in, known := quantity.Int(0), true
			all, allKnown := intake(r.Reading.Lines)
			for _, sr := range r.Reading.Steps {
				for _, t := range sr.Takes {
					if !known || t.Line == nil || t.Refers || t.Line.ToTaste {
						continue
					}
					if t.Unmeasured || t.Line.Quantity == nil { // nobody knows how much of it went in: all of it, at the most
						in, known = all, allKnown
						continue
					}
					g, ok := gramsAtMost(t.Line, t.Line.Quantity.Scale(t.Part))
					in, known = in.Add(g), known && ok
				}
				s := sr.Step
				if !known || in.IsZero() || !mine(r, s.Span) {
					continue
				}
				most := in.Mul(quantity.Frac(103, 100))
				if c := s.Into; c != nil && len(c.Each.Terms) > 0 && c.Count > 0 {
					if each, problem := c.Each.Quantity(r.System); problem == nil && each.Dim == quantity.Mass {
						if out := each.Value.Low.Mul(quantity.Int(int64(c.Count))); most.Less(out) {
							p.Report(c.Span, "%d of %s are %s, and at the most %s went in so far", c.Count, each.Print(r.Style()), grams(r, out), grams(r, in)).
								WithHelp("correct the number, the weight of one, or the list")
						}
					}
				}
				p.productsWeigh(s, in, most)
			}
		}
	},
}

func (p *Pass) productsWeigh(s *resolve.Step, in, most quantity.Number) {
	for _, pr := range s.Makes {
		if pr.Quantity == nil || pr.Made == nil || pr.Quantity.Dim != quantity.Mass || !most.Less(pr.Quantity.Value.Low) {
			continue
		}
		p.Report(pr.Made.Span, "%s of %s come out, and at the most %s went in so far", pr.Say(*pr.Quantity), pr.Name, grams(pr.Recipe, in)).
			WithHelp("correct the amount, or the list")
	}
}
