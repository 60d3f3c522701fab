package resolve

import (
	"time"

	"tamis/lang/ast"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Kitchen is the place a menu is cooked in.
type Kitchen struct {
	Span                            source.Span
	Name                            string
	NameAt                          source.Span
	Practice                        string
	Cooks                           []string // names as written
	Ovens                           []Oven
	Rings                           int            // 0 when not said: as many as wanted
	Zone                            *time.Location // nil where it says none, or one nobody knows
	Tools                           []Tool
	Vessels                         []Vessel
	WashUps                         []WashUp // at most one of each kind
	WaitHot, WaitCold, WaitPrepared time.Duration
	Service                         []Service
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
	Written   quantity.Measure // what it holds, as written; empty when not said
	Count     int
}

// Menu is a meal. Its times are minutes that pass, from the midnight at which the
// day of serving begins; earlier days are negative. What the clock shows at one,
// Wall says.
type Menu struct {
	Scope    *Scope
	Name     string
	NameAt   source.Span
	Asked    bool
	Covers   int        // 0 when not said
	Children int        // besides: each eats half a portion
	Serve    *time.Time // the wall clock time of the first course, in UTC; nil: no clock
	Wall     *quantity.Wall
	Kitchen  *Kitchen // nil: an imagined one with a cook and no limits
	At       Text     // the kitchen's name as the menu writes it; zero: it names none
	Hours    []Hours
	Courses  []*Course
	Tasks    []*Task
	By       string
	Practice string
	Pictures []source.Span // its `picture` fields
	Shop     []time.Time   // the days of shopping, in UTC
	Service  []Service     // in place of its kitchen's, kind by kind

	ast *ast.Menu
}

// Task is work that is no dish: `task Lay the table, work 20 min, by Jo, before First`.
type Task struct {
	Span   source.Span
	Name   string
	Work   *quantity.Span
	By     []Text
	Before Text // a course or a dish; empty: before the first serving
	After  Text
	Done   *quantity.Span // `done 10 min before serving`
}

// Hours is a span in which cooks are there, in minutes from midnight of the
// serving day. Cooks empty: every cook.
type Hours struct {
	Span     source.Span
	From, To int
	Cooks    []string // folded
	Named    []Text   // the same as written, those that are no cook of the kitchen too
}

// Course is a course; At is its serving time in minutes from midnight of the
// serving day (0 when the menu has no clock: then from the first serving).
type Course struct {
	Name     string
	NameAt   source.Span
	At       int
	After    *Course // the course it follows by a written time, which is At less the other's; nil: by the clock
	Servings []*Serving
}

// Serving is a dish on the menu.
type Serving struct {
	Span     source.Span
	Course   *Course
	Recipe   *Recipe // nil for bought and to-be-written ones
	Name     string
	NameAt   source.Span
	Covers   int    // for how many it is served; 0 when nobody said
	CookFor  int    // for how many it is cooked; = Covers unless held back
	For      int    // for how many its own line says it is; 0 when not said
	Counted  bool   // its own line says for how many it is served or cooked
	KeepFor  Text   // `keep the remains for Monday`
	Seller   string // who sells it, when it is bought and not in any shop
	Bought   bool   // `Lemon sorbet, from the shop`
	ToWrite  bool   // `Baked apples, to be written`
	Ahead    bool
	Straight bool
	Chosen   map[*Choice]*Option // one for every choice of the recipe
	Stated   map[*Choice]bool    // the menu chose it itself
	Pins     []*Pin              // what is fixed of its steps for this meal
}
