package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var greaseWhat = &Rule{
	Code: "U310", Title: "Greased with what is not gathered.", Family: Names, Severity: diag.Question,
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
	greasing = mustCompile(`(?i)(?:^|[.;:] |\band |\bthen )((?:lightly |generously )?(grease|butter|oil|flour)) (?:and (?:line|flour) )?(?:the|a|an|your|two|three|four|six|eight|ten|twelve|both|each) (?:[\p{L}-]+ ){0,3}?(tins?|dish(?:es)?|moulds?|trays?|sheets?|boards?|surface|worktop|ramekins?|basins?|rings?|pans?|cups?|griddle)\b`)
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
				if !hasLine(r, want...) {
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
func hasLine(r *resolve.Recipe, heads ...string) bool {
	for _, l := range r.Lines {
		head := headOf(l.Name)
		for _, w := range heads {
			if head == w || hasWord(l.Name, w) {
				return true
			}
		}
	}
	return false
}
