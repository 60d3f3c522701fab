package build

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// use turns to a meal, and to its figures.
func (b *builder) use(meal *demand.Meal) {
	b.meal, b.bought = meal, nil
	if b.figs == nil {
		b.figs = map[*demand.Meal]*figures.Set{}
	}
	if b.figs[meal] == nil {
		b.figs[meal] = figures.Of(meal, figures.Options{Units: b.opt.Units, Dash: b.opt.Dash})
	}
	b.fig = b.figs[meal]
}

// showLine prints the amount of a line.
func (b *builder) showLine(a *demand.Amount) string { return b.fig.Line(a).String() }

// nameOf is the name of a line, its size word before it, in the number that
// the scaled amount asks for: "1 lemon" made over is "2 lemons".
func (b *builder) nameOf(a *demand.Amount) string {
	name := a.Line.Name
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		name = name[i+1:]
	}
	if q := a.Quantity; q != nil && q.Dim == quantity.None && !a.Line.Quoted {
		name = figures.InNumber(name, b.fig.Line(a).Quantity.Value.High)
	}
	if s := a.Line.Size; s != "" {
		name = s + " " + name
	}
	return name
}

func (b *builder) insteadText(a *demand.Amount, l *resolve.Instead) string {
	text := l.Name
	if l.Size != "" {
		text = l.Size + " " + text
	}
	if l.Written == nil {
		return text
	}
	r := a.Line.Recipe
	q, problem := l.Written.Quantity(r.System, 0)
	if problem != nil {
		return l.AmountText + " " + text
	}
	if a.Making.Factor.Equal(quantity.Int(1)) && b.opt.Units == quantity.NoSystem {
		return l.Written.Print(b.fig.Style()) + " " + text
	}
	return b.fig.Print(q.Scale(a.Making.Factor), figures.FirstUnit(l.Written), r.System) + " " + text
}
