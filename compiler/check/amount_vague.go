package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// byEye counts the lines that are measured by eye.
var byEye = &Rule{
	Code: "D204", Title: "Measured by eye.", Family: Amounts, Severity: diag.Hint,
	What:    "Lines of a list are in knobs, handfuls, glugs, bunches or heaped spoons. Pinches, dashes and drops are let pass. Said once a recipe.",
	Why:     "Such measures cannot be scaled to ninety: no two hands, and no two bunches, are of a size.",
	Fix:     "Write a figure, and keep the old word beside it: `said \"a good handful\"`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    a knob butter\n    600 g leeks\n  method\n    - Soften the leeks in the butter. | ring low | work 8 min\n",
	At:      "4:5",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    25 g butter\n      said \"a knob\"\n    600 g leeks\n  method\n    - Soften the leeks in the butter. | ring low | work 8 min\n",
	Sources: []string{"a recipe editor's list of queries (seen as an excerpt)"},
	Check: func(p *Pass) {
		lines := map[*resolve.Recipe][]*resolve.Line{}
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			if eyed(l) {
				lines[r] = append(lines[r], l)
			}
		})
		for _, r := range p.Recipes() {
			list := lines[r]
			if len(list) == 0 {
				continue
			}
			what := "%s is measured by eye"
			args := []any{list[0].AmountText + " " + list[0].Name}
			if len(list) > 1 {
				what, args = "%d lines of %s are measured by eye", []any{len(list), r.Name}
			}
			d := p.Report(list[0].AmountAt, what, args...).WithHelp("write a figure, and keep the word: `said \"%s\"`", list[0].AmountText)
			for _, l := range list[1:] {
				d.See(l.AmountAt, "this one too")
			}
		}
	},
}

// eyed tells whether a line's measure is one of the eye.
func eyed(l *resolve.Line) bool {
	a := l.Written
	if a == nil || len(a.Measure.Terms) == 0 {
		return false
	}
	t := a.Measure.Terms[0]
	if t.Unit == nil {
		return false
	}
	switch t.Unit.Name {
	case "knob", "handful", "glug", "bunch":
		return true
	}
	return t.Unit.Dim == quantity.Volume && (t.Modifier == "heaped" || t.Modifier == "rounded")
}
