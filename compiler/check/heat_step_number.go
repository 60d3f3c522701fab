package check

import (
	"slices"
	"strconv"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// stepNumber hints at steps that are spoken of by their number.
var stepNumber = &Rule{
	Code: "H112", Title: "A step spoken of by its number.", Family: Heat, Severity: diag.Hint,
	What:    "A sentence speaks of `step 4`. Where there is no such step, or it is the step itself, this is a warning; where something is kept for a step and another step takes it, a question.",
	Why:     "When a step is added above it, the number speaks of another one.",
	Fix:     "Name what the step made: `the stock from before`, or give it a name with `makes`.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks. | ring low | leave 15 min\n    - Go on as in step 1. | ring low | leave 5 min\n",
	At:      "7:19",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks. | ring low | leave 15 min\n    - Simmer them a little more. | ring low | leave 5 min\n",
	Sources: []string{"common practice, no source"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			for _, m := range stepSaid.FindAllStringSubmatchIndex(prose.text, -1) {
				n, _ := strconv.Atoi(prose.text[m[2]:m[3]])
				at := prose.place(m[0], m[1])
				from, to := prose.sentenceSpan(m[0])
				other := elsewhere(r, s, n, prose.text[from:m[1]], prose.text[m[1]:to])
				switch {
				case n < 1 || n > len(r.Steps):
					p.ReportAs(diag.Warning, at, "there is no step %d: %s has %d", n, r.Name, len(r.Steps)).WithHelp("name what is meant instead")
				case n == s.Index+1:
					p.ReportAs(diag.Warning, at, "this is step %d itself", n).WithHelp("name what is meant instead")
				case other > 0:
					p.ReportAs(diag.Question, at, "what is kept for step %d is used in step %d", n, other).
						WithHelp("say step %d here, or name it in step %d", other, n)
				case n > s.Index+1:
					p.Report(at, "the number is wrong as soon as a step is added above").WithHelp("write what it is for in place of the number, such as `for the sauce`")
				default:
					p.Report(at, "the number is wrong as soon as a step is added above").WithHelp("name what step %d made", n)
				}
			}
		})
	},
}

// elsewhere is the number of the step that takes what a step keeps for step n,
// where step n does not; else 0. The number stands between two halves of its sentence:
// "hold the stock for step 5", "for step 5 hold the stock".
func elsewhere(r *resolve.Recipe, s *resolve.Step, n int, sentence, after string) int {
	if n < 1 || n > len(r.Steps) {
		return 0
	}
	if forFirst.MatchString(sentence) && keepNow.MatchString(after) {
		sentence = after
	} else if !keptFor.MatchString(sentence) {
		return 0
	}
	if all := stepSaid.FindAllStringIndex(sentence, -1); len(all) > 1 { // "the stock for step 5, and the meat for step 7"
		sentence = sentence[all[len(all)-2][1]:]
	}
	takes := func(k int, p *resolve.Product) bool {
		sr := r.Reading.Of(r.Steps[k])
		return sr != nil && slices.ContainsFunc(sr.Takes, func(t resolve.Take) bool { return t.Product == p })
	}
	for _, p := range s.Makes {
		name := strings.ToLower(p.Name)
		if !strings.Contains(strings.ToLower(sentence), name[strings.LastIndexByte(name, ' ')+1:]) || takes(n-1, p) {
			continue
		}
		for k := s.Index + 1; k < len(r.Steps); k++ {
			if takes(k, p) {
				return k + 1
			}
		}
	}
	return 0
}

var (
	forFirst = mustCompile(`(?i)^\W*(and |then )?for (use in )?steps? \d+$`)
	keepNow  = mustCompile(`(?i)^,? *(keep|save|reserve|hold|set aside|put by|you need|leave)\b`)
)

var keptFor = mustCompile(`(?i)\b(keep|kept|save|saved|reserve|reserved|hold|held|set aside|put by)\b.* for (use in )?steps? \d+`)

var stepSaid = mustCompile(`(?i)\bsteps? (\d+)\b`)
