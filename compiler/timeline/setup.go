package timeline

// setup is one way of planning a meal. The zero value, with a grid, is the
// plain one; the rest is what other attempts change, and what a cure would.
type setup struct {
	grid     int  // minutes of one unit of the engine's time
	free     bool // pauses nobody decided are left to the planner; else the dish goes straight through
	sameDay  bool // what is made ahead may be made on the day itself
	moreDays int  // without hours: days before that count besides those needed

	wash washSet

	keep *kept // what an earlier plan has begun; nil: nothing

	// eased lets things wait longer than they may, though it counts: to see by how
	// much a meal without a plan misses one.
	eased bool

	// Cures.
	cooks   int    // more cooks
	rings   int    // more rings
	shelves int    // more shelves in every oven
	ovens   int    // more ovens like the first
	spare   bool   // tools and vessels without limit
	evening bool   // hours on the evening before
	earlier int    // minutes by which hours begin earlier:
	opens   Minute // those that open then; 0 or later: the first of the serving day
	more    window // hours more, for all
	later   int    // minutes by which every serving is later
	ahead   int    // 1 + index of a making that is made ahead; 0: none
	bare    bool   // what is only done if needed and is not begun is left out
}
