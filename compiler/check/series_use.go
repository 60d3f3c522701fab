package check

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// carriedFromNowhere finds lines made in a part that comes too late, or that
// does not make them.
var carriedFromNowhere = &Rule{
	Code: "M112", Title: "Used in a part before it is made.", Family: Menu, Severity: diag.Warning,
	What:    "A line is `made in part 2`, and the part that shows its dish is no later than that; or part 2 is not there, or does not make it.",
	Why:     "On the day there is none of it.",
	Fix:     "Correct the number of the part, show it in an earlier part with `shows`, or take the clause out: then it is made for this dish.",
	Bad:     lessons("part 1 Broth", "part 2 Soup", "made in part 2"),
	At:      "29:37",
	Good:    lessons("part 1 Broth", "part 2 Soup", "made in part 1"),
	Sources: []string{"common practice, no source"},
	After:   Demanded,
	Whole:   true,
	Check: func(p *Pass) {
		for _, s := range p.Series {
			said := once{}
			for _, part := range s.Parts {
				for _, m := range part.Meal.Makings {
					p.carriedLines(s, part, m, said)
				}
			}
			if s.Meal != nil {
				for _, m := range s.Meal.Makings {
					p.carriedLines(s, nil, m, said)
				}
			}
		}
	},
}

// carriedLines looks at the lines of a making that come from a part; part is
// nil for the meal itself, which is cooked after all parts.
func (p *Pass) carriedLines(s *demand.Series, part *demand.Part, m *demand.Making, said once) {
	for _, a := range m.Lines {
		l := a.Line
		if l.InPart == 0 {
			continue
		}
		from := partNumbered(s, l.InPart)
		at := l.InPartAt
		switch {
		case from == nil:
			if !said.again(at) {
				p.Report(at, "there is no part %d in %s", l.InPart, s.Of.Name).See(s.Of.NameAt, "the series")
			}
		case part != nil && from.Of.Number >= part.Of.Number:
			if !said.again(at) {
				p.Report(at, "part %d uses %s, which is made in part %d", part.Of.Number, l.Name, l.InPart).
					See(part.Of.NameAt, "%s is shown or stands ready in this part", m.Recipe.Name).
					WithHelp("show it in an earlier part, or take `made in part %d` out: then it is made for this dish", l.InPart)
			}
		case !makesThing(from, l):
			if !said.again(at) {
				p.Report(at, "part %d does not make %s", l.InPart, l.Name).
					See(from.Of.NameAt, "this part").
					WithHelp("write `shows %s` in it", l.Name)
			}
		}
	}
}

func partNumbered(s *demand.Series, n int) *demand.Part {
	for _, p := range s.Parts {
		if p.Of.Number == n {
			return p
		}
	}
	return nil
}

// makesThing tells whether a part makes what a line names.
func makesThing(p *demand.Part, l *resolve.Line) bool {
	key := l.Key
	if i := strings.LastIndexByte(l.Name, '/'); i >= 0 {
		key = larder.Fold(l.Name[i+1:])
	}
	for _, m := range p.Meal.Makings {
		if m.StandIn != nil {
			continue
		}
		if m.Recipe.Key == key {
			return true
		}
		for _, pr := range m.Recipe.Products {
			if pr.Key == key {
				return true
			}
		}
	}
	return false
}

// lessons is a series of two parts, a broth and a soup made of it.
func lessons(broth, soup, carried string) string {
	return `series Two evenings
  ` + broth + `
    shows Root broth
    date 2027-03-04
  ` + soup + `
    shows Leek soup
    date 2027-03-06
larder
  units metric
base Root broth
  makes 2 litres
  keeps 3 days, fridge
  gather
    1 kg     carrots
    2 litres water
  method
    - Simmer the carrots in the water, and strain.
      | ring low | work 5 min | leave 1 h
    - Cool in iced water.
      | work 5 min | leave 45 min
dish Leek soup
  serves 4
  rules UK
  gather
    600 g    leeks
    40 g     butter
    4 g      salt
    100 ml   single cream
    800 ml   root broth           | ` + carried + `
  method
    - Soften the leeks in the butter with the salt.
      | ring low | work 5 min | leave 15 min
    - Pour in the root broth and the cream, and heat through.
      | ring medium | work 2 min | leave 10 min | core 75 C
  serve hot, within 10 min
`
}
