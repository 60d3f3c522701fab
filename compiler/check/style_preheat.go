package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// preheatStyle keeps a book to one way with the heating of the oven.
var preheatStyle = &Rule{
	Code: "E107", Title: "Heating the oven, against the house style.", Family: Style, Severity: diag.Question,
	What:    "The book has `style preheat always`, and no sentence heats the oven before the first thing goes in; or it has `style preheat never`, and one does.",
	Why:     "A reader who is told so in one recipe waits to be told in the next.",
	Fix:     "Add the sentence, `Heat the oven to 180 C`, or take it out: the plan says when.",
	Bad:     "book Ferry book\n  style preheat always\n\ndish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks. | oven 180 C | leave 40 min\n",
	At:      "9:25",
	Good:    "book Ferry book\n  style preheat always\n\ndish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Heat the oven to 180 C and bake the leeks. | oven 180 C | leave 40 min\n",
	Sources: []string{"style sheets differ: one heats the oven always, one only where it matters (both seen as excerpts)"},
	Check: func(p *Pass) {
		done := map[*resolve.Recipe]bool{}
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			style := p.Model.House(r.Span).Preheat
			if style == "" || done[r] {
				return
			}
			m := heatsTheOven.FindStringIndex(prose.text)
			c := resolve.First[*resolve.InOven](s.Margin)
			switch {
			case style == "never" && m != nil:
				done[r] = true
				p.Report(prose.place(m[0], m[1]), "the house style leaves the heating of the oven to the plan").WithHelp("take the sentence out")
			case style == "always" && m != nil:
				done[r] = true
			case style == "always" && c != nil:
				done[r] = true
				p.Report(c.Span, "the house style has the oven heated, and no sentence says so").WithHelp("write in a sentence: `Heat the oven to 180 C`")
			}
		})
	},
}

var heatsTheOven = mustCompile(`(?i)\b(preheat(ed)?( (the|your|an))?( oven)?|(heat|light|turn on|set) (the|your) oven)\b`)
