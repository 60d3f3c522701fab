package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// longWait is a wait that changes the day on which a cook must begin.
const longWait = 8 * time.Hour

// lateWait hints at a night's wait that the reader meets half-way down.
var lateWait = &Rule{
	Code: "H115", Title: "A long wait that comes as a surprise.", Family: Heat, Severity: diag.Hint,
	What:    "A step after the first waits for eight hours or longer, and nothing at the top of the dish says so: no `takes`, and no word of it in `about`.",
	Why:     "It is found out at six in the evening, with guests at eight.",
	Fix:     "Write `takes`, or say `Begin the day before` in `about`.",
	Bad:     "dish Pickled leeks\n  serves 4\n  gather\n    600 g leeks\n    200 ml cider vinegar\n  method\n    - Boil the leeks. | ring high | leave 15 min\n    - Pour on the cider vinegar and chill. | work 2 min | stand overnight, fridge\n  serve cold\n",
	At:      "1:6",
	Good:    "dish Pickled leeks\n  serves 4\n  about\n    Begin the day before.\n  gather\n    600 g leeks\n    200 ml cider vinegar\n  method\n    - Boil the leeks. | ring high | leave 15 min\n    - Pour on the cider vinegar and chill. | work 2 min | stand overnight, fridge\n  serve cold\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if r.Base || r.Takes != nil || daysAhead.MatchString(aboutText(r)) {
				continue
			}
			for _, s := range r.Steps {
				if len(s.If) > 0 {
					continue
				}
				w := waitOf(s)
				if s.Index == 0 && w >= longWait {
					break // the reader meets it at once
				}
				if s.Index > 0 && w >= longWait {
					p.Report(r.NameAt, "step %d of %s waits %s, and nothing at the top says so", s.Index+1, r.Name, lengthOf(w)).
						See(s.Span, "this step").
						WithHelp("write `takes`, or say it in `about`")
					break
				}
			}
		}
	},
}

// waitOf is the longest that a step is left at the least.
func waitOf(s *resolve.Step) (long time.Duration) {
	for i := range s.Phases {
		if sp := &s.Phases[i]; sp.Kind == resolve.Leave {
			least, _, _, _ := spellLengths(sp)
			long = max(long, least)
		}
	}
	return long
}

var daysAhead = mustCompile(`(?i)\b(overnight|night|days?|weeks?|hours?|yesterday|ahead|advance|(mon|tues|wednes|thurs|fri|satur|sun)day)\b`)
