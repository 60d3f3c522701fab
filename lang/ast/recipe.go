package ast

import "tamis/lang/quantity"

// Recipe is a `dish` or a `base`.
type Recipe struct {
	Meta
	IsBase bool // a base: made to be drawn on by others
	Title  Name
	Items  []RecipeItem
}

// RecipeItem is *Serves, *Makes, *Keeps, *Tested, *Units, *WholeBatches,
// *ServeHow, *Takes, *As, *Without, *Replace, *Change, *Noted, *Common, *About, *Gather, *Method or *Bad.
type RecipeItem interface {
	Node
	recipeItem()
}

// Serves is `serves 6`, `serves 6 to 8`, `serves 100, 120 ml each`.
type Serves struct {
	Meta
	Count quantity.Range
	Each  quantity.Measure // may be empty
}

// Makes is `makes 300 ml`, `makes 12 pieces, 540 g each`, `makes 2 loaves`.
type Makes struct {
	Meta
	Amount quantity.Amount
	Name   Name             // may be empty
	Each   quantity.Measure // may be empty
	Near   string           // about, nearly; "" of an amount that is sure
}

// Keeps is `keeps 2 days, fridge`.
type Keeps struct {
	Meta
	Keep Keep
}

// Keep is a time in a place.
type Keep struct {
	Time  quantity.Span
	Place string // fridge, freezer, room, cool place, warm place
}

// Tested is `tested 4 to 12`: the numbers of portions tried.
type Tested struct {
	Meta
	Count quantity.Range
}

// Units is `units US` in a dish.
type Units struct {
	Meta
	System Name
}

// WholeBatches is `whole batches`.
type WholeBatches struct{ Meta }

// ServeHow is `serve hot, within 10 min`.
type ServeHow struct {
	Meta
	State  string // hot, warm, cold, at room temperature
	Within *quantity.Span
}

// Takes is the headline time: `takes 1 h 30 min, work 20 min`.
type Takes struct {
	Meta
	Total quantity.Span
	Work  *quantity.Span
}

// As is `as Brown roux, but`: the block is like another, save the lines it gives.
type As struct {
	Meta
	Ref  Name
	Also []Name // other blocks whose lists are taken too
}

// Without is `without milk, butter`: lines of the other block that are left out.
type Without struct {
	Meta
	Names []Name
}

// Replace is `replace milk with 300 ml cream`: another line in place of one of the other
// block. Without an amount it has that of the old line.
type Replace struct {
	Meta
	Name Name
	Line *Line
}

// Change is `replace step 2, "Strain"`: a step of the other block that is left out or
// replaced, or steps that come before or after it.
type Change struct {
	Meta
	Key    string // without step, replace step, before step, after step
	Step   int    // its number there, from 1
	Begins Name   // how it begins; may be empty of without step
	Items  []MethodItem
}

// About is prose: Markdown, kept to the character. Text has the common
// indentation removed and lines joined by "\n"; blank lines are kept.
type About struct {
	Meta
	Text Text
}

// Gather is the list of what is gathered.
type Gather struct {
	Meta
	PercentOf []Name // baker's percentages are of these lines
	Items     []GatherItem
}

// GatherItem is *Line, *SubList, *Choice or *Bad.
type GatherItem interface {
	Node
	gatherItem()
}

// SubList is `for the dressing` with its lines. Name has no article: "dressing".
type SubList struct {
	Meta
	Article string // "the" as written, or ""
	Name    Name
	Items   []GatherItem
}

// Choice is either … or …
type Choice struct {
	Meta
	Options []*Option
}

// Option is one label of a choice with its lines.
type Option struct {
	Meta
	Label Name
	Items []GatherItem
}

// Line is one thing gathered.
type Line struct {
	Meta
	Amount   *quantity.Amount // nil: no amount
	Share    *Share           // of what another block makes: half the, the rest of the; then Amount is nil
	AmountAt Text             // the amount or share as written, with its place
	Size     string           // small, medium, large after a count
	Name     Name
	Brackets Text // text of a bracket after the name
	Note     Text // what follows the comma: for the cook
	Clauses  []Clause
	Instead  []*Line // substitutes, each a line of its own
	Said     Text    // the writer's own words
}

// Method is the list of steps.
type Method struct {
	Meta
	Items []MethodItem
}

// MethodItem is *Step, *Pause or *Bad.
type MethodItem interface {
	Node
	methodItem()
}

// Step is one step: prose and its margin. Prose.Text has its lines joined by a
// blank; Lines holds each written line with its place, for finding names at
// their spans and for formatting without touching the prose.
type Step struct {
	Meta
	Prose   Text
	Lines   []Text
	Clauses []Clause
	Moments []*Moment
	Said    Text // the writer's own words
}

// Moment is something to do inside a long step: `at 30 min: Turn it. | …`.
type Moment struct {
	Meta
	At      *quantity.Span // nil: at half time
	Sight   Text           // `when risen, say 20 min`: what to look for; may be empty
	Prose   Text
	Lines   []Text
	Clauses []Clause
}

// Pause is `pause up to 1 day, fridge`.
type Pause struct {
	Meta
	Keep Keep
}
