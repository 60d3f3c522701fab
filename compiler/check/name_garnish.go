package check

import (
	"regexp"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var garnishWhat = &Rule{
	Code: "U309", Title: "garnish with what", Family: Names, Severity: diag.Query,
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

var garnishing = regexp.MustCompile(`(?i)(?:^|[.;,:] |\band |\bthen )(garnish|decorate)\b`)

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

var greaseWhat = &Rule{
	Code: "U310", Title: "greased with what is not gathered", Family: Names, Severity: diag.Query,
	What: "A step greases, butters, oils or flours a tin or a board, and the list has no fat, butter, oil or flour.",
	Why:  "It should stand in the list, or nobody buys it.",
	Fix:  "Gather it, as `butter | plus extra for the tin`, or as a line of its own.",
	Bad: `dish Plum cake
  serves 8
  gather
    600 g    plums, stoned
    200 g    sugar
  method
    - Butter the dish, and tumble in the plums and the sugar. | work 5 min
    - Bake until soft. | oven 180 C | leave 30 min
`,
	At: "7:7",
	Good: `dish Plum cake
  serves 8
  gather
    butter, for the dish
    600 g    plums, stoned
    200 g    sugar
  method
    - Rub the dish with butter, and tumble in the plums and the sugar. | work 5 min
    - Bake until soft. | oven 180 C | leave 30 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkGrease,
}

var (
	greasing = regexp.MustCompile(`(?i)(?:^|[.;:] |\band |\bthen )((?:lightly |generously )?(grease|butter|oil|flour)) (?:and (?:line|flour) )?(?:the|a|an|your|two|three|four|six|eight|ten|twelve|both|each) (?:[\p{L}-]+ ){0,3}?(tins?|dish(?:es)?|moulds?|trays?|sheets?|boards?|surface|worktop|ramekins?|basins?|rings?|pans?|cups?|griddle)\b`)
	fats     = []string{"butter", "oil", "lard", "dripping", "ghee", "fat", "margarine", "shortening", "suet"}
)

func checkGrease(p *Pass) {
	for _, r := range p.Recipes() {
		p.eachStepOf(r, func(_ *resolve.Step, prose saying) {
			for _, m := range greasing.FindAllStringSubmatchIndex(prose.text, -1) {
				verb := strings.ToLower(prose.text[m[4]:m[5]])
				want := []string{verb}
				if verb == "grease" {
					want = fats
				}
				if !hasLine(r, want) {
					what := verb
					if verb == "grease" {
						what = "fat"
					}
					p.Report(prose.place(m[2], m[3]), "no %s is gathered for this", what).
						WithHelp("add a line for it: `%s, for the %s`", map[bool]string{true: "butter", false: verb}[verb == "grease"], prose.text[m[6]:m[7]])
				}
			}
		})
	}
}

// hasLine tells whether the last word of some line, or of a block it draws on,
// is one of these.
func hasLine(r *resolve.Recipe, heads []string) bool {
	for _, l := range r.Lines {
		for _, w := range heads {
			if headOf(l.Name) == w || hasWord(l.Name, w) {
				return true
			}
		}
	}
	return false
}

var seasonWhat = &Rule{
	Code: "U311", Title: "season with what", Family: Names, Severity: diag.Query,
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

var seasoningWord = regexp.MustCompile(`(?i)\bseason\b`)

func checkSeason(p *Pass) {
	for _, r := range p.Recipes() {
		if hasLine(r, []string{"salt", "pepper", "peppercorn", "seasoning"}) || toTaste(r) {
			continue
		}
		rds := p.readings(r)
		done := false
		p.eachStepOf(r, func(s *resolve.Step, prose saying) {
			for _, m := range prose.find(seasoningWord) {
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
