package problem

import (
	"cmp"
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// clearing is how soon after a course a task that follows it should begin, in
// minutes: common practice, no source.
const clearing = 30

// addCourses makes a moment of every course. A meal without a menu is served
// at 0.
func (d *Draft) addCourses() {
	add := func(name string, at timeline.Minute) {
		j := &Job{Course: name, At: at}
		j.Title = name
		if !d.Set.Keep.Served(j) {
			j.At += d.Set.Later
		}
		d.Activity(j, nil, nil)
		d.Courses = append(d.Courses, j)
	}
	if m := d.Meal.Menu; m != nil {
		for _, c := range m.Courses {
			add(c.Name, c.At)
		}
	}
	if len(d.Courses) == 0 {
		add("", d.serveAt())
	}
	d.coursesInOrder()
}

// coursesInOrder keeps the courses in their order when one of them is late: what
// is served `20 min after First` comes no sooner after it than that, and no course
// before one that stands before it on the clock.
func (d *Draft) coursesInOrder() {
	menu := d.Meal.Menu
	if menu == nil {
		return
	}
	of := map[*resolve.Course]*Job{}
	for i, c := range menu.Courses {
		of[c] = d.Courses[i]
		if first := of[c.After]; first != nil {
			d.Link(first.Begin(), d.Courses[i].Begin(), c.At-c.After.At, -1, CourseAfter)
		}
	}
	inTime := slices.Clone(d.Courses)
	slices.SortStableFunc(inTime, func(a, b *Job) int { return cmp.Compare(a.At, b.At) })
	for i, c := range inTime[1:] {
		d.Link(inTime[i].Begin(), c.Begin(), 0, -1, CourseAfter)
	}
}

// serveAt is the menu's serving time, 0 without a clock.
func (d *Draft) serveAt() timeline.Minute {
	if d.Clock {
		return d.Meal.Menu.Serve.Hour()*60 + d.Meal.Menu.Serve.Minute()
	}
	return 0
}

// lastAt is when the last course is served.
func (d *Draft) lastAt() (at timeline.Minute) {
	at = d.Courses[0].At
	for _, c := range d.Courses {
		at = max(at, c.At)
	}
	return at
}

// FirstCourse is the one that is served first.
func (d *Draft) FirstCourse() *Job {
	first := d.Courses[0]
	for _, c := range d.Courses {
		if c.At < first.At {
			first = c
		}
	}
	return first
}

// courseOf is the course a making is served in; for a base, the first there
// is.
func (d *Draft) courseOf(mk *Making) *Job {
	if s := mk.M.Serving; s != nil && d.Meal.Menu != nil {
		for i, c := range d.Meal.Menu.Courses {
			if c == s.Course {
				return d.Courses[i]
			}
		}
	}
	return d.FirstCourse()
}

// toTable links a making to the course it is served in: serving waits for
// every step, and what comes last may wait only so long.
func (d *Draft) toTable(mk *Making) {
	table := mk.Course.Begin()
	if hosts := mk.plainBefore(len(mk.Steps)); len(hosts) == 1 {
		d.sayLongStrand(mk, hosts[0].job, mk.strandBefore(len(mk.Steps)))
	}
	for i, j := range mk.Steps {
		d.beforeServing(j, table)
		if mk.M.Serving == nil && mk.Used {
			continue
		}
		if !mk.Last(i) {
			continue
		}
		when, ok := d.lastWhen(mk, j)
		if len(when) > 0 || !ok {
			d.Link(j.End(), table, 0, -1, toTable)
		}
		if !ok {
			continue
		}
		d.across(mk, before{j, when}, table, len(mk.Pauses), mk.forgive(d.TableLimit(mk, j), j, mk.Course), toTable)
		if !mk.mayPause(j.Step.Step.Pause, len(mk.Pauses)) {
			d.waiting(j, mk.Course, d.TableWeight(mk, j))
			if len(when) == 0 && !d.Set.Apart {
				d.hotInAll(mk, i, table)
			}
		}
	}
	if mk.M.Serving != nil || !mk.Used {
		for _, a := range mk.M.Lines {
			if j := mk.Prep[a.Line]; j != nil && !j.follow {
				d.Link(j.End(), table, 0, -1, toTable)
			}
		}
	}
}

// lastWhen is the condition under which a step is a last one.
func (d *Draft) lastWhen(mk *Making, j *Job) (plan.When, bool) {
	for _, b := range mk.plainBefore(len(mk.Steps)) {
		if b.job == j {
			return b.when, true
		}
	}
	return j.unfollowed()
}

// TableLimit is how long a dish may stand between its last step and the table.
func (d *Draft) TableLimit(mk *Making, j *Job) int {
	n := d.Limit(j)
	if n < 0 {
		return n
	}
	r, how := mk.M.Recipe, mk.M.Recipe.ServeHow
	hot := how != nil && how.State == "hot"
	_, held := j.Held()
	switch {
	case how != nil && how.Within != nil:
		n = d.within(j, timeline.Minutes(max(how.Within.High, how.Within.UpTo)))
	case hot && d.written(j) < 0:
		n = d.Kit.waitHot + j.Extra
	case !hot && !held && r.Keeps != nil:
		n = max(n, timeline.Minutes(max(r.Keeps.Time.High, r.Keeps.Time.UpTo)))
	}
	if t := j.Step.Step.DoneBefore; t != nil {
		n += timeline.Minutes(*t)
	}
	minutes, _ := d.plating(mk.Course)
	return max(n, timeline.CeilDiv(minutes, d.Grid)*d.Grid) // while it is plated, whatever is written
}

// TableWeight is what a minute between the last step and the table counts.
func (d *Draft) TableWeight(mk *Making, j *Job) int {
	how := mk.M.Recipe.ServeHow
	switch {
	case mk.cold():
		return 0
	case j.Step.Step.Hold != nil:
		return waitHeld
	case how != nil && how.State == "hot" || j.Hot || j.warm || j.resting:
		return waitHotTable
	}
	return 0
}

// beforeServing keeps the times a step names before serving.
func (d *Draft) beforeServing(j *Job, table Moment) {
	s := j.Step.Step
	if p := j.Mk.M.Serving.Pin(s); p != nil && p.At != nil && d.Clock {
		gap := timeline.CeilDiv(max(0, j.Mk.Course.At-*p.At), d.Grid) * d.Grid
		d.Link(j.Begin(), table, gap, gap, BeforeServing)
	}
	if t := s.StartBefore; t != nil {
		gap := timeline.CeilDiv(timeline.Minutes(*t), d.Grid) * d.Grid
		d.Link(j.Begin(), table, gap, gap, BeforeServing)
	}
	if t := s.DoneBefore; t != nil {
		d.Link(j.End(), table, timeline.Minutes(*t), -1, BeforeServing)
	}
}

// addTasks makes jobs of the menu's tasks.
func (d *Draft) addTasks() {
	menu := d.Meal.Menu
	if menu == nil {
		return
	}
	byName := map[string]*Job{}
	for _, t := range menu.Tasks {
		j := &Job{Place: t.Span}
		j.Piece = timeline.Piece{Kind: timeline.TaskJob, Title: t.Name}
		n := Length{Most: assumedMinutes, Least: assumedMinutes}
		if t.Work != nil {
			n = Length{Most: timeline.Minutes(t.Work.High), Least: timeline.Minutes(t.Work.Low), About: t.Work.About}
		}
		j.Assumed = t.Work == nil
		j.AddPhase(resolve.Work, "", n)
		if j.Length == 0 {
			j.AddPhase(resolve.Work, "", Length{Most: 1, Least: 1})
		}
		j.Lengthen(d.More(j))
		d.taskUses(j, t)
		d.Jobs = append(d.Jobs, j)
		byName[larder.Fold(t.Name)] = j
		d.placeTask(j, t, byName)
	}
}

func (d *Draft) taskUses(j *Job, t *resolve.Task) {
	var by []string
	for _, n := range t.By {
		by = append(by, larder.Fold(n.Text))
	}
	set := d.Hands(by)
	if len(set) == 0 && len(by) > 0 {
		d.nobody(j, by)
		set = d.Hands(nil)
	}
	if len(set) == 0 {
		d.Activity(j, nil, nil)
		return
	}
	d.Activity(j, []plan.Use{{Of: set, Amount: d.Grid}}, []RoleKind{CookRole})
}

// placeTask links a task to the courses, dishes and tasks it stands before and
// after.
func (d *Draft) placeTask(j *Job, t *resolve.Task, tasks map[string]*Job) {
	gap := 0
	if t.Done != nil {
		gap = timeline.Minutes(t.Done.High)
	}
	if !t.After.IsZero() {
		key := larder.Fold(t.After.Text)
		most := -1
		if t.Before.IsZero() {
			most = clearing
		}
		switch c, mk, other := d.courseNamed(key), d.makingNamed(key), tasks[key]; {
		case c != nil:
			d.Link(c.Begin(), j.Begin(), 0, most, ForTask)
			if most >= 0 {
				d.waiting(c, j, 1)
			}
		case mk != nil:
			for i, s := range mk.Steps {
				if mk.Last(i) {
					d.Link(s.End(), j.Begin(), 0, -1, ForTask)
				}
			}
			d.Link(j.End(), mk.Course.Begin(), gap, -1, ForTask)
		case other != nil && other != j:
			d.Link(other.End(), j.Begin(), 0, -1, ForTask)
		}
	}
	if t.Before.IsZero() && !t.After.IsZero() {
		return
	}
	key := larder.Fold(t.Before.Text) // of none: the first
	c := d.courseNamed(key)
	if c == nil {
		if mk := d.makingNamed(key); mk != nil {
			c = mk.Course
		}
	}
	if c == nil {
		c = d.FirstCourse()
	}
	d.Link(j.End(), c.Begin(), gap, -1, ForTask)
	if t.Done != nil { // the coffee is not made an hour before
		d.waiting(j, c, 1)
	}
}

func (d *Draft) courseNamed(key string) *Job {
	for _, c := range d.Courses {
		if larder.Fold(c.Course) == key {
			return c
		}
	}
	return nil
}

func (d *Draft) makingNamed(key string) *Making {
	for _, mk := range d.Makings {
		if s := mk.M.Serving; s != nil && larder.Fold(s.Name) == key || mk.M.Recipe.Key == key {
			return mk
		}
	}
	return nil
}

// hotInAll keeps what is served hot from waiting a little after every step: from the
// fire to the table it waits, past the work on it, no longer than the longest of the
// times it may wait at one of them. Where nobody wrote within what it is served, a joint
// may wait for its gravy.
func (d *Draft) hotInAll(mk *Making, last int, table Moment) {
	if how := mk.M.Recipe.ServeHow; how == nil || how.State != "hot" || how.Within == nil || mk.Steps[last].Hot {
		return
	}
	work := 0
	for _, m := range mk.strandBefore(len(mk.Steps)) {
		work += m.Length
	}
	j := mk.Steps[last]
	d.sinceFire(mk, fireWay{at: last, work: work, allowed: max(d.Kit.waitHot, d.TableLimit(mk, j)-j.Extra)}, table)
}

// fireWay is a way back from the table towards the fire, as far as the step at a place:
// how much work comes after that step, how long may be waited in all, and under which
// conditions the way is gone.
type fireWay struct {
	at, work, allowed int
	when              plan.When
}

// mostFireWays bounds the ways there are back to one step, by what is paused and what is
// not; a method with more of them goes without the limit.
const mostFireWays = 64

// sinceFire follows a method back from its last step to the last that used heat. Ways
// that meet at a step under the same conditions go on as one.
func (d *Draft) sinceFire(mk *Making, from fireWay, table Moment) {
	ways := make([][]fireWay, from.at+1)
	ways[from.at] = []fireWay{from}
	var links []func()
	for i := from.at; i >= 0; i-- {
		for _, w := range ways[i] {
			for _, n := range d.fireBefore(mk, w) {
				if b := mk.Steps[n.at]; b.Hot {
					links = append(links, func() { d.Link(b.End(), table, 0, n.work+n.allowed, InAll, n.when...) })
					continue
				}
				same := slices.IndexFunc(ways[n.at], func(o fireWay) bool { return slices.Equal(o.when, n.when) })
				if same < 0 {
					ways[n.at] = append(ways[n.at], n)
				} else {
					o := &ways[n.at][same]
					o.work, o.allowed = max(o.work, n.work), max(o.allowed, n.allowed)
				}
				if len(ways[n.at]) > mostFireWays {
					return
				}
			}
		}
	}
	for _, link := range links {
		link()
	}
}

// fireBefore are the ways on from a step to those before it.
func (d *Draft) fireBefore(mk *Making, w fireWay) (out []fireWay) {
	j := mk.Steps[w.at]
	s := j.Step.Step
	if j.Open || s.DoneBefore != nil || s.StartBefore != nil || len(s.After) > 0 || s.AnyTime {
		return nil
	}
	w.work += j.Length + j.Extra
	for _, m := range mk.strandBefore(w.at) {
		w.work += m.Length
	}
	for _, b := range mk.plainBefore(w.at) {
		if len(b.when) == 0 && mk.mayPause(b.job.Step.Step.Pause, s.Pause) {
			continue // a pause may lie between
		}
		n := fireWay{mk.indexOf(b.job), w.work, w.allowed, bothWhen(w.when, b.when)}
		if s.Within != nil {
			n.allowed = max(n.allowed, d.within(b.job, timeline.Minutes(*s.Within)))
		} else if most := d.written(b.job); most >= 0 {
			n.allowed = max(n.allowed, most)
		}
		if !b.job.Open && !d.contradicts(n.when, b.job.When) {
			out = append(out, n)
		}
	}
	return out
}

// bothWhen is what two conditions say together: each choice once, in order.
func bothWhen(a, b plan.When) plan.When {
	all := slices.Concat(a, b)
	slices.SortFunc(all, func(x, y plan.Choice) int {
		return cmp.Or(cmp.Compare(x.Branch, y.Branch), cmp.Compare(x.Option, y.Option))
	})
	return slices.Compact(all)
}

// serviceHands has somebody free when a course goes out, where anyone is there then.
func (d *Draft) serviceHands() {
	set := d.Hands(nil)
	if d.Set.Handless || d.Set.Keep != nil && d.Set.Keep.Loose || len(set) == 0 {
		return
	}
	for _, c := range d.Courses {
		at := c.At
		if d.Clock && !slices.ContainsFunc(d.Kit.Cooks, func(k cook) bool {
			return k.res >= 0 && slices.ContainsFunc(d.Windows(k.Key), func(w Window) bool { return w.From <= at && at+d.Grid <= w.To })
		}) {
			continue
		}
		d.P.Activities[c.Block.Act].Modes[0] = plan.Mode{Duration: 1, Uses: []plan.Use{{Of: set, Amount: 1}}}
		c.Block.Roles = []RoleKind{CookRole}
	}
}
