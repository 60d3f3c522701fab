package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var reservedNever = &Rule{
	Code: "U308", Title: "Reserved, and nobody reserved it.", Family: Names, Severity: diag.Question,
	What: "A step uses something `reserved`, and no step before it reserves, saves or puts by anything.",
	Why:  "By then it has gone down the sink.",
	Fix:  "Say in the step where it comes up that it is kept.",
	Bad: `dish Pasta with cheese
  serves 4
  gather
    400 g    pasta
    150 g    hard cheese
  method
    - Boil the pasta and drain it. | ring high | work 2 min | leave 10 min
    - Toss with the hard cheese and loosen with the reserved cooking water. | work 2 min
`,
	At: "8:53",
	Good: `dish Pasta with cheese
  serves 4
  gather
    400 g    pasta
    150 g    hard cheese
  method
    - Boil the pasta and drain it, keeping a cup of the cooking water. | ring high | work 2 min | leave 10 min
    - Toss with the hard cheese and loosen with the reserved cooking water. | work 2 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkReservedNever,
}

var (
	reserved = mustCompile(`(?i)\b(?:the|your|its) reserved ([\p{L}'’-]+(?: [\p{L}'’-]+)?)`)
	putBy    = mustCompile(`(?i)\b(reserv\w*|sav(?:e|ed|ing)|kept|keep\w*|hold(ing)? back|held back|aside|put by|putting by|back|lift(ed)? out|lifting out|left over|leav\w*)\b`)
)

func checkReservedNever(p *Pass) {
	for _, r := range p.Recipes() {
		var before strings.Builder
		for _, s := range r.Steps {
			for _, prose := range p.passages(s) {
				for _, m := range reserved.FindAllStringSubmatchIndex(prose.text, -1) {
					if putBy.MatchString(before.String()+" "+prose.text[:m[0]]) || !mine(r, s.Span) || listed(r, "reserved") {
						continue
					}
					p.Report(prose.place(m[0]+len("the "), m[3]), "nothing was reserved before this step").
						WithHelp("say where it comes up: `drain it, keeping the liquor`")
				}
				before.WriteString(" " + prose.text)
			}
			for _, pr := range s.Makes {
				before.WriteString(" reserved " + pr.Name)
			}
		}
	}
}

// listed tells whether a word stands in a name or a note of the list.
func listed(r *resolve.Recipe, word string) bool {
	for _, l := range r.Lines {
		if hasWord(l.Name+" "+lineNote(l), word) {
			return true
		}
	}
	return false
}
