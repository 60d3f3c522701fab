package check

import (
	"slices"
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/lang/diag"
)

var uncooled = &Rule{
	Code: "S108", Title: "Cooked food put away without a step that cools it.", Family: Safety, Severity: diag.Warning,
	What:    "Cooked food goes into the fridge or the freezer for a `pause` or a `stand`, and no step before it cools it. Where it only `keeps` there, this is a hint.",
	Why:     "A pot put away hot stays warm in the middle for hours, and warms what stands beside it; a pause invents no work.",
	Fix:     "Write the cooling as a step: shallow pans, iced water, how long, and `reach` with the degrees.",
	Sources: []string{"UK local-authority guidance", "FDA Food Code 2022, 3-501.14, as states adopt it", "the Tamis notation, 2.14"},
	Bad: `dish Chicken pot
  rules UK
  serves 4
  gather
    800 g    chicken thighs
    500 ml   water
  method
    - Simmer the chicken thighs in the water.
      | ring low | leave 45 min | core 75 C
    pause up to 1 day, fridge
    - Bring back to the boil.
      | ring medium | watch 10 min | core 75 C
`,
	At: "10:5",
	Good: `dish Chicken pot
  rules UK
  serves 4
  gather
    800 g    chicken thighs
    500 ml   water
  method
    - Simmer the chicken thighs in the water.
      | ring low | leave 45 min | core 75 C
    - Stand the pot in iced water until cold.
      | work 5 min | leave 1 h | reach 8 C
    pause up to 1 day, fridge
    - Bring back to the boil.
      | ring medium | watch 10 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, s := range d.stays() {
				if s.place != "fridge" && s.place != "freezer" || s.pot.Warmth != hazard.Hot || !s.pot.Cooked || !s.pot.Grows() || s.pot.Baked() || plainFat(s, d) || d.coolsLater(s) || seen.again(s.at) {
					continue
				}
				r := d.choice.Rule("cool", "first", "all")
				way, by := d.choice.Cooling()
				severity := diag.Warning
				if s.keeps {
					severity = diag.Hint
				}
				found := p.ReportAs(severity, s.at, "no step cools %s before the %s", theFood(s), s.place)
				p.cite(found, r, by[0]).WithHelp("write a step before it: `- Cool in shallow pans in iced water. | work 5 min | leave 1 h | reach %s`; the figure is %s", coldClause(r), way)
				if from := s.pot.From; from != nil {
					found.See(wordsAt(from), "it was last heated here")
				}
			}
			for _, st := range d.Stages {
				if said := st.SaidBy("cold place"); d.putsAwayHot(st) && said != "" && !seen.again(saidAt(st.Step, said)) {
					way, by := d.choice.Cooling()
					p.cite(p.Report(saidAt(st.Step, said), "what is hot goes into the cold, and no step cools it first"), d.choice.Rule("cool", "first", "all"), by[0]).
						WithHelp("cool it in shallow pans in iced water first; the figure is %s", way)
				}
			}
		}
	},
}

// coldClause is how cold chilled food is kept by a practice, as a margin has it:
// "8 C", "41 F". Where no rules say, the lowest figure is the safer advice.
func coldClause(r practice.Ruling) string {
	if l := r.Choice.Rule("cold hold", "any").Coldest(); l != nil {
		return r.ClauseBelow(l)
	}
	return "5 C"
}

// putsAwayHot tells whether the words of a step put cooked food into the fridge or freezer
// while it is hot.
func (d *plate) putsAwayHot(st *hazard.Stage) bool {
	if st.Cools || st.Step.Place != "" || !st.Says("hot", "straight", "straightaway", "immediately", "at once", "steaming", "still warm", "lid on") || !st.After.Cooked || !st.After.Grows() || st.After.Baked() {
		return false
	}
	return st.PutsAway() || !st.Heats && st.Before.Warmth == hazard.Hot && st.Before.Cooked && st.Tells("cold place")
}

// coolsLater tells whether a stay is that of a by-product, and a later step names it and cools
// it: what keeps is kept from there.
func (d *plate) coolsLater(s stay) bool {
	if !s.keeps || s.n >= len(d.Stages) {
		return false
	}
	for _, m := range d.Stages[s.n].Step.Makes {
		words := strings.Fields(strings.ToLower(m.Name))
		if len(words) == 0 {
			continue
		}
		last := words[len(words)-1]
		if slices.ContainsFunc(d.Stages[s.n+1:], func(st *hazard.Stage) bool { return st.Cools && st.Says(last, larder.Singular(last)) }) {
			return true
		}
	}
	return false
}
