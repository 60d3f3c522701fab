package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// fractionStyle hints at halves written in two ways.
var fractionStyle = &Rule{
	Code: "D213", Title: "Fractions written in two ways.", Family: Amounts, Severity: diag.Hint,
	What:    "In one list the same unit has a fraction on one line and a decimal on another: `1/2 tsp` and `0.5 tsp`.",
	Why:     "A reader looks for a difference that is not there.",
	Fix:     "Write spoons, cups and counts with fractions, grams and litres with decimals.",
	Bad:     "dish Spiced leeks\n  serves 4\n  gather\n    600 g leeks\n    1/2 tsp ground cumin\n    0.5 tsp ground coriander\n  method\n    - Fry everything. | ring low | work 8 min\n",
	At:      "6:5",
	Good:    "dish Spiced leeks\n  serves 4\n  gather\n    600 g leeks\n    1/2 tsp ground cumin\n    1/2 tsp ground coriander\n  method\n    - Fry everything. | ring low | work 8 min\n",
	Sources: []string{"New Zealand Guild of Food Writers, consistency and clarity (seen as an excerpt)"},
	Check: func(p *Pass) {
		type seen struct{ fraction, decimal *resolve.Line }
		lists := map[*resolve.Recipe]map[string]*seen{}
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			a := l.Written
			if a == nil || len(a.Measure.Terms) == 0 {
				return
			}
			unit := ""
			if u := a.Measure.Terms[0].Unit; u != nil {
				unit = u.Name
			}
			if lists[r] == nil {
				lists[r] = map[string]*seen{}
			}
			if lists[r][unit] == nil {
				lists[r][unit] = &seen{}
			}
			have, text := lists[r][unit], l.AmountText
			had := have.fraction != nil && have.decimal != nil
			switch {
			case strings.ContainsAny(text, "/⁄½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"):
				have.fraction = first(have.fraction, l)
			case decimal(text):
				have.decimal = first(have.decimal, l)
			}
			if had || have.fraction == nil || have.decimal == nil {
				return
			}
			d, f := have.decimal, have.fraction
			p.Report(d.AmountAt, "%s here, and %s on another line", d.AmountText, f.AmountText).
				See(f.AmountAt, "the other way").
				WithHelp("write both as fractions, or both as decimals")
		})
	},
}

// decimal tells whether a figure in the text has a decimal mark.
func decimal(text string) bool {
	for i := 1; i+1 < len(text); i++ {
		if (text[i] == '.' || text[i] == ',') && digit(text[i-1]) && digit(text[i+1]) {
			return true
		}
	}
	return false
}

func digit(c byte) bool { return c >= '0' && c <= '9' }
