package problem

import (
	"tamis/compiler/figures"
	"tamis/compiler/timeline"
)

// Setup is one way of planning a meal. The zero value, with a grid, is the
// plain one; the rest is what other attempts change, and what a cure would.
type Setup struct {
	Grid     int  // minutes of one unit of the engine's time
	Free     bool // pauses nobody decided are left to the planner; else the dish goes straight through
	SameDay  bool // what is made ahead may be made on the day itself
	MoreDays int  // without hours: days before that count besides those needed

	// Handless plans puttings in and takings out without hands: where there is no
	// other plan, somebody leaves what they are at for a minute.
	Handless bool

	// Figures are those of the meal, which all drafts of one search for a plan share; nil: its own.
	Figures *figures.Set

	Wash   WashSet
	Habits Habits

	Keep *Kept // what an earlier plan has begun; nil: nothing

	// eased lets things wait longer than they may, though it counts: to see by how
	// much a meal without a plan misses one.
	Eased bool

	// Apart leaves out the limits that add up others: to say which written ones
	// cannot be kept.
	Apart bool

	// Cures.
	Cooks   int             // more cooks
	Rings   int             // more rings
	Shelves int             // more shelves in every oven
	Ovens   int             // more ovens like the first
	Spare   []string        // tools and vessels by name of which there is one more, for each time
	Evening bool            // hours on the evening before
	Earlier int             // minutes by which hours begin earlier:
	Opens   timeline.Minute // those that open then; 0 or later: the first of the serving day
	More    Window          // hours more, for all
	Later   int             // minutes by which every serving is later
	Ahead   int             // 1 + index of a making that is made ahead; 0: none
	Bare    bool            // what is only done if needed and is not begun is left out
}
