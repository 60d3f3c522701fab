// Package resolve gives every name in a book its meaning: which block a
// gather line draws on, which line a word in a sentence takes from, which
// option a menu has chosen. It works at the size each recipe was written for;
// scaling is the next pass's.
//
// This file is the model that the pass returns and later passes read.
package resolve

import (
	"cmp"
	"slices"
	"time"

	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Model is a whole book, resolved.
type Model struct {
	Scopes  []*Scope
	Recipes []*Recipe // every dish and base, by file and place
	Menus   []*Menu
	Series  []*Series
	Books   []*ast.Book

	builder *builder // for reading a recipe again with other options
}

// Scope is one folder.
type Scope struct {
	Dir      string // slash path below the book's root; "." is the root
	Parent   *Scope // the enclosing folder's scope; nil at the root
	Recipes  map[string]*Recipe
	Kitchens map[string]*Kitchen
	System   quantity.System // NoSystem when nobody said
	Entries  map[string]*ast.Entry
}

// Recipe is a dish or a base at written size.
type Recipe struct {
	AST   *ast.Recipe
	Scope *Scope
	Name  string
	Key   string // folded name
	Base  bool
	Asked bool // stands in what the user asked for

	Serves       *quantity.Range // portions; nil when not said
	ServesEach   quantity.Measure
	Makes        *Yield // nil when not said
	Keeps        *ast.Keep
	Tested       *quantity.Range
	WholeBatches bool
	ServeHow     *ast.ServeHow
	Takes        *ast.Takes
	About        *ast.About
	System       quantity.System

	Lines     []*Line // every gather line, in order, through sub-lists and choices
	SubLists  []*SubList
	Choices   []*Choice
	Steps     []*Step
	Pauses    []*Pause
	Products  []*Product
	PercentOf []*Line // of baker's percentages

	// Reading is what its sentences take when the menu chooses nothing.
	Reading *Reading
	// Readings are that, and one for each further option of each choice.
	Readings []*Reading

	reading quantity.Options // how amounts stand in its sentences
	method  *ast.Method      // with `as … but` carried out
}

// Yield is what a block or a step makes.
type Yield struct {
	Quantity quantity.Quantity
	What     string // "pieces", "loaves": the name written after the amount; may be empty
	Each     *quantity.Quantity
}

// Line is one thing gathered, at written size.
type Line struct {
	AST    *ast.Line
	Recipe *Recipe
	Index  int
	Name   string
	Key    string
	Sub    *SubList // nil outside sub-lists
	Option *Option  // nil outside choices

	// Quantity is the amount in base units; nil without an amount, and for one
	// that depends on the number of covers (PerHead).
	Quantity *quantity.Quantity
	Share    *ast.Share // of what another block makes, in place of an amount; else nil
	Law      Law

	// Where it comes from: at most one of Recipe and Product is set. Neither:
	// it is bought, or carried over.
	From    *Recipe
	Product *Product
	Carried string // "left from Saturday", "made in part 1"
	InPart  int    // of a line made in part 1: 1; else 0
	Bought  bool   // `| bought`

	ToTaste  bool
	Optional bool
	Serving  bool    // under `for serving`: nobody need name it
	Water    bool    // from the tap: never on the shopping list
	Prep     []Spell // work, watch and leave on the line itself
	BoughtAs *quantity.Quantity

	again bool // the same name stood above it: reported, and not read
}

// Law says how an amount grows with the portions.
type Law int

// The laws. ByVessel and ByArea are kept as written in this version's demand
// when the vessel does not change.
const (
	Linear Law = iota
	Seasoning
	Fixed
	Whole
	ByVessel
	ByArea
	PerHead
)

// SubList is a part of a gather list: "for the dressing".
type SubList struct {
	AST   *ast.SubList
	Name  string
	Key   string
	Lines []*Line
}

// Choice is a set of options of which one is taken.
type Choice struct{ Options []*Option }

// Option is one label of a choice.
type Option struct {
	AST    *ast.Option
	Choice *Choice
	Label  string
	Key    string
	Lines  []*Line
}

// Step is one step of a method.
type Step struct {
	AST    *ast.Step
	Recipe *Recipe
	Index  int    // from 0, over all steps of the method
	Title  string // a few words: the sentence's beginning, for bars
	Line   string // the same at more length, for lists

	If    []Condition
	Pause int // how many pauses stand above it: step belongs to stage Pause

	Meanwhile    bool
	AfterStart   bool
	After        []*Step // `after NAME`: makers waited for instead of the step before
	OnlyIfNeeded bool

	Phases  []Spell // work, watch, leave in order
	Heats   []Heat  // oven phases, in order; empty: no oven
	Oven    string  // which oven was named; folded; empty: any
	Shelf   string
	Shelves int // shelves wanted; at least 1 with an oven
	Rings   int // rings held throughout
	Level   string
	Grill   bool
	Place   string   // fridge, freezer, warm place …
	Tools   []string // folded names
	Vessel  string   // folded name of the vessel it stands in; may be empty
	Vessels int      // how many of them at the written size; 1 when not said, 0 without a vessel
	Into    *ast.Clause
	By      []string // folded names of the cooks who may do it; empty: any
	Cooks   int      // hands needed at once; at least 1 when worked or watched
	Core    *ast.Clause
	Reach   *ast.Clause

	Within      *time.Duration // at most this long after the last thing it waited for
	StartBefore *time.Duration // must start this long before serving
	DoneBefore  *time.Duration // must be done this long before serving
	Hold        *ast.Clause    // what it made may wait: `hold hot up to 1 h`

	Makes []*Product
}

// Condition is `if X` or `unless X`. Exactly one of Option and Paused counts.
type Condition struct {
	Unless bool
	Option *Option
	Paused bool // a pause: the nearest above, or with `pausing` the next below
	Pause  int  // its number; 0 for an option
}

// SpellKind tells the phases of a step apart.
type SpellKind string

// The phases, in the order they must stand in.
const (
	Work  SpellKind = "work"  // hands busy
	Watch SpellKind = "watch" // a cook stays by
	Leave SpellKind = "leave" // unattended
)

// Spell is one phase of a step or of the preparation of a line.
type Spell struct {
	Kind   SpellKind
	Place  string // for rest, stand, thaw: where
	Clause *ast.Clause
	// The parts of its length at written size, from Clause.Spell.
	Fixed    *quantity.Span
	Per      *quantity.Span
	Each     ast.Each
	EachLine *Line // the line that Each.Name means, when it means one
	EachMade int   // how many pieces of that name an `into` of the block makes at its written size; 0: none
	Every    *quantity.Span
}

// Heat is one oven setting in degrees Celsius. Low = High unless the writer
// allows a range. For is 0 for the last phase.
type Heat struct {
	Low, High int
	For       time.Duration
	Shown     string // as it is printed: "200 °C", "gas 6 (200 °C)"
}

// Pause is `pause up to 1 day, fridge`. Number counts from 1.
type Pause struct {
	AST    *ast.Pause
	Number int
	After  int // index of the first step after it
	UpTo   time.Duration
	Place  string
}

// Product is what a step makes or draws: a by-product when it has an amount,
// else only a name for a moment.
type Product struct {
	Name     string
	Key      string
	Recipe   *Recipe
	Step     *Step
	Clause   *ast.Clause
	Quantity *quantity.Quantity // nil: only a name
	Keeps    *ast.Keep
}

// Kitchen is the place a menu is cooked in.
type Kitchen struct {
	AST                             *ast.Kitchen
	Name                            string
	Practice                        string
	Cooks                           []string // names as written
	Ovens                           []Oven
	Rings                           int // 0 when not said: as many as wanted
	Tools                           []Tool
	Vessels                         []Vessel
	WashUps                         []WashUp // at most one of each kind
	WaitHot, WaitCold, WaitPrepared time.Duration
}

// Oven is one oven.
type Oven struct {
	Name    string
	Key     string
	Shelves int
	Fan     bool
	Gas     bool
	Preheat time.Duration
	Heats   Pace // up from one heat to another; zero when not said: see Paces
	Cools   Pace // down
}

// Pace is how many degrees Celsius of difference take how long.
type Pace struct {
	Degrees int
	Time    time.Duration
}

// Tool is a tool or a vessel that only one step can have at a time.
type Tool struct {
	Name, Key string
	Washed    time.Duration // how long it takes to wash between two dishes; 0 when not said
}

// Vessel is a pot or tin; Count of them are there.
type Vessel struct {
	Name, Key string
	Holds     *quantity.Quantity
	Count     int
}

// Menu is a meal. Its times are in minutes from the midnight at which the day
// of serving begins; earlier days are negative.
type Menu struct {
	AST      *ast.Menu
	Scope    *Scope
	Name     string
	Asked    bool
	Covers   int        // 0 when not said
	Children int        // besides: each eats half a portion
	Serve    *time.Time // the wall clock time of the first course, in UTC; nil: no clock
	Kitchen  *Kitchen   // nil: an imagined one with a cook and no limits
	Hours    []Hours
	Courses  []*Course
	Tasks    []*ast.Task
	By       string
	Practice string
}

// Hours is a span in which cooks are there, in minutes from midnight of the
// serving day. Cooks empty: every cook.
type Hours struct {
	AST      *ast.Hours
	From, To int
	Cooks    []string
}

// Course is a course; At is its serving time in minutes from midnight of the
// serving day (0 when the menu has no clock: then from the first serving).
type Course struct {
	AST      *ast.Course
	Name     string
	At       int
	After    *Course // the course it follows by a written time, which is At less the other's; nil: by the clock
	Servings []*Serving
}

// Serving is a dish on the menu.
type Serving struct {
	AST      *ast.Serving
	Course   *Course
	Recipe   *Recipe // nil for bought and to-be-written ones
	Name     string
	Covers   int // for how many it is served; 0 when nobody said
	CookFor  int // for how many it is cooked; = Covers unless held back
	Ahead    bool
	Straight bool
	Chosen   map[*Choice]*Option // one for every choice of the recipe
	Stated   map[*Choice]bool    // the menu chose it itself
}

// Reading is what the sentences of a recipe take, with one option chosen for
// every choice.
type Reading struct {
	Recipe *Recipe
	Chosen map[*Choice]*Option
	Lines  []*Line        // the lines that are there
	Steps  []*StepReading // the steps that are there, paused ones included
}

// Of is what a step takes; nil where the step is not there.
func (rd *Reading) Of(s *Step) *StepReading {
	i, ok := slices.BinarySearchFunc(rd.Steps, s.Index, func(sr *StepReading, index int) int { return cmp.Compare(sr.Step.Index, index) })
	if !ok || rd.Steps[i].Step != s {
		return nil
	}
	return rd.Steps[i]
}

// StepReading is what one step takes and what it waits for.
type StepReading struct {
	Step  *Step
	Takes []Take
}

// Take is one thing a step takes or refers to.
type Take struct {
	Span    source.Span // the words in the sentence or margin
	NameAt  source.Span // the name alone
	Line    *Line       // exactly one of Line and Product is set
	Product *Product
	// Part is the share of the whole line, from 0 to 1, that is taken;
	// meaningless when Unmeasured or Refers.
	Part       quantity.Number
	Amount     *quantity.Quantity // an amount said in the sentence, at written size
	AmountAt   source.Span        // where it stands
	All        bool               // everything that was left
	Rest       bool               // "the rest of"
	Unmeasured bool               // "some of the", "a little"
	Refers     bool               // used up before: takes nothing, waits for nothing
	ByMargin   bool               // from a `uses` clause
	LeftAfter  quantity.Number    // share of the line left after this step
}
