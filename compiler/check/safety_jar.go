package check

import (
	"slices"
	"time"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var jarShelf = &Rule{
	Code: "S121", Title: "Something low in acid in a jar on the shelf.", Family: Safety, Severity: diag.Warning,
	What:    "Meat, fish, vegetables, pulses or mushrooms are filled into jars, bottles or tins and kept out of the fridge, with neither vinegar nor plenty of sugar.",
	Why:     "In a sealed jar without acid the germ of botulism lives through boiling water and grows unseen; only a tested process under pressure stops it.",
	Fix:     "Keep it in the fridge or the freezer, or follow a tested recipe of your food authority to the letter.",
	Sources: []string{"advice of the US centres for disease control, as seen quoted"},
	Bad: `base Bottled beans
  makes 2 kg
  keeps 6 weeks, cool place
  gather
    1.5 kg   green beans, topped
    1 litre  water
    15 g     fine salt
  method
    - Boil the green beans in the water with the salt.
      | ring high | watch 10 min
    - Fill into hot jars, cover with the liquid and seal.
      | work 20 min
`,
	At: "3:3",
	Good: `base Pickled beans
  makes 2 kg
  keeps 6 weeks, cool place
  gather
    1.5 kg   green beans, topped
    1 litre  cider vinegar
    200 g    caster sugar
    15 g     fine salt
  method
    - Boil the green beans in the cider vinegar with the sugar and salt.
      | ring high | watch 10 min
    - Fill into hot jars and seal.
      | work 20 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if !d.jarred() {
				continue
			}
			for _, s := range d.stays() {
				if s.place == "fridge" || s.place == "freezer" || s.time <= 12*time.Hour || !s.pot.Grows() && !meaty(s.pot) || preserved(s.pot) || d.soured() || inOil(s.pot, d) || seen.again(s.at) {
					continue
				}
				p.Report(s.at, "this is low in acid, and is not for a jar on the shelf").
					Because("%s This is advice of the US centres for disease control, as seen quoted. %s", p.rule.Why, comeFirst).
					WithHelp("write `%s, fridge`, or freeze it", lengthOf(min(s.time, 48*time.Hour))).
					WithHelp("for the shelf use a tested recipe of your food authority, to the letter")
			}
		}
	},
}

// jarred tells whether a step fills jars, bottles or tins, or seals.
func (d *plate) jarred() bool {
	return slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool {
		return st.Says("jar", "jars", "bottle", "bottles", "bottling", "canning", "canned", "can it", "mason", "seal", "pressure canner")
	})
}

// soured tells whether the writer lets it ferment in brine.
func (d *plate) soured() bool {
	return slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool {
		return st.Says("ferment", "ferments", "brine", "bubbles rise", "sour", "soured")
	})
}

func meaty(pot hazard.Pot) bool {
	return slices.ContainsFunc(pot.Items, func(i *hazard.Item) bool { return i.Has("meat") || i.Has("fish") })
}

// preserved tells whether there is vinegar in it and no flesh, or sugar in
// plenty.
func preserved(pot hazard.Pot) bool {
	return !meaty(pot) && slices.ContainsFunc(pot.Items, func(i *hazard.Item) bool { return i.Sour || i.Sweet })
}
