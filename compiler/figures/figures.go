// Package figures decides, once, the figure that is printed for each use of
// each thing at this size and in these units. A sheet, a sentence, a list and the
// data ask here and print what they are told, so they cannot differ. What is
// printed in parts adds up to what is printed of all: a total is the sum of the
// figures of its lines, the steps take of a line what its list says, and a base
// makes what is drawn from it and what is left.
//
// This file is what the pass returns; line.go has the lines, take.go what steps
// take of them, supply.go what is made and drawn, whole.go what nobody halves.
package figures

import (
	"regexp"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Options are what the caller asks for.
type Options struct {
	Units quantity.System // amounts are printed in it; empty: as each writer wrote
	Dash  bool            // ranges as 2–3
}

// Figure is an amount as it is printed.
type Figure struct {
	Text     string            // "450 g"; empty where there is no amount
	Beside   string            // the writer's second measure, scaled: "1 lb"; may be empty
	Note     string            // of a whole thing: "or 8¾: beat and weigh 438 g"; may be empty
	Quantity quantity.Quantity // what Text comes to
	style    quantity.Style
}

// String is the figure with its second measure: "450 g (1 lb)".
func (f Figure) String() string {
	if f.Beside != "" {
		return f.Text + " (" + f.Beside + ")"
	}
	return f.Text
}

// Set holds the figures of one meal. They are worked out as they are asked for.
type Set struct {
	opt      Options
	meal     *demand.Meal
	lines    map[*demand.Amount]Figure
	takes    map[*demand.Amount]map[*resolve.Take]Taken
	supplies map[*demand.Supply]*Supply
	steps    map[stepOf]stepWords
	shared   bool // the shares of what is made have their figures
}

// Of makes the figures of a meal.
func Of(meal *demand.Meal, opt Options) *Set {
	return &Set{
		opt: opt, meal: meal, lines: map[*demand.Amount]Figure{}, takes: map[*demand.Amount]map[*resolve.Take]Taken{},
		supplies: map[*demand.Supply]*Supply{}, steps: map[stepOf]stepWords{},
	}
}

// Meal is the meal whose figures they are.
func (s *Set) Meal() *demand.Meal { return s.meal }

// Style is how figures are set that are nobody's own.
func (s *Set) Style() quantity.Style {
	return quantity.Style{Glyphs: true, System: s.opt.Units, Dash: s.opt.Dash}
}

// Print is an amount that no line, step or supply has: rounded to what can be
// weighed, in the unit its writer used, which may be nil, or in the units that
// were asked for.
func (s *Set) Print(q quantity.Quantity, unit *quantity.Unit, system quantity.System) string {
	return q.Print(s.styleOf(unit, system))
}

// styleOf is the style for a writer's unit. Spoons are in every kitchen, so they
// stay when other units are asked for.
func (s *Set) styleOf(unit *quantity.Unit, system quantity.System) quantity.Style {
	st := s.Style()
	switch {
	case s.opt.Units == quantity.NoSystem:
		st.Unit, st.System = unit, system
	case unit != nil && unit.IsSpoon():
		if _, ok := unit.Base(s.opt.Units); ok {
			st.Unit = unit
		}
	}
	return st
}

// Written prints a measure that no number of covers changes: as it was written,
// or in the units that were asked for.
func (s *Set) Written(m quantity.Measure, system quantity.System) string {
	if !s.keeps(m, system) {
		if q, problem := m.Quantity(system); problem == nil && (q.Dim == quantity.Mass || q.Dim == quantity.Volume || q.Dim == quantity.Length) {
			return q.Print(s.styleOf(m.Terms[0].Unit, system))
		}
	}
	return m.Print(s.Style())
}

// keeps tells whether a measure stays as it was written in the units asked for.
func (s *Set) keeps(m quantity.Measure, system quantity.System) bool {
	if s.opt.Units == quantity.NoSystem {
		return true
	}
	for _, t := range m.Terms {
		u := t.Unit
		if u == nil {
			continue
		}
		switch u.Dim {
		case quantity.Mass, quantity.Volume, quantity.Length:
			metric := s.opt.Units == quantity.Metric || s.opt.Units == quantity.AU
			if u.InMetric() != metric && (!u.IsSpoon() || !metric) || u.Regional && system != s.opt.Units && (system != quantity.NoSystem || s.opt.Units != quantity.Metric) {
				return false
			}
		}
	}
	return true
}

// said is a quantity as it is printed in a style.
func said(q quantity.Quantity, st quantity.Style) Figure {
	text, came := q.Printed(st)
	return Figure{Text: text, Quantity: came, style: st}
}

var teaspoon = quantity.MustUnit("tsp")

// hundredths are parts of a teaspoon that no spoon has.
var hundredths = regexp.MustCompile(`^0[.,]\d+ tsp$`)

// exactly is a quantity that is a sum or a share of printed figures.
func exactly(q quantity.Quantity, st quantity.Style) Figure {
	text, came := q.Total(st)
	if hundredths.MatchString(text) && !q.Value.IsRange() { // of two pinches a quarter
		size, _ := teaspoon.Base(st.System)
		eighth := size.Div(quantity.Int(8))
		q.Value = quantity.Exactly(q.Value.High.Div(eighth).Ceil().Mul(eighth))
		text, came = q.Total(st)
	}
	return Figure{Text: text, Quantity: came, style: st}
}
