package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var orderOfUse = &Rule{
	Code: "U301", Title: "listed far from where it is used", Family: Names, Severity: diag.Hint,
	What: "A line stands before at least three others of its list that go in two steps or more ahead of it, or behind three that go in so much later. Lists in percentages begin with the flour and are passed over.",
	Why:  "A cook reads the list and the method side by side, and sets things out in this order.",
	Fix:  "Move the line to where it is first used.",
	Bad: `dish Barley broth
  serves 4
  gather
    20 g     parsley, chopped
    20 g     butter
    200 g    leeks, sliced
    200 g    pearl barley
    1 litre  vegetable stock
  method
    - Soften the leeks in the butter. | work 10 min
    - Stir in the barley, pour on the stock and simmer. | leave 40 min
    - Take off the heat and let it stand. | leave 5 min
    - Scatter with the parsley. | work 1 min
`,
	At: "4:5",
	Good: `dish Barley broth
  serves 4
  gather
    20 g     butter
    200 g    leeks, sliced
    200 g    pearl barley
    1 litre  vegetable stock
    20 g     parsley, chopped
  method
    - Soften the leeks in the butter. | work 10 min
    - Stir in the barley, pour on the stock and simmer. | leave 40 min
    - Take off the heat and let it stand. | leave 5 min
    - Scatter with the parsley. | work 1 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkOrderOfUse,
}

// How many lines, and how many steps, out of its place a line must be.
const (
	linesOutOfPlace = 3
	stepsOutOfPlace = 2
)

func checkOrderOfUse(p *Pass) {
	for _, r := range p.Recipes() {
		if len(r.PercentOf) > 0 {
			continue
		}
		first := firstUses(p.readings(r))
		var worst *resolve.Line
		most, before := linesOutOfPlace-1, false
		for i, l := range r.Lines {
			if !placed(r, l, first) {
				continue
			}
			early, late := 0, 0 // others that stand on the wrong side of it
			for j, o := range r.Lines {
				if o.Sub != l.Sub || o.Option != l.Option || !placed(r, o, first) {
					continue
				}
				gap := first[l].Index - first[o].Index
				if j > i && gap >= stepsOutOfPlace {
					early++
				}
				if j < i && -gap >= stepsOutOfPlace {
					late++
				}
			}
			if n := max(early, late); n > most {
				worst, most, before = l, n, early >= late
			}
		}
		if worst == nil {
			continue
		}
		where, move := "before", "down"
		if !before {
			where, move = "behind", "up"
		}
		step := first[worst]
		p.Report(worst.AST.Pos(), "%s stands %s %d lines that go in %s, and is used in step %d", worst.Name, where, most,
			map[bool]string{true: "well ahead of it", false: "well after it"}[before], step.Index+1).
			See(step.AST.Pos(), "first used here").
			WithHelp("move the line %s to where it is first used", move)
	}
}

// placed tells whether a line takes part in the order of a list.
func placed(r *resolve.Recipe, l *resolve.Line, first map[*resolve.Line]*resolve.Step) bool {
	return first[l] != nil && first[l].AST != nil && !l.ToTaste && !l.Serving && ownLine(r, l)
}
