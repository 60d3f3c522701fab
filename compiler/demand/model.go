// Package demand works out how much of everything a meal needs: covers become
// portions, portions become amounts of each line, and amounts of shared bases
// are added up through the whole graph and scaled once.
//
// This file is what the pass returns.
package demand

import (
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Meal is everything that has to be made for one menu. For a folder without a
// menu there is one Meal for each recipe, at its written size, and Menu is nil.
type Meal struct {
	Menu     *resolve.Menu
	Title    string
	Kitchen  *resolve.Kitchen // nil: no limits are known
	Makings  []*Making        // what is made; a base stands before what draws on it
	Supplies []*Supply        // one for each base, and for each by-product that is drawn on or left
}

// Shown is what the clock on the wall shows when so many minutes have passed.
func (m *Meal) Shown(minute int) int {
	if m == nil || m.Menu == nil {
		return minute
	}
	return m.Menu.Wall.Shown(minute)
}

// Making is one recipe made once, scaled. A dish that stands on the menu twice
// is made twice; a base is made once for all that draw on it.
type Making struct {
	Recipe   *resolve.Recipe
	Serving  *resolve.Serving // nil for a base
	Reading  *resolve.Reading // what its steps take, for the options chosen
	Letter   string           // A, B … in order of service; bases after dishes
	Factor   quantity.Number  // times the written size
	Portions quantity.Number  // 0 for a base
	Lines    []*Amount        // one for each of Reading.Lines, in order; none of a base that has a meal of its own (see plainOnes)
	Supply   *Supply          // of a base: what it gives and who draws on it; else nil
	// Others are, of a recipe made by itself, what it is with each option that was
	// not chosen: a card says them all. Their Lines draw on nothing.
	Others []*Other
	// StandIn is set for copies that stand ready before a part of a series: then
	// Reading ends with the step they are made to, and Factor, Portions and
	// Lines are those of all copies together.
	StandIn *resolve.StandIn
	whole   *resolve.Reading // of copies: all steps, where Reading ends sooner
	Copy    int              // of a copy by itself, which one of them it is; 0: all together, or none
}

// Other is a recipe with another option than the one that is made.
type Other struct {
	Option *resolve.Option
	Making *Making
}

// Amount is one line of a making, scaled.
type Amount struct {
	Making   *Making
	Line     *resolve.Line
	Quantity *quantity.Quantity // nil: no amount was written
	Source   *Making            // the making it is drawn from; nil when it is bought
	How      []string           // how the figure came about, step by step
}

// Supply is what becomes of a base or a by-product.
type Supply struct {
	Making  *Making
	Product *resolve.Product // nil: the block's own yield
	Name    string
	Made    quantity.Quantity
	Drawn   quantity.Quantity
	Left    quantity.Quantity // Made less Drawn; 0 when all is used
	Draws   []Draw
}

// Keeps is how long it keeps, and where; nil: nobody says.
func (s *Supply) Keeps() *resolve.Keep {
	if s.Product != nil {
		return s.Product.Keeps
	}
	return s.Making.Recipe.Keeps
}

// Draw is one line's claim on a supply.
type Draw struct {
	By       *Amount
	Quantity quantity.Quantity
}

// Of finds the scaled amount of a line, or nil.
func (m *Making) Of(line *resolve.Line) *Amount {
	for _, a := range m.Lines {
		if a.Line == line {
			return a
		}
	}
	return nil
}

// say prints a quantity in a message.
// Say is an amount of what is made, as its maker measures it.
func (s *Supply) Say(q quantity.Quantity) string {
	if s.Product != nil {
		return s.Product.Say(q)
	}
	return s.Making.Recipe.Say(q)
}
