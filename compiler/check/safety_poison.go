package check

import (
	"slices"
	"strconv"
	"strings"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
	"tamis/lang/quantity"
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
			for _, i := range d.End.Items {
				if i.Base != nil {
					continue // said where the base is made
				}
				x := hazard.PoisonOf(i)
				if x == nil {
					x = d.poisonSaid(i)
				}
				if x == nil || d.undone(x, i) || seen.again(i.Line.NameAt) {
					continue
				}
				p.Report(i.Line.NameAt, "%s", x.Text).
					Because("%s This is %s. %s", p.rule.Why, who(x.Source), comeFirst).
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

func who(source string) string {
	if source == noSource {
		return source
	}
	return "advice of " + source
}

// undone tells whether a method makes a poisonous thing a food, or there is so
// little of it that it does not matter.
func (d *plate) undone(x *hazard.Poison, i *hazard.Item) bool {
	switch x.Undo {
	case "none":
		return false
	case "dose":
		q := i.Line.Quantity
		if q == nil || q.Dim != quantity.Mass && q.Dim != quantity.Volume {
			return true
		}
		heads := 4.0
		if s := d.recipe.Serves; s != nil && s.Low.Float() > 0 {
			heads = s.Low.Float()
		}
		return i.Grams()/heads <= x.AHead
	}
	if d.recipe.Base && d.recipe.ServeHow == nil && len(d.Stages) > 0 && !d.Stages[len(d.Stages)-1].Heats && x.Undo == "heat" && d.usedHot() {
		return true
	}
	return x.Undone(d.Trace, i)
}

// usedHot tells whether a base says that it is cooked where it goes.
func (d *plate) usedHot() bool {
	a := d.recipe.About
	return a != nil && speaksOf(strings.ToLower(a.Text.Text), "cook", "boil", "bake")
}

// poisonSaid is a poison that only a step speaks of: the leaves of the rhubarb.
func (d *plate) poisonSaid(i *hazard.Item) *hazard.Poison {
	name := strings.ToLower(i.Line.Name)
	if !d.Tells("leafy toxin", "greened") || !speaksOf(name, "rhubarb", "potato", "potatoes", "kidney beans") {
		return nil
	}
	for _, st := range d.Stages {
		if !st.Tells("leafy toxin", "greened") || !i.In(st) {
			continue
		}
		switch {
		case st.Tells("leafy toxin") && speaksOf(name, "rhubarb"):
			return hazard.PoisonNamed("rhubarb leaves")
		case st.Tells("greened") && speaksOf(name, "potato", "potatoes") && !speaksOf(name, "sweet"):
			return hazard.PoisonNamed("green potatoes")
		case st.Says("sprout", "sprouted") && i.Has("dried kidney beans"):
			return hazard.PoisonNamed("kidney beans raw")
		}
	}
	return nil
}

var foraged = &Rule{
	Code: "S147", Title: "Gathered in the wild.", Family: Safety, Severity: diag.Question,
	What:    "Fungi, leaves, roots, berries or shellfish are gathered in the wild, and the text does not say who knows them.",
	Why:     "Look-alikes kill, cooking does not undo their poison, and shellfish of an open shore may hold the poison of algae.",
	Fix:     "Say in a `caution` that somebody who knows them for certain has looked at each, or buy them.",
	Sources: []string{noSource},
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
			title := d.recipe.Name
			if a := d.recipe.About; a != nil {
				title += ". " + a.Text.Text
			}
			all := hazard.SignsOf(title).Tell("foraged") || d.Tells("foraged")
			wild := slices.ContainsFunc(d.End.Items, func(o *hazard.Item) bool {
				return o.Says("foraged") || speaksIn(o.Line.Name, "wild", "fungi")
			})
			for _, i := range d.End.Items {
				own := i.Says("foraged")
				if !own && !all {
					continue
				}
				name := strings.ToLower(i.Line.Name)
				grows := speaksOf(name, "mushroom", "mushrooms", "fungi", "fungus", "ceps", "chanterelles", "boletes", "puffball", "nettles", "garlic", "ramsons", "leaves", "greens", "herbs", "roots", "parsnips", "parsnip", "carrots", "berries", "seaweed", "samphire", "mussels", "cockles", "clams", "oysters", "limpets", "winkles", "razor clams", "flowers", "elderflowers", "sorrel", "dandelion", "hawthorn", "rosehips", "sloes", "acorns", "chestnuts", "horseradish", "celery")
				if i.Base != nil || !own && !(all && grows && (speaksOf(name, "wild", "mixed", "fungi") || !wild)) || i.Says("trusted") || d.warnedOf("know", "identified", "expert", "certain", "certainly") || seen.again(i.Line.NameAt) {
					continue
				}
				p.common(p.Report(i.Line.NameAt, "who knows the %s for certain", i.Line.Name)).
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
