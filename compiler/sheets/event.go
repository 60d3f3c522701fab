package sheets

// Event is one thing that happens by the plan of the meal, as data: all that the
// chart, the run sheet and its like print comes from these. They are not drawn.
type Event struct {
	Kind string // "out", "heat", "touch", "serve", "job", "in"
	// Start and End are moments for a machine. With a date they are times of RFC
	// 3339 in the zone of the kitchen, "2027-09-19T12:30:00+01:00", or without the
	// offset where the kitchen names no zone; without a date they are counted from
	// the first serving, as durations of ISO 8601: "-PT30M".
	Start, End string
	Minute     int // from the first serving to Start; negative before it
	Minutes    int // from Start to End

	Letter string // of the dish; empty when it belongs to none
	Dish   string
	Step   int // as it is printed; 0 for none
	Load   int // which of its loads, from 1; 0 when all are one
	Who    []string
	Where  Where

	Thing  string // what is prepared, or served
	Cut    string // "finely chopped"
	Amount *Figure
	Words  string // what to do

	Phases   []Phase // of a job
	Critical bool    // of the critical chain
	Heat     *Setting
	Course   string // of a serving
}

// Where is where something is done or stands. Shelves and Rings count from 1.
type Where struct {
	Oven    string
	Shelves []int
	Rings   []int
	Level   string // "low"
	Grill   bool
	Place   string // "fridge"
	Vessel  string
	Vessels int
	Tools   []string
}

// Phase is a part of a job: "work", "watch" or "leave".
type Phase struct {
	Kind       string
	Start, End string
	Who        []string
	Place      string
}

// Setting is what an oven is set to, and until when.
type Setting struct {
	Celsius int
	Fan     bool
	Turned  bool   // from another heat, not from cold
	Until   string // a moment
	Words   string // "180 °C fan"
}
