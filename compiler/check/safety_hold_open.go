package check

import (
	"slices"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var holdOpen = &Rule{
	Code: "S113", Title: "Held hot, and no degrees said.", Family: Safety, Severity: diag.Hint,
	What:    "Food waits hot or warm for more than half an hour, by its margin or its sentence, and nothing says above how many degrees.",
	Why:     "Whoever fills the hot cupboard sets it by this figure.",
	Fix:     "Write the degrees: `hold hot up to 1 h, above 63 C`.",
	Sources: []string{"Food Safety and Hygiene (England) Regulations 2013 Sch. 4", "FDA Food Code 2022, 3-501.16(A)(1), as states adopt it"},
	Bad: `dish Lamb pot
  rules UK
  serves 4
  gather
    800 g    lamb shoulder
    500 ml   water
  method
    - Simmer the lamb in the water until tender.
      | ring low | leave 2 h | hold hot up to 1 h
`,
	At: "9:32",
	Good: `dish Lamb pot
  rules UK
  serves 4
  gather
    800 g    lamb shoulder
    500 ml   water
  method
    - Simmer the lamb in the water until tender.
      | ring low | leave 2 h | hold hot up to 1 h, above 63 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				c := st.Step.Hold
				if c == nil {
					d.heldBySentence(p, st, seen)
					continue
				}
				if c.State == "cold" || c.State != "hot" && (d.heatsLater(st) || st.After.Rice()) || // S116 speaks of rice
					c.Temp != nil || longestOf(c.UpTo) <= halfHour || !st.After.Grows() || st.After.Baked() || seen.again(c.Span) {
					continue
				}
				r := d.choice.Rule("hot hold", "any")
				l := r.Hottest()
				p.cite(p.Report(c.Span, "this does not say how hot"), r, l).
					WithHelp("write `%s, above %s`", c.Span.Text(), r.Clause(l))
			}
		}
	},
}

// heldBySentence asks for the degrees at which a sentence keeps food warm for long.
func (d *plate) heldBySentence(p *Pass, st *hazard.Stage, seen once) {
	said := st.SaidBy("held warm")
	long := st.Tells("all day", "till a meal", "overnight") || max(st.SaidTime(), st.Time) > halfHour
	if said == "" || !long || st.Step.Core != nil || st.Before.Warmth != hazard.Hot || !st.Before.Cooked || !st.After.Grows() || st.After.Baked() || st.Cools || st.Chills {
		return
	}
	r := d.choice.Rule("hot hold", "any")
	l := r.Hottest()
	if at := saidAt(st.Step, said); l != nil && !seen.again(at) && !st.Warm(int(l.C.From)) {
		p.cite(p.Report(at, "this does not say how hot"), r, l).WithHelp("write `hold hot up to 2 h, above %s`", r.Clause(l))
	}
}

// heatsLater tells whether a step behind one puts heat to the food.
func (d *plate) heatsLater(st *hazard.Stage) bool {
	return slices.ContainsFunc(d.Stages[st.N+1:], func(o *hazard.Stage) bool { return o.Heats })
}
