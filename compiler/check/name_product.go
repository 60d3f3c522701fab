package check

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var productUnused = &Rule{
	Code: "U306", Title: "Made, and nobody takes it.", Family: Names, Severity: diag.Question,
	What: "A step makes or draws something by name, and no later step and no list takes it, waits for it or shows it. What the last step makes is passed over.",
	Why:  "Either it should go in somewhere, or the name says nothing.",
	Fix:  "Name it in the step where it goes in, gather it where it is wanted, or take the clause out.",
	Bad: `dish Plum cake
  serves 8
  gather
    4        oranges
    600 g    plums
  method
    - Squeeze the oranges. | work 5 min | makes 250 ml plain juice
    - Bake the plums until soft. | oven 180 C | leave 30 min
    - Let them cool. | leave 30 min
`,
	At: "7:43",
	Good: `dish Plum cake
  serves 8
  gather
    4        oranges
    600 g    plums
  method
    - Squeeze the oranges. | work 5 min | makes 250 ml plain juice
    - Bake the plums until soft. | oven 180 C | leave 30 min
    - Pour the plain juice over them and let them cool. | leave 30 min
`,
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check:   checkProductUnused,
}

func checkProductUnused(p *Pass) {
	taken := map[*resolve.Product]bool{}
	elsewhere := standIns(p) // by folded name
	for _, r := range p.Model.Recipes {
		for _, l := range r.Lines {
			if l.Product != nil {
				taken[l.Product] = true
			}
			if l.Carried != "" {
				elsewhere[l.Key] = true
			}
		}
	}
	for _, r := range p.Recipes() {
		if len(r.Products) == 0 {
			continue
		}
		for _, rd := range p.readings(r) {
			for _, sr := range rd.Steps {
				for _, t := range sr.Takes {
					if t.Product != nil {
						taken[t.Product] = true
					}
				}
			}
		}
		for _, pr := range r.Products {
			last := pr.Step == r.Steps[len(r.Steps)-1] && !pr.Made.Drawn()
			if taken[pr] || last || elsewhere[pr.Key] || waitedFor(r, pr) || grownWith(r, pr) || !mine(r, pr.Made.Span) {
				continue
			}
			p.Report(pr.Made.Span, "nobody takes the %s that this step makes", pr.Name).
				WithHelp("name it in the step where it goes in: `the %s`", pr.Name).
				WithHelp("gather it where it is wanted, or take the clause out")
		}
	}
}

// waitedFor tells whether a step waits for a product with `after`.
func waitedFor(r *resolve.Recipe, pr *resolve.Product) bool {
	for _, s := range r.Steps {
		for _, c := range clausesOf(s) {
			if c, ok := c.(*resolve.After); ok && larder.Fold(c.Name.Text) == pr.Key {
				return true
			}
		}
	}
	return false
}

// grownWith tells whether the time of a step grows with a product.
func grownWith(r *resolve.Recipe, pr *resolve.Product) bool {
	for _, s := range r.Steps {
		for _, sp := range s.Phases {
			if sp.EachLine == nil && sp.Each.Name.Text != "" && larder.Fold(sp.Each.Name.Text) == pr.Key {
				return true
			}
		}
	}
	return false
}

// standIns are the folded names of moments that a series shows.
func standIns(p *Pass) map[string]bool {
	out := map[string]bool{}
	for _, s := range p.Model.Series {
		for _, part := range s.Parts {
			for _, moment := range part.Moments {
				out[larder.Fold(moment.Text)] = true
			}
		}
	}
	return out
}
