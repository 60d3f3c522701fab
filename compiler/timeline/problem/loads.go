package problem

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// loads is how many times a step goes round when a time of it is `per load`:
// by what its vessel holds, by the pieces it makes at a time, or by the oven's
// shelves; else as many times as the written size is cooked. It is 1 for a
// step without such a time.
func (d *Draft) loads(mk *Making, sr *resolve.StepReading) int {
	s := sr.Step
	perLoad := false
	for _, sp := range s.Phases {
		perLoad = perLoad || sp.Per != nil && sp.Each.Load
	}
	if !perLoad {
		return 1
	}
	n := mk.M.Factor
	switch holds := d.holds(mk, s); {
	case holds != nil:
		total, ok := d.bulk(mk, sr)
		if counted(*holds) {
			total, ok = d.pieces(mk, sr, *holds)
		}
		if ok {
			n = total.Div(holds.Value.High.Mul(quantity.Int(int64(max(1, s.Vessels)))))
		} else if counted(*holds) {
			d.noLoad(mk, s, "its vessel holds so many, and what goes in is not counted so")
		}
	case s.Into != nil && s.Into.Count > 0:
		pieces := quantity.Int(int64(s.Into.Count)).Mul(mk.M.Factor).Ceil()
		atOnce := quantity.Int(int64(s.Into.Count))
		if v, ok := d.Kit.Vessels[larder.Fold(s.Into.Name.Text)]; ok {
			atOnce = quantity.Int(int64(v.Count))
		}
		n = pieces.Div(atOnce)
	case len(s.Heats) == 0:
		d.noLoad(mk, s, "nothing here says what holds one")
	default:
		if most := d.mostShelves(ovenOf(mk, s)); most > 0 {
			n = quantity.Int(int64(max(1, s.Shelves))).Mul(mk.M.Factor).Div(quantity.Int(int64(most)))
		}
	}
	return max(1, min(wholeMinutes(n), 1000))
}

// counted tells whether a vessel holds so many of a thing, `holds 6 slices`, and
// not so much.
func counted(holds quantity.Quantity) bool {
	return holds.Dim == quantity.Word || holds.Dim == quantity.None
}

// pieces is how many of what a vessel holds a step takes at this size: by the
// lines that are counted in that word. What else goes in with them (the fat, the
// salt) is no piece. ok is false when nothing is so counted.
func (d *Draft) pieces(mk *Making, sr *resolve.StepReading, holds quantity.Quantity) (sum quantity.Number, ok bool) {
	sum = quantity.Int(0)
	if c := resolve.First[*resolve.InVessel](sr.Step.Margin); c != nil && !c.Of.IsZero() {
		switch {
		case c.Made > 0:
			return quantity.Int(int64(c.Made)).Mul(mk.M.Factor).Ceil(), true
		case c.Line != nil:
			q, has := lineTaken(mk.M, sr, c.Line)
			return q.Value.High, has && counted(q)
		}
		return sum, false
	}
	seen := map[*resolve.Line]bool{}
	for _, t := range sr.Takes {
		if t.Line == nil || seen[t.Line] {
			continue
		}
		seen[t.Line] = true
		if q, has := lineTaken(mk.M, sr, t.Line); has && q.Dim == holds.Dim && q.Unit == holds.Unit {
			sum, ok = sum.Add(q.Value.High), true
		}
	}
	return sum, ok
}

// holds is how much a step's vessel holds, in ml or g, or how many of what it
// is counted by; nil when nobody said.
func (d *Draft) holds(mk *Making, s *resolve.Step) *quantity.Quantity {
	if c := resolve.First[*resolve.InVessel](s.Margin); c != nil && len(c.Holds.Terms) > 0 {
		if q, problem := c.Holds.Quantity(mk.M.Recipe.System); problem == nil && q.Value.High.Sign() > 0 {
			return &q
		}
	}
	if v, ok := d.Kit.Vessels[s.Vessel]; ok && s.Vessel != "" && v.holds != nil && v.holds.Holds != nil {
		if q := v.holds.Holds; q.Value.High.Sign() > 0 {
			return q
		}
	}
	return nil
}

// bulk is how much a step puts in its vessel, in ml, taking 1 g for 1 ml
// (common practice, no source). ok is false when nothing it takes is measured.
func (d *Draft) bulk(mk *Making, sr *resolve.StepReading) (sum quantity.Number, ok bool) {
	sum = quantity.Int(0)
	seen := map[*resolve.Line]bool{}
	for _, t := range sr.Takes {
		var q quantity.Quantity
		var has bool
		switch {
		case t.Line != nil && !seen[t.Line]:
			seen[t.Line] = true
			q, has = lineTaken(mk.M, sr, t.Line)
		case t.Product != nil && t.Product.Quantity != nil:
			q, has = times(*t.Product.Quantity, mk.M.Factor), true
		}
		if has && (q.Dim == quantity.Mass || q.Dim == quantity.Volume) {
			sum, ok = sum.Add(q.Value.High), true
		}
	}
	return sum, ok
}

// mostShelves is the most shelves any oven a step may use has; 0: no limit.
func (d *Draft) mostShelves(name string) (most int) {
	for _, o := range d.ovensFor(name) {
		most = max(most, o.Shelves)
	}
	return most
}

// ovensFor lists the ovens a step may use. An oven nobody listed is any oven.
func (d *Draft) ovensFor(name string) (out []Oven) {
	for _, o := range d.Kit.Ovens {
		if name == o.key {
			out = append(out, o)
		}
	}
	if len(out) == 0 {
		return d.Kit.Ovens
	}
	return out
}
