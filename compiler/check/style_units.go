package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// unitStyle keeps the lists of a book to its units.
var unitStyle = &Rule{
	Code: "E110", Title: "Units, against the house style.", Family: Style, Severity: diag.Question,
	What:    "The book has `style units metric` (or US, imperial), and lines are measured in others only; or it has `style units both`, and lines give one. Spoons, counts and packages are let pass. Said once a recipe.",
	Why:     "Half of the readers have the wrong scales for one recipe of the book.",
	Fix:     "Write the house's units, or both: `225 g (8 oz) plain flour`.",
	Bad:     "book Ferry book\n  style units metric\n\ndish Leek pot\n  serves 4\n  gather\n    1 1/2 lb leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "7:5",
	Good:    "book Ferry book\n  style units metric\n\ndish Leek pot\n  serves 4\n  gather\n    700 g (1 1/2 lb) leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"New Zealand Guild of Food Writers, consistency and clarity (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			style := p.Model.House(r.Span).Units
			if style == "" {
				continue
			}
			var odd []*resolve.Line
			for _, l := range r.Lines {
				if mine(r, l.Span) && offStyle(l, style) {
					odd = append(odd, l)
				}
			}
			if len(odd) == 0 {
				continue
			}
			what := style + " units"
			if style == "both" {
				what = "both systems"
			}
			d := p.Report(odd[0].AmountAt, "the house style wants %s", what)
			for _, l := range odd[1:] {
				d.See(l.AmountAt, "this one too")
			}
			d.WithHelp("write the house's units, or both: `225 g (8 oz) plain flour`")
		}
	},
}

func offStyle(l *resolve.Line, style string) bool {
	switch sys := systemOf(l); {
	case sys == noSystem:
		return false
	case style == "both":
		return true
	case strings.EqualFold(style, string(quantity.Metric)):
		return sys == inCups
	default:
		return sys == inGrams
	}
}
