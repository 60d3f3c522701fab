package check

import (
	"slices"

	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/lang/diag"
)

var coreMissing = &Rule{
	Code: "S102", Title: "Meat that is cooked right through, and no core temperature.", Family: Safety, Severity: diag.Question,
	What:    "Raw poultry, mince, pork, liver, stuffing or a rolled or pierced joint is cooked, and no step says how hot its middle gets, or no step cooks it at all. Stocks, stews and what simmers for an hour or more are not asked about.",
	Why:     "Only a probe tells whether the middle is hot enough.",
	Fix:     "Add `core` to the step that cooks it through.",
	Sources: []string{"UK Food Standards Agency cooking guidance, as seen quoted", "FDA Food Code 2022, 3-401.11, as states adopt it", "Victoria Department of Health, advice"},
	Bad: `dish Roast chicken
  rules UK
  serves 4
  gather
    1        chicken
    20 g     butter
  method
    - Rub the chicken with the butter and roast it.
      | oven 190 C | work 5 min | leave 1 h 20 min
`,
	At: "9:9",
	Good: `dish Roast chicken
  rules UK
  serves 4
  gather
    1        chicken
    20 g     butter
  method
    - Rub the chicken with the butter and roast it.
      | oven 190 C | work 5 min | leave 1 h 20 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, c := range d.raws(hazard.Poultry, hazard.Mince, hazard.Pork, hazard.Stuffing, hazard.Rolled, hazard.Offal) {
				if cold := slices.DeleteFunc(slices.Clone(c.items), func(i *hazard.Item) bool { return i.Heated }); len(cold) > 0 {
					askUncooked(p, d, c, cold, seen)
				}
				if len(c.heated) == 0 {
					continue
				}
				if len(c.cores) > 0 || c.thorough || seen.again(heatAt(c.through())) {
					continue
				}
				r := c.ruling(d)
				l := r.Hottest()
				if l == nil {
					continue
				}
				if st, _ := c.bath(r); st != nil {
					continue // the bath says it, and S103 what is wrong with it
				}
				p.cite(p.ReportAs(softer(diag.Question, r), heatAt(c.through()), "how hot does the middle of %s get", foods(c.items)), r, l).
					WithHelp("write `| core %s` here; the figure is %s in the middle", r.Clause(l), l.Core())
			}
		}
	},
}

// askUncooked asks about raw food that a finished dish never heats.
func askUncooked(p *Pass, d *plate, c *raw, items []*hazard.Item, seen once) {
	at := items[0].Line.NameAt
	if d.recipe.Base || d.recipe.ServeHow == nil || len(d.Stages) == 0 || d.curedRaw(d.End) || d.warned(items...) || seen.again(at) {
		return // unless it says how it is served it may not be finished
	}
	r := c.ruling(d)
	l := r.Hottest()
	if l == nil {
		return
	}
	p.cite(p.ReportAs(softer(diag.Question, r), at, "no step cooks %s", foods(items)), r, l).
		WithHelp("add the step that does, with `| core %s`; if it is meant to be raw, say so in a `| caution`", r.Clause(l))
}

// raw is raw food of one kind, and the steps that put heat to it.
type raw struct {
	kind     hazard.Kind
	items    []*hazard.Item
	heated   []*hazard.Stage
	cores    []*hazard.Stage // those with `core`
	thorough bool
	oven     bool
	kept     bool // it is chilled, or waits, after it is cooked
}

// through is the step that cooks it through: the longest of those that heat it, the last of
// several that are as long. What is reduced or thickened when the meat is done asks nothing.
func (c *raw) through() *hazard.Stage {
	out := c.heated[0]
	for _, st := range c.heated {
		if st.Time >= out.Time {
			out = st
		}
	}
	return out
}

// raws are the raw foods of some kinds that this recipe takes, one entry a kind.
// Bones for stock and thin cured meat are left out: nobody probes them.
func (d *plate) raws(kinds ...hazard.Kind) (out []*raw) {
	for _, k := range kinds {
		var items []*hazard.Item
		for _, i := range d.End.Items {
			if i.Is(k) && !i.IsKind("bones") && !i.IsKind("cured") && !i.Before {
				items = append(items, i)
			}
		}
		if len(items) == 0 {
			continue
		}
		c := &raw{kind: k, items: items}
		for _, st := range d.Stages {
			if !st.After.Contains(c.items) {
				continue
			}
			if st.Heats {
				done := c.thorough // what was braised for hours is cooked: what comes after brings it back
				c.heated = append(c.heated, st)
				c.thorough = c.thorough || st.Thorough()
				c.oven = c.oven || len(st.Step.Heats) > 0
				if st.Step.Core != nil && st.Step.Core.Temp != nil && !done {
					c.cores = append(c.cores, st)
				}
			} else if len(c.heated) > 0 && st.Chills {
				c.kept = true
			}
		}
		out = append(out, c)
	}
	return out
}

// ruling is what rules for cooking it.
func (c *raw) ruling(d *plate) practice.Ruling {
	food := []string{string(c.kind)}
	if c.kind == hazard.Egg && c.kept {
		food = []string{"egg held", "egg"}
	}
	r := d.choice.Rule("cook", food...)
	if c.kind == hazard.Pork && c.oven && r.Basis == practice.Named {
		if roast := d.choice.Rule("cook", "roast"); roast.Basis == practice.Named && len(roast.Sets) > 0 && len(r.Sets) > 0 {
			r.Sets[0] = append(r.Sets[0], roast.Sets[0]...)
		}
	}
	return r
}
