package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// greasedLate asks about a tin that is greased when it is full.
var greasedLate = &Rule{
	Code: "H120", Title: "Greased or lined after it was filled.", Family: Heat, Severity: diag.Question,
	What:    "A sentence greases or lines a tin, and one before it has filled it.",
	Why:     "The cook stands with the batter in the tin and the paper in the hand.",
	Fix:     "Move the sentence up, before the tin is filled.",
	Bad:     "dish Sponge\n  serves 8\n  gather\n    200 g sponge batter\n  method\n    - Pour the sponge batter into the tin. | work 2 min\n    - Grease the tin and bake. | oven 180 C | work 2 min | leave 25 min\n",
	At:      "7:7",
	Good:    "dish Sponge\n  serves 8\n  gather\n    200 g sponge batter\n  method\n    - Grease the tin. | work 2 min\n    - Pour the sponge batter into the tin and bake. | oven 180 C | work 2 min | leave 25 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		filled := map[*resolve.Recipe]map[string]*resolve.Step{}
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			if filled[r] == nil {
				filled[r] = map[string]*resolve.Step{}
			}
			for _, x := range prose.sentences() {
				text := prose.text[x[0]:x[1]]
				for _, m := range greases.FindAllStringSubmatchIndex(text, -1) {
					what := strings.ToLower(text[m[2]:m[3]])
					before := filled[r][what]
					if before == nil {
						continue
					}
					p.Report(prose.place(x[0]+m[0], x[0]+m[1]), "the %s was filled before", what).
						See(firstLine(before), "here").
						WithHelp("move this up, before the %s is filled", what)
				}
				for _, m := range fills.FindAllStringSubmatch(text, -1) {
					if what := strings.ToLower(m[1]); filled[r][what] == nil {
						filled[r][what] = s
					}
				}
			}
		})
	},
}

var (
	greases = mustCompile(`(?i)\b(?:grease|line) the (?:\w+ )?(tin|mould|mold|pan|ring)\b`)
	fills   = mustCompile(`(?i)\b(?:pour|scrape|tip|spoon|spread|turn|press)\b[^.;]*? (?:batter|mixture|dough|it|them|all)\b[^.;]*? into the (?:\w+ )?(tin|mould|mold|pan|ring)\b`)
)
