package timeline

import (
	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// draft is a meal on its way to the engine.
type draft struct {
	meal  *demand.Meal
	set   setup
	diags *diag.List // nil: the findings have been made
	grid  int        // minutes of one unit
	clock bool

	p       plan.Problem
	kit     kitchen
	jobs    []*job // all but courses, in order of making and step
	courses []*job // one for each course, of no length
	links   []*link
	makings []*making
	byMake  map[*demand.Making]*making
	ties    int

	saidNobody bool // it has been said that no cook is there

	needDays int      // days before that are needed whatever the plan
	open     []window // hours in which anyone is there; nil without a clock
	origin   Minute   // the engine's time 0
	coarse   bool     // some limit is shorter than the grid
}

// making is one demand.Making on its way.
type making struct {
	m       *demand.Making
	index   int
	steps   []*job // the present steps, in order
	prep    map[*resolve.Line]*job
	pauses  []pause // by number less one
	course  *job    // where it is served; of a base, the first course there is
	used    bool    // something draws on it
	drawers []taker // what draws on all of it
}

// taker is a job that draws on a base, and how long after the base is made it
// may.
type taker struct {
	job  *job
	most int
}

// pause is what becomes of one pause of a making.
type pause struct {
	model  *resolve.Pause
	state  pauseState
	branch int // of a free one: option 0 is straight, 1 paused
}

type pauseState int

const (
	straight pauseState = iota
	paused
	free
)

// offset is a time within a job, in minutes from its start. What is done at an
// offset is done at a Minute only once there is a plan.
type offset int

// part is a phase of a job.
type part struct {
	kind     resolve.SpellKind
	from, to offset
	least    int // minutes it may take at the shortest
	place    string
}

// length is how long a phase lasts, in minutes.
func (s part) length() int { return int(s.to - s.from) }

// touch is a moment of a job that is left at which it wants a hand.
type touch struct {
	from, to offset
	text     string
	swap     bool
}

// job is a job on its way: what it is and what the engine knows. It has no times
// of its own but those from its start; a plan gives it those.
type job struct {
	Piece
	parts   []part // its phases, in order, without gaps
	touches []touch
	block   *block
	head    *job // of the last of several loads: the first; else nil
	offset  int  // minutes from the start of its block
	length  int
	guesses []guess // of each phase
	workEnd int     // when its work ends, from its start
	mk      *making
	wash    *wash // of washing up
	when    plan.When
	hot     bool // it used heat
	warm    bool // what it leaves is still hot from a step before
	resting bool // it only lets what is hot rest
	extra   int  // minutes it may be stretched by permission
	upTo    bool // that was written: "15 min, up to 30 min"
	open    bool // without an upper end
	follow  bool // something follows it, whatever is paused
	// followIf are the conditions under which something follows it, when nothing
	// always does.
	followIf []plan.When
	place    source.Span
	course   string // of a course: its name
	at       Minute // of a course: when it should be served
}

// block is one activity of the engine: a job, or several small preparations
// done one after the other by one cook.
type block struct {
	act    int
	length int
	roles  []roleKind // what each use of its mode is for
	jobs   []*job
}

// moment is a time in a job, in minutes from its start.
type moment struct {
	job *job
	at  int
}

// first is the job itself, or the first load of a step that goes in several:
// the making knows such a step by its last load, which ends when the step ends.
func (j *job) first() *job {
	if j.head != nil {
		return j.head
	}
	return j
}

func (j *job) begin() moment { return moment{j.first(), 0} }
func (j *job) end() moment   { return moment{j, j.length} }

// link says that to comes at least gap and at most max minutes after from.
type link struct {
	from, to moment
	gap      int
	max      int // -1: no upper end
	why      why
	when     plan.When
	lags     []int            // the engine's lags it became
	product  *resolve.Product // what is waited for, when it is a product
}

// why says what a link stands for.
type why int

const (
	nextStep why = iota // a step waits for the one before it
	strandOf            // a step is done meanwhile
	afterMade
	takesFrom
	allOf // a base is there when all of its steps are done
	prepared
	toTable
	beforeServing
	forTask
	vesselFree
	near // both draw on one base
	nextLoad
	washed
	washRound // nothing waits for it: see washRounds
	courseAfter
)

// followed notes that something follows a job, and when.
func (j *job) followed(by *job, when plan.When) {
	all := append(append(plan.When{}, by.when...), when...)
	if len(all) == 0 {
		j.follow = true
		return
	}
	j.followIf = append(j.followIf, all)
}

// unfollowed is the condition under which nothing follows a job. ok is false
// when it cannot be said as one.
func (j *job) unfollowed() (when plan.When, ok bool) {
	for _, w := range j.followIf {
		if len(w) != 1 {
			return nil, false
		}
		when = append(when, not(w)...)
	}
	return when, true
}

// translate makes a problem of a meal. Findings go to diags, which may be nil.
func translate(meal *demand.Meal, set setup, diags *diag.List) *draft {
	d := &draft{meal: meal, set: set, diags: diags, grid: set.grid, byMake: map[*demand.Making]*making{}}
	d.clock = meal.Menu != nil && meal.Menu.Serve != nil
	d.equip()
	d.addCourses()
	for i, m := range meal.Makings {
		mk := &making{m: m, index: i, prep: map[*resolve.Line]*job{}}
		d.makings = append(d.makings, mk)
		d.byMake[m] = mk
	}
	d.findUsed()
	for _, mk := range d.makings {
		mk.course = d.courseOf(mk)
		d.decidePauses(mk)
		d.addSteps(mk)
	}
	d.sayAssumed()
	for _, mk := range d.makings {
		d.addPreps(mk)
	}
	for _, mk := range d.makings {
		mk.keepWarm()
		d.order(mk)
		d.draws(mk)
		d.toTable(mk)
	}
	d.together()
	d.addTasks()
	d.keepVessels()
	d.washUp()
	d.setClock()
	d.keepPast()
	return d
}

// findUsed marks the makings that others draw on.
func (d *draft) findUsed() {
	for _, mk := range d.makings {
		for _, a := range mk.m.Lines {
			if src := d.byMake[a.Source]; src != nil && src != mk {
				src.used = true
			}
		}
	}
}

// activity gives a job an activity of its own.
func (d *draft) activity(j *job, uses []plan.Use, roles []roleKind) {
	act := d.p.AddActivity(plan.Activity{
		Name:  j.Title,
		Modes: []plan.Mode{{Duration: ceilDiv(j.length, d.grid), Uses: uses}},
		When:  j.when,
	})
	j.block = &block{act: act, length: j.length, roles: roles, jobs: []*job{j}}
}

// link tells the engine that to comes at least gap minutes after from, and at
// most max (-1: no upper end). Times within jobs are exact; only the starts of
// activities lie on the grid.
func (d *draft) link(from, to moment, gap, most int, w why, when ...plan.Choice) *link {
	l := &link{from: from, to: to, gap: gap, max: most, why: w, when: when}
	d.links = append(d.links, l)
	before, after := from.job.block, to.job.block
	if before == after {
		return l
	}
	shift := from.job.offset + from.at - to.job.offset - to.at
	low := ceilDiv(shift+gap, d.grid)
	l.lags = append(l.lags, d.p.AtLeast(plan.StartOf(before.act), plan.StartOf(after.act), low, "", when...))
	k := d.set.keep
	loose := most >= 0 && (d.set.eased || k != nil && k.loose)
	if loose && (w == washed || w == washRound) {
		return l
	}
	if loose && w != near && w != beforeServing {
		d.p.Waits = append(d.p.Waits, plan.Wait{
			From: plan.StartOf(before.act), To: plan.StartOf(after.act), Free: max(0, floorDiv(shift+most, d.grid)), Weight: waitOver,
		})
		return l
	}
	if most >= 0 {
		high := floorDiv(shift+most, d.grid)
		if high < low && !d.contradicts(when, from.job.when, to.job.when) {
			d.coarse = d.coarse || d.grid > 1
		}
		l.lags = append(l.lags, d.p.AtMost(plan.StartOf(before.act), plan.StartOf(after.act), high, "", when...))
	}
	return l
}

// contradicts tells whether conditions can never hold together.
func (d *draft) contradicts(whens ...plan.When) bool {
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
func (d *draft) waiting(from, to *job, weight int) {
	if from.block == to.block || weight == 0 {
		return
	}
	d.waitFrom(from, to, 0, weight)
	if from.head == nil {
		return
	}
	for _, load := range d.loadsOf(from.mk, from) { // what is done first waits for the last load, and then with it
		if load != from {
			d.waitFrom(load, to, 0, weight)
			d.waitFrom(load, to, max(0, d.limit(from)), waitOver-weight)
		}
	}
}

// waitFrom makes the time a thing waits past some minutes count.
func (d *draft) waitFrom(from, to *job, past, weight int) {
	to = to.first()
	d.p.Waits = append(d.p.Waits, plan.Wait{
		From: plan.StartOf(from.block.act), To: plan.StartOf(to.block.act),
		Free:   max(0, ceilDiv(from.offset+from.length+from.extra+past-to.offset, d.grid)),
		Weight: weight,
	})
}

// productMeant is the product that a spell grows with, or nil.
func (d *draft) productMeant(m *demand.Making, sp *resolve.Spell) *resolve.Product {
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
func (d *draft) decidePauses(mk *making) {
	s := mk.m.Serving
	longest := 0
	for i, p := range mk.m.Recipe.Pauses {
		if p.UpTo >= mk.m.Recipe.Pauses[longest].UpTo {
			longest = i
		}
	}
	for i, p := range mk.m.Recipe.Pauses {
		st := pause{model: p, branch: -1}
		if k := d.set.keep; k != nil && i < len(k.pauses[mk.m]) {
			if k.pauses[mk.m][i] {
				st.state = paused
			}
			mk.pauses = append(mk.pauses, st)
			continue
		}
		switch {
		case s != nil && s.Straight && d.set.ahead != mk.index+1:
		case (s != nil && s.Ahead || d.set.ahead == mk.index+1) && i == longest:
			st.state = paused
		case d.set.free:
			st.state = free
			st.branch = d.p.AddBranch(plan.Branch{
				Name:    mk.m.Recipe.Name,
				Options: []plan.Option{{Name: "straight through"}, {Name: "paused", Cost: 10}},
			})
		}
		mk.pauses = append(mk.pauses, st)
	}
}

// present tells whether a step takes place and under which condition.
func (d *draft) present(mk *making, s *resolve.Step) (ok bool, when plan.When) {
	if s.OnlyIfNeeded && d.set.bare && !d.set.keep.begun(key{kind: StepJob, making: mk.m, step: s}) {
		return false, nil
	}
	for _, c := range s.If {
		if !c.Paused || c.Pause == 0 || c.Pause > len(mk.pauses) {
			continue
		}
		p := mk.pauses[c.Pause-1]
		want := paused
		if c.Unless {
			want = straight
		}
		switch p.state {
		case free:
			when = append(when, plan.Choice{Branch: p.branch, Option: int(want)})
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
