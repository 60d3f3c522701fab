package hazard

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// InOil tells whether what waits is mostly oil with something low in acid in
// it: nothing sour, and no salt cure.
func (t *Trace) InOil(pot Pot) bool {
	oil, low := false, false
	other := 0
	for _, i := range pot.Items {
		switch {
		case i.IsKind("oil"):
			oil = oil || largest(i, pot) || i.mass >= lies*pot.Totals.Mass && t.coversIn("oil") || t.Tells("jar") && t.Tells("under oil") && i.Grams() > 0
		case i.IsKind("garlic") && hasWord(strings.ToLower(i.Line.Name), "dried", "flakes", "powder"):
		case i.IsKind("garlic"):
			low = true
		case i.Sour:
			return false
		case i.Strong, i.Plant:
			other++
		}
	}
	return oil && low && other == 0 && !slices.ContainsFunc(t.Stages, func(st *Stage) bool {
		return st.Says("dried", "strain out", "discard the garlic", "acidified")
	}) && !strings.Contains(strings.ToLower(t.Reading.Recipe.Name), "paste")
}

// lies is the share of oil in what lies under it. Common practice, no source.
const lies = 0.25

// coversIn tells whether a step covers what it has with something.
func (t *Trace) coversIn(with string) bool {
	return slices.ContainsFunc(t.Stages, func(st *Stage) bool {
		said := st.SaidBy("under oil")
		return hasWord(said, "cover", "covers", "covered", "submerge", "submerged", "sink", "under") && hasWord(said, with)
	})
}

// largest tells whether an ingredient is the most of what is weighed or
// measured.
func largest(i *Item, pot Pot) bool {
	q := i.Line.Quantity
	if q == nil {
		return false
	}
	for _, o := range pot.Items {
		oq := o.Line.Quantity
		if o == i || oq == nil || oq.Dim != quantity.Mass && oq.Dim != quantity.Volume {
			continue
		}
		if q.Value.High.Less(oq.Value.High) {
			return false
		}
	}
	return true
}
