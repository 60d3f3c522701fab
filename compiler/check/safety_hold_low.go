package check

import "tamis/lang/diag"

var holdLow = &Rule{
	Code: "S112", Title: "Held hot below the limit.", Family: Safety, Severity: diag.Warning,
	What:    "`hold hot` names degrees below those that the rules ask for.",
	Why:     "Below the limit germs begin to grow in food that waits.",
	Fix:     "Raise the degrees after `above`.",
	Sources: []string{"Food Safety and Hygiene (England) Regulations 2013 Sch. 4; Food Hygiene (Wales) Regulations 2006 Sch. 4 para 6", "FDA Food Code 2022, 3-501.16(A)(1), as states adopt it", "Australia New Zealand Food Standards Code, Standard 3.2.2"},
	Bad: `dish Lamb pot
  rules UK
  serves 4
  gather
    800 g    lamb shoulder
    500 ml   water
  method
    - Simmer the lamb in the water until tender.
      | ring low | leave 2 h | hold hot up to 1 h, above 55 C
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
				if c == nil || c.State != "hot" || c.Temp == nil || !st.After.Grows() || st.After.Baked() {
					continue
				}
				r := d.choice.Rule("hot hold", "any")
				l := r.Short(*c.Temp, 0)
				if c.Bound == "below" {
					l = r.Hottest()
				}
				if l == nil || seen.again(c.Span) {
					continue
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), c.Span, "food that is held hot is kept at %s or above", l.Degrees()), r, l).
					WithHelp("write `hold hot up to %s, above %s`", c.UpTo, r.Clause(l))
			}
		}
	},
}
