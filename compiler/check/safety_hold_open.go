package check

import (
	"tamis/lang/diag"
)

var holdOpen = &Rule{
	Code: "S113", Title: "Held hot, and no degrees said.", Family: Safety, Severity: diag.Hint,
	What:    "Food waits hot for more than half an hour, and the margin does not say above how many degrees.",
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
				if c == nil || c.State != "hot" || c.Temp != nil || longestOf(c.UpTo) <= halfHour || !st.After.Grows() || st.After.Baked() || seen.again(c.Span) {
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
