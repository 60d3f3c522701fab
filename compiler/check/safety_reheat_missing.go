package check

import (
	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/lang/diag"
)

var reheatMissing = &Rule{
	Code: "S105", Title: "Brought back to heat without a core temperature.", Family: Safety, Severity: diag.Question,
	What:    "Food that was cooked and chilled is heated again, and no step says how hot its middle gets. What is brought to the boil is not asked about.",
	Why:     "Food that has stood is only made as good as new by heat right through.",
	Fix:     "Add `core` to the step that heats it.",
	Sources: []string{"UK Food Standards Agency cooking guidance, as seen quoted", "Food Hygiene (Scotland) Regulations 2006 Sch. 4 para 3", "FDA Food Code 2022, 3-403.11(A), as states adopt it"},
	Bad: `dish Beef stew
  rules UK
  serves 4
  gather
    800 g    braising beef
    500 ml   water
  method
    - Simmer the beef in the water until tender.
      | ring low | leave 2 h 30 min
    - Spread in shallow trays and cool in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat through, stirring.
      | ring medium | watch 10 min
`,
	At: "14:9",
	Good: `dish Beef stew
  rules UK
  serves 4
  gather
    800 g    braising beef
    500 ml   water
  method
    - Simmer the beef in the water until tender.
      | ring low | leave 2 h 30 min
    - Spread in shallow trays and cool in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat through, stirring.
      | ring medium | watch 10 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for i, st := range d.Stages {
				if !st.Warms || !recooked(st) || st.Boils() || d.laterCore(i) != nil || seen.again(heatAt(st)) {
					continue
				}
				r, atHome := d.reheatRule(i)
				if len(r.Sets) == 0 {
					continue
				}
				l := r.Hottest()
				p.citeReheat(p.ReportAs(softer(diag.Question, r), heatAt(st), "this brings back what was chilled: how hot does the middle get"), r, l, atHome).
					WithHelp("write `| core %s` here; the figure is %s in the middle", r.Clause(l), l.Core())
			}
		}
	},
}

// recooked tells whether what a step brings back was cooked in this recipe or
// comes cooked with meat, fish, egg, dairy or rice in it. Vegetables out of a
// base go into a dish that is cooked itself.
func recooked(st *hazard.Stage) bool {
	if st.Before.Strong() {
		for _, i := range st.Before.Items {
			if i.Strong && (i.Leftover || i.Heated) {
				return true
			}
		}
	}
	for _, i := range st.Before.Items {
		if i.Plant && i.Base == nil && !i.Leftover {
			return true
		}
	}
	return false
}

// laterCore is the hottest `core` from a stage on, before the food is chilled
// again; nil when there is none.
func (d *plate) laterCore(from int) (best *hazard.Stage) {
	hottest := 0
	for i, st := range d.Stages[from:] {
		if i > 0 && st.Pause != nil {
			break
		}
		if c, said := st.Step.Core.Celsius(); said && st.Heats && (best == nil || c >= hottest) {
			best, hottest = st, c
		}
	}
	return best
}

// reheatRule is the figure for bringing food back at a step, and whether it is that for homes.
// The FDA Food Code has none for a plate that is served at once to one customer (3-403.10);
// a pot for a table is no such plate, and has the figure of leftovers at home.
func (d *plate) reheatRule(from int) (r practice.Ruling, atHome bool) {
	r = d.choice.Rule("reheat", d.reheatFoods(from)...)
	if len(r.Sets) > 0 || d.onePlate() {
		return r, false
	}
	return practice.Choose("US home").Rule("reheat", "any"), true
}

// onePlate tells whether the recipe is for one who eats, by its written size.
func (d *plate) onePlate() bool {
	s := d.recipe.Serves
	return s != nil && s.High.Float() <= 1
}

// citeReheat is cite, and says where a figure for homes stands in.
func (p *Pass) citeReheat(f *diag.Diagnostic, r practice.Ruling, l *practice.Limit, atHome bool) *diag.Diagnostic {
	if !atHome {
		return p.cite(f, r, l)
	}
	return f.Because("%s The figure is that of leftovers at home: %s. The FDA Food Code 2022 asks for it where food is held hot (3-403.11), and has none for a plate served at once to one customer (3-403.10). %s", p.rule.Why, l.Credit(), comeFirst)
}

// reheatFoods is what the limits of bringing back tell apart: food to be held
// hot, and food served at once.
func (d *plate) reheatFoods(from int) []string {
	for _, st := range d.Stages[from:] {
		if state, _ := hazard.HoldsFor(st.Step); state == "hot" {
			return []string{"held", "any"}
		}
	}
	return []string{"served at once", "any", "held"}
}
