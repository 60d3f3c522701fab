package check

import (
	"time"

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
				at, ok := d.thawsWarm(st)
				food := st.After
				if !food.Strong() {
					food = d.frozenYet(st)
				}
				if !ok || !food.Strong() || seen.again(at) {
					continue
				}
				p.Report(at, "thaw %s in the fridge, not in the warm", strongName(food)).
					Because("%s A refrigerator at 5 °C or below, or running water no warmer than 21 °C, are the ways seen (FDA Food Code 2022 3-501.13, as states adopt it). %s", p.rule.Why, comeFirst).
					WithHelp("write `thaw 1 day, fridge`, or longer for a large piece")
			}
		}
	},
}

// thawsWarm is the place where a step thaws something out of the cold.
func (d *plate) thawsWarm(st *hazard.Stage) (span, bool) {
	if c := st.Spell(resolve.WordThaw); c != nil {
		return c.Span, c.Place != "fridge" && c.Place != "freezer" || st.Tells("warm water")
	}
	frozen := st.After.Totals.Frozen || d.frozenYet(st).Strong()
	if st.Heats && (!st.Tells("thaw") || st.Tells("from frozen")) || !frozen && (!st.Tells("thaw") || !touchedRaw(st)) {
		return span{}, false
	}
	at := saidAt(st.Step, st.SaidBy("thaw", "warm water", "warm place"))
	if st.Tells("warm water", "dry heat thaw") && (frozen || st.Tells("thaw")) {
		return at, true
	}
	if st.Chills || st.Tells("cold place") || st.Says("cold water", "running water", "cold running water", "cold tap") {
		return span{}, false
	}
	_, long := d.waitsFor(st)
	return at, (st.Tells("warm place") || st.Tells("overnight") || long >= 2*time.Hour) && !d.heatedBefore(st)
}

// frozenYet is what comes frozen and what no step before has named, where a step names no food in which
// germs grow: "stand the bag in hot water".
func (d *plate) frozenYet(st *hazard.Stage) (p hazard.Pot) {
	if st.After.Strong() {
		return p
	}
	for _, i := range d.End.Items {
		if i.Frozen && i.Strong && i.Since() > st.N {
			p.Items = append(p.Items, i)
		}
	}
	return p
}

// heatedBefore tells whether a step before one heats anything.
func (d *plate) heatedBefore(st *hazard.Stage) bool {
	for _, o := range d.Stages {
		if o == st {
			return false
		}
		if o.Heats {
			return true
		}
	}
	return false
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
