package check

import (
	"sync"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var seasonWhat = &Rule{
	Code: "U311", Title: "Season with what?", Family: Names, Severity: diag.Question,
	What: "A step says to season, and the list has neither salt nor pepper nor anything `to taste`.",
	Why:  "`season` takes from the lines that are to taste, and here it takes nothing.",
	Fix:  "Gather it: `fine salt | to taste`.",
	Bad: `dish Tomato soup
  serves 4
  gather
    800 g    tomatoes
  method
    - Simmer the tomatoes until soft. | ring low | work 2 min | leave 20 min
    - Blend, season and serve. | work 3 min
`,
	At: "7:14",
	Good: `dish Tomato soup
  serves 4
  gather
    800 g    tomatoes
    fine salt                                  | to taste
  method
    - Simmer the tomatoes until soft. | ring low | work 2 min | leave 20 min
    - Blend, season and serve. | work 3 min
`,
	Sources: []string{"the Tamis notation, 2.9"},
	Check:   checkSeason,
}

var seasoningWord = mustCompile(`(?i)\bseason\b`)

func checkSeason(p *Pass) {
	for _, r := range p.Recipes() {
		rds := p.readings(r)
		done := false
		has := sync.OnceValue(func() bool { return hasLine(r, "salt", "pepper", "peppercorn", "seasoning") || toTaste(r) })
		p.eachStepOf(r, func(s *resolve.Step, prose saying) {
			for _, m := range prose.find(seasoningWord) {
				if has() {
					return
				}
				_, to := prose.sentenceSpan(m[0])
				taken := done
				for _, t := range takesOf(rds, s) {
					at := prose.offset(t.NameAt)
					taken = taken || at > m[0] && at < to && hasWord(prose.text[m[1]:at], "with")
				}
				if !taken {
					done = true
					p.Report(prose.place(m[0], m[1]), "season with what").WithHelp("gather it: `fine salt | to taste`")
				}
			}
		})
	}
}

func toTaste(r *resolve.Recipe) bool {
	for _, l := range r.Lines {
		if l.ToTaste {
			return true
		}
	}
	return false
}
