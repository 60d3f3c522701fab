package hazard

import (
	"strings"

	"tamis/compiler/larder"
)

// Baked tells whether it is dough or batter that was baked dry: bread, cake, pastry. A
// tart, a pie or a pudding that is custard, cream or cheese for its larger part is none.
func (p Pot) Baked() bool {
	dry, milk, eggs, fruit := 0.0, 0.0, 0.0, 0.0
	flour, shell, wet := false, false, false
	for _, i := range p.Items {
		name := strings.ToLower(i.Name)
		switch {
		case i.Has(larder.RawFlour) && i.Heated:
			flour, dry = true, dry+i.mass
		case hasWord(name, pastries...) && i.Heated: // half of it is fat and water
			shell, dry = true, dry+i.mass/2
		case hasWord(name, dried...):
			fruit += i.mass
		case hasWord(name, meals...) && i.Heated:
			dry += i.mass
		case i.IsMilky(), hasWord(name, "pumpkin puree", "pumpkin purée", "pumpkin", "custard", "tofu"):
			milk += i.mass
		case i.Has(larder.Egg) || i.Is(Egg):
			eggs += i.mass
		}
		wet = wet || i.Strong && (i.Has(larder.Meat) || i.Has(larder.Fish) || i.Has(larder.Shellfish)) || i.isRice()
	}
	if !wet && (flour || shell) && p.From != nil && fruit >= 0.5*dry && fruit > milk+eggs {
		return true // a plum pudding, boiled or baked: fruit and sugar keep it
	}
	if !flour || wet || p.From == nil || len(p.From.Heats) == 0 {
		return false
	}
	return milk <= custardy*dry && !(shell && milk > 0 && milk+eggs > custardy*dry)
}

// custardy is how many times the weight of the flour what is baked has of milk and cream
// where it is a custard and no cake or batter. Common practice, no source.
const custardy = 1.8

var (
	pastries = []string{"pastry", "pie shell", "pie crust", "tart shell", "tart case", "pastry case", "filo", "phyllo", "biscuits", "crackers", "sponge", "sponge fingers", "bread", "crumbs", "breadcrumbs"}
	dried    = []string{"raisins", "sultanas", "currants", "prunes", "candied peel", "mixed peel", "mixed dried fruit", "dried fruit", "dried figs", "dried apricots", "dates", "glacé cherries", "dried cherries", "dried cranberries"}
	meals    = []string{"ground almonds", "almond meal", "ground hazelnuts", "ground nuts", "ground walnuts", "polenta", "cornmeal", "desiccated coconut", "oats"}
)

// IsMilky tells whether it is milk, cream or fresh cheese, tinned too.
func (i *Item) IsMilky() bool {
	name := strings.ToLower(i.Name)
	return hasWord(name, "milk", "cream", "ricotta", "curd", "mascarpone", "quark", "fromage frais", "yoghurt", "yogurt", "crème fraîche", "cream cheese", "soft cheese", "cottage cheese", "custard", "half and half", "buttermilk") &&
		!hasWord(name, "powder", "chocolate", "cream of tartar", "coconut", "almond", "oat", "soya", "soy", "rice", "crackers")
}
