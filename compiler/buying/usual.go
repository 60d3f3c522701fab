package buying

import (
	"slices"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// How shops usually sell things (larder/data/packs.csv, each row with its
// source): eggs by the box, cream by the pot, herbs by the bunch. What is weighed
// out for who asks, potatoes and meat, keeps its weight.

// mostUsual is how many usual packs somebody carries home; who needs more buys
// another way, and is told the amount. Common practice, no source.
const (
	mostUsual  = 24
	mostInHand = 4 // where the counter weighs out what is asked for
)

// weighedOut tells whether a counter weighs out what is asked for.
func weighedOut(counter string) bool {
	return slices.Contains([]string{"greengrocer", "butcher", "fishmonger", "deli"}, counter)
}

// usualPacks takes packs by the habits of shops, if there are any.
func (it *Item) usualPacks(need quantity.Quantity) bool {
	l := it.first()
	b, ok := it.known()
	if !ok || it.Cupboard || l.BoughtAs != nil || l.Seller != "" {
		return false
	}
	if it.heads(b, need) {
		return true
	}
	var best *Packs
	least := quantity.Number{}
	for _, p := range b.Packs {
		each, ok := it.asNeed(p, need)
		if !ok || p.Region != it.region() || weighedOut(it.Counter) && !inHand(p) {
			continue
		}
		packs := packsOf(need, each)
		packs.Container, packs.Usual = p.Container, true
		if as := it.printed(p); !as.Same(need) {
			packs.Label = &as
		}
		// what is over costs, and so does each pack that is opened
		score := packs.Spare.Value.High.Div(need.Value.High).Add(quantity.Frac(12*int64(packs.Count), 100))
		if best == nil || score.Less(least) {
			best, least = packs, score
		}
	}
	most := mostUsual
	if weighedOut(it.Counter) {
		most = mostInHand
	}
	if best == nil || best.Count > most {
		return false
	}
	it.Packs = best
	return true
}

// asNeed is what a pack holds, measured as the need is.
func (it *Item) asNeed(p larder.Pack, need quantity.Quantity) (quantity.Quantity, bool) {
	return it.alike(it.printed(p), need)
}

// printed is what stands on a pack.
func (it *Item) printed(p larder.Pack) quantity.Quantity {
	switch p.Unit {
	case "g":
		return quantity.Grams(p.Amount)
	case "ml":
		return quantity.Millilitres(p.Amount)
	}
	return quantity.Pieces(p.Amount)
}

// alike is q in the kind of measure of o, by weight and volume where it is known
// what a volume weighs.
func (it *Item) alike(q, o quantity.Quantity) (quantity.Quantity, bool) {
	if q.Same(o) {
		return q, true
	}
	d, _, ok := it.density(it.first())
	if !ok && it.leaves() {
		d, ok = herbs, true
	}
	switch {
	case !ok:
	case q.Dim == quantity.Mass && o.Dim == quantity.Volume:
		v, problem := q.AsVolume(d)
		return v, problem == nil
	case q.Dim == quantity.Volume && o.Dim == quantity.Mass:
		v, problem := q.AsMass(d)
		return v, problem == nil
	}
	return q, false
}

// herbs is what a millilitre of picked leaves weighs, in grams: a tablespoon 3 g.
// Common practice, no source.
var herbs = quantity.Frac(1, 5)

// leaves tells whether an item is a herb, of which a few spoons are bought by the bunch.
func (it *Item) leaves() bool {
	b, ok := it.known()
	return ok && b.In("herb")
}

// known is the item as the built-in larder has it; thyme leaves are thyme.
func (it *Item) known() (*larder.Item, bool) {
	if b, ok := sold(it.Name); ok {
		return b, true
	}
	b, part, ok := larder.Builtin().FindPart(it.Name)
	return b, ok && part == "leaf"
}

// inHand tells whether a pack is taken as it lies there, at a counter that weighs
// the rest out: herbs, berries, salad.
func inHand(p larder.Pack) bool {
	switch p.Container {
	case "bunch", "punnet", "head", "pot":
		return true
	case "packet", "bag":
		return p.Unit == "g" && !quantity.Int(300).Less(p.Amount)
	}
	return false
}

// region is whose shops are meant: the American ones where the page is in
// American measures.
func (it *Item) region() string {
	if it.noteStyle(it.first()).System == quantity.US {
		return "US"
	}
	return "UK"
}

// heads brings cloves of garlic and sticks of celery over to what they grow in.
func (it *Item) heads(b *larder.Item, need quantity.Quantity) bool {
	if need.Dim != quantity.Word {
		return false
	}
	for _, g := range b.Gives {
		if g.Per != "" && g.Unit == need.Unit.Name && g.Amount.Value.Sign() > 0 {
			each := need
			each.Value = quantity.Exactly(g.Amount.Value)
			it.Packs = packsOf(need, each)
			it.Packs.Container, it.Packs.Usual, it.Packs.Whole = g.Per, true, true
			return true
		}
	}
	return false
}

// container is what something is usually sold in, measured so; empty when that
// is not known.
func (it *Item) container(d quantity.Dimension) string {
	b, ok := sold(it.Name)
	if !ok {
		return ""
	}
	for _, p := range b.Packs {
		if p.Region == it.region() && (p.Unit == "g") == (d == quantity.Mass) {
			return p.Container
		}
	}
	return ""
}

// little is how much of a dry thing may be in most houses: it is looked for
// there before it is bought. Common practice, no source.
var little = map[quantity.Dimension]quantity.Number{quantity.Mass: quantity.Int(100), quantity.Volume: quantity.Int(100)}

// inTheHouse puts little amounts of dry things with what is in the cupboard,
// and takes out of it what is more than a house has, unless the writer says where
// they are bought.
func (it *Item) inTheHouse() {
	l := it.first()
	if it.Cupboard && slices.ContainsFunc(it.Buy, it.moreThanKept) {
		it.Cupboard = false
		return
	}
	if e := it.entry(l); e != nil && e.Packs != nil || l.Seller != "" || len(it.Buy) != 1 {
		return
	}
	switch it.Counter {
	case "dry goods", "spices", "baking", "condiments", "oils and vinegars":
	default:
		return
	}
	most, ok := little[it.Buy[0].Dim]
	if ok && !most.Less(it.Buy[0].Value.High) || it.Counter == "spices" && !it.moreThanKept(it.Buy[0]) {
		it.Cupboard = true
	}
}

// kept is how much of a thing a house has of which nobody says how it is sold;
// of a spice less. Common practice, no source.
var (
	kept         = map[quantity.Dimension]quantity.Number{quantity.Mass: quantity.Int(500), quantity.Volume: quantity.Int(250), quantity.None: quantity.Int(12), quantity.Word: quantity.Int(12)}
	keptOfSpice  = quantity.Int(50)
	spicesKept   = quantity.Int(100) // of what is counted: peppercorns, cloves
	mostTinsKept = quantity.Int(2)
)

// moreThanKept tells whether an amount is more than most houses have of it: more
// than the smallest pack of the shops, or than a couple of tins.
func (it *Item) moreThanKept(q quantity.Quantity) bool {
	switch {
	case q.Packs != nil:
		return mostTinsKept.Less(q.Packs.Count.High)
	case q.Dim == quantity.Word && q.Unit.Packs:
		return mostTinsKept.Less(q.Value.High)
	}
	most, ok := kept[q.Dim]
	if it.Counter == "spices" && q.Dim == quantity.Mass {
		most = keptOfSpice
	} else if it.Counter == "spices" && q.Dim == quantity.None {
		most = spicesKept
	}
	if b, known := sold(it.Name); known {
		least := quantity.Number{}
		for _, p := range b.Packs {
			if each, same := it.asNeed(p, q); same && p.Region == it.region() && (least.IsZero() || each.Value.High.Less(least)) {
				least = each.Value.High
			}
		}
		if least.Sign() > 0 {
			most, ok = least, true
		}
	}
	return ok && most.Less(q.Value.High)
}
