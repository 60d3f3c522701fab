package buying

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/lang/quantity"
)

// DishCost is what one making costs: its own lines, and its share of what it
// draws on.
type DishCost struct {
	Making   *demand.Making
	Amount   quantity.Number
	Unpriced []string // what has no price, named once
}

// PerPortion is the cost of one portion; false for what is not portioned.
func (c *DishCost) PerPortion() (quantity.Number, bool) {
	if c.Making.Portions.Sign() <= 0 {
		return quantity.Number{}, false
	}
	return c.Amount.Div(c.Making.Portions), true
}

// ByDish shares the cost of everything bought among the makings, in their
// order. What is left over of a base stays with the base. All prices must be in
// one currency word; false otherwise, and where nothing has a price.
func (l *List) ByDish(meal *demand.Meal) ([]*DishCost, bool) {
	if len(l.Costs) != 1 {
		return nil, false
	}
	byMaking := map[*demand.Making]*DishCost{}
	var out []*DishCost
	for _, m := range meal.Makings {
		c := &DishCost{Making: m}
		byMaking[m] = c
		out = append(out, c)
	}
	for _, it := range l.Items {
		for _, u := range it.Uses {
			c := byMaking[u.Amount.Making]
			if it.Cost == nil {
				c.lacks(it.Name)
				continue
			}
			if share, ok := it.share(u); ok {
				c.Amount = c.Amount.Add(it.Cost.Amount.Mul(share))
			}
		}
	}
	for _, m := range meal.Makings { // bases stand before what draws on them
		if m.Supply == nil || m.Supply.Made.Value.High.Sign() <= 0 {
			continue
		}
		base := byMaking[m]
		for _, d := range m.Supply.Draws {
			part := d.Quantity.Value.High.Div(m.Supply.Made.Value.High)
			c := byMaking[d.By.Making]
			c.Amount = c.Amount.Add(base.Amount.Mul(part))
			for _, name := range base.Unpriced {
				c.lacks(name)
			}
		}
	}
	return out, true
}

func (c *DishCost) lacks(name string) {
	if !slices.Contains(c.Unpriced, name) {
		c.Unpriced = append(c.Unpriced, name)
	}
}

// share is the part of an item that one line uses: by what its true amount costs,
// where every line's has a price; else in equal parts.
func (it *Item) share(u Use) (quantity.Number, bool) {
	own, ok := it.costOf(u)
	if !ok {
		return quantity.Frac(1, int64(len(it.Uses))), true
	}
	all := quantity.Number{}
	for _, o := range it.Uses {
		c, ok := it.costOf(o)
		if !ok {
			return quantity.Frac(1, int64(len(it.Uses))), true
		}
		all = all.Add(c)
	}
	if all.Sign() <= 0 {
		return all, false
	}
	return own.Div(all), true
}

// costOf is what the true amount of one line costs; of a pinch, and of a line without one, nothing.
func (it *Item) costOf(u Use) (quantity.Number, bool) {
	q := u.Amount.Quantity
	e := it.entry(it.first())
	switch {
	case q == nil || q.Dim == quantity.Vague:
		return quantity.Number{}, true
	case it.Parts: // whole ones are bought, and a part serves them all
		return q.Value.High, slices.IndexFunc(it.Uses, func(o Use) bool { return o.Amount.Quantity == nil || !o.Amount.Quantity.Same(*q) }) < 0
	case e == nil || e.Price == nil:
		return quantity.Number{}, false
	}
	return it.priceOf(it.asBought(u.Amount, *q, it.noteStyle(u.Amount.Line)), e.Price.Amount, e.Price.Per)
}
