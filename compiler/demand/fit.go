package demand

import (
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// fitted makes a meal, and makes it over so that what is on hand is just used
// up. With several things on hand the scarcest rules: nothing runs short.
func fitted(opt Options, diags *diag.List, build func(times quantity.Number, diags *diag.List) *Meal) *Meal {
	one := quantity.Int(1)
	if len(opt.Fit) == 0 {
		return build(one, diags)
	}
	written := build(one, nil)
	var times quantity.Number
	for _, f := range opt.Fit {
		need, ok := written.need(f)
		if !ok {
			diags.Add(diag.Diagnostic{
				Code: "D108", Severity: diag.Error, Message: "nothing in " + written.Title + " uses " + f.Name + " by such a measure",
				Help: []string{"name it as the gather list does, and measure it alike: `--fit \"lamb shoulder 3.2 kg\"`"},
			})
			continue
		}
		if t := f.Quantity.Value.High.Div(need); times.IsZero() || t.Less(times) {
			times = t
		}
	}
	if times.Sign() <= 0 {
		times = one
	}
	return build(times, diags)
}

// need is how much of a named thing a meal takes, over all its lines.
func (m *Meal) need(f Wanted) (quantity.Number, bool) {
	key := larder.Fold(f.Name)
	sum := quantity.Number{}
	for _, mk := range m.Makings {
		for _, a := range mk.Lines {
			if a.Source == nil && a.Quantity != nil && a.Quantity.Same(f.Quantity) && sameThing(a.Line, key) {
				sum = sum.Add(a.Quantity.Value.High)
			}
		}
	}
	return sum, sum.Sign() > 0
}

// sameThing tells whether a line is what a folded name means.
func sameThing(l *resolve.Line, key string) bool {
	if l.Key == key {
		return true
	}
	a, ok := larder.Builtin().Find(l.Name)
	if !ok {
		return false
	}
	b, ok := larder.Builtin().Find(key)
	return ok && a == b
}

// resize applies the size of a portion and what is on hand to a dish.
func (w *work) resize(d *Making) {
	for _, s := range w.sizes {
		if larder.Fold(s.Name) != d.Recipe.Key {
			continue
		}
		each, problem := d.Recipe.ServesEach.Quantity(d.Recipe.System)
		if problem != nil || each.IsZero() || !each.Same(s.Quantity) {
			w.diags.Errorf("D109", d.Recipe.NameAt, "%s does not say how large a portion is", d.Recipe.Name).
				Because("so it cannot be made for portions of another size").
				WithHelp("write `serves 6, 200 ml each` in it, in the same kind of measure")
			continue
		}
		d.Factor = d.Factor.Mul(s.Quantity.Value.High.Div(each.Value.High))
	}
	if one := quantity.Int(1); !w.times.IsZero() && !w.times.Equal(one) {
		d.Factor = d.Factor.Mul(w.times)
		d.Portions = d.Portions.Mul(w.times).Floor()
	}
}
