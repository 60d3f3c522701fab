package check

import (
	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var thawWarm = &Rule{
	Code: "S136", Title: "Meat or fish thawed in the warm.", Family: Safety, Severity: diag.Warning,
	What:    "Meat, fish, eggs, dairy or rice thaws in the room, the larder or a warm place.",
	Why:     "The outside is warm for hours while the middle is still ice.",
	Fix:     "Thaw it in the fridge, on a tray, and allow the time that this takes.",
	Sources: []string{"FDA Food Code 2022, 3-501.13, as states adopt it"},
	Bad: `dish Roast turkey crown
  serves 8
  gather
    2.5 kg   turkey crown
    40 g     butter
  method
    - Thaw the turkey crown.
      | thaw 12 h, room
    - Rub with the butter and roast.
      | oven 180 C | work 5 min | leave 1 h 45 min | core 75 C
`,
	At: "8:9",
	Good: `dish Roast turkey crown
  serves 8
  gather
    2.5 kg   turkey crown
    40 g     butter
  method
    - Thaw the turkey crown.
      | thaw 2 days, fridge
    - Rub with the butter and roast.
      | oven 180 C | work 5 min | leave 1 h 45 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				at, ok := thawsWarm(st)
				if !ok || !st.After.Strong() || seen.again(at) {
					continue
				}
				p.Report(at, "thaw %s in the fridge, not in the warm", strongName(st.After)).
					Because("%s A refrigerator at 5 °C or below, or running water no warmer than 21 °C, are the ways seen (FDA Food Code 2022 3-501.13, as states adopt it). %s", p.rule.Why, comeFirst).
					WithHelp("write `thaw 1 day, fridge`, or longer for a large piece")
			}
		}
	},
}

// thawsWarm is the place where a step thaws something out of the cold.
func thawsWarm(st *hazard.Stage) (span, bool) {
	if c := st.Spell(resolve.WordThaw); c != nil {
		return c.Span, c.Place != "fridge" && c.Place != "freezer"
	}
	if st.Says("thaw", "defrost") && st.Says("room temperature", "on the counter", "on the worktop", "overnight on the side", "hot water", "warm water", "by the stove", "airing cupboard") {
		return saidAt(st.Step, "thaw", "defrost"), true
	}
	return span{}, false
}

// strongName names the first thing in a pot in which germs grow fast.
func strongName(pot hazard.Pot) string {
	for _, i := range pot.Items {
		if i.Strong {
			return "the " + i.Line.Name
		}
	}
	return "this"
}
