// Package ast is the tree of a Tamis file: what was written, where, with its
// comments, and nothing that has to be worked out.
//
// Every statement embeds Meta, which gives its span and the comments that
// stand above it. What could not be read is a Bad, so that later passes can
// step over it. Two trees that differ only in spans are Equal.
//
// Read this file first, then recipe.go, which has what stands in a dish or base, and
// clause.go, the clauses of a margin.
package ast

import (
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Meta is what every statement has.
type Meta struct {
	Span     source.Span
	Comments []Comment // whole-line comments above it, in order
	Gap      bool      // the writer left a blank line above it
	Offered  bool      // of a field: written with a closing "?", not confirmed yet
}

// Pos is the statement's span.
func (m *Meta) Pos() source.Span { return m.Span }

// Base gives access to the Meta of any statement.
func (m *Meta) Base() *Meta { return m }

// Node is anything with a Meta.
type Node interface {
	Pos() source.Span
	Base() *Meta
	Word() string
}

// Comment is one comment line; Text is what follows "# ".
type Comment struct {
	Span source.Span
	Text string
}

// File is a whole file.
type File struct {
	Source   *source.File
	Notation int       // 0 when the file does not say
	Comma    bool      // its numbers are written with the decimal comma
	Head     []Comment // comments above the notation line
	Blocks   []Block
	Trailing []Comment // comments after the last statement
}

// Block is a statement at column 0: *Menu, *Recipe, *Kitchen, *Larder, *Series,
// *Book or *Bad.
type Block interface {
	Node
	block()
}

// Bad is text that could not be read. It has been reported already.
type Bad struct {
	Meta
	Text string
}

// Name is a name as written, its blanks made single. A quoted name loses its
// quotes and keeps Quoted. A slash means "inside": "sauces/Herb oil".
type Name struct {
	Text   string
	Quoted bool
	Span   source.Span
}

// IsZero tells whether there is no name.
func (n Name) IsZero() bool { return n.Text == "" }

// Text is free text with its place.
type Text struct {
	Text string
	Span source.Span
}

// Date is a day of the calendar.
type Date struct{ Year, Month, Day int }

// IsZero tells whether there is no date.
func (d Date) IsZero() bool { return d == Date{} }

// Clock is a time of day.
type Clock struct{ Hour, Minute int }

// Menu is a meal: what is served, to how many, when and where.
type Menu struct {
	Meta
	Title Name
	Items []MenuItem
}

// MenuItem is *Covers, *ServeAt, *At, *Hours, *Course, *Task, *Shop, *Service, *Common or *Bad.
type MenuItem interface {
	Node
	menuItem()
}

// Covers is `covers 12`, or `covers 12, 5 children`: the children come on top.
type Covers struct {
	Meta
	Count    int
	Children int // 0 when not said
}

// ServeAt is `on the table 2027-09-19 13:00`.
type ServeAt struct {
	Meta
	Date  Date
	Clock Clock
}

// At is `at Farmhouse`: the kitchen the menu is cooked in.
type At struct {
	Meta
	Kitchen Name
}

// Hours is a span of time in which cooks work: `hours day before, 17:00 to
// 20:00, Ana`. Exactly one of Date and DaysBefore counts: Date when it is not
// zero. DaysBefore is 0 for "on the day", 1 for "day before". UntilDate is set
// when the span ends on another day.
type Hours struct {
	Meta
	Date       Date
	DaysBefore int
	From, To   Clock
	UntilDate  Date
	Cooks      []Name // none: every cook
}

// Course is a course with its servings. Without At and After it is served at
// the menu's serving time.
type Course struct {
	Meta
	Title    Name
	At       *Clock
	After    *quantity.Span // `30 min after First`
	AfterOf  Name
	Servings []*Serving
}

// Serving is one dish on the menu.
type Serving struct {
	Meta
	Ref      Name
	For      int // `for 10`; 0 when not said
	Ahead    bool
	Straight bool
	Options  []Name // chosen labels, "with almonds"
	From     Seller // `Lemon sorbet, from the shop`: it is bought
	ToWrite  bool   // `Baked apples, to be written`
	CookFor  int    // `cook for 10`; 0 when not said
	KeepFor  Text   // `keep the remains for Monday`
	Pins     []*Pin
}

// Pin is `step 3: at day before, 17:30, by Nell, in small`: what is fixed of one step of
// a dish for this meal.
type Pin struct {
	Meta
	Step       int
	At         *Clock // when it begins; nil when not said
	Date       Date   // of At; zero: DaysBefore the day of serving
	DaysBefore int
	By         []Name
	Oven       Name
}

// Task is work that is no dish: `task Lay the table, work 20 min, by Jo, before First`.
type Task struct {
	Meta
	Title  Name
	Work   *quantity.Span
	By     []Name
	Before Name // a course or a dish; empty: before the first serving
	After  Name
	Done   *quantity.Span // `done 10 min before serving`
}

// Common is a field that many blocks share: by, source, picture, link,
// practice, language, allow. Code is only set for allow.
type Common struct {
	Meta
	Key  string
	Code string
	Text Text
}

// Shop is `shop 2027-09-16, 2027-09-18`, or `shop Friday`: the days of shopping.
type Shop struct {
	Meta
	Dates   []Date
	Weekday string // in full: Friday; "" with dates
}

// Service is `plates 20 s a cover` and its like: how long service takes, in a kitchen
// or on a menu.
type Service struct {
	Meta
	Key   string // plates, clears, cleans down, breaks, knives down
	Time  quantity.Span
	Every *quantity.Span // of breaks
}

// Noted is what is noted of a recipe, a series or a part and changes nothing in it.
type Noted struct {
	Meta
	Key   string // also called, goes with, props, equipment, said, cooked, corrected
	Names []Name // a list; of cooked who cooked it
	Date  Date   // of cooked and corrected
	Text  Text   // of said, cooked and corrected
}

// Kitchen is the place: ovens, rings, hands, tools.
type Kitchen struct {
	Meta
	Title Name
	Items []KitchenItem
}

// KitchenItem is *Oven, *Rings, *Names (cooks, tools), *Vessel, *WashUp, *Waits, *Service, *Zone, *Common or *Bad.
type KitchenItem interface {
	Node
	kitchenItem()
}

// Oven is `oven main, 2 shelves, fan, preheat 15 min, heats 60 C within 5 min`.
type Oven struct {
	Meta
	Title   Name
	Shelves int // 0 when not said
	Fan     bool
	Gas     bool
	Preheat *quantity.Span
	Heats   *Pace // nil when not said
	Cools   *Pace
}

// Pace is `60 C within 5 min`: so many degrees of difference take so long.
type Pace struct {
	By   quantity.Temperature
	Time quantity.Span
}

// Rings is `rings 4`.
type Rings struct {
	Meta
	Count int
}

// Names is a list under a key: `cooks Ana, Jo`, `tools mandoline, stick blender,
// washed in 3 min`.
type Names struct {
	Meta
	Key    string
	Names  []Name
	Washed *quantity.Span // of tools: how long it takes to wash one; nil when not said
}

// Vessel is `vessel stockpot, holds 20 litres, 2`.
type Vessel struct {
	Meta
	Title Name
	Holds quantity.Measure
	Count int // 0 when not said: one
}

// Waits is `hold hot 10 min`.
type Waits struct {
	Meta
	State string // hot, cold, prepared
	Time  quantity.Span
}

// WashUp is `wash up 10 min, after each dish, by Jo`.
type WashUp struct {
	Meta
	Time  quantity.Span
	When  string         // "after each dish", "every" or "before serving"
	Every *quantity.Span // of "every"
	By    []Name         // none: whoever is there
}

// Zone is `zone Europe/London`.
type Zone struct {
	Meta
	Text Text
}

// Larder holds facts about ingredients and a folder's units.
type Larder struct {
	Meta
	Items []LarderItem
}

// LarderItem is *Setting, *Entry or *Bad.
type LarderItem interface {
	Node
	larderItem()
}

// Setting is `units metric`, `decimal comma` or `language fr`.
type Setting struct {
	Meta
	Key   string
	Value Text
}

// Entry is one ingredient with its facts.
type Entry struct {
	Meta
	Name  Name
	Facts []Fact
}

// Series is a set of meals or lessons in parts.
type Series struct {
	Meta
	Title Name
	Items []SeriesItem
}

// SeriesItem is *Part, *About, *Noted, *Common or *Bad.
type SeriesItem interface {
	Node
	seriesItem()
}

// Part is `part 1 The lamb`.
type Part struct {
	Meta
	Number int
	Title  Name
	Items  []PartItem
}

// PartItem is *Shows, *PartDate, *Copies, *About, *Noted, *Common or *Bad.
type PartItem interface {
	Node
	partItem()
}

// Shows is `shows Slow lamb`.
type Shows struct {
	Meta
	Ref Name
}

// PartDate is `date 2027-08-30`.
type PartDate struct {
	Meta
	Date Date
}

// Copies is `copies 2 of Slow lamb, as rested lamb`.
type Copies struct {
	Meta
	Count int
	Of    Name
	As    Name
}

// Book is a book of chapters with its house style.
type Book struct {
	Meta
	Title Name
	Items []BookItem
}

// BookItem is *Style, *Chapter, *For, *About, *Common or *Bad.
type BookItem interface {
	Node
	bookItem()
}

// Style is `style range dash`.
type Style struct {
	Meta
	Text Text
}

// For is `for Bea and Tom`: for whom a book was made.
type For struct {
	Meta
	Text Text
}

// Chapter is `chapter Soups` with names below it, and prose about it.
type Chapter struct {
	Meta
	Title Name
	About *About // nil when nothing is said
	Refs  []*ChapterRef
}

// ChapterRef is one name in a chapter.
type ChapterRef struct {
	Meta
	Ref Name
}
