package check

import (
	"strconv"
	"strings"

	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// headnoteCount compares a count of ingredients in `about` with the list.
var headnoteCount = &Rule{
	Code: "E114", Title: "The headnote counts other than the list.", Family: Style, Severity: diag.Question,
	What:    "`about` says `five ingredients`, and the list has more, water and what is to taste left aside, or fewer in all.",
	Why:     "Such a figure is the first thing a reader checks.",
	Fix:     "Correct the figure, or leave it out.",
	Bad:     "dish Leek pot\n  serves 4\n  about\n    Only two ingredients.\n  gather\n    600 g leeks\n    60 g butter\n    200 ml double cream\n    50 g hard cheese\n  method\n    - Cook everything. | ring low | work 8 min\n",
	At:      "4:10",
	Good:    "dish Leek pot\n  serves 4\n  about\n    Only four ingredients.\n  gather\n    600 g leeks\n    60 g butter\n    200 ml double cream\n    50 g hard cheese\n  method\n    - Cook everything. | ring low | work 8 min\n",
	Sources: []string{"a book editors' conference paper of 2016 (seen as an excerpt)"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			m := countSaid.FindStringSubmatch(aboutText(r))
			if m == nil || len(r.Choices) > 0 || !mine(r, r.About.Span) {
				continue
			}
			n, err := strconv.Atoi(m[1])
			if err != nil {
				s, _ := quantity.ReadSpoken(m[1], quantity.Options{})
				whole, _ := s.Value.High.Int64()
				n = int(whole)
			}
			all, counted := 0, 0
			for _, l := range r.Lines {
				all++
				if !l.Water && !seasoningOnly(l) && !l.Optional && !strings.HasSuffix(l.Key, "oil") {
					counted++
				}
			}
			if n == 0 || counted <= n && n <= all {
				continue
			}
			p.Report(within(r.About.Text.Span, m[0]), "%s are said, and %d are gathered", strings.ToLower(m[0]), all).WithHelp("correct the figure, or leave it out")
		}
	},
}

var countSaid = mustCompile(`(?i)\b(\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve) ingredients\b`)

// within is where some words stand in a place, or the place itself.
func within(at source.Span, words string) source.Span {
	if i := strings.Index(at.Text(), words); i >= 0 {
		return at.File.Span(at.Start+i, at.Start+i+len(words))
	}
	return at
}
