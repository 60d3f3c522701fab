// Package events is the plan of a meal as one list of what happens, in order of
// time: jobs, putting in and taking out, heats, touches, servings.
//
// A plan (package timeline) is made of jobs, each with its phases; paper is made
// of rows and bars. Between the two somebody has to say what happens at 12:40:
// which moments there are, in what order those of one minute stand, on which
// shelf or ring a thing is, how many rows a lane of the chart needs, what number
// a step has. It is said here and nowhere else. The chart, the run sheet, the
// countdown, the sheet of each cook, the oven door, the order of work of a
// handout, the data and the terminal all print these events; none of them reads
// a plan.
//
// Read build.go first: Of turns a plan into the list. slots.go finds shelves and
// rings, lanes.go the rows of the chart, clock.go says what a Moment is on the
// wall, say.go how an event is named, answers.go what a cook may ask. This file is what the list is made of.
package events

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Moment is a point of time, in minutes from midnight at the start of the
// serving day; without a clock, from the first serving. Earlier ones are
// negative.
type Moment int

// Minutes is a length of time.
type Minutes int

// Add is the moment so much later.
func (m Moment) Add(n Minutes) Moment { return m + Moment(n) }

// Since is how long after another this moment is.
func (m Moment) Since(o Moment) Minutes { return Minutes(m - o) }

// Kind tells the events apart.
type Kind string

// The kinds of event, in the order in which those of one minute stand: an oven
// is emptied before it is turned, what is done is served before more is begun.
const (
	Out   Kind = "out"   // taken out of the oven, off the ring
	Off   Kind = "off"   // an oven is turned off
	Heat  Kind = "heat"  // an oven is lit or turned
	Touch Kind = "touch" // something that is left wants a hand
	Serve Kind = "serve" // a dish goes to the table
	Job   Kind = "job"   // a step, a preparation, a task or washing up begins
	In    Kind = "in"    // put into the oven, onto the ring
)

var rank = map[Kind]int{Out: 0, Off: 1, Heat: 2, Touch: 3, Serve: 4, Job: 5, In: 6}

// Event is one thing that happens. A field that says nothing of an event is
// empty.
type Event struct {
	Kind Kind
	// Start and End are when it begins and is over: of a job its first and last
	// minute; of a putting in, how long the thing stays; of a heat, when the oven
	// is lit or turned and when it is hot. A taking out and a serving are over at
	// once.
	Start, End Moment
	// At is when its row stands: Start, but of a job that is only left, when
	// somebody has a minute to put it in.
	At Moment

	Of     *Event         // the job of a touch, a putting in, a taking out
	Dish   *demand.Making // nil for tasks, washing up, heats and what is bought
	Step   *resolve.StepReading
	Number int // of the step, as it is printed
	Load   int // which of its loads it is, from 1; 0 when all are one job
	Loads  int // how many there are; 0 or 1: it goes round once

	Who   []string
	PutBy []string // of a job that is only left at first: who puts it in, in the minute of its row
	Where Place

	Line   *demand.Amount // of a preparation: what is prepared
	Thing  string         // what it is done to: "onions"; of a serving, what is served
	Cut    string         // "finely chopped"
	Amount *quantity.Quantity

	Title string // a few words, for a bar: "rub in the butter"
	Does  string // of a job, its sentence alone: "Bake until deep gold"
	Words string // what to do, in full, with the putting in and the load: "Put in: Bake until deep gold: load 2 of 3"
	Text  string // of a touch, the writer's own words; empty for a repeated one

	Moment *resolve.Moment // of a touch: the writer's moment; nil for a repeated one

	Phases   []Phase // of a job, in order, without gaps
	Then     bool    // a touch that is a phase of its job: what is worked when it has been left
	Swap     bool    // a touch with which a load goes in: the row of its job says it
	Critical bool    // of the critical chain
	Assumed  bool    // no time was written
	Unsure   bool    // a time of it is only offered: nobody has confirmed it
	IfNeeded bool    // a step that may not happen
	Waits    Minutes // from its end to its use
	Setting  Setting // of a heat
	Course   string  // of a serving
	Due      Moment  // of a serving: when it should be

	Asked string   // of washing up: the line of the kitchen that asks for it
	Slack Minutes  // of a job: how much later it could begin and nothing be late
	After []*Event // the jobs that a job waited for
	Holds []string // what keeps a job from being later than its slack

	takenOut []string // who takes it out or off
	outAt    Moment
	stays    bool // nobody does: it stays for the next step

	shelves                       int // it takes in its oven
	loadText, mark, say, sentence string
}

// Phase is a part of a job: worked, watched or left.
type Phase struct {
	Kind       resolve.SpellKind
	Start, End Moment
	Least      Minutes // how long it takes at the shortest
	Stretch    Minutes // of its length, what it lasts longer by permission
	Place      string  // "fridge"
	Who        []string
}

// Length is how long a phase lasts.
func (p Phase) Length() Minutes { return p.End.Since(p.Start) }

// Place is where something is done or stands.
type Place struct {
	Oven    string // the oven's name
	Rings   int    // how many
	Level   string // of ring or grill: "low"; "low?" where it is only offered
	Grill   bool
	Room    string // "fridge", "warm place"
	Slots   []int  // shelves of the oven or rings of the hob, from 0
	Vessel  string // folded name
	Vessels int    // how many of it
	Tools   []string
}

// Setting is what an oven is set to.
type Setting struct {
	Celsius int
	Fan     bool
	Turned  bool   // from another heat, not from cold
	Until   Moment // how long it is kept
	Words   string // as it is printed: "180 °C fan", "350 °F"
}

// Verb is what is done to the oven: one that is hot is turned.
func (s Setting) Verb() string {
	if s.Turned {
		return "Turn"
	}
	return "Heat"
}

// Length is how long an event lasts.
func (e *Event) Length() Minutes { return e.End.Since(e.Start) }

// Last is the last phase of a job.
func (e *Event) Last() Phase { return e.Phases[len(e.Phases)-1] }

// BegunBy is when a cook begins to work at a job; false where that cook only comes
// back for it, or puts it in: these are events of their own.
func (l *List) BegunBy(e *Event, cook string) (Moment, bool) {
	for i, p := range e.Phases {
		if i > 0 && p.Kind == resolve.Work && e.Phases[i-1].Kind != resolve.Work {
			break
		}
		if slices.Contains(p.Who, cook) {
			return p.Start, true
		}
	}
	puts := slices.ContainsFunc(l.Events, func(o *Event) bool { return o.Of == e && o.Kind == In && slices.Contains(o.Who, cook) })
	back := slices.ContainsFunc(l.Events, func(o *Event) bool { return o.Of == e && o.Then && slices.Contains(o.Who, cook) })
	return e.At, !puts && !back
}

// HandsFree is when a cook of a job is first free again; when its row stands for one who
// only sees to it later.
func (e *Event) HandsFree(cook string) Moment {
	free := e.At
	for _, p := range e.Phases {
		switch {
		case slices.Contains(p.Who, cook) && p.Start == free:
			free = p.End
		case free > e.At:
			return free
		}
	}
	return free
}

// Worked is when the last hands leave a job; its end when it is only left.
func (e *Event) Worked() Moment {
	at := e.End
	for _, p := range e.Phases {
		if p.Kind != resolve.Leave {
			at = p.End
		}
	}
	return at
}

// LoadText says which load of its step a job is, "load 2 of 3"; empty when it is
// all of it.
func (e *Event) LoadText() string { return e.loadText }

// Hands is how many minutes of a job are worked or watched.
func (e *Event) Hands() (n Minutes) {
	for _, p := range e.Phases {
		if p.Kind != resolve.Leave {
			n += p.Length()
		}
	}
	return n
}

// Alone is how many minutes a job is left.
func (e *Event) Alone() Minutes { return e.Length() - e.Hands() }
