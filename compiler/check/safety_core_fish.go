package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var coreFish = &Rule{
	Code: "S104", Title: "Fish or an egg dish without a core temperature.", Family: Safety, Severity: diag.Hint,
	What:    "Fish, or a dish that eggs set, is cooked and no step says how hot its middle gets. Baking with flour and eggs boiled in their shells are not asked about.",
	Why:     "Fish and eggs are often cooked less than the published figures, and whoever serves them needs to know.",
	Fix:     "Add `core` to the step that cooks it, or `caution` if it is meant to stay soft.",
	Sources: []string{"FDA Food Code 2022, 3-401.11(A), as states adopt it", "foodsafety.gov chart of cooking temperatures, as seen quoted"},
	Bad: `dish Poached hake
  rules US
  serves 4
  gather
    600 g    hake
    1 litre  water
  method
    - Poach the hake in the water.
      | ring low | work 2 min | watch 8 min
`,
	At: "9:9",
	Good: `dish Poached hake
  rules US
  serves 4
  gather
    600 g    hake
    1 litre  water
  method
    - Poach the hake in the water.
      | ring low | work 2 min | watch 8 min | core 145 F
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, c := range d.raws(hazard.Fish, hazard.Egg) {
				if len(c.cores) > 0 || c.thorough || len(c.heated) == 0 || d.warned(c.items...) {
					continue
				}
				st := c.through()
				if c.kind == hazard.Egg && (d.End.Dough || batter(st.After) || boiledEggs(c) || small(c)) {
					continue
				}
				r := c.ruling(d)
				if c.kind == hazard.Egg && slices.ContainsFunc(c.heated, func(st *hazard.Stage) bool {
					return st.Step.Reach != nil && st.Step.Reach.Temp != nil && r.Short(*st.Step.Reach.Temp, coreTime(st.Step.Reach)) == nil
				}) {
					continue // a custard is stirred until it has its degrees
				}
				if seen.again(heatAt(st)) {
					continue
				}
				l := r.Hottest()
				p.cite(p.Report(heatAt(st), "no step says how hot the middle of %s gets", foods(c.items)), r, l).
					WithHelp("write `| core %s`, or `| caution` for whom it is not", r.Clause(l))
			}
		}
	},
}

// batter tells whether eggs are in dough or batter, or are whites alone.
func batter(pot hazard.Pot) bool {
	yolk := false
	for _, i := range pot.Items {
		if i.Has(larder.RawFlour) || speaksIn(i.Line.Name, "ground almonds", "ground hazelnuts", "ground nuts", "polenta", "cornmeal", "desiccated coconut") {
			return true
		}
		yolk = yolk || i.Is(hazard.Egg) && !speaksOf(strings.ToLower(i.Name), "white", "whites")
	}
	return !yolk
}

// boiledEggs tells whether eggs are boiled in their shells, and not for a moment.
func boiledEggs(c *raw) bool {
	for _, st := range c.heated {
		if st.Says("hard-boil", "hard boil", "hard-boiled") || st.Says("boil", "boiled") && max(st.Time, st.SaidTimeOf("boil", "boiled")) >= 6*time.Minute && !st.Says("whisk", "beat", "custard") || st.Says("until set", "until firm", "well set", "quite set", "set right through") && st.Says("scramble", "omelette", "fry") {
			return true
		}
	}
	return false
}

// small tells whether eggs only glaze or bind: a wash, a coat of crumbs.
func small(c *raw) bool {
	for _, st := range c.heated {
		if st.Says("brush", "glaze", "egg wash", "crumbs", "breadcrumbs") {
			return true
		}
	}
	for _, i := range c.items {
		if i.Line.Sub != nil || i.Base != nil {
			return true
		}
	}
	return false
}

// rawWords are words by which a caution tells those who eat that a thing is raw
// or barely cooked.
var rawWords = []string{"raw", "uncooked", "undercooked", "underdone", "not cooked", "barely cooked", "never cooked", "cured", "frozen", "ask how", "rare", "pink", "runny", "pasteurised", "pasteurized", "pregnant", "not for", "for whom"}

// warned tells whether the writer has a caution of some raw things: on the line
// of one of them, or in a step that has one of them in it, in words of rawness.
// A caution of something else, or somewhere else, is none.
func (d *plate) warned(items ...*hazard.Item) bool {
	speaks := func(t resolve.Text) bool { return speaksOf(strings.ToLower(t.Text), rawWords...) }
	said := func(c resolve.Clause) bool {
		caution, ok := c.(*resolve.Caution)
		return ok && speaks(caution.Text)
	}
	return slices.ContainsFunc(items, func(i *hazard.Item) bool { return slices.ContainsFunc(i.Line.Cautions, speaks) }) ||
		slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool {
			return slices.ContainsFunc(st.Step.Margin, said) && st.After.Contains(items) // few steps have one
		})
}
