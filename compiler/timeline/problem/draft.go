// Package problem turns a meal into a scheduling problem that knows nothing of food:
// steps, preparations, tasks and courses become jobs (draft.go), what waits for what
// becomes links with a least and a most between two jobs, and cooks, ovens, rings,
// tools and vessels become resources.
//
// Times here count from the start of a job (offset); a Minute of the clock appears
// only where the menu gives one: hours, courses, deadlines. So a draft can be
// answered as often as one likes.
//
// # Hours
//
// A menu with a serving time and `hours` is cooked within those hours only. A
// menu with a serving time and no `hours` is cooked on the day of serving,
// from six in the morning; the days before count only where a dish is served
// `ahead`, where what has to be done takes longer than the morning, or where
// no other plan exists, and then from eight in the morning to nine at night. A
// menu without a serving time has no clock: 0 is the first serving and cooks
// are there whenever they are wanted.
//
// Begin and Finish in draft.go are the order of the work: read them first. Then
// steps.go (what a step holds), order.go (what waits for what, and how long it may),
// table.go (courses and tasks), clock.go and hours.go (when).
package problem

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Draft is a meal on its way to the engine.
type Draft struct {
	Meal  *demand.Meal
	Set   Setup
	fig   *figures.Set
	diags *diag.List // nil: the findings have been made
	Grid  int        // minutes of one unit
	Clock bool

	P       plan.Problem
	Kit     kitchen
	Jobs    []*Job // all but courses, in order of making and step
	Courses []*Job // one for each course, of no length
	Links   []*Link
	out     map[*Job][]*Link // those from each job
	Makings []*Making
	byMake  map[*demand.Making]*Making
	plates  map[*Job]*Job // the plating of each course
	ties    int

	saidNobody bool // it has been said that no cook is there

	needDays int             // days before that are needed whatever the plan
	Open     []Window        // hours in which anyone is there; nil without a clock
	Origin   timeline.Minute // the engine's time 0
	After    []AfterWash     // the washing up that is left until after serving
	Coarse   bool            // some limit is shorter than the grid
}

// Making is one demand.Making on its way.
type Making struct {
	M       *demand.Making
	index   int
	Steps   []*Job // the present steps, in order
	Prep    map[*resolve.Line]*Job
	Pauses  []Pause // by number less one
	Course  *Job    // where it is served; of a base, the first course there is
	Used    bool    // something draws on it
	drawers []taker // what draws on all of it
}

// taker is a job that draws on a base, and how long after the base is made it
// may.
type taker struct {
	job  *Job
	most int
}

// Pause is what becomes of one pause of a making.
type Pause struct {
	Model  *resolve.Pause
	State  pauseState
	Branch int // of a free one: option 0 is straight, 1 paused
}

type pauseState int

const (
	Straight pauseState = iota
	Paused
	Free
)

// Offset is a time within a job, in minutes from its start. What is done at an
// offset is done at a Minute only once there is a plan.
type Offset int

// Part is a phase of a job.
type Part struct {
	Kind     resolve.SpellKind
	From, To Offset
	Least    int // minutes it may take at the shortest
	Place    string
}

// Length is how long a phase lasts, in minutes.
func (s Part) Length() int { return int(s.To - s.From) }

// touch is a moment of a job that is left at which it wants a hand.
type touch struct {
	From, To Offset
	Text     string
	Moment   *resolve.Moment
	Swap     bool
	Put      timeline.Putting
}

// Job is a job on its way: what it is and what the engine knows. It has no times
// of its own but those from its start; a plan gives it those.
type Job struct {
	timeline.Piece
	Parts   []Part // its phases, in order, without gaps
	Touches []touch
	Block   *Block
	head    *Job // of the last of several loads: the first; else nil
	Offset  int  // minutes from the start of its block
	Length  int
	Guesses []Guess // of each phase
	WorkEnd int     // when its work ends, from its start
	Mk      *Making
	Wash    *Wash // of washing up
	When    plan.When
	Hot     bool // it used heat
	warm    bool // what it leaves is still hot from a step before
	resting bool // it only lets what is hot rest
	Extra   int  // minutes it may be stretched by permission
	tie     int  // of its uses of an oven, with those of the steps that stay in it
	upTo    bool // that was written: "15 min, up to 30 min"
	Open    bool // without an upper end
	follow  bool // something follows it, whatever is paused
	// followIf are the conditions under which something follows it, when nothing
	// always does.
	followIf []plan.When
	Place    source.Span
	Course   string          // of a course: its name
	At       timeline.Minute // of a course: when it should be served
}

// Block is one activity of the engine: a job, or several small preparations
// done one after the other by one cook.
type Block struct {
	Act    int
	Length int
	Roles  []RoleKind // what each use of its mode is for
	Jobs   []*Job
}

// Touches tells whether nobody works on a block in some of its units, so that whoever it
// has then only sees to it.
func (b *Block) Touches(from, to, grid int) bool {
	return len(b.Jobs) == 1 && !slices.ContainsFunc(b.Jobs[0].attended(grid), func(s unitSpan) bool { return s.from < to && from < s.to })
}

// TouchIn is the putting in or taking out of a block that falls in one of its units.
func (b *Block) TouchIn(unit, grid int) (at struct{ From, To Offset }, ok bool) {
	for _, t := range b.Jobs[0].Touches {
		if t.Put != timeline.NoPutting && int(t.From)/grid == unit {
			return struct{ From, To Offset }{t.From, t.To}, true
		}
	}
	return at, false
}

// Moment is a time in a job, in minutes from its start.
type Moment struct {
	Job *Job
	At  int
}

// First is the job itself, or the first load of a step that goes in several:
// the making knows such a step by its last load, which ends when the step ends.
func (j *Job) First() *Job {
	if j.head != nil {
		return j.head
	}
	return j
}

func (j *Job) Begin() Moment { return Moment{j.First(), 0} }
func (j *Job) End() Moment   { return Moment{j, j.Length} }

// Link says that to comes at least gap and at most max minutes after from.
type Link struct {
	From, To Moment
	Gap      int
	Max      int // -1: no upper end
	Why      why
	When     plan.When
	Lags     []int            // the engine's lags it became
	Product  *resolve.Product // what is waited for, when it is a product
}

// why says what a link stands for.
type why int

const (
	nextStep why = iota // a step waits for the one before it
	strandOf            // a step is done meanwhile
	afterMade
	TakesFrom
	AllOf // a base is there when all of its steps are done
	prepared
	toTable
	InAll // from the last fire to the table: see hotInAll
	BeforeServing
	ForTask
	VesselFree
	Near // both draw on one base
	NextLoad
	Washed
	WashRound // nothing waits for it: see washRounds
	CourseAfter
	BoardsClear // what is prepared is over before service: a habit
	Plated      // a course is plated when all that goes to the table is ready
)

// followed notes that something follows a job, and when.
func (j *Job) followed(by *Job, when plan.When) {
	all := append(append(plan.When{}, by.When...), when...)
	if len(all) == 0 {
		j.follow = true
		return
	}
	j.followIf = append(j.followIf, all)
}

// unfollowed is the condition under which nothing follows a job. ok is false
// when it cannot be said as one.
func (j *Job) unfollowed() (when plan.When, ok bool) {
	for _, w := range j.followIf {
		if len(w) != 1 {
			return nil, false
		}
		when = append(when, not(w)...)
	}
	return when, true
}

// Begin makes a problem of a meal but for the washing up and the clock. Findings go
// to diags, which may be nil.
func Begin(meal *demand.Meal, set Setup, diags *diag.List) *Draft {
	fig := set.Figures
	if fig == nil {
		fig = figures.Of(meal, figures.Options{})
	}
	d := &Draft{Meal: meal, Set: set, fig: fig, diags: diags, Grid: set.Grid, byMake: map[*demand.Making]*Making{}, plates: map[*Job]*Job{}, out: map[*Job][]*Link{}}
	d.Clock = meal.Menu != nil && meal.Menu.Serve != nil
	d.equip()
	d.addCourses()
	for i, m := range meal.Makings {
		mk := &Making{M: m, index: i, Prep: map[*resolve.Line]*Job{}}
		d.Makings = append(d.Makings, mk)
		d.byMake[m] = mk
	}
	d.findUsed()
	for _, mk := range d.Makings {
		mk.Course = d.courseOf(mk)
		d.decidePauses(mk)
		d.addSteps(mk)
	}
	d.sayAssumed()
	d.addPreps()
	for _, mk := range d.Makings {
		mk.keepWarm()
		d.order(mk)
		d.draws(mk)
		d.toTable(mk)
	}
	d.together()
	d.addTasks()
	d.addService()
	d.closeBoards()
	d.keepVessels()
	return d
}

// Finish gives the problem its clock, when all of its jobs are there.
func (d *Draft) Finish() {
	d.setClock()
	d.timeBreaks()
	d.afterMeal()
	d.serviceHands()
	d.keepPast()
}

// findUsed marks the makings that others draw on.
func (d *Draft) findUsed() {
	for _, mk := range d.Makings {
		for _, a := range mk.M.Lines {
			if src := d.byMake[a.Source]; src != nil && src != mk {
				src.Used = true
			}
		}
	}
}

// Activity gives a job an activity of its own.
func (d *Draft) Activity(j *Job, uses []plan.Use, roles []RoleKind) {
	act := d.P.AddActivity(plan.Activity{
		Name:  j.Title,
		Modes: []plan.Mode{{Duration: timeline.CeilDiv(j.Length, d.Grid), Uses: uses}},
		When:  j.When,
	})
	j.Block = &Block{Act: act, Length: j.Length, Roles: roles, Jobs: []*Job{j}}
}

// Link tells the engine that to comes at least gap minutes after from, and at
// most max (-1: no upper end). Times within jobs are exact; only the starts of
// activities lie on the grid.
func (d *Draft) Link(from, to Moment, gap, most int, w why, when ...plan.Choice) *Link {
	gap += d.spare(from.Job, to.Job, gap, most, w)
	l := &Link{From: from, To: to, Gap: gap, Max: most, Why: w, When: when}
	d.Links = append(d.Links, l)
	d.out[from.Job] = append(d.out[from.Job], l)
	before, after := from.Job.Block, to.Job.Block
	if before == after {
		return l
	}
	shift := from.Job.Offset + from.At - to.Job.Offset - to.At
	low := timeline.CeilDiv(shift+gap, d.Grid)
	l.Lags = append(l.Lags, d.P.AtLeast(plan.StartOf(before.Act), plan.StartOf(after.Act), low, "", when...))
	k := d.Set.Keep
	loose := most >= 0 && (d.Set.Eased || k != nil && k.Loose)
	if loose && (w == Washed || w == WashRound) {
		return l
	}
	if loose && w != Near && w != BeforeServing {
		d.P.Waits = append(d.P.Waits, plan.Wait{
			From: plan.StartOf(before.Act), To: plan.StartOf(after.Act), Free: max(0, timeline.FloorDiv(shift+most, d.Grid)), Weight: waitOver,
		})
		return l
	}
	if most >= 0 {
		high := timeline.FloorDiv(shift+most, d.Grid)
		if high < low && !d.contradicts(when, from.Job.When, to.Job.When) {
			d.Coarse = d.Coarse || d.Grid > 1
		}
		l.Lags = append(l.Lags, d.P.AtMost(plan.StartOf(before.Act), plan.StartOf(after.Act), high, "", when...))
	}
	return l
}

// contradicts tells whether conditions can never hold together.
func (d *Draft) contradicts(whens ...plan.When) bool {
	chosen := map[int]int{}
	for _, w := range whens {
		for _, c := range w {
			if o, ok := chosen[c.Branch]; ok && o != c.Option {
				return true
			}
			chosen[c.Branch] = c.Option
		}
	}
	return false
}

// waiting makes the time a hot thing waits for its use count.
func (d *Draft) waiting(from, to *Job, weight int) {
	if from.Block == to.Block || weight == 0 {
		return
	}
	d.waitFrom(from, to, 0, weight)
	if from.head == nil {
		return
	}
	for _, load := range d.LoadsOf(from.Mk, from) { // what is done first waits for the last load, and then with it
		if load != from {
			d.waitFrom(load, to, 0, weight)
			d.waitFrom(load, to, max(0, d.Limit(from)), waitOver-weight)
		}
	}
}

// waitFrom makes the time a thing waits past some minutes count.
func (d *Draft) waitFrom(from, to *Job, past, weight int) {
	to = to.First()
	d.P.Waits = append(d.P.Waits, plan.Wait{
		From: plan.StartOf(from.Block.Act), To: plan.StartOf(to.Block.Act),
		Free:   max(0, timeline.CeilDiv(from.Offset+from.Length+from.Extra+past-to.Offset, d.Grid)),
		Weight: weight,
	})
}

// productMeant is the product that a spell grows with, or nil.
func (d *Draft) productMeant(m *demand.Making, sp *resolve.Spell) *resolve.Product {
	if sp.EachLine != nil || sp.Each.Name.Text == "" {
		return nil
	}
	key := larder.Fold(sp.Each.Name.Text)
	for _, p := range m.Recipe.Products {
		if p.Key == key {
			return p
		}
	}
	return nil
}

// decidePauses says what becomes of the pauses of a making. What is made ahead
// takes the longest.
func (d *Draft) decidePauses(mk *Making) {
	s := mk.M.Serving
	longest := 0
	for i, p := range mk.M.Recipe.Pauses {
		if p.UpTo >= mk.M.Recipe.Pauses[longest].UpTo {
			longest = i
		}
	}
	for i, p := range mk.M.Recipe.Pauses {
		st := Pause{Model: p, Branch: -1}
		if k := d.Set.Keep; k != nil && i < len(k.Pauses[mk.M]) {
			if k.Pauses[mk.M][i] {
				st.State = Paused
			}
			mk.Pauses = append(mk.Pauses, st)
			continue
		}
		switch {
		case s != nil && s.Straight && d.Set.Ahead != mk.index+1:
		case (s != nil && s.Ahead || d.Set.Ahead == mk.index+1 || slices.Contains(d.Set.Habits.Ahead, mk.M)) && i == longest:
			st.State = Paused
		case d.Set.Free:
			st.State = Free
			st.Branch = d.P.AddBranch(plan.Branch{
				Name:    mk.M.Recipe.Name,
				Options: []plan.Option{{Name: "straight through"}, {Name: "paused", Cost: 10}},
			})
		}
		mk.Pauses = append(mk.Pauses, st)
	}
}

// present tells whether a step takes place and under which condition.
func (d *Draft) present(mk *Making, s *resolve.Step) (ok bool, when plan.When) {
	if s.OnlyIfNeeded && d.Set.Bare && !d.Set.Keep.Begun(Key{kind: timeline.StepJob, Making: mk.M, step: s}) {
		return false, nil
	}
	for _, c := range s.If {
		if !c.Paused || c.Pause == 0 || c.Pause > len(mk.Pauses) {
			continue
		}
		p := mk.Pauses[c.Pause-1]
		want := Paused
		if c.Unless {
			want = Straight
		}
		switch p.State {
		case Free:
			when = append(when, plan.Choice{Branch: p.Branch, Option: int(want)})
		case want:
		default:
			return false, nil
		}
	}
	return true, when
}

// not is the opposite of a condition of one choice.
func not(w plan.When) plan.When {
	if len(w) == 0 {
		return nil
	}
	return plan.When{{Branch: w[0].Branch, Option: 1 - w[0].Option}}
}
