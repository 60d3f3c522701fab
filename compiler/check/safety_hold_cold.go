package check

import (
	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

var holdCold = &Rule{
	Code: "S141", Title: "Held cold above the limit.", Family: Safety, Severity: diag.Warning,
	What:    "`hold cold` allows more degrees than the rules do, or says `above` where cold food has to stay below.",
	Why:     "Above the limit germs begin to grow in food that waits.",
	Fix:     "Lower the degrees after `below`.",
	Sources: []string{"Food Safety and Hygiene (England) Regulations 2013 Sch. 4", "FDA Food Code 2022, 3-501.16(A)(2), as states adopt it", "Australia New Zealand Food Standards Code, Standard 3.2.2"},
	Bad: `dish Prawn cups
  rules UK
  serves 4
  gather
    300 g    cooked prawns
    100 ml   mayonnaise
  method
    - Stir the prawns into the mayonnaise.
      | work 5 min | hold cold up to 1 h, below 15 C
`,
	At: "9:22",
	Good: `dish Prawn cups
  rules UK
  serves 4
  gather
    300 g    cooked prawns
    100 ml   mayonnaise
  method
    - Stir the prawns into the mayonnaise.
      | work 5 min | hold cold up to 1 h, below 8 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				c := st.Step.Hold
				if c == nil || c.State != "cold" || c.Temp == nil || !st.After.Grows() || st.After.Baked() {
					continue
				}
				r := d.choice.Rule("cold hold", "any")
				l := r.Coldest()
				if l == nil || c.Bound != "above" && float64(c.Temp.To(quantity.Celsius).High) <= l.C.To || seen.again(c.Span) {
					continue
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), c.Span, "food that waits cold is kept at %s or below", l.End()), r, l).
					WithHelp("write `hold cold up to %s, below %s`", c.UpTo, r.ClauseBelow(l))
			}
		}
	},
}

var frozenIn = &Rule{
	Code: "S142", Title: "Out of the freezer, and nothing thaws it.", Family: Safety, Severity: diag.Hint,
	What:    "A dish takes a base that keeps in the freezer, with meat, fish, eggs, dairy, rice or cooked vegetables in it, and no step thaws it or says that it goes in frozen.",
	Why:     "A frozen block keeps the middle of a dish cold long after its edge boils; thawed in the warm, its outside stands for hours.",
	Fix:     "Write the thawing as a step, `| thaw 12 h, fridge`, or say in the sentence that it goes in from frozen.",
	Sources: []string{"FDA Food Code 2022, 3-501.13, as states adopt it", noSource},
	Bad: `dish Carrot soup
  rules UK
  serves 4
  gather
    1 litre  brown stock
    400 g    carrots
  method
    - Simmer the carrots in the brown stock, covered.
      | ring low | leave 20 min

base Brown stock
  rules UK
  makes 1 litre
  keeps 12 weeks, freezer
  gather
    1 kg     beef bones
    2 litres water
  method
    - Simmer the bones in the water, uncovered.
      | ring low | leave 4 h
    - Cool in iced water.
      | work 5 min | leave 1 h | reach 8 C
`,
	At: "5:14",
	Good: `dish Carrot soup
  rules UK
  serves 4
  gather
    1 litre  brown stock
    400 g    carrots
  method
    - Thaw the brown stock.
      | thaw 12 h, fridge
    - Simmer the carrots in the stock, covered.
      | ring low | leave 20 min

base Brown stock
  rules UK
  makes 1 litre
  keeps 12 weeks, freezer
  gather
    1 kg     beef bones
    2 litres water
  method
    - Simmer the bones in the water, uncovered.
      | ring low | leave 4 h
    - Cool in iced water.
      | work 5 min | leave 1 h | reach 8 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				for _, i := range st.Taken {
					l := i.Line
					if l.From == nil || l.From.Keeps == nil || l.From.Keeps.Place != "freezer" || !i.Strong && !i.Plant || hazard.IsFat(l.Name) || d.thaws(i) || seen.again(l.NameAt) {
						continue
					}
					p.common(p.Report(l.NameAt, "%s keeps in the freezer, and no step thaws it", l.Name)).
						WithHelp("write a step before it: `- Thaw the %s. | thaw 12 h, fridge`, or say `from frozen` where it goes in", l.Name)
				}
			}
		}
	},
}

// thaws tells whether a step thaws a thing, or says that it is frozen where it
// goes in.
func (d *plate) thaws(i *hazard.Item) bool {
	for _, st := range d.Stages {
		if st.After.Contains([]*hazard.Item{i}) && (st.Clause(resolve.WordThaw) != nil || st.Says("thaw", "thawed", "defrost", "defrosted", "frozen", "from the freezer", "ice-cold")) {
			return true
		}
	}
	return false
}
