package check

import (
	"strconv"
	"strings"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var naturalPoison = &Rule{
	Code: "S146", Title: "A thing that holds a poison, and nothing undoes it.", Family: Safety, Severity: diag.Warning,
	What:    "A plant, a fungus or a fish that is poisonous, or that is poisonous raw, in part or in quantity, is in a dish: cassava, bamboo, elderberries, rhubarb leaves, stone-fruit kernels, green potatoes, raw runner beans, pufferfish, spoonfuls of nutmeg and others.",
	Why:     "Some foods hold a poison of their own, which only long boiling, or nothing at all, undoes.",
	Fix:     "Leave the part or the thing out, or add the step that makes it a food.",
	Sources: []string{"Food Safety Information Council (Australia): natural toxins in food", "Centre for Food Safety, Hong Kong: natural toxins in food plants, 2007", noSource},
	Bad: `dish Berry fool
  serves 4
  gather
    200 g    elderberries
    300 ml   double cream
  method
    - Crush the elderberries and fold them into the whipped cream.
      | work 10 min
  serve cold
`,
	At: "4:14",
	Good: `dish Berry fool
  serves 4
  gather
    200 g    elderberries
    300 ml   double cream
  method
    - Simmer the elderberries and sieve them.
      | ring low | watch 15 min
    - Cool in iced water, and fold into the whipped cream.
      | work 10 min
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, f := range d.Poisons() {
				i, x := f.Item, f.Poison
				if seen.again(i.Line.NameAt) {
					continue
				}
				p.advised(p.Report(i.Line.NameAt, "%s", x.Text), x.Source).
					WithHelp("%s; where in doubt ask a poisons centre", remedy(x))
			}
		}
	},
}

// remedy is what can be done about a poison.
func remedy(x *hazard.Poison) string {
	switch x.Undo {
	case "heat":
		return "leave it out, or write the step that cooks it right through, and how long"
	case "boil":
		return "leave it out, or write the step that boils it, and how long"
	case "dose":
		return "take less: " + strconv.FormatFloat(x.AHead, 'f', -1, 64) + " g a head at most"
	}
	return "leave it out"
}

var foraged = &Rule{
	Code: "S147", Title: "Gathered in the wild.", Family: Safety, Severity: diag.Question,
	What:    "Fungi, leaves, roots, berries or shellfish are gathered in the wild, and the text does not say who knows them.",
	Why:     "Look-alikes kill, cooking does not undo their poison, and shellfish of an open shore may hold the poison of algae.",
	Fix:     "Say in a `caution` that somebody who knows them for certain has looked at each, or buy them.",
	Sources: []string{hazard.Find("foraged").Source, noSource},
	Bad: `dish Woodland toast
  serves 4
  gather
    400 g    wild mushrooms, picked this morning
    40 g     butter
    4 slices bread
  method
    - Fry the mushrooms in the butter and heap them on the toasted bread.
      | ring high | watch 10 min
`,
	At: "4:14",
	Good: `dish Woodland toast
  serves 4
  gather
    400 g    chestnut mushrooms
    40 g     butter
    4 slices bread
  method
    - Fry the mushrooms in the butter and heap them on the toasted bread.
      | ring high | watch 10 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, i := range d.Foraged() {
				if d.warnedOf("know", "identified", "expert", "certain", "certainly") || seen.again(i.Line.NameAt) {
					continue
				}
				p.advised(p.Report(i.Line.NameAt, "who knows the %s for certain", i.Line.Name), hazard.Find("foraged").Source).
					WithHelp("have each looked at by somebody who knows them, and say so: `| caution looked at by …`; for shellfish ask the authority of the shore; else buy them")
			}
		}
	},
}

// warnedOf tells whether any caution of the recipe speaks one of some words.
func (d *plate) warnedOf(words ...string) bool {
	for _, st := range d.Stages {
		for _, c := range cautionsOf(st) {
			if speaksOf(strings.ToLower(c), words...) {
				return true
			}
		}
	}
	for _, i := range d.End.Items {
		for _, c := range i.Line.Cautions {
			if speaksOf(strings.ToLower(c.Text), words...) {
				return true
			}
		}
	}
	return false
}
