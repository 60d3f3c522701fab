package check

import (
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// catering is from how many portions on a kitchen works by portion size.
// Common practice, no source.
const catering = 20

// noPortionSize hints at a yield for many without the size of one portion.
var noPortionSize = &Rule{
	Code: "D210", Title: "Many portions, and no size of one.", Family: Amounts, Severity: diag.Hint,
	What:    "A dish serves 20 or more, and does not say how much a portion is.",
	Why:     "Whoever ladles it out decides for how many it is.",
	Fix:     "Write such as `serves 30, 210 g each`.",
	Bad:     "dish Leek soup\n  serves 60\n  gather\n    9 kg leeks\n  method\n    - Soften the leeks. | ring low | work 20 min\n",
	At:      "2:3",
	Good:    "dish Leek soup\n  serves 60, 250 ml each\n  gather\n    9 kg leeks\n  method\n    - Soften the leeks. | ring low | work 20 min\n",
	Sources: []string{"Mississippi Department of Education, standardized recipes (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			at := orTitle(r, r.Own.Serves)
			if r.Base || r.Serves == nil || !r.ServesEach.IsZero() || r.Makes != nil || r.Serves.High.Less(quantity.Int(catering)) || !mine(r, at) || at == r.NameAt {
				continue
			}
			p.Report(at, "%s serves %s, and nobody says how much a portion is", r.Name, r.Serves.High.Text(false)).
				WithHelp("write such as `serves %s, 210 g each`", r.Serves.High.Text(false))
		}
	},
}
