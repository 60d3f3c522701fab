// Package timeline is the plan of a meal: jobs with their times, what the ovens do,
// what is served when. It knows nothing of how a
// plan is made.
//
// How it is made lies in the packages below it, whose imports run one way, down this
// list:
//
//	problem   a meal becomes a problem of the engine's: jobs, links, hours
//	washing   the washing up of the kitchen becomes jobs of it
//	answer    the engine's solution becomes clock times, slack and chances
//	attempt   one problem after another is put to the engine, until one will do
//	advice    why a meal is late or has no plan, what would mend it, and the rest
//	          of a plan made again
//	planner   Plan and Replan: all of it in order
//
// Paper and terminal read none of it: compiler/events makes one list of what happens
// of a plan, and they print that.
//
// Read this file first; words.go says times, steps and places as every page does;
// find.go and moment.go read what a cook asks for.
package timeline

import (
	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// Minute is a moment in minutes from midnight at the start of the serving day;
// earlier days are negative. Without a clock, 0 is the first serving and
// everything before it is negative.
type Minute = int

// Timeline is the plan of one meal.
type Timeline struct {
	Meal     *demand.Meal
	Clock    bool     // Minute is a time of day; else it counts from the first serving
	Grid     int      // jobs begin on multiples of this many minutes where they can
	Cooks    []string // who there is, in the kitchen's order; never empty
	Jobs     []*Job   // in order of start, then of dish
	Heats    []*Heat
	Servings []*Serving
	Chain    []*Job                                     // the critical chain, in order of time; see Job.Critical
	Leeway   string                                     // what two guests more would cost; empty: not known
	Odds     *Odds                                      // nil when nothing in it is uncertain
	Paused   map[*resolve.Pause]map[*demand.Making]bool // pauses that are taken

	Start   Minute // the first hands-on work
	Late    int    // minutes late in all; 0 when all is on time
	Bound   int    // no plan can be less late than this
	Proven  bool   // the plan cannot be better by the first goal
	Later   int    // minutes by which work could at most begin later, were none of it moved to be early; -1: not known
	Orderly bool   // it keeps habits of a good kitchen, and is only held against plans that do
	Roomy   bool   // something is left between the work and the table, so that a slip is not late
	Early   int    // minutes by which work begins before it must: cold work before the rush
	Waiting int    // minutes of waiting past the best, weighted
	Note    string // for the cook: what the plan could not keep; empty when all is well

	// Hours are when each cook is there, by the menu, in order and apart; nil when
	// the menu gives no hours.
	Hours map[string][]Spell
	// Origin is what the plan was made of, for whoever plans the rest of it again.
	Origin any
}

// Spell is a time from one moment to another.
type Spell struct{ From, To Minute }

// JobKind tells jobs apart.
type JobKind string

// The kinds of job.
const (
	StepJob JobKind = "step" // a step of a method
	PrepJob JobKind = "prep" // preparation of a gather line: trim, chop, toast
	TaskJob JobKind = "task" // a task of the menu
	WashJob JobKind = "wash" // washing up that the kitchen asks for, or a tool
)

// Piece is what a job is, whenever it is done.
type Piece struct {
	Kind    JobKind
	Making  *demand.Making       // nil for tasks and washing up
	Step    *resolve.StepReading // of a step
	Line    *demand.Amount       // of a preparation
	Title   string               // a few words, of a step with the amounts that are made
	Words   string               // of a step: its line on a list, with those amounts
	Asked   string               // of washing up: the line of the kitchen that asks for it
	Later   bool                 // washing up that is left until after serving
	Shelves int                  // shelves it takes in its oven
	Rings   int
	Tools   []string
	Vessel  string
	Vessels int  // how many of them, at this size
	Loads   int  // how many times it goes round, `per load`; 0 or 1: once
	Load    int  // which of its loads this is, from 1; 0 when all of them are one job
	Stays   bool // what it leaves stays on its ring or in its oven, and the next step goes on with it there
	Assumed bool // no time was written: 5 minutes are allowed for
	About   bool // a time in it is a guess of the writer's
}

// Job is one step, one preparation or one task with its times.
type Job struct {
	Piece
	Number  int      // of a step, as it is printed: steps that fall away are not counted
	Phases  []Phase  // in order, without gaps
	Touches []Touch  // short attentions while it is left: stirring, turning
	Puts    []Touch  // when what is only left is put in, and when it is taken off the heat
	Cooks   []string // who works on it, or puts it in; empty when nobody has to
	Oven    string   // the oven it is in; empty for none
	Slack   int      // minutes it could start later by without making anything late, at most a day
	// Critical marks the jobs of the critical chain: the longest run of jobs, each
	// waiting for the one before or for its hands or place, that ends at a
	// serving and leaves nothing to spare.
	Critical bool
	Waits    int      // minutes between its end and its use
	After    []*Job   // what it waited for
	Holds    []string // what keeps it from being later than Slack allows
}

// Start is when the job begins.
func (j *Job) Start() Minute { return j.Phases[0].Start }

// End is when the job ends.
func (j *Job) End() Minute { return j.Phases[len(j.Phases)-1].End }

// OffFire is which phase of several is the first off the fire: where a thing has been
// watched or left and is then worked (drained, turned out), when that work begins; their
// number where there is no such work.
func OffFire(kinds []resolve.SpellKind) int {
	off := len(kinds)
	for i := len(kinds) - 1; i > 0 && kinds[i] == resolve.Work; i-- {
		if kinds[i-1] != resolve.Work {
			off = i
		}
	}
	return off
}

// Cooked is when the job comes off its fire.
func (j *Job) Cooked() Minute {
	kinds := make([]resolve.SpellKind, len(j.Phases))
	for i, p := range j.Phases {
		kinds[i] = p.Kind
	}
	if off := OffFire(kinds); off < len(kinds) {
		return j.Phases[off].Start
	}
	return j.End()
}

// Odds is the chance of keeping the plan, since hands vary and times are ranges or
// guesses: see answer.Result.Chance.
type Odds struct {
	Runs   int    // meals cooked
	OnTime int    // of them, those with no course a minute late
	Worst  int    // the most minutes by which a course was late in any
	Watch  []*Job // the jobs that cost most time, worst first; at most three
	// Courses are how often each was a minute late.
	Courses []CourseOdds
	// Buffer is by how many minutes all would have to begin earlier for 95 meals in
	// 100 to be on time; 0 when they are.
	Buffer int
	// TooLong are the dishes that would then wait longer than is written, and, with Closed,
	// nobody is there so early.
	TooLong []string
	Closed  bool
}

// Hundredth is how many of a hundred meals some of them are.
func (o *Odds) Hundredth(n int) int { return n * 100 / max(1, o.Runs) }

// CourseOdds is how often a course was late.
type CourseOdds struct {
	Course string // its name; empty without one
	Late   int    // of Odds.Runs
}

// Phase is one phase of a job.
type Phase struct {
	Kind       resolve.SpellKind
	Start, End Minute
	// Least is how long the phase may take at the shortest, when a range was
	// written: 35 of "35 to 40 min". Equal to End-Start otherwise.
	Least int
	// Stretch is by how many minutes it lasts longer by permission, "2 h, up to 1
	// day", since it is not wanted before; End counts them.
	Stretch int
	Place   string
	Cooks   []string // who works or watches; empty while it is left
}

// Touch is a moment at which a job that is left wants a hand: `at 30 min: Turn
// it`, `work 1 min every 10 min`.
type Touch struct {
	Start, End Minute
	Text       string          // the writer's words; empty for the repeated ones
	Moment     *resolve.Moment // nil for the repeated ones
	Cooks      []string        // empty where the step is left too long to ask for anyone
	Swap       bool            // the load goes in, and what was in comes out
	Put        Putting         // what is put in or taken out, in a minute of its own
}

// Putting says that a touch puts a thing into its place, or takes it off the heat.
type Putting string

// The puttings.
const (
	NoPutting Putting = ""
	PutIn     Putting = "in"
	TakeOut   Putting = "out"
)

// Heat is a spell in which an oven is kept at a temperature.
type Heat struct {
	Oven       string
	Preheat    Minute // when it is turned on or changed
	Start, End Minute
	Celsius    int      // as this oven is set: a fan oven 20 degrees below one without
	Fan        bool     // the oven has a fan
	Turned     bool     // from another heat, not from cold
	By         []string // who lights or turns it
	Off        Minute   // when it is turned off; only where OffBy says who
	OffBy      []string

	Setting int // the engine's
}

// Serving is a dish going to the table.
type Serving struct {
	Making *demand.Making // nil for what is bought or not yet written
	Name   string
	Course string
	At     Minute   // when it should be served
	Ready  Minute   // when the plan has its last step done
	Served Minute   // when the plan serves it: At, unless the course is late
	By     []string // who takes it to the table
}

// Options says how to plan. The zero value is a sensible default.
type Options struct {
	// Grid is the minutes of the clock on which jobs begin: 1, 5, 10 or 15; 0
	// means 5.
	Grid int
	// Steps limits the work of each attempt, in the engine's steps; 0 means
	// enough for a large family meal.
	Steps int
	// Seed is the engine's; the same seed gives the same plan.
	Seed uint64
	// Known is what came of meals that were planned before; nil: nothing is known.
	Known *plan.Memory
	// NoOdds leaves out how likely the plan is to hold.
	NoOdds bool
}
