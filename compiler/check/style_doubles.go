package check

import (
	"tamis/lang/diag"
)

// doublesEasily hints at a promise that nobody has tried.
var doublesEasily = &Rule{
	Code: "E117", Title: "`doubles easily`, and nobody says it was tried.", Family: Style, Severity: diag.Hint,
	What:    "`about` says that the dish can be doubled, halved or multiplied, and there is no `tested`.",
	Why:     "A double cake wants another tin, another time and sometimes another oven.",
	Fix:     "Write the numbers it was tried at, `tested 4 to 8`, or leave the promise out.",
	Bad:     "dish Leek pot\n  serves 4\n  about\n    It doubles easily.\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	At:      "4:8",
	Good:    "dish Leek pot\n  serves 4\n  tested 4 to 8\n  about\n    It doubles easily.\n  gather\n    600 g leeks\n  method\n    - Soften the leeks. | ring low | work 8 min\n",
	Sources: []string{"New Zealand Guild of Food Writers, recipe writing tips (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if r.Tested != nil || r.About == nil || !mine(r, r.About.Span) {
				continue
			}
			if m := canDouble.FindString(aboutText(r)); m != "" {
				p.Report(within(r.About.Text.Span, m), "nobody says at what numbers this was tried").WithHelp("write `tested 4 to 8`, with your own figures")
			}
		}
	},
}

var canDouble = mustCompile(`(?i)\b(doubles|halves|multiplies) (well|easily|happily)\b|\bcan (easily )?be (doubled|halved|multiplied)\b`)
