package resolve

import (
	"time"

	"tamis/lang/quantity"
)

// How long a spell lasts is worked out here, for the plan, the checks and the
// tracing of food alike.

// Point is one point of a time that goes by weight: 2 h 30 min at 10 lb.
type Point struct {
	Time   quantity.Span
	Weight quantity.Measure // as written
	Grams  quantity.Number
}

// Grows tells whether a spell depends on how much of something there is.
func (sp *Spell) Grows() bool { return sp.Per != nil || len(sp.Points) > 0 }

// ByWeightOfOne tells whether a spell goes by what the heaviest one weighs, and not
// by how much there is in all.
func (sp *Spell) ByWeightOfOne() bool { return len(sp.Points) > 0 || sp.Each.Largest }

// Minutes is how long a spell lasts, in minutes: grow times its fixed part, and
// the part that grows count times. Of one with points, count is a weight in grams.
// What is only permitted (`up to`, the rest of a night) is not in it.
func (sp *Spell) Minutes(grow, count quantity.Number) (least, most quantity.Number) {
	least, most = quantity.Int(0), quantity.Int(0)
	if f := sp.Fixed; f != nil {
		high := f.High
		if f.Overnight {
			high = f.Low
		}
		least, most = inMinutes(f.Low).Mul(grow), inMinutes(high).Mul(grow)
	}
	if p := sp.Per; p != nil {
		least, most = least.Add(inMinutes(p.Low).Mul(count)), most.Add(inMinutes(p.High).Mul(count))
	}
	if len(sp.Points) > 0 {
		l, m := sp.at(count)
		least, most = least.Add(l), most.Add(m)
	}
	return least, most
}

// at is the time at a weight in grams: straight between the points, in proportion
// to the first below it, and on as between the last two above; never more than `at most`.
func (sp *Spell) at(grams quantity.Number) (least, most quantity.Number) {
	if sp.Points[0].Grams.Sign() <= 0 { // the parser lets none through
		return least, most
	}
	low := func(i int) quantity.Number { return inMinutes(sp.Points[i].Time.Low) }
	high := func(i int) quantity.Number { return inMinutes(sp.Points[i].Time.High) }
	on := func(of func(int) quantity.Number) quantity.Number {
		first, last := sp.Points[0], len(sp.Points)-1
		if last == 0 || !first.Grams.Less(grams) {
			return of(0).Mul(grams.Div(first.Grams))
		}
		i := 1
		for i < last && sp.Points[i].Grams.Less(grams) {
			i++
		}
		a, b := sp.Points[i-1].Grams, sp.Points[i].Grams
		return of(i - 1).Add(of(i).Sub(of(i - 1)).Mul(grams.Sub(a).Div(b.Sub(a))))
	}
	least, most = on(low), on(high)
	if m := sp.AtMost; m != nil {
		least, most = quantity.Min(least, inMinutes(m.High)), quantity.Min(most, inMinutes(m.High))
	}
	return least, most
}

// Outside tells on which side of its points a weight lies: -1 below the first, 1
// above the last without an `at most` that says how long at the longest, else 0.
func (sp *Spell) Outside(grams quantity.Number) int {
	switch n := len(sp.Points); {
	case n == 0:
		return 0
	case grams.Less(sp.Points[0].Grams):
		return -1
	case sp.Points[n-1].Grams.Less(grams) && sp.AtMost == nil:
		return 1
	}
	return 0
}

func inMinutes(t time.Duration) quantity.Number { return quantity.Frac(int64(t/time.Second), 60) }

// Written is how long a spell lasts at the written size. counted is false when how
// often its part that grows is done cannot be told there; then it is counted once.
func (sp *Spell) Written() (least, most time.Duration, counted bool) {
	n, ok := sp.times()
	if !ok {
		n = quantity.Int(1)
		if len(sp.Points) > 0 {
			n = sp.Points[len(sp.Points)-1].Grams
		}
	}
	l, m := sp.Minutes(quantity.Int(1), n)
	return minutes(l), minutes(m), ok || !sp.Grows()
}

func minutes(n quantity.Number) time.Duration { return time.Duration(n.Float() * float64(time.Minute)) }

// times is how often the part that grows is done at the written size, or the weight
// that points are asked for.
func (sp *Spell) times() (n quantity.Number, ok bool) {
	l := sp.EachLine
	if l == nil {
		l = sp.taken
	}
	if sp.Each.Load || l == nil || l.Quantity == nil {
		return n, false
	}
	have := *l.Quantity
	if sp.ByWeightOfOne() {
		if have, ok = l.WeightOfOne(have); !ok {
			return n, false
		}
	}
	if len(sp.Points) > 0 {
		return have.Value.High, true
	}
	if len(sp.Each.Measure.Terms) == 0 {
		return have.Value.High, have.Dim == quantity.None || have.Dim == quantity.Word
	}
	each, problem := sp.Each.Measure.Quantity(l.Recipe.System)
	if problem != nil || !each.Same(have) || each.Value.High.Sign() <= 0 {
		return n, false
	}
	return have.Value.High.Div(each.Value.High), true
}

// WeightOfOne is what the heaviest of so much of a line weighs: of what is weighed
// all of it, of what is counted what one weighs. ok is false when nobody knows.
func (l *Line) WeightOfOne(have quantity.Quantity) (quantity.Quantity, bool) {
	switch have.Dim {
	case quantity.Mass:
		return have, true
	case quantity.None, quantity.Word:
		grams, _, ok := l.PieceGrams()
		if have.Value.High.Less(quantity.Int(1)) { // half a goose
			grams = grams.Mul(have.Value.High)
		}
		return quantity.Grams(grams), ok
	}
	return quantity.Quantity{}, false
}

// grown notes for each spell of a recipe that names nothing what its step takes at
// the written size: the one thing, or of those that are weighed the heaviest one.
func (r *Recipe) grown() {
	for _, sr := range r.Reading.Steps {
		for i := range sr.Step.Phases {
			sp := &sr.Step.Phases[i]
			if !sp.Grows() || sp.Each.Load || sp.EachLine != nil || !sp.Each.Name.IsZero() {
				continue
			}
			sp.taken = nil
			n := 0
			var most quantity.Number
			for _, t := range sr.Takes {
				if t.Line == nil || t.Line.Quantity == nil || t.Refers && !sp.ByWeightOfOne() {
					continue
				}
				if !sp.ByWeightOfOne() {
					n++
					sp.taken = t.Line
					continue
				}
				if one, ok := t.Line.WeightOfOne(*t.Line.Quantity); ok && most.Less(one.Value.High) {
					n, most, sp.taken = 1, one.Value.High, t.Line
				}
			}
			if n != 1 {
				sp.taken = nil
			}
		}
	}
}
