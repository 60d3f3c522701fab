package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var garnishWhat = &Rule{
	Code: "U309", Title: "Garnish with what?", Family: Names, Severity: diag.Question,
	What: "A sentence says to garnish or decorate, and takes nothing from the list for it.",
	Why:  "What stands in the picture and not in the list is never bought.",
	Fix:  "Gather it, and name it here.",
	Bad: `dish Tomato soup
  serves 4
  gather
    800 g    tomatoes
  method
    - Simmer the tomatoes until soft, then blend. | ring low | work 4 min | leave 20 min
    - Ladle into bowls, garnish and serve. | work 3 min
`,
	At: "7:25",
	Good: `dish Tomato soup
  serves 4
  gather
    800 g    tomatoes
    10 g     basil leaves
  method
    - Simmer the tomatoes until soft, then blend. | ring low | work 4 min | leave 20 min
    - Ladle into bowls and garnish with the basil. | work 3 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkGarnish,
}

var garnishing = mustCompile(`(?i)(?:^|[.;,:] |\band |\bthen )(garnish|decorate)\b`)

func checkGarnish(p *Pass) {
	for _, r := range p.Recipes() {
		rds := p.readings(r)
		p.eachStepOf(r, func(s *resolve.Step, prose saying) {
			for _, m := range garnishing.FindAllStringSubmatchIndex(prose.text, -1) {
				_, to := prose.sentenceSpan(m[2])
				taken := false
				for _, t := range takesOf(rds, s) {
					at := prose.offset(t.NameAt)
					taken = taken || at > m[2] && at < to || t.ByMargin
				}
				if !taken {
					p.Report(prose.place(m[2], m[3]), "%s with what", strings.ToLower(prose.text[m[2]:m[3]])).
						WithHelp("gather it, and write `%s with the …`", strings.ToLower(prose.text[m[2]:m[3]]))
				}
			}
		})
	}
}
