// Package resolve gives every name in a book its meaning: which block a
// gather line draws on, which line a word in a sentence takes from, which
// option a menu has chosen. It works at the size each recipe was written for;
// scaling is the next pass's.
//
// It is the last pass that reads the syntax tree. What a later one may want of
// the text travels in the model: the place of everything that can be reported,
// the prose, the amounts as they were written, and each clause of a margin as a
// Go type of its own, so that no pass but this one knows the notation.
//
// Read this file first: it is the model that the pass returns, with clause.go
// (margins), meal.go (kitchens and menus), series.go, book.go and entry.go
// (the writer's larder). Then build.go, which calls everything else in order:
// recipe.go and step.go read what stands in a block, link.go says who makes a
// line, and read.go, scan.go and take.go what a sentence takes.
package resolve

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Model is a whole book, resolved.
type Model struct {
	Scopes  []*Scope
	Recipes []*Recipe // every dish and base, by file and place
	Menus   []*Menu
	Series  []*Series
	Books   []*Book
	Entries []*Entry // of the larder blocks, by file and place, repeated ones too
	Unsure  []Text   // fields that nobody has confirmed: `serves 8 ?`, by their first words
	Spoken  []Text   // the names by which servings, chapters, parts and `as` speak of recipes, known or not

	builder *builder // for reading a recipe again with other options
	round   int      // how often the book was resolved before
	fresh   []*Recipe
	walked  map[*load.File]*walked
}

// Fresh are the recipes that were not taken over from a model before; of a book
// that is resolved for the first time, all.
func (m *Model) Fresh() []*Recipe { return m.fresh }

// Scope is one folder.
type Scope struct {
	Dir      string // slash path below the book's root; "." is the root
	Parent   *Scope // the enclosing folder's scope; nil at the root
	Recipes  map[string]*Recipe
	Kitchens map[string]*Kitchen
	System   quantity.System // NoSystem when nobody said
	Entries  map[string]*Entry
	Larders  []source.Span // its larder blocks

	leads   map[string]bool // first words of the names of more than one, of Recipes and Entries
	larders []*ast.Larder
	rules   houseRules
}

// houseRules are what the rules that the kitchens of a folder cook by say of measures.
type houseRules struct {
	system  quantity.System // whose measures go with them
	country string          // whose sizes: UK, US, AU, CA, EU
}

// Text is words of the writer's, with the place they stand at.
type Text struct {
	Text string
	Span source.Span
}

// IsZero tells whether there are no words.
func (t Text) IsZero() bool { return t.Text == "" }

// Keep is how long something keeps, and in what place: fridge, freezer, room,
// larder, warm place.
type Keep struct {
	Time  quantity.Span
	Place string
}

// String is how it stands in a line of facts: "3 days, fridge".
func (k Keep) String() string { return k.Time.String() + ", " + k.Place }

// Where is its place in a sentence: "in the fridge", "in a cool place".
func (k Keep) Where() string { return InThe(k.Place) }

// InThe says a place in a sentence; empty for none.
func InThe(place string) string {
	switch {
	case place == "":
		return ""
	case place == "room":
		return "at room temperature"
	case strings.HasSuffix(place, " place") && !strings.HasPrefix(place, "a "):
		return "in a " + place
	case strings.HasPrefix(place, "a ") || strings.HasPrefix(place, "the "):
		return "in " + place
	}
	return "in the " + place
}

// Share is a part of what another block makes, or of a gathered line. Of is the
// whole or what is left.
type Share struct {
	Fraction quantity.Number // 1/2 for "half"; ignored when Rest or Some
	OfRest   bool            // "half the rest"
	Rest     bool            // "the rest of the"
	Some     bool            // "some of the": an unmeasured part
}

// Recipe is a dish or a base at written size.
type Recipe struct {
	Span   source.Span // the block
	Scope  *Scope
	Name   string
	NameAt source.Span
	Key    string // folded name
	Base   bool
	Asked  bool // stands in what the user asked for

	Serves       *quantity.Range // portions; nil when not said
	ServesEach   quantity.Measure
	Makes        *Yield // nil when not said
	Keeps        *Keep
	Tested       *quantity.Range
	WholeBatches bool
	ServeHow     *ServeHow
	Takes        *Takes
	About        *About
	System       quantity.System
	Own          Own

	Lines     []*Line // every gather line, in order, through sub-lists and choices
	SubLists  []*SubList
	Choices   []*Choice
	Steps     []*Step
	Pauses    []*Pause
	Products  []*Product
	PercentOf []*Line  // of baker's percentages
	Speaks    []Spoken // the names of gathered lines in its fields: `without milk`, `percent of flour`
	Offers    []*Offer // what its sentences and notes say and its margins do not, in order

	// Reading is what its sentences take when the menu chooses nothing.
	Reading *Reading
	// Readings are that, and one for each further option of each choice.
	Readings []*Reading

	parents []*Recipe                 // the blocks it is like
	gone    []*Line                   // lines of theirs that are left out
	renamed map[*ast.Line][]string    // what a line is called in their sentences
	numbers map[*ast.Step]map[int]int // what number a step has that a sentence of theirs speaks of
	ast     *ast.Recipe
	reading quantity.Options // how amounts stand in its sentences
	method  *ast.Method      // with `as … but` carried out
	found   diag.List        // what is wrong with it
	asked   asked            // of other blocks
	made    int              // in which round of the model it was resolved
	place   int              // among the recipes of the model
}

// Spoken is a name by which a field speaks of a gathered line, of this block or of the
// one it is like.
type Spoken struct {
	Text
	Of source.Span // where the line has its name
}

// Own is what a recipe's own text says, where the recipe itself has what comes
// with `as … but` too. A place is zero where the field is not written.
type Own struct {
	Serves, Makes, ServeHow, Tested, Keeps source.Span
	First, Part                            source.Span      // its first item, and its first list, headnote or method
	Like                                   Text             // the block it is like
	Yield                                  *quantity.Amount // of `makes`, as it is written
	Practice                               Text
	Credits                                []Credit
	Pictures                               []source.Span // its `picture` fields
	Notes                                  Notes
}

// Credit says where something comes from.
type Credit struct {
	Kind CreditKind
	Text Text
}

// CreditKind tells the fields that give credit apart.
type CreditKind int

// The kinds of credit: `by`, `source`, `link` and `licence`.
const (
	By CreditKind = iota
	FromSource
	Link
	Licence
)

// ServeHow is `serve hot, within 10 min`.
type ServeHow struct {
	Span   source.Span
	State  string // hot, warm, cold, at room temperature
	Within *quantity.Span
}

// Takes is the headline time: `takes 1 h 30 min, work 20 min`.
type Takes struct {
	Span  source.Span
	Total quantity.Span
	Work  *quantity.Span
}

// About is prose in Markdown; its lines are joined by "\n".
type About struct {
	Span source.Span
	Text Text
}

// Yield is what a block or a step makes.
type Yield struct {
	Quantity quantity.Quantity
	What     string // "pieces", "loaves": the name written after the amount; may be empty
	Each     *quantity.Quantity
	Near     string // about, nearly: how surely it is so much; planned as said
}

// WrittenFor is the number of portions the written size is for when so many are wanted: of
// a range the nearest in it, so that within it the recipe is made as it is written.
func (r *Recipe) WrittenFor(portions quantity.Number) quantity.Number {
	return quantity.Max(r.Serves.Low, quantity.Min(r.Serves.High, portions))
}

// Gives is what others can draw on: the yield, or where none is written its
// portions; nil: nobody can say.
func (r *Recipe) Gives() *Yield {
	if r.Makes != nil || r.Serves == nil {
		return r.Makes
	}
	y := &Yield{Quantity: quantity.Quantity{Value: *r.Serves}, What: "portions"}
	if each, problem := r.ServesEach.Quantity(r.System); problem == nil && !r.ServesEach.IsZero() {
		y.Each = &each
	}
	return y
}

// Line is one thing gathered, at written size.
type Line struct {
	Wording
	Recipe *Recipe
	Index  int
	Name   string
	Key    string
	Item   *larder.Item  // what the built-in larder has by this very name; nil: nothing
	Known  *larder.Known // and what it makes of the name; nil: nothing
	Sub    *SubList      // nil outside sub-lists
	Option *Option       // nil outside choices

	// Quantity is the amount in base units; nil without an amount, and for one
	// that depends on the number of covers (PerHead).
	Quantity *quantity.Quantity
	Share    *Share // of what another block makes, in place of an amount; else nil
	Law      Law

	// Where it comes from: at most one of Recipe and Product is set. Neither:
	// it is bought, or carried over.
	From     *Recipe
	Product  *Product
	Carried  string // "left from Saturday", "made in part 1"
	InPart   int    // of a line made in part 1: 1; else 0
	InPartAt source.Span
	Before   *Recipe // what a line made in part 1 was made by, and holds; else nil
	Bought   bool    // `| from the shop`

	ToTaste  bool
	Optional bool
	Serving  bool               // under `for serving`: nobody need name it
	Water    bool               // from the tap: never on the shopping list
	Prep     []Spell            // work, watch and leave on the line itself
	By       []string           // folded names of the cooks who may prepare it; empty: any
	Keeps    *Keep              // once prepared; nil when not said
	BoughtAs *quantity.Quantity // `| buy 3 lb`: what is bought for the amount
	BuyName  string             // and under which name; "": its own
	Seller   string             // `| from the greengrocer`; "" when not said, or any shop
	AsBought bool               // `| as sold`: the amount is what is bought
	Net      bool               // `| trimmed`: the amount is what goes in
	Drained  bool               // `| drained 240 g`
	Instead  []*Instead         // what may stand in for it

	// Circle: what it draws on is in the end made from its own recipe.
	Circle bool

	gone  bool     // left out by a variant; only sentences of the other block may speak of it
	was   []string // what it is called in the sentences of the other block
	again bool     // the same name stood above it: reported, and not read
	kind  string   // romaine, of "lettuce, romaine"
}

// Wording is how a line was written.
type Wording struct {
	Span       source.Span // the whole line
	NameAt     source.Span
	Quoted     bool             // its name stands in quotation marks
	Written    *quantity.Amount // the amount as written; nil without one
	AmountText string           // the amount or share in the writer's own letters
	AmountAt   source.Span
	Size       string // small, medium, large after a count
	Brackets   Text   // what stands in brackets behind the name
	Note       Text   // what follows the comma: for the cook
	Said       Text   // the writer's own words
	Cautions   []Text // the writer's own: `caution may contain shot`
}

// Instead is what may stand in for a line.
type Instead struct {
	Wording
	Name string
	Size string  // "small", "medium" or "large"
	From *Recipe // the block that makes it; nil: it is bought
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
	Name   string
	NameAt source.Span
	Key    string
	Lines  []*Line
	class  string // of what the larder calls vegetables or seasonings; empty: a list that was written
}

// Choice is a set of options of which one is taken.
type Choice struct{ Options []*Option }

// Option is one label of a choice.
type Option struct {
	Choice  *Choice
	Label   string
	LabelAt source.Span
	Key     string
	Lines   []*Line
}

// Step is one step of a method.
type Step struct {
	Passage
	written *ast.Step
	Span    source.Span // with its margin and its moments
	Moments []*Moment
	Recipe  *Recipe
	Index   int    // from 0, over all steps of the method
	Plain   bool   // its sentence says neither a time nor a heat, as lang/prose reads it
	Title   string // a few words: the sentence's beginning, for bars
	Line    string // the same at more length, for lists

	If    []Condition
	Pause int // how many pauses stand above it: step belongs to stage Pause

	Meanwhile    bool
	AnyTime      bool
	After        []*Step // `after NAME`: makers waited for instead of the step before
	OnlyIfNeeded bool
	Times        int // how often the whole of it is done, one after the other: `twice`; at least 1

	Phases  []Spell // work, watch, leave, then work, in order
	Heats   []Heat  // oven phases, in order; empty: no oven
	Oven    string  // which oven was named; folded; empty: any
	Shelf   string
	Shelves int // shelves wanted; at least 1 with an oven
	Rings   int // rings held throughout
	Level   string
	Grill   bool
	Place   string         // fridge, freezer, warm place …
	Fan     string         // of its oven: on, off; "" when not said
	Shut    *quantity.Span // how long the oven stays shut; nil when not said
	Said    Text           // the writer's own words
	Tools   []string       // folded names
	Vessel  string         // folded name of the vessel it stands in; may be empty
	Vessels int            // how many of them at the written size; 1 when not said, 0 without a vessel
	Into    *Into
	By      []string // folded names of the cooks who may do it; empty: any
	Cooks   int      // hands needed at once; at least 1 when worked or watched
	Core    *Target
	Reach   *Target

	Within      *time.Duration // at most this long after the last thing it waited for
	StartBefore *time.Duration // must start this long before serving
	DoneBefore  *time.Duration // must be done this long before serving
	Hold        *Hold          // what it made may wait: `hold hot up to 1 h`

	Makes []*Product
}

// Passage is prose with its margin.
type Passage struct {
	Prose  Text     // its lines joined by blanks
	Lines  []Text   // each line as it was written
	Margin []Clause // in the order written
}

// Moment is something to do inside a long step: `at 30 min: Turn it. | …`.
type Moment struct {
	Passage
	At    *quantity.Span // nil: at half time
	Sight string         // what to look for, At being a guess; "" of a moment by the clock
}

// Says is the moment in one sentence, for a list of what happens.
func (m *Moment) Says() string { return m.SaysSo(m.Prose.Text) }

// SaysSo is Says with other words: the same at the size that is made.
func (m *Moment) SaysSo(words string) string {
	if m.Sight == "" {
		return words
	}
	return "When " + m.Sight + ": " + words
}

// When is when it comes: "at 30 min", "when risen, say 20 min".
func (m *Moment) When() string {
	switch {
	case m.At == nil:
		return "at half time"
	case m.Sight != "":
		say := *m.At
		say.About = false
		return "when " + m.Sight + ", say " + say.String()
	}
	return "at " + m.At.String()
}

// Condition is `if X` or `unless X`. Exactly one of Option and Paused counts.
type Condition struct {
	Unless bool
	Option *Option
	Paused bool // a pause: the nearest above, or the next below
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
	Head
	Kind  SpellKind
	Place string // for rest, stand, thaw: where
	Until Text   // what to look for: `watch until brown, say 45 min`
	// The parts of its length at written size: Fixed, and Per for each Each.
	Fixed    *quantity.Span
	Per      *quantity.Span
	Each     Each
	EachLine *Line // the line that Each.Name means, when it means one
	taken    *Line // without a name, what its step takes at the written size; nil when that is not one thing
	EachMade int   // how many pieces of that name an `into` of the block makes at its written size; 0: none
	Every    *quantity.Span
	Points   []Point        // of a time that goes by weight, rising; then Fixed and Per are nil
	AtMost   *quantity.Span // and the longest it is; nil when not said
}

// Each is what a time grows with: a load, an amount of something ("300 g green
// beans"), or one of something ("onion", "clove"). Load means `per load`.
type Each struct {
	Load    bool
	Measure quantity.Measure // empty: one
	Name    Text             // empty: the one thing the step takes
	Largest bool             // of what the heaviest one weighs, not of all of it
}

// Heat is one oven setting in degrees Celsius. Low = High unless the writer
// allows a range. For is 0 for the last phase.
type Heat struct {
	Low, High int
	For       time.Duration
	Written   quantity.Heat // the writer's own setting
}

// Pause is `pause up to 1 day, fridge`. Number counts from 1.
type Pause struct {
	Span   source.Span
	Number int
	After  int  // index of the first step after it
	Keep   Keep // as written
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
	Moment   *Moment            // the moment of the step that gives it; nil: its end
	Made     *Made              // the clause that names it
	Quantity *quantity.Quantity // nil: only a name
	Keeps    *Keep
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
	if !ok || !rd.Steps[i].Step.Same(s) {
		return nil
	}
	return rd.Steps[i]
}

// StepReading is what one step takes and what it waits for.
type StepReading struct {
	Step     *Step
	Takes    []Take
	Reworded []Rewording // of a sentence that came from another block
	Figures  []Figure    // those of the sentence and its moments that say nothing of how much is taken, in order
}

// TakesOf tells whether a step takes of a line, and not only speaks of it.
func (sr *StepReading) TakesOf(l *Line) bool {
	return slices.ContainsFunc(sr.Takes, func(t Take) bool { return t.Line == l && !t.Refers })
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
	Of         quantity.Number    // the share that the figure speaks of where that is more than Part: whites of eggs whose yolks went in before
	Amount     *quantity.Quantity // an amount said in the sentence, at written size
	AmountAt   source.Span        // where it stands
	Unit       *quantity.Unit     // in which Amount was said; nil for a count
	But        quantity.Number    // of "all but 2 tbsp of the": the share that stays behind; AmountAt is its figure
	Each       bool               // the amount was said for each of several: Amount is of all, and nothing is printed scaled
	All        bool               // everything that was left
	Rest       bool               // "the rest of"
	AfterSome  bool               // and so much went in before as nobody weighed: what is left has no figure
	Unmeasured bool               // "some of the", "a little"
	Refers     bool               // used up before: takes nothing, waits for nothing
	ByMargin   bool               // from a `uses` clause
	LeftAfter  quantity.Number    // share of the line left after this step
}
