package timeline

import (
	"cmp"
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// clearing is how soon after a course a task that follows it should begin, in
// minutes: common practice, no source.
const clearing = 30

// addCourses makes a moment of every course. A meal without a menu is served
// at 0.
func (d *draft) addCourses() {
	add := func(name string, at Minute) {
		j := &job{course: name, at: at}
		j.Title = name
		if !d.set.keep.served(j) {
			j.at += d.set.later
		}
		d.activity(j, nil, nil)
		d.courses = append(d.courses, j)
	}
	if m := d.meal.Menu; m != nil {
		for _, c := range m.Courses {
			add(c.Name, c.At)
		}
	}
	if len(d.courses) == 0 {
		add("", d.serveAt())
	}
	d.coursesInOrder()
}

// coursesInOrder keeps the courses in their order when one of them is late: what
// is served `20 min after First` comes no sooner after it than that, and no course
// before one that stands before it on the clock.
func (d *draft) coursesInOrder() {
	menu := d.meal.Menu
	if menu == nil {
		return
	}
	of := map[*resolve.Course]*job{}
	for i, c := range menu.Courses {
		of[c] = d.courses[i]
		if first := of[c.After]; first != nil {
			d.link(first.begin(), d.courses[i].begin(), c.At-c.After.At, -1, courseAfter)
		}
	}
	inTime := slices.Clone(d.courses)
	slices.SortStableFunc(inTime, func(a, b *job) int { return cmp.Compare(a.at, b.at) })
	for i, c := range inTime[1:] {
		d.link(inTime[i].begin(), c.begin(), 0, -1, courseAfter)
	}
}

// serveAt is the menu's serving time, 0 without a clock.
func (d *draft) serveAt() Minute {
	if d.clock {
		return d.meal.Menu.Serve.Hour()*60 + d.meal.Menu.Serve.Minute()
	}
	return 0
}

// lastAt is when the last course is served.
func (d *draft) lastAt() (at Minute) {
	at = d.courses[0].at
	for _, c := range d.courses {
		at = max(at, c.at)
	}
	return at
}

// firstCourse is the one that is served first.
func (d *draft) firstCourse() *job {
	first := d.courses[0]
	for _, c := range d.courses {
		if c.at < first.at {
			first = c
		}
	}
	return first
}

// courseOf is the course a making is served in; for a base, the first there
// is.
func (d *draft) courseOf(mk *making) *job {
	if s := mk.m.Serving; s != nil && d.meal.Menu != nil {
		for i, c := range d.meal.Menu.Courses {
			if c == s.Course {
				return d.courses[i]
			}
		}
	}
	return d.firstCourse()
}

// toTable links a making to the course it is served in: serving waits for
// every step, and what comes last may wait only so long.
func (d *draft) toTable(mk *making) {
	table := mk.course.begin()
	if hosts := mk.plainBefore(len(mk.steps)); len(hosts) == 1 {
		d.sayLongStrand(mk, hosts[0].job, mk.strandBefore(len(mk.steps)))
	}
	for i, j := range mk.steps {
		d.beforeServing(j, table)
		if mk.m.Serving == nil && mk.used {
			continue
		}
		if !mk.last(i) {
			continue
		}
		when, ok := d.lastWhen(mk, j)
		if len(when) > 0 || !ok {
			d.link(j.end(), table, 0, -1, toTable)
		}
		if !ok {
			continue
		}
		d.across(mk, before{j, when}, table, len(mk.pauses), mk.forgive(d.tableLimit(mk, j), j, mk.course), toTable)
		if !mk.mayPause(j.Step.Step.Pause, len(mk.pauses)) {
			d.waiting(j, mk.course, d.tableWeight(mk, j))
		}
	}
	if mk.m.Serving != nil || !mk.used {
		for _, a := range mk.m.Lines {
			if j := mk.prep[a.Line]; j != nil && !j.follow {
				d.link(j.end(), table, 0, -1, toTable)
			}
		}
	}
}

// lastWhen is the condition under which a step is a last one.
func (d *draft) lastWhen(mk *making, j *job) (plan.When, bool) {
	for _, b := range mk.plainBefore(len(mk.steps)) {
		if b.job == j {
			return b.when, true
		}
	}
	return j.unfollowed()
}

// tableLimit is how long a dish may stand between its last step and the table.
func (d *draft) tableLimit(mk *making, j *job) int {
	n := d.limit(j)
	if n < 0 {
		return n
	}
	r, how := mk.m.Recipe, mk.m.Recipe.ServeHow
	hot := how != nil && how.State == "hot"
	_, held := j.held()
	switch {
	case how != nil && how.Within != nil:
		n = d.within(j, minutes(max(how.Within.High, how.Within.UpTo)))
	case hot && d.written(j) < 0:
		n = d.kit.waitHot + j.extra
	case !hot && !held && r.Keeps != nil:
		n = max(n, minutes(max(r.Keeps.Time.High, r.Keeps.Time.UpTo)))
	}
	if t := j.Step.Step.DoneBefore; t != nil {
		n += minutes(*t)
	}
	return n
}

// tableWeight is what a minute between the last step and the table counts.
func (d *draft) tableWeight(mk *making, j *job) int {
	how := mk.m.Recipe.ServeHow
	switch {
	case mk.cold():
		return 0
	case j.Step.Step.Hold != nil:
		return waitHeld
	case how != nil && how.State == "hot" || j.hot || j.warm || j.resting:
		return waitHotTable
	}
	return 0
}

// beforeServing keeps the times a step names before serving.
func (d *draft) beforeServing(j *job, table moment) {
	s := j.Step.Step
	if t := s.StartBefore; t != nil {
		gap := ceilDiv(minutes(*t), d.grid) * d.grid
		d.link(j.begin(), table, gap, gap, beforeServing)
	}
	if t := s.DoneBefore; t != nil {
		d.link(j.end(), table, minutes(*t), -1, beforeServing)
	}
}

// addTasks makes jobs of the menu's tasks.
func (d *draft) addTasks() {
	menu := d.meal.Menu
	if menu == nil {
		return
	}
	byName := map[string]*job{}
	for _, t := range menu.Tasks {
		j := &job{place: t.Span}
		j.Piece = Piece{Kind: TaskJob, Title: t.Name}
		n := length{most: assumedMinutes, least: assumedMinutes}
		if t.Work != nil {
			n = length{most: minutes(t.Work.High), least: minutes(t.Work.Low), about: t.Work.About}
		}
		j.Assumed = t.Work == nil
		j.addPhase(resolve.Work, "", n)
		if j.length == 0 {
			j.addPhase(resolve.Work, "", length{most: 1, least: 1})
		}
		j.lengthen(d.more(j))
		d.taskUses(j, t)
		d.jobs = append(d.jobs, j)
		byName[larder.Fold(t.Name)] = j
		d.placeTask(j, t, byName)
	}
}

func (d *draft) taskUses(j *job, t *resolve.Task) {
	var by []string
	for _, n := range t.By {
		by = append(by, larder.Fold(n.Text))
	}
	set := d.hands(by)
	if len(set) == 0 && len(by) > 0 {
		d.nobody(j, by)
		set = d.hands(nil)
	}
	if len(set) == 0 {
		d.activity(j, nil, nil)
		return
	}
	d.activity(j, []plan.Use{{Of: set, Amount: 1}}, []roleKind{cookRole})
}

// placeTask links a task to the courses, dishes and tasks it stands before and
// after.
func (d *draft) placeTask(j *job, t *resolve.Task, tasks map[string]*job) {
	gap := 0
	if t.Done != nil {
		gap = minutes(t.Done.High)
	}
	if !t.After.IsZero() {
		key := larder.Fold(t.After.Text)
		most := -1
		if t.Before.IsZero() {
			most = clearing
		}
		switch c, mk, other := d.courseNamed(key), d.makingNamed(key), tasks[key]; {
		case c != nil:
			d.link(c.begin(), j.begin(), 0, most, forTask)
			if most >= 0 {
				d.waiting(c, j, 1)
			}
		case mk != nil:
			for i, s := range mk.steps {
				if mk.last(i) {
					d.link(s.end(), j.begin(), 0, -1, forTask)
				}
			}
			d.link(j.end(), mk.course.begin(), gap, -1, forTask)
		case other != nil && other != j:
			d.link(other.end(), j.begin(), 0, -1, forTask)
		}
	}
	if t.Before.IsZero() {
		if t.After.IsZero() {
			d.link(j.end(), d.firstCourse().begin(), gap, -1, forTask)
		}
		return
	}
	key := larder.Fold(t.Before.Text)
	c := d.courseNamed(key)
	if c == nil {
		if mk := d.makingNamed(key); mk != nil {
			c = mk.course
		}
	}
	if c == nil {
		c = d.firstCourse()
	}
	d.link(j.end(), c.begin(), gap, -1, forTask)
}

func (d *draft) courseNamed(key string) *job {
	for _, c := range d.courses {
		if larder.Fold(c.course) == key {
			return c
		}
	}
	return nil
}

func (d *draft) makingNamed(key string) *making {
	for _, mk := range d.makings {
		if s := mk.m.Serving; s != nil && larder.Fold(s.Name) == key || mk.m.Recipe.Key == key {
			return mk
		}
	}
	return nil
}
