package check

import (
	"slices"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var orderOfUse = &Rule{
	Code: "U301", Title: "Listed far from where it is used.", Family: Names, Severity: diag.Hint,
	What: "A line stands before at least three others of its list that go in two steps or more ahead of it, or after three that go in so much later. Lists in percentages begin with the flour and are passed over.",
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
		worst, most, before := outOfPlace(r, first)
		if worst == nil {
			continue
		}
		where, move := "before", "down"
		if !before {
			where, move = "behind", "up"
		}
		step := first[worst]
		p.Report(worst.Span, "%s stands %s %d lines that go in %s, and is used in step %d", worst.Name, where, most,
			map[bool]string{true: "well ahead of it", false: "well after it"}[before], step.Index+1).
			See(step.Span, "first used here").
			WithHelp("move the line %s to where it is first used", move)
	}
}

// outOfPlace is the line that stands before, or behind, the most others that go
// in so much earlier, or later; nil if none does.
func outOfPlace(r *resolve.Recipe, first map[*resolve.Line]*resolve.Step) (worst *resolve.Line, most int, before bool) {
	type list struct {
		sub    *resolve.SubList
		option *resolve.Option
	}
	lists := map[list][]*resolve.Line{}
	for _, l := range r.Lines {
		if placed(r, l, first) {
			lists[list{l.Sub, l.Option}] = append(lists[list{l.Sub, l.Option}], l)
		}
	}
	early, late := map[*resolve.Line]int{}, map[*resolve.Line]int{} // others that stand on the wrong side of it
	for _, lines := range lists {
		seen := make(tally, len(r.Steps)+1)
		for k, l := range lines {
			late[l] = k - seen.below(first[l].Index+stepsOutOfPlace)
			seen.add(first[l].Index)
		}
		clear(seen)
		for _, l := range slices.Backward(lines) {
			early[l] = seen.below(first[l].Index - stepsOutOfPlace + 1)
			seen.add(first[l].Index)
		}
	}
	most = linesOutOfPlace - 1
	for _, l := range r.Lines {
		if n := max(early[l], late[l]); n > most {
			worst, most, before = l, n, early[l] >= late[l]
		}
	}
	return worst, most, before
}

// tally counts numbers from 0 on, and how many of them are below one: a Fenwick
// tree.
type tally []int

func (t tally) add(n int) {
	for i := n + 1; i < len(t); i += i & -i {
		t[i]++
	}
}

func (t tally) below(n int) (sum int) {
	for i := min(n, len(t)-1); i > 0; i -= i & -i {
		sum += t[i]
	}
	return sum
}

// placed tells whether a line takes part in the order of a list.
func placed(r *resolve.Recipe, l *resolve.Line, first map[*resolve.Line]*resolve.Step) bool {
	return first[l] != nil && !l.ToTaste && !l.Serving && ownLine(r, l)
}
