package buying

import (
	"slices"

	"tamis/lang/quantity"
)

// What a recipe takes by the tin is bought by the tin. A weight of the same thing
// joins the tins where it is sold in nothing else; elsewhere it may be dried, or
// loose, and stands beside them.

// addApart adds an amount to those it can be added to, and keeps tins apart from
// what is weighed and from tins of another size.
func addApart(list []quantity.Quantity, q quantity.Quantity) []quantity.Quantity {
	for i := range list {
		if !list[i].Same(q) || !list[i].Packs.Alike(q.Packs) {
			continue
		}
		if sum, problem := list[i].Add(q); problem == nil {
			list[i] = sum
			return list
		}
	}
	return append(list, q)
}

// packsIn is how many packs like p a quantity comes to.
func packsIn(q quantity.Quantity, p *quantity.Packs) *quantity.Packs {
	each := p.Each.Value.High
	return &quantity.Packs{Count: quantity.Range{Low: q.Value.Low.Div(each), High: q.Value.High.Div(each)}, Each: p.Each, Container: p.Container}
}

// onlyInTins is the counter of what is sold in nothing else.
const onlyInTins = "tins and jars"

// inATin tells whether all of it is in tins or jars.
func inATin(packs []quantity.Quantity) bool {
	return !slices.ContainsFunc(packs, func(q quantity.Quantity) bool {
		return q.Packs.Container == nil || !slices.Contains([]string{"tin", "can", "jar"}, q.Packs.Container.Name)
	})
}

// inTins brings what is not in tins together, and over to the tins where the
// thing is sold in nothing else.
func (it *Item) inTins() {
	var tins, loose []quantity.Quantity
	for _, q := range it.Buy {
		if q.Packs != nil && q.Packs.Each.Value.High.Sign() > 0 {
			tins = append(tins, q)
		} else {
			loose = append(loose, q)
		}
	}
	loose = it.bridge(loose)
	if l := it.first(); len(tins) > 0 && len(loose) == 0 && l.Seller == "" && inATin(tins) {
		if e := it.entry(l); e == nil || e.Buy == nil { // peas are frozen, but not those in a tin
			it.Counter = onlyInTins
		}
	}
	if len(tins) == 0 || it.Counter != onlyInTins {
		it.Buy = append(tins, loose...)
		return
	}
	most := 0
	for i := range tins {
		if tins[most].Packs.Count.High.Less(tins[i].Packs.Count.High) {
			most = i
		}
	}
	loose = slices.DeleteFunc(loose, func(q quantity.Quantity) bool {
		same, ok := it.alike(q, tins[most])
		if !ok {
			return false
		}
		sum, problem := tins[most].Add(same)
		if problem != nil {
			return false
		}
		sum.Packs = packsIn(sum, tins[most].Packs)
		tins[most] = sum
		return true
	})
	it.Buy = append(tins, loose...)
}
