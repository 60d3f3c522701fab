package demand

import (
	"fmt"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// supply adds up what is drawn from a base and sets how often it is made over.
func (w *work) supply(b *Making) {
	r := b.Recipe
	s := &Supply{Making: b, Name: r.Name}
	b.Supply, b.Factor = s, quantity.Int(1)
	if usual := w.usual[r]; usual.Sign() > 0 {
		b.Factor = usual
	}
	w.meal.Supplies = append(w.meal.Supplies, s)
	if r.Gives() == nil {
		w.unmeasuredBase(b)
		w.tap(b)
		if w.written {
			b.Factor = quantity.Int(1)
		}
		return
	}
	unit := r.Gives().Quantity
	s.Drawn = zeroLike(unit)
	for _, a := range w.draws[b] {
		if a.Line.Share != nil { // when it is known how much is made
			continue
		}
		if a.Quantity == nil {
			w.diags.Askf("D103", a.Line.Span, "how much %s goes in here", r.Name).
				Because("it is made for what draws on it, and this line draws an unknown amount").
				WithHelp("put an amount before the name: it makes %s as written", r.Say(unit))
			continue
		}
		q, ok := w.inUnits(*a.Quantity, b, a.Line)
		if !ok {
			continue
		}
		s.Draws = append(s.Draws, Draw{By: a, Quantity: q})
		if sum, err := s.Drawn.Add(q); err == nil {
			s.Drawn = sum
		}
	}
	if unit.Value.Low.Sign() <= 0 {
		return
	}
	if len(s.Draws) > 0 {
		b.Factor = s.Drawn.Value.High.Div(unit.Value.Low)
	}
	w.growForShares(b)
	by := w.tap(b)
	switch {
	case w.written:
		b.Factor = quantity.Int(1)
	case r.WholeBatches:
		b.Factor = b.Factor.Ceil()
	}
	s.Made = unit.Scale(b.Factor)
	s.Made.Value.High = s.Made.Value.Low
	s.Drawn.Value.Low = s.Drawn.Value.High
	w.shareOut(s, w.draws[b], zeroLike(unit))
	s.Left = zeroLike(unit)
	if left, err := s.Made.Sub(s.Drawn); err == nil {
		s.Left = left
	}
	if y := r.Makes; y != nil && y.Near == "nearly" && s.Made.Value.High.Mul(quantity.Frac(9, 10)).Less(s.Drawn.Value.High) {
		w.diags.Hintf("D112", r.NameAt, "%s makes nearly %s, and %s is wanted", r.Name, s.Say(s.Made), s.Say(s.Drawn)).
			Because("the last of it may be missing").
			WithHelp("make a little more: write `whole batches`, or the amount that surely comes of it")
	}
	w.labels[b] = fmt.Sprintf("%s makes %s, %s wanted", r.Name, r.Say(unit), s.Say(s.Drawn))
	if by != "" {
		w.labels[b] = r.Name + " makes " + by
	}
}

// tap makes a base over for what is drawn from its steps, where that wants more
// of it than its own yield does: a base is made for all that draws on it,
// wherever in its method they draw. It returns what decided, in words.
func (w *work) tap(b *Making) (by string) {
	if len(w.draws[b]) == 0 && len(w.taps[b]) > 0 {
		b.Factor = quantity.Number{}
	}
	for _, a := range w.taps[b] {
		if a.Line.Share != nil {
			b.Factor = quantity.Max(b.Factor, a.Making.Factor)
		}
	}
	for _, p := range b.Recipe.Products {
		if p.Quantity == nil || p.Quantity.Value.Low.Sign() <= 0 || !b.has(p.Step) {
			continue
		}
		wanted, any := zeroLike(*p.Quantity), false
		for _, a := range w.taps[b] {
			if w.product(a) != p || a.Quantity == nil {
				continue
			}
			if sum, err := wanted.Add(*a.Quantity); err == nil { // another measure is reported with the by-products
				wanted, any = sum, true
			}
		}
		part := quantity.Int(1)
		for l := range timesMade(w.taps[b]) {
			if l.Product == p {
				part = part.Sub(fractionOf(l))
			}
		}
		each, err := p.Quantity.Scale(part).Sub(ownShare(b, p))
		if !any || err != nil || each.Value.Low.Sign() <= 0 {
			continue
		}
		if n := wanted.Value.High.Div(each.Value.Low); b.Factor.Less(n) {
			b.Factor = n
			by = fmt.Sprintf("%s of %s, %s wanted", p.Say(*p.Quantity), p.Name, p.Say(wanted))
		}
	}
	if b.Factor.IsZero() { // nothing that was drawn could be measured
		b.Factor = quantity.Int(1)
	}
	return by
}

// ownShare is what a block's own steps claim of what one of them makes, at the
// written size. A bare name claims nothing: it takes what others leave.
func ownShare(m *Making, p *resolve.Product) quantity.Quantity {
	claim := zeroLike(*p.Quantity)
	for _, sr := range m.Reading.Steps {
		for _, t := range sr.Takes {
			if t.Product != p || t.Refers || t.Unmeasured {
				continue
			}
			use := zeroLike(*p.Quantity)
			switch {
			case t.Amount != nil && t.Amount.Same(*p.Quantity):
				use = *t.Amount
			case !t.Part.IsZero():
				use = p.Quantity.Scale(t.Part)
			}
			if sum, err := claim.Add(use); err == nil {
				claim = sum
			}
		}
	}
	return claim
}

// unmeasuredBase is a base that does not say how much it makes: it is made as
// many times as batches are drawn, else over as often as the dish that is made
// over most; another amount drawn from it is an error.
func (w *work) unmeasuredBase(b *Making) {
	batches := quantity.Number{}
	for _, a := range w.draws[b] {
		if a.Quantity != nil && a.Quantity.Dim == quantity.Batch {
			batches = batches.Add(a.Quantity.Value.High)
			continue
		}
		if a.Quantity != nil {
			w.diags.Errorf("D104", b.Recipe.NameAt, "%s does not say how much it makes", b.Recipe.Name).
				Because("other recipes take an amount of it, so it must be known how much there is").
				See(a.Line.Span, "%s is taken here", a.Line.Say(*a.Quantity)).
				WithHelp("write `makes 300 ml` (or a weight, or a number) in it")
			return
		}
	}
	if batches.Sign() > 0 {
		b.Factor = batches
	}
	for _, a := range w.draws[b] {
		if a.Quantity == nil {
			b.Factor = quantity.Max(b.Factor, a.Making.Factor)
		}
	}
}

func zeroLike(q quantity.Quantity) quantity.Quantity {
	q.Value = quantity.Range{}
	return q
}

// inUnits says an amount that is drawn in the measure the base is made in.
func (w *work) inUnits(q quantity.Quantity, b *Making, l *resolve.Line) (quantity.Quantity, bool) {
	makes := b.Recipe.Gives()
	unit := makes.Quantity
	q.Value.Low = q.Value.High
	switch {
	case q.Dim == unit.Dim && q.Unit == unit.Unit:
		return q, true
	case q.Dim == quantity.Batch:
		all := unit.Scale(q.Value.High) // so many makings, though they may give more
		all.Value.High = all.Value.Low
		return all, true
	case makes.Each != nil && q.Dim == makes.Each.Dim && makes.Each.Value.High.Sign() > 0:
		out := unit
		out.Value = quantity.Exactly(q.Value.High.Div(makes.Each.Value.High))
		return out, true
	}
	massAndVolume := q.Dim == quantity.Mass && unit.Dim == quantity.Volume || q.Dim == quantity.Volume && unit.Dim == quantity.Mass
	if massAndVolume {
		if d, ok := density(b.Recipe); ok {
			out := unit
			if q.Dim == quantity.Mass {
				out.Value = quantity.Exactly(q.Value.High.Div(d))
			} else {
				out.Value = quantity.Exactly(q.Value.High.Mul(d))
			}
			return out, true
		}
	}
	d := w.diags.Errorf("D105", l.AmountAt, "%s of %s is taken, and it is made as %s", l.AmountText, b.Recipe.Name, b.Recipe.Say(unit)).
		See(b.Recipe.NameAt, "made here")
	if massAndVolume {
		d.Because("a weight and a volume can only be compared when it is known what it weighs")
		d.WithHelp("write in the larder: `%s | weighs 1.02 g per ml`, with the right figure", b.Recipe.Name)
	}
	d.WithHelp("say both in the same kind of measure")
	return q, false
}

// density is what a recipe's larder entry, or the built-in larder, says it
// weighs, in grams a millilitre.
func density(r *resolve.Recipe) (quantity.Number, bool) {
	if e := r.Scope.Entry(r.Key); e != nil {
		if d, ok := entryDensity(e, r.Scope.Units()); ok {
			return d, true
		}
	}
	if it, ok := larder.Builtin().Find(r.Name); ok {
		if d, ok := it.Density(""); ok {
			return d.GPerML.Value, true
		}
	}
	return quantity.Number{}, false
}

func entryDensity(e *resolve.Entry, sys quantity.System) (quantity.Number, bool) {
	if f := e.Weighs; f != nil {
		mass, p1 := f.Weight.Quantity(sys)
		per, p2 := f.Per.Quantity(sys)
		if p1 == nil && p2 == nil && mass.Dim == quantity.Mass && per.Dim == quantity.Volume && per.Value.High.Sign() > 0 {
			return mass.Value.High.Div(per.Value.High), true
		}
	}
	return quantity.Number{}, false
}

// byProducts sets what is drawn from what steps make against what they give. A
// by-product scales with its block, and never drives a dish.
func (w *work) byProducts() {
	seen := map[*resolve.Product]*Supply{}
	for _, m := range w.meal.Makings {
		for _, p := range m.Recipe.Products {
			if p.Quantity == nil || !m.has(p.Step) {
				continue
			}
			q := p.Quantity.Scale(m.Factor)
			s := seen[p]
			if s == nil {
				s = &Supply{Making: m, Product: p, Name: p.Name, Made: zeroLike(q), Drawn: zeroLike(q), Left: zeroLike(q)}
				seen[p] = s
				w.meal.Supplies = append(w.meal.Supplies, s)
			}
			if sum, err := s.Made.Add(q); err == nil {
				s.Made = sum
			}
		}
	}
	for _, m := range w.meal.Makings {
		for _, a := range m.Lines {
			if a.Line.Product == nil {
				continue
			}
			w.drawProduct(a, seen[a.Line.Product])
		}
	}
	w.drawCarried(seen)
	shares := map[*resolve.Product][]*Amount{}
	for _, m := range w.meal.Makings {
		for _, a := range m.Lines {
			if a.Line.Share != nil {
				shares[a.Line.Product] = append(shares[a.Line.Product], a)
			}
		}
	}
	for _, s := range w.meal.Supplies {
		if s.Product != nil {
			w.shareOut(s, shares[s.Product], ownShare(s.Making, s.Product).Scale(s.Making.Factor))
		}
	}
	for _, m := range w.meal.Makings {
		ownUse(m, seen)
	}
	for _, s := range w.meal.Supplies {
		if s.Product == nil {
			continue
		}
		if left, err := s.Made.Sub(s.Drawn); err == nil {
			s.Left = left
		}
		if s.Left.Value.Low.Sign() < 0 {
			w.short(s)
		}
	}
}

// ownUse takes what a block's own steps use of what its steps make: an amount,
// a share, or with a bare name all that others leave.
func ownUse(m *Making, seen map[*resolve.Product]*Supply) {
	for _, sr := range m.Reading.Steps {
		for _, t := range sr.Takes {
			s := seen[t.Product]
			if t.Product == nil || s == nil || t.Refers {
				continue
			}
			use := t.Product.Quantity.Scale(m.Factor)
			switch {
			case t.Amount != nil && t.Amount.Same(use):
				use = t.Amount.Scale(m.Factor)
			case t.Unmeasured:
				continue
			case !t.Part.IsZero():
				use = use.Scale(t.Part)
			}
			use.Value.Low = use.Value.High
			if t.Amount == nil && t.Part.IsZero() { // all that is left
				if left, err := s.Made.Sub(s.Drawn); err == nil && left.Value.High.Less(use.Value.High) {
					use = left
					use.Value.High = quantity.Max(use.Value.High, quantity.Number{})
					use.Value.Low = use.Value.High
				}
			}
			if sum, err := s.Drawn.Add(use); err == nil {
				s.Drawn = sum
			}
		}
	}
}

func (w *work) drawProduct(a *Amount, s *Supply) {
	p := a.Line.Product
	if s == nil && w.meal.Menu == nil {
		return // one recipe by itself: the other dish is made another time
	}
	if s == nil {
		w.diags.Errorf("D106", a.Line.NameAt, "%s comes from %s, which is not made for this meal", p.Name, p.Recipe.Name).
			See(p.Made.Span, "made here").
			WithHelp("put %s on the menu, or write `| from the shop` or `| left from …` after this line", p.Recipe.Name)
		return
	}
	a.Source = s.Making
	if a.Quantity == nil {
		return
	}
	q := *a.Quantity
	q.Value.Low = q.Value.High
	sum, err := s.Drawn.Add(q)
	if err != nil {
		w.diags.Errorf("D105", a.Line.AmountAt, "%s of %s is taken, and it is made as %s", a.Line.AmountText, p.Name, s.Say(s.Made)).
			See(p.Made.Span, "made here").
			WithHelp("say both in the same kind of measure")
		return
	}
	s.Drawn = sum
	s.Draws = append(s.Draws, Draw{By: a, Quantity: q})
}

func (w *work) short(s *Supply) {
	missing, err := s.Drawn.Sub(s.Made)
	if err != nil || len(s.Draws) == 0 {
		return
	}
	last := s.Draws[len(s.Draws)-1].By
	d := w.diags.Errorf("D107", last.Line.Span, "%s of %s is short: %s gives %s, and %s is taken", s.Say(missing), s.Name, s.Making.Recipe.Name, s.Say(s.Made), s.Say(s.Drawn)).
		Because("a by-product comes in the amount its dish gives; more of it cannot be made alone").
		See(s.Product.Made.Span, "made here")
	for _, dr := range s.Draws {
		what := dr.By.Making.Recipe.Name
		if dr.By.Making.StandIn != nil {
			what = "the copies of " + what
		}
		d.See(dr.By.Line.Span, "%s for %s", s.Say(dr.Quantity), what)
	}
	d.WithHelp("take less, or make a base of it")
}

// has tells whether a step is there for the options chosen.
func (m *Making) has(s *resolve.Step) bool {
	return m.Reading.Of(s) != nil
}
