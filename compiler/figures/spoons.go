package figures

import (
	"tamis/compiler/demand"
	"tamis/lang/quantity"
)

// Where there are ounces and spoons, a few grams are spooned: no kitchen scale
// shows a tenth of an ounce, and nobody in a kitchen of spoons weighs the salt.

// leastWeighed is what is weighed where there are ounces: an ounce. Common practice,
// no source.
var leastWeighed = quantity.MustUnit("oz")

// spooned is a weight of what a line gathers as it is measured in spoons, where the
// line is: less than an ounce of what somebody wrote in grams, or so little that its
// ounces are hundredths, of a thing that is bought and known by volume.
func (s *Set) spooned(a *demand.Amount, q quantity.Quantity) (quantity.Quantity, bool) {
	density, ok := s.inSpoons(a)
	if !ok || q.Dim != quantity.Mass {
		return q, false
	}
	v, problem := q.AsVolume(density)
	return v, problem == nil
}

// inSpoons tells whether a line that is weighed is printed in spoons, and what a
// millilitre of it weighs.
func (s *Set) inSpoons(a *demand.Amount) (density quantity.Number, ok bool) {
	q := a.Quantity
	st := s.lineStyle(a)
	if q == nil || q.Dim != quantity.Mass || q.Packs != nil || a.Source != nil || s.asWritten(a) ||
		st.System != quantity.US && st.System != quantity.Imperial || st.Unit != nil && st.Unit.InMetric() {
		return density, false
	}
	ounce, _ := leastWeighed.Base(quantity.NoSystem)
	fromGrams := st.Unit == nil && st.System == quantity.US
	if !q.Value.High.Less(ounce) || !fromGrams && q.Measurable(st) {
		return density, false
	}
	return a.Line.Density()
}

// spoonStyle sets what is spooned.
func (s *Set) spoonStyle(a *demand.Amount) quantity.Style {
	st := s.lineStyle(a)
	st.Unit, st.Modifier, st.Tolerance = quantity.MustUnit("tsp"), "", quantity.Number{}
	return st
}
