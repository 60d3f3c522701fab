package ast

import (
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Clause is one clause of a margin, in a gathered line or a step: *Timed, *Stay,
// *Heat, *Ring, *InPlace, *Named, *InVessel, *Degrees, *Taking, *Hold, *Timing,
// *Hands, *Note, *Weighed, *Buy, *From, *InPart, *Mark, or *Unread for what could not be read.
type Clause interface {
	Base() *Lead
	clause()
}

// Lead is what every clause and every fact has.
type Lead struct {
	Span    source.Span
	Word    string // the words it begins with, as in the parser's table; "" of what could not be read
	Offered bool   // written with a closing "?": a guess of the tool's that the writer has not confirmed
}

// Timed is `work 5 min`: work, watch, leave, rest.
type Timed struct {
	Lead
	Spell Spell
}

// Stay is `stand 2 h, fridge`: stand, thaw, keeps.
type Stay struct {
	Lead
	Keep Keep
}

// Heat is `oven 200 C for 20 min then 160 C, top shelf, in deck oven`.
type Heat struct {
	Lead
	Phases  []HeatPhase
	Shelf   string         // top, middle, bottom; "" when not said
	Shelves int            // 0 when not said
	Oven    Name           // which oven; empty when not said
	Fan     string         // on, off; "" when not said
	Shut    *quantity.Span // how long the door stays shut; nil when not said
}

// Ring is `2 rings high`, or `grill high`, of which Count is 0.
type Ring struct {
	Lead
	Count int
	Level string // high, medium to high, medium, low to medium, low; may be empty of a grill
}

// InPlace is `room, 20 C`: its Word is the place.
type InPlace struct {
	Lead
	Temp *quantity.Temperature // nil when not said
}

// Named is `tool mandoline`: tool, after, and the labels of if and unless.
type Named struct {
	Lead
	Name Name
}

// InVessel is `in 2 deep trays, holds 5 litres`, or `into 24 rolls, 60 g each`.
type InVessel struct {
	Lead
	Count int // 0 when not said
	Name  Name
	Size  quantity.Measure // what it holds, or each is; may be empty
	Piece Name             // of what it holds, where that is counted: fritters; may be empty
}

// Degrees is `core 75 C for 2 min`: core, reach, never above.
type Degrees struct {
	Lead
	Temp *quantity.Temperature
	For  *quantity.Span // of core; nil when not said
}

// Taking is `uses half the herb oil`, `sets aside 200 g stock`: uses, makes, sets aside.
type Taking struct {
	Lead
	Nothing bool             // `uses nothing`
	Share   *Share           // of uses; then Amount is nil
	Amount  *quantity.Amount // nil when not said
	Name    Name
}

// Hold is `hold hot up to 1 h, above 63 C`.
type Hold struct {
	Lead
	State string // hot, warm, cold; "" when not said
	UpTo  *quantity.Span
	Bound string // above or below, with Temp
	Temp  *quantity.Temperature
}

// Timing is `within 10 min`, or `start 30 min before serving`: within, start, done.
type Timing struct {
	Lead
	Time *quantity.Span
}

// Hands is `by Ana, Jo` or `with 2 cooks`.
type Hands struct {
	Lead
	Cooks []Name // of by
	Count int    // of with
}

// Note is `caution hot sugar burns`: caution, plus extra, left from.
type Note struct {
	Lead
	Text Text // may be empty of plus extra
}

// Weighed is `drained 240 g`.
type Weighed struct {
	Lead
	Measure quantity.Measure
}

// Buy is `buy 3 lb whole chicken`: what is bought for the amount of the line.
type Buy struct {
	Lead
	Measure quantity.Measure
	Name    Name // empty: by the name of the line
}

// From is `from the greengrocer`: a clause of a gathered line, and a fact.
type From struct {
	Lead
	Seller Seller
}

// Seller is who sells a thing: the greengrocer, Low Farm.
type Seller struct {
	The  bool // written with "the"
	Name Name
}

// IsZero tells whether no seller is named.
func (s Seller) IsZero() bool { return s.Name.IsZero() }

// Shop tells whether it is `the shop`: any that sells it.
func (s Seller) Shop() bool { return s.The && s.Name.Text == "shop" }

// InPart is `made in part 1`.
type InPart struct {
	Lead
	Part int
}

// Mark is a clause that says no more than its words: `optional`, `meanwhile`.
type Mark struct{ Lead }

// Unread is a clause or a fact that could not be read. It has been reported already.
type Unread struct {
	Lead
	Text Text
}

// Base is what every clause and every fact has.
func (l *Lead) Base() *Lead { return l }

// Spell is how long something takes: Fixed plus Per for each Each. When
// nothing is "per", only Fixed is set. Every repeats the work during the step:
// `work 1 min every 10 min`. Until is what to look for: `watch until brown,
// say 45 min`.
type Spell struct {
	Fixed *quantity.Span // nil when there is only a Per part
	Per   *quantity.Span
	Each  Each
	Every *quantity.Span
	Until Text
	// By weight: Points are at least one, rising, and then Fixed and Per are nil; Each
	// has no more than a name. AtMost is nil when not said.
	Points []Point
	AtMost *quantity.Span
}

// Point is one point of a time that goes by weight: 2 h 30 min at 10 lb.
type Point struct {
	Time   *quantity.Span
	Weight quantity.Measure
}

// Each is what a time grows with: a load, an amount of something ("300 g green
// beans"), or one of something ("onion", "clove"). Load means `per load`.
type Each struct {
	Load    bool
	Measure quantity.Measure // empty: one
	Name    Name             // empty: the one thing the step takes
	Largest bool             // `per lb of the largest`: of the heaviest one that the step takes
}

// HeatPhase is one oven setting. For is how long, nil for the last or only one.
type HeatPhase struct {
	Temp *quantity.Temperature // nil when Gas or Word is used
	Fan  bool
	Gas  string // "6", "1/2"
	Word string // slow, moderate, hot …
	For  *quantity.Span
}

// Share is a part of a gathered line. Of is the whole line or what is left.
type Share struct {
	Fraction quantity.Number // 1/2 for "half"; ignored when Rest or Some
	OfRest   bool            // "half the rest"
	Rest     bool            // "the rest of the"
	Some     bool            // "some of the": an unmeasured part
}

// Fact is one fact about an ingredient: *Piece, *Yield, *From, *Price,
// *Density, *Packs, *Contains, *Also, *ShelfLife, *Gives, *Countable, or *Unread.
type Fact interface {
	Base() *Lead
	fact()
}

// Piece is `piece 600 g trimmed`: what one weighs.
type Piece struct {
	Lead
	Weight quantity.Measure
	State  Text // as sold, or trimmed; empty when not said
}

// Yield is `yields 75%`: what trimming leaves.
type Yield struct {
	Lead
	Percent quantity.Number
}

// Price is `price 2.40 GBP per kg`.
type Price struct {
	Lead
	Amount quantity.Number
	Per    quantity.Measure // empty: each
	Money  Text             // the currency in capitals; may be empty
}

// Density is `weighs 0.99 g per ml`.
type Density struct {
	Lead
	Weight, Per quantity.Measure
}

// Packs is `packs 300 ml or 600 ml`.
type Packs struct {
	Lead
	Sizes []quantity.Measure
}

// Contains is `contains milk, whey`.
type Contains struct {
	Lead
	Names []Name
}

// Also is `same as courgette`, `plural loaves`.
type Also struct {
	Lead
	Name Name
}

// ShelfLife is `keeps 3 weeks, fridge`.
type ShelfLife struct {
	Lead
	Keep Keep
}

// Gives is `gives 1 egg white and 1 egg yolk`.
type Gives struct {
	Lead
	Given []Given
}

// Countable is `measure`: a word to count by, like clove.
type Countable struct{ Lead }

// Given is one of the things an ingredient gives: 1 egg white.
type Given struct {
	Count quantity.Number
	Name  Name
}
