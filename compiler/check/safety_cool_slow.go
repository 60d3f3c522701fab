package check

import (
	"fmt"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var coolSlow = &Rule{
	Code: "S109", Title: "Cooling that takes too long.", Family: Safety, Severity: diag.Warning,
	What:    "A step that cools cooked food takes longer than the rules allow. Without a `reach` the step is taken to end at room temperature.",
	Why:     "Between hot and cold germs grow fast, so the way down is to be short.",
	Fix:     "Cool it faster: shallow pans, iced water, smaller pieces; and write the time that this takes.",
	Sources: []string{"UK local-authority guidance", "FDA Food Code 2022, 3-501.14(A), as states adopt it", "Australia New Zealand Food Standards Code, Standard 3.2.2 clause 7(3), as seen quoted", "French order of 21 December 2009, Annex IV, as seen quoted"},
	Bad: `base Veal stock
  rules UK
  makes 2 litres
  gather
    2 kg     veal bones
    3 litres water
  method
    - Simmer the veal bones in the water.
      | ring low | leave 4 h
    - Strain and leave to cool.
      | work 10 min | leave 3 h
`,
	At: "11:23",
	Good: `base Veal stock
  rules UK
  makes 2 litres
  gather
    2 kg     veal bones
    3 litres water
  method
    - Simmer the veal bones in the water.
      | ring low | leave 4 h
    - Strain and cool in shallow pans in iced water.
      | work 10 min | leave 1 h | reach 8 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				c := st.Spell(resolve.WordLeave, resolve.WordRest, resolve.WordStand, resolve.WordWatch)
				if c == nil || !st.Cooling() || cures(st) || seen.again(c.Span) {
					continue
				}
				foods := coolFoods(st)
				r := d.choice.Rule("cool", foods...)
				l := r.Shortest()
				took := idle(st)
				limit := l.Time
				if foods[0] == "all" {
					limit = both(r, l)
				}
				if took <= limit {
					continue
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), c.Span, "this cools for %s; the figure is %s", lengthOf(took), coolText(l)), r, l).
					WithHelp("spread it in shallow pans, or stand it in iced water and stir; write the time that takes, and `reach` with the degrees")
			}
		}
	},
}

// coolFoods is what the limits of cooling tell apart: the way to room
// temperature, and all the way down.
func coolFoods(st *hazard.Stage) []string {
	foods := []string{"first", "all"}
	if c, said := st.Step.Reach.Celsius(); said && c < 20 || st.Step.Place == "fridge" || st.Step.Place == "freezer" {
		foods = []string{"all", "first"}
	}
	if st.Before.Rice() {
		foods = append([]string{"rice"}, foods...)
	}
	return foods
}

// both is the limit of the whole way down where a practice sets it in two
// stages, each with its own time.
func both(r practice.Ruling, l *practice.Limit) time.Duration {
	if len(l.Foods) == 1 && l.Foods[0] == "first" {
		if second := practice.Choose(l.Practice).Rule("cool", "second"); second.Basis == practice.Named {
			return l.Time + second.Shortest().Time
		}
	}
	return l.Time
}

// idle is the time of a step in which nobody works on it, and the hands-on time
// when there is no other.
func idle(st *hazard.Stage) (d time.Duration) {
	for _, s := range st.Step.Phases {
		if s.Fixed != nil && s.Kind != "work" {
			d += s.Fixed.High
		}
	}
	return d
}

// coolText is a limit of cooling in print.
func coolText(l *practice.Limit) string {
	if l.C.Set {
		return fmt.Sprintf("%s within %s", l.Span(), l.Length())
	}
	return "into the fridge within " + l.Length()
}
