package problem

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// Length is how long a phase lasts, in whole minutes.
type Length struct {
	Most  int  // what is planned with
	Least int  // the shorter end of a range
	extra int  // minutes longer it may last by permission: "2 h, up to 1 day"
	upTo  bool // the permission was written as such, not in the word `overnight`
	open  bool // no upper end but the keeping of what it is: "at least 2 h"
	About bool
	guess Guess
}

// Guess is how sure a writer was of a single figure.
type Guess int

const (
	Sure    Guess = iota
	roughly       // about 2 h
	BySight       // until golden, say 15 min
	ByHand        // plain work: hands vary
)

// Spread is what a guessed figure is taken to mean when meals are cooked by
// chance, least and most, as parts of it. Common practice, no source: cooks who
// write "about" are not far out, and what is done by sight takes longer oftener
// than it is quicker; two cooks at one board are a tenth apart.
func (g Guess) Spread() (least, most float64) {
	switch g {
	case roughly, ByHand:
		return 0.9, 1.1
	case BySight:
		return 0.85, 1.3
	}
	return 1, 1
}

func wholeMinutes(n quantity.Number) int {
	v, ok := n.Ceil().Int64()
	if !ok || v < 0 || v > timeline.MaxMinutes {
		return timeline.MaxMinutes
	}
	return int(v)
}

// spellLength is the length of a spell: grow times its fixed part and count
// times its growing part.
func spellLength(sp *resolve.Spell, grow, count quantity.Number) Length {
	var l Length
	least, most := sp.Minutes(grow, count)
	if f := sp.Fixed; f != nil {
		high := f.High
		if f.Overnight {
			high = f.Low
			l.extra = timeline.Minutes(f.High - f.Low)
		}
		l.open = f.AtLeast
		l.About = f.About
		if f.UpTo > high {
			l.extra, l.upTo = timeline.Minutes(f.UpTo-high), true
		}
	}
	if p := sp.Per; p != nil {
		l.About = l.About || p.About
	}
	for _, p := range sp.Points {
		l.About = l.About || p.Time.About
	}
	l.Most, l.Least = wholeMinutes(most), wholeMinutes(least)
	l.About = l.About || sp.Offered || !sp.Until.IsZero()
	if l.About {
		l.guess = roughly
	}
	if !sp.Until.IsZero() {
		l.guess = BySight
	}
	return l
}

// count is how many times the growing part of a step's spell is done.
func (d *Draft) count(mk *Making, sr *resolve.StepReading, sp *resolve.Spell, loads int) quantity.Number {
	if !sp.Grows() {
		return quantity.Int(0)
	}
	if sp.ByWeightOfOne() {
		return d.byOne(mk, sr, sp)
	}
	if sp.Each.Load {
		return quantity.Int(int64(loads))
	}
	have, line, ok := d.takenOf(mk.M, sr, sp)
	if ok {
		if n, ok := d.howMany(have, line, sp, mk); ok {
			if holds := d.holds(mk, sr.Step); holds != nil && counted(*holds) && len(sp.Each.Measure.Terms) > 0 {
				return n.Ceil() // so many at a time: the last load may be a small one
			}
			return n
		}
	}
	d.cannotCount(mk, sp)
	return mk.M.Factor
}

// byOne is count of a spell that goes by the weight of one: of the thing it names, or
// of all that the step takes or speaks of the heaviest.
func (d *Draft) byOne(mk *Making, sr *resolve.StepReading, sp *resolve.Spell) quantity.Number {
	var one quantity.Quantity
	see := func(line *resolve.Line) {
		if have, ok := lineTaken(mk.M, sr, line); ok {
			if q, ok := line.WeightOfOne(have); ok && one.Value.High.Less(q.Value.High) {
				one = q
			}
		}
	}
	product := d.productMeant(mk.M, sp)
	switch {
	case sp.EachLine != nil:
		see(sp.EachLine)
	case product == nil:
		for _, t := range sr.Takes {
			switch {
			case t.Line != nil:
				see(t.Line)
			case t.Product != nil:
				product = t.Product
			}
		}
	}
	if product != nil && product.Quantity != nil && product.Quantity.Dim == quantity.Mass && one.Value.High.Sign() == 0 {
		one = times(*product.Quantity, mk.M.Factor)
	}
	return d.byWeight(mk, sp, one)
}

// byWeight is count of a spell at a weight.
func (d *Draft) byWeight(mk *Making, sp *resolve.Spell, one quantity.Quantity) quantity.Number {
	grams := one.Value.High
	switch each, problem := sp.Each.Measure.Quantity(mk.M.Recipe.System); {
	case grams.Sign() <= 0:
		d.cannotCount(mk, sp)
		if n := len(sp.Points); n > 0 {
			return sp.Points[n-1].Grams
		}
		return mk.M.Factor
	case len(sp.Points) > 0:
		d.sayOutside(mk, sp, grams)
		return grams
	case problem != nil || each.Dim != quantity.Mass || each.Value.High.Sign() <= 0:
		d.cannotCount(mk, sp)
		return mk.M.Factor
	default:
		return grams.Div(each.Value.High)
	}
}

// howMany divides an amount by what a spell counts. Between a weight and a
// count it goes by what one of the line's things weighs, and says so.
func (d *Draft) howMany(have quantity.Quantity, line *resolve.Line, sp *resolve.Spell, mk *Making) (quantity.Number, bool) {
	each := quantity.Quantity{Dim: quantity.None, Value: quantity.Exactly(quantity.Int(1))} // per onion
	if len(sp.Each.Measure.Terms) > 0 {
		q, problem := sp.Each.Measure.Quantity(mk.M.Recipe.System)
		if problem != nil {
			return quantity.Number{}, false
		}
		each = q
	} else if have.Dim == quantity.Word {
		return have.Value.High, true
	}
	if line != nil && have.Dim != each.Dim {
		have, each = d.weighed(have, each, line, sp, mk)
	}
	if each.Dim != have.Dim || each.Value.High.Sign() <= 0 || each.Dim == quantity.Word && each.Unit != have.Unit {
		return quantity.Number{}, false
	}
	return have.Value.High.Div(each.Value.High), true
}

// weighed makes weights of a count and a weight, where it is known what one
// weighs.
func (d *Draft) weighed(have, each quantity.Quantity, line *resolve.Line, sp *resolve.Spell, mk *Making) (h, e quantity.Quantity) {
	count := &have
	switch {
	case have.Dim == quantity.None && each.Dim == quantity.Mass:
	case have.Dim == quantity.Mass && each.Dim == quantity.None:
		count = &each
	default:
		return have, each
	}
	grams, from, ok := line.PieceGrams()
	if !ok {
		return have, each
	}
	w, problem := count.AsWeight(grams)
	if problem != nil {
		return have, each
	}
	*count = w
	d.sayCounted(mk, sp, line, quantity.Grams(grams), from)
	return have, each
}

// takenOf is how much a step takes, at this size, of what its spell grows
// with. What was taken by an earlier step and is only referred to counts
// whole: "roast the lamb, 13 min per lb lamb".
func (d *Draft) takenOf(m *demand.Making, sr *resolve.StepReading, sp *resolve.Spell) (quantity.Quantity, *resolve.Line, bool) {
	if sp.EachMade > 0 {
		return times(quantity.Pieces(quantity.Int(int64(sp.EachMade))), m.Factor), nil, true
	}
	line, product := sp.EachLine, d.productMeant(m, sp)
	if line == nil && product == nil && sp.Each.Name.Text == "" {
		line, product = theOneTaken(sr)
	}
	switch {
	case line != nil:
		q, ok := lineTaken(m, sr, line)
		return q, line, ok
	case product != nil && product.Quantity != nil:
		return times(*product.Quantity, m.Factor), nil, true
	}
	return quantity.Quantity{}, nil, false
}

// theOneTaken is what a step takes when it takes one thing.
func theOneTaken(sr *resolve.StepReading) (line *resolve.Line, product *resolve.Product) {
	n := 0
	for _, t := range sr.Takes {
		if t.Refers || t.Line != nil && t.Line == line {
			continue
		}
		n++
		line, product = t.Line, t.Product
	}
	if n != 1 {
		return nil, nil
	}
	return line, product
}

func lineTaken(m *demand.Making, sr *resolve.StepReading, line *resolve.Line) (quantity.Quantity, bool) {
	amount := m.Of(line)
	if amount == nil || amount.Quantity == nil {
		return quantity.Quantity{}, false
	}
	whole := *amount.Quantity
	part, found := quantity.Int(0), false
	for _, t := range sr.Takes {
		if t.Line == line && !t.Refers {
			found = true
			if t.Unmeasured {
				return whole, true
			}
			part = part.Add(t.Part)
		}
	}
	if !found || part.Sign() == 0 {
		return whole, true
	}
	return times(whole, part), true
}

func times(q quantity.Quantity, n quantity.Number) quantity.Quantity {
	q.Value = q.Value.Mul(n)
	return q
}

// growth is how many times its written amount a line is.
func growth(a *demand.Amount) quantity.Number {
	written := a.Line.Quantity
	if a.Quantity == nil || written == nil || written.Dim != a.Quantity.Dim || written.Value.High.Sign() <= 0 {
		return a.Making.Factor
	}
	return a.Quantity.Value.High.Div(written.Value.High)
}
