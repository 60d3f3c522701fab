package build

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// printStyle is how figures are set on all sheets of a meal.
func printStyle(opt Options) quantity.Style {
	return quantity.Style{Glyphs: true, System: opt.Units, Dash: opt.Dash}
}

// show prints a quantity for a cook, rounded to what can be weighed, in units
// of the system its writer uses. unit is the writer's own unit, or nil.
func (b *builder) show(q quantity.Quantity, unit *quantity.Unit, system quantity.System) string {
	st := b.style
	if b.opt.Units == quantity.NoSystem {
		st.Unit, st.System = unit, system
	}
	return q.Print(st)
}

// showWritten prints a measure that no number of covers changes: as it was
// written, or in the units that were asked for.
func (b *builder) showWritten(m quantity.Measure, system quantity.System) string {
	if b.opt.Units != quantity.NoSystem && len(m.Terms) > 0 {
		if q, problem := m.Quantity(system); problem == nil && (q.Dim == quantity.Mass || q.Dim == quantity.Volume) {
			return q.Print(b.style)
		}
	}
	return m.Print(b.style)
}

// yieldUnit is the unit a block's `makes` was written in, or nil.
func yieldUnit(r *resolve.Recipe) *quantity.Unit {
	if r.Own.Yield == nil {
		return nil
	}
	return firstUnit(r.Own.Yield)
}

// showProduct prints a share of what a step makes, in the unit it was written in.
func (b *builder) showProduct(m *demand.Making, p *resolve.Product, q quantity.Quantity) string {
	var unit *quantity.Unit
	if p.Made.Amount != nil {
		unit = firstUnit(p.Made.Amount)
	}
	return b.show(q.Scale(m.Factor), unit, m.Recipe.System)
}

// showMade prints what a step makes or draws in the unit the step wrote.
func (b *builder) showMade(m *demand.Making, p *resolve.Product) string {
	return b.showProduct(m, p, *p.Quantity)
}

// showSupply prints an amount of a base or a by-product in the unit its maker
// wrote.
func (b *builder) showSupply(s *demand.Supply, q quantity.Quantity) string {
	unit := yieldUnit(s.Making.Recipe)
	if s.Product != nil {
		unit = nil
		if s.Product.Made.Amount != nil {
			unit = firstUnit(s.Product.Made.Amount)
		}
	}
	return b.show(q, unit, s.Making.Recipe.System)
}

// showLine prints the amount of a line, in the writer's own kind of unit;
// packages stay packages while they come out whole.
func (b *builder) showLine(a *demand.Amount) string {
	if a.Quantity == nil {
		return ""
	}
	if p := a.Quantity.Packs; p != nil && p.Count.Low.IsInt() && p.Count.High.IsInt() {
		text := quantity.Pieces(p.Count.High).Print(b.style) + " × " + p.Each.Print(b.lineStyle(a))
		if p.Container != nil {
			text += " " + p.Container.For(p.Count)
		}
		return text
	}
	q := *a.Quantity
	if wholeOnly(a.Line.Name, q) {
		q.Value = quantity.Range{Low: nearestWhole(q.Value.Low), High: nearestWhole(q.Value.High)}
	}
	return q.Print(b.lineStyle(a))
}

// wholeOnly tells whether a count is of small things nobody halves: cloves,
// sprigs, leaves, and what stands in the spice rack. Common practice, no source.
func wholeOnly(name string, q quantity.Quantity) bool {
	switch q.Dim {
	case quantity.Word:
		switch q.Unit.Name {
		case "clove", "sprig", "leaf", "stalk", "sheet", "slice":
			return true
		}
	case quantity.None:
		it, ok := larder.Builtin().Find(name)
		return ok && it.Counter == "spices"
	}
	return false
}

// nearestWhole is the whole number nearest to n, at least 1.
func nearestWhole(n quantity.Number) quantity.Number {
	return quantity.Max(quantity.Int(1), quantity.RoundTo(n, quantity.Int(1)))
}

// showPart prints a share of a line.
func (b *builder) showPart(a *demand.Amount, part quantity.Number) string {
	q := a.Quantity.Scale(part)
	q.Packs = nil
	return q.Print(b.lineStyle(a))
}

// showSaid prints a share of a line in the unit in which a sentence said it; unit may be nil.
func (b *builder) showSaid(a *demand.Amount, part quantity.Number, unit *quantity.Unit) string {
	q := a.Quantity.Scale(part)
	q.Packs = nil
	st := b.lineStyle(a)
	if unit != nil && b.opt.Units == quantity.NoSystem {
		st.Unit = unit
	}
	return q.Print(st)
}

// formulaTolerance is how far a weight of a baker's formula may be from the
// true one. Common practice, no source: bakers weigh to the gram.
var formulaTolerance = quantity.Frac(1, 200)

func (b *builder) lineStyle(a *demand.Amount) quantity.Style {
	st := b.style
	if b.opt.Units != quantity.NoSystem {
		return st
	}
	st.System = a.Line.Recipe.System
	if am := a.Line.Written; am != nil {
		if am.Kind == quantity.Percent {
			st.Tolerance = formulaTolerance
		}
		m := am.Measure
		if am.Kind == quantity.Packages {
			m = am.Each
		}
		if len(m.Terms) > 0 {
			st.Unit = m.Terms[0].Unit
		}
	}
	return st
}

// nameOf is the name of a line, its size word before it, in the number that
// the scaled amount asks for: "1 lemon" made over is "2 lemons".
func (b *builder) nameOf(a *demand.Amount) string {
	name := a.Line.Name
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		name = name[i+1:]
	}
	if q := a.Quantity; q != nil && q.Dim == quantity.None && !a.Line.Quoted {
		name = inNumber(name, q.Value.High)
	}
	if s := a.Line.Size; s != "" {
		name = s + " " + name
	}
	return name
}

// inNumber puts a counted name in the plural above one, and in the singular
// otherwise.
func inNumber(name string, n quantity.Number) string {
	if quantity.Int(1).Less(n) {
		return larder.PluralName(name)
	}
	head, last := "", name
	if i := strings.LastIndexByte(name, ' '); i >= 0 {
		head, last = name[:i+1], name[i+1:]
	}
	return head + larder.Singular(last)
}

func (b *builder) insteadText(a *demand.Amount, l *resolve.Instead) string {
	text := l.Name
	if l.Written == nil {
		return text
	}
	r := a.Line.Recipe
	q, problem := l.Written.Quantity(r.System, 0)
	if problem != nil {
		return l.AmountText + " " + text
	}
	return b.show(q.Scale(a.Making.Factor), firstUnit(l.Written), r.System) + " " + text
}

func firstUnit(a *quantity.Amount) *quantity.Unit {
	if len(a.Measure.Terms) == 0 {
		return nil
	}
	return a.Measure.Terms[0].Unit
}
