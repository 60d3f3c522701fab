package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// mixedSystems asks about a list that is half in grams and half in cups.
var mixedSystems = &Rule{
	Code: "D201", Title: "Two systems of measures in one list.", Family: Amounts, Severity: diag.Question,
	What:    "Some lines of a list are in grams or millilitres and others in cups, ounces, pounds or pints. Spoons, packages, counts and lines that give both are let pass.",
	Why:     "The cook needs scales for one half and cups for the other.",
	Fix:     "Use one system, or give both: `225 g (8 oz) plain flour`.",
	Bad:     "dish Pancakes\n  serves 4\n  units US\n  gather\n    200 g plain flour\n    1 cup whole milk\n  method\n    - Whisk the plain flour and whole milk. | work 5 min\n",
	At:      "6:5",
	Good:    "dish Pancakes\n  serves 4\n  gather\n    200 g plain flour\n    300 ml whole milk\n  method\n    - Whisk the plain flour and whole milk. | work 5 min\n",
	Sources: []string{"New Zealand Guild of Food Writers, consistency and clarity (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			var metric, other *resolve.Line
			nMetric, nOther := 0, 0
			for _, l := range r.Lines {
				switch systemOf(l) {
				case inGrams:
					nMetric++
					metric = first(metric, l)
				case inCups:
					nOther++
					other = first(other, l)
				}
			}
			if metric == nil || other == nil {
				continue
			}
			few, many := other, metric // the rarer of the two is the odd one
			if nOther > nMetric {
				few, many = metric, other
			}
			if !mine(r, few.Span) {
				continue
			}
			p.Report(few.AmountAt, "%s here, and %s above or below: two systems in one list", few.AmountText, many.AmountText).
				See(many.AmountAt, "the other system").
				WithHelp("use one system, or give both: `225 g (8 oz) plain flour`")
		}
	},
}

func first(have, l *resolve.Line) *resolve.Line {
	if have != nil {
		return have
	}
	return l
}

type system int

const (
	noSystem system = iota
	inGrams
	inCups
)

// systemOf is the system a line is measured in; noSystem for counts, spoons,
// packages, and lines that give both.
func systemOf(l *resolve.Line) system {
	a := l.Written
	if a == nil || a.Kind != quantity.Plain && a.Kind != quantity.PerHead || len(a.Measure.Terms) == 0 {
		return noSystem
	}
	u := a.Measure.Terms[0].Unit
	if u == nil {
		return noSystem
	}
	switch u.Name {
	case "g", "kg", "ml", "cl", "dl", "litre":
		return inGrams
	case "oz", "lb", "fl oz", "pint", "quart", "gallon", "gill":
		return inCups
	case "cup": // the metric cup goes with grams
		if s := l.Recipe.System; s == quantity.US || s == quantity.Imperial {
			return inCups
		}
	}
	return noSystem
}
