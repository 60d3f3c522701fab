package resolve

import "tamis/lang/quantity"

// Amounts in messages are in the measures of the writer: who wrote cups is told of
// cups, and who cooks by rules that come with cups but writes grams of grams.

// Say is an amount as a message about a block has it, in the unit of its yield.
func (r *Recipe) Say(q quantity.Quantity) string {
	var unit *quantity.Unit
	if y := r.Own.Yield; y != nil {
		unit = firstUnit(y)
	}
	return q.Print(r.style(unit))
}

// Say is an amount as a message about a line has it, in the line's unit.
func (l *Line) Say(q quantity.Quantity) string {
	var unit *quantity.Unit
	if l.Written != nil {
		unit = firstUnit(l.Written)
	}
	return q.Print(l.Recipe.style(unit))
}

// Say is an amount as a message about what a step gives has it.
func (p *Product) Say(q quantity.Quantity) string {
	var unit *quantity.Unit
	if p.Made != nil && p.Made.Amount != nil {
		unit = firstUnit(p.Made.Amount)
	}
	return q.Print(p.Recipe.style(unit))
}

func firstUnit(a *quantity.Amount) *quantity.Unit {
	if len(a.Measure.Terms) == 0 {
		return nil
	}
	return a.Measure.Terms[0].Unit
}

// Style is how a message about a block sets amounts that no line has.
func (r *Recipe) Style() quantity.Style { return r.style(nil) }

// style is how a message of a block sets amounts.
func (r *Recipe) style(unit *quantity.Unit) quantity.Style {
	if unit != nil {
		return quantity.Style{System: r.System, Unit: unit}
	}
	st := quantity.Style{System: r.System}
	metric := false
	for _, l := range r.Lines {
		if l.Written == nil {
			continue
		}
		for _, t := range l.Written.Measure.Terms {
			switch u := t.Unit; {
			case u == nil || u.IsSpoon() || u.Dim != quantity.Mass && u.Dim != quantity.Volume:
			case u.InMetric():
				metric = true
			case st.System != quantity.NoSystem:
				return st
			case u.Dim == quantity.Mass: // pounds are the same everywhere
				return quantity.Style{Unit: u}
			}
		}
	}
	if metric { // the list has no others but spoons
		st.System = quantity.NoSystem
	}
	return st
}
