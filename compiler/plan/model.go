package plan

// Problem is all the engine is told. Activities, resources and branches are known by their
// index in these slices. Times are whole units (minutes) from 0 to Horizon.
type Problem struct {
	Name       string
	Horizon    int // every activity ends at or before this moment
	Resources  []Resource
	Activities []Activity
	Branches   []Branch
	Lags       []Lag
	Dues       []Due
	Waits      []Wait
	Goal       Goal
}

// Goal says which plans are better. See [Score].
type Goal uint8

const (
	// Kitchen plans back from the due moments: least lateness, least waiting, latest first
	// hands-on work, everything else as late as allowed, least cost of options.
	Kitchen Goal = iota
	// Makespan ends the last activity as early as possible, then least cost of options.
	Makespan
)

// Resource is something activities hold while they last.
type Resource struct {
	Name     string
	Capacity int // units that can be held at one time (or in all, for Stock)
	// Calendar lists the spells, in order and apart, in which the resource can be used; a
	// use lies wholly inside spells that touch or inside one. Empty: always.
	Calendar []Span
	// State makes uses of the resource share a state; nil for most.
	State *State
	// Hands marks people: their first use is the "earliest hands-on work" of the goal.
	Hands bool
	// Stock marks what is used up: Capacity is the total for the whole plan, the window of
	// a use does not matter, and Calendar and State must be empty.
	Stock bool
}

// Span is the time from From up to, not including, To.
type Span struct{ From, To int }

// Range is the whole numbers Lo to Hi, both included.
type Range struct{ Lo, Hi int }

// State is the rule of a resource, such as an oven, that is in one state at a time. Each use
// that names a state range is given one value of it, for all its length. Two uses given
// different values lie as far apart as going from the one to the other takes: see Gap.
type State struct {
	// First is the time to make ready from unused (a preheat): a use with a state starts at
	// least First after the resource opens (time 0, or the start of a Calendar spell).
	First int
	// Change is the least gap between uses of different value.
	Change int
	// Off is the longest idle spell through which the state is held. It only governs the
	// report: after a longer one, Solution.States shows a fresh First. At least First and
	// Change, whatever it says.
	Off int
	// Up and Down are how far the value goes up or down in Step units of time (0: 1 unit):
	// the gap from a lower value to a higher is Step for each Up of the way or part of it. 0:
	// as far as one likes, and Change is all there is to it.
	Up, Down, Step int
}

// Gap is the time from the end of a use at one value to the start of one at another.
//
// It is never longer than going by way of a third value (parts of a way, each rounded up, are
// no less than the whole, rounded up). So it is enough to keep every two uses apart by the gap
// between them, as if they were neighbours: what lies between them asks for no less, and a
// rule for two that are not neighbours never forbids what the rules for neighbours allow.
func (s *State) Gap(from, to int) int {
	if from == to {
		return 0
	}
	way, speed := to-from, s.Up
	if way < 0 {
		way, speed = -way, s.Down
	}
	if speed == 0 {
		return s.Change
	}
	return max(s.Change, (way+speed-1)/speed*max(1, s.Step))
}

// extremes are the shortest and the longest gap from a value of one range to a different one
// of another; both 0 when there are no different ones.
func (s *State) extremes(from, to Range) (least, most int) {
	for _, way := range []struct{ near, far int }{
		{max(1, to.Lo-from.Hi), to.Hi - from.Lo},  // up
		{min(-1, to.Hi-from.Lo), to.Lo - from.Hi}, // down
	} {
		if way.near > 0 && way.far < way.near || way.near < 0 && way.far > way.near {
			continue // no such values
		}
		n, f := s.Gap(0, way.near), s.Gap(0, way.far)
		if most == 0 && least == 0 {
			least, most = n, f
		}
		least, most = min(least, n), max(most, f)
	}
	return least, most
}

// Activity is one piece of work: it starts once, in one mode, and is not interrupted.
type Activity struct {
	Name  string
	Modes []Mode // at least one
	When  When   // the options under which it takes place; empty: always
	// Release is the earliest start; Deadline the latest end (0: the horizon).
	Release, Deadline int
}

// Mode is one way of doing an activity.
type Mode struct {
	Name     string
	Duration int // may be 0
	Uses     []Use
	Cost     int // counts towards Score.Cost
}

// Use is a hold on a resource for part of an activity.
type Use struct {
	// Of names the resource; several mean "any one of these", and the solution says which.
	// Earlier ones are preferred when nothing else decides. Uses of one set in one activity
	// take the same member where they can.
	Of     []int
	Amount int // units held
	// From and To are offsets from the start of the activity: the hold is [From, To). Both 0
	// means throughout. 0 <= From < To <= Duration.
	From, To int
	// State is the range of states that will do, for resources with a State rule.
	State *Range
	// Tie, unless 0, makes all uses that carry it, in all activities, take the same member
	// (the same oven before and after the lid comes off).
	Tie int
}

// When is a condition: all of its choices must have been made. Empty is always true.
type When []Choice

// Choice is an option of a branch.
type Choice struct{ Branch, Option int }

// Branch is a choice between alternatives.
type Branch struct {
	Name    string
	Options []Option
	// Preset is the option tried first; Fixed says there is no other.
	Preset int
	Fixed  bool
}

// Option is one way a branch can go.
type Option struct {
	Name string
	Cost int // counts towards Score.Cost
}

// Edge is the start or the end of an activity.
type Edge uint8

// The two edges.
const (
	Start Edge = iota
	End
)

// Moment is the start or the end of an activity, whatever mode it takes.
type Moment struct {
	Activity int
	Edge     Edge
}

// StartOf is the moment activity i starts.
func StartOf(i int) Moment { return Moment{i, Start} }

// EndOf is the moment activity i ends.
func EndOf(i int) Moment { return Moment{i, End} }

// Lag says that After comes at least Gap after Before: time(After) >= time(Before) + Gap.
// A negative Gap is a maximum: Before comes at most -Gap after After. A lag counts when its
// When holds and both activities take place.
type Lag struct {
	Before, After Moment
	Gap           int
	When          When
	Why           string // for whoever explains a conflict; the engine does not read it
}

// Due says that a moment should not be later than At.
type Due struct {
	Of     Moment
	At     int
	Weight int  // of each unit of time late
	Exact  bool // nor, in any case, earlier than At
	Hard   bool // never late
}

// Wait says that what leaves From suffers when it waits for To longer than Free: each unit
// of time more counts Weight. It counts when both activities take place.
type Wait struct {
	From, To     Moment
	Free, Weight int
}

// AddResource adds a resource and returns its index.
func (p *Problem) AddResource(r Resource) int {
	p.Resources = append(p.Resources, r)
	return len(p.Resources) - 1
}

// AddActivity adds an activity and returns its index.
func (p *Problem) AddActivity(a Activity) int {
	p.Activities = append(p.Activities, a)
	return len(p.Activities) - 1
}

// AddBranch adds a branch and returns its index.
func (p *Problem) AddBranch(b Branch) int {
	p.Branches = append(p.Branches, b)
	return len(p.Branches) - 1
}

// AtLeast adds the lag "after comes at least gap after before" and returns its index.
func (p *Problem) AtLeast(before, after Moment, gap int, why string, when ...Choice) int {
	p.Lags = append(p.Lags, Lag{Before: before, After: after, Gap: gap, When: when, Why: why})
	return len(p.Lags) - 1
}

// AtMost adds the lag "after comes at most gap after before" and returns its index.
func (p *Problem) AtMost(before, after Moment, gap int, why string, when ...Choice) int {
	return p.AtLeast(after, before, -gap, why, when...)
}

// Exactly adds both: "after comes gap after before, neither sooner nor later". The index is
// that of the first of the two lags, AtLeast; AtMost follows it.
func (p *Problem) Exactly(before, after Moment, gap int, why string, when ...Choice) int {
	i := p.AtLeast(before, after, gap, why, when...)
	p.AtMost(before, after, gap, why, when...)
	return i
}

// Holds says whether the options chosen, one for each branch, meet the condition.
func (w When) Holds(options []int) bool {
	for _, c := range w {
		if options[c.Branch] != c.Option {
			return false
		}
	}
	return true
}

// window is the hold of a use within a mode, whole-activity holds written out.
func (u Use) window(duration int) (from, to int) {
	if u.From == 0 && u.To == 0 {
		return 0, duration
	}
	return u.From, u.To
}
