package problem

import (
	"slices"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// Weights of a minute of waiting: what waits to be served counts most.
const (
	waitHotMid   = 2
	waitHotTable = 4
	waitHeld     = 1 // held hot on purpose
	waitOver     = 8 // past what is allowed, where a late meal leaves no other way
)

// KeepsDefault is how long what is made may wait when nobody says how long it
// keeps, in minutes: common practice, no source.
const KeepsDefault = 2 * 60

// before is something a step waits for, and the condition under which it does.
type before struct {
	job  *Job
	when plan.When
}

// plainBefore finds the nearest present plain steps before place i of the
// making's steps: several when some are only there in one way of cooking.
func (mk *Making) plainBefore(i int) (out []before) {
	var absent plan.When
	for k := i - 1; k >= 0; k-- {
		j := mk.Steps[k]
		if j.Step.Step.Meanwhile {
			continue
		}
		out = append(out, before{j, absent})
		if len(j.When) == 0 {
			return out
		}
		absent = append(absent[:len(absent):len(absent)], not(j.When)...)
	}
	return out
}

// strandBefore finds the steps of the strand that ends just before place i,
// nearest first.
func (mk *Making) strandBefore(i int) (out []*Job) {
	for k := i - 1; k >= 0; k-- {
		j := mk.Steps[k]
		if j.Step.Step.Meanwhile {
			out = append(out, j)
		} else if len(j.When) == 0 {
			return out
		}
	}
	return out
}

// order links the steps of a making to one another.
func (d *Draft) order(mk *Making) {
	byStep := map[*resolve.Step]*Job{}
	for _, j := range mk.Steps {
		byStep[j.Step.Step] = j
	}
	for i, j := range mk.Steps {
		s := j.Step.Step
		switch {
		case s.Meanwhile:
			d.meanwhile(mk, i)
		case len(s.After) > 0:
		case s.AnyTime:
		default:
			hosts := mk.plainBefore(i)
			for _, b := range hosts {
				d.follows(mk, b, j, nextStep)
			}
			if len(hosts) == 1 {
				d.sayLongStrand(mk, hosts[0].job, mk.strandBefore(i))
			}
			for k, m := range mk.strandBefore(i) {
				m.followed(j, nil)
				most := -1 // all but the last of a strand wait for its next step
				if k == 0 {
					most = d.written(m)
				}
				d.Link(m.End(), j.Begin(), 0, most, strandOf)
				d.waiting(m, j, HotWeight(m, waitHotMid))
			}
		}
		for _, maker := range s.After {
			if b := byStep[maker]; b != nil && b != j {
				d.follows(mk, before{b, nil}, j, afterMade)
			}
		}
		for _, t := range j.Step.Takes {
			if t.Product == nil || t.Refers || t.Product.Recipe != mk.M.Recipe {
				continue
			}
			if b := byStep[t.Product.Step]; b != nil && b != j {
				d.takesProduct(mk, b, j, t.Product)
			}
		}
	}
	d.hanging(mk)
}

// hanging has a plain step that nothing else waits for done before the plain step
// below it, though that one says `after` something else: the method is in the order
// it is done in. What may come later says `any time`.
func (d *Draft) hanging(mk *Making) {
	for i, j := range mk.Steps {
		if s := j.Step.Step; j.follow || len(j.followIf) > 0 || s.Meanwhile || s.AnyTime || d.drawnElsewhere(mk, s) {
			continue
		}
		for _, next := range mk.Steps[i+1:] {
			n := next.Step.Step
			if n.Meanwhile || n.AnyTime {
				continue
			}
			if len(n.After) > 0 && n.Pause == j.Step.Step.Pause && len(next.When) == 0 && !d.reaches(next, j) {
				j.followed(next, nil)
				d.Link(j.End(), next.Begin(), 0, -1, nextStep)
				d.waiting(j, next, HotWeight(j, waitHotMid))
			}
			break
		}
	}
}

// drawnElsewhere tells whether another making takes what a step makes.
func (d *Draft) drawnElsewhere(mk *Making, s *resolve.Step) bool {
	return slices.ContainsFunc(d.Makings, func(o *Making) bool {
		return o != mk && slices.ContainsFunc(o.M.Lines, func(a *demand.Amount) bool { return a.Line.Product != nil && a.Line.Product.Step == s })
	})
}

// reaches tells whether one job waits, by way of others, for another.
func (d *Draft) reaches(from, to *Job) bool {
	seen := map[*Job]bool{}
	var walk func(*Job) bool
	walk = func(j *Job) bool {
		if j == to.First() || j == to {
			return true
		}
		if seen[j] {
			return false
		}
		seen[j] = true
		return slices.ContainsFunc(d.out[j], func(l *Link) bool { return walk(l.To.Job) })
	}
	return walk(from)
}

// meanwhile links the step at place i to the step it runs beside and to those
// of its strand before it.
func (d *Draft) meanwhile(mk *Making, i int) {
	j := mk.Steps[i]
	var absent plan.When
	for k := i - 1; k >= 0; k-- {
		b := mk.Steps[k]
		from := b.Begin()
		if b.Step.Step.Meanwhile {
			from = b.End()
			b.followed(j, absent)
		}
		most := -1
		if b.Step.Step.Meanwhile {
			if most = d.written(b); j.Step.Step.Within != nil {
				most = d.within(b, timeline.Minutes(*j.Step.Step.Within))
			}
		}
		d.Link(from, j.Begin(), 0, most, strandOf, absent...)
		if len(b.When) == 0 {
			return
		}
		absent = append(absent[:len(absent):len(absent)], not(b.When)...)
	}
}

// follows links a step to one it waits for, with the limit on the waiting.
func (d *Draft) follows(mk *Making, b before, j *Job, w why) {
	b.job.followed(j, b.when)
	normal := d.Limit(b.job)
	if t := j.Step.Step.Within; t != nil {
		normal = d.within(b.job, timeline.Minutes(*t))
	}
	normal = mk.forgive(normal, b.job, j)
	if d.oneStay(mk, b, j) {
		normal = 0
	}
	d.across(mk, b, j.Begin(), j.Step.Step.Pause, normal, w)
	if !mk.mayPause(b.job.Step.Step.Pause, j.Step.Step.Pause) {
		d.waiting(b.job, j, HotWeight(b.job, waitHotMid))
	}
}

// across links to a moment after any pauses between: either it comes within
// the normal limit, or a pause is taken and it comes within the pause's.
func (d *Draft) across(mk *Making, b before, to Moment, pausesBefore, normal int, w why) {
	from := b.job.End()
	var taken, open []Pause
	for n := b.job.Step.Step.Pause; n < pausesBefore && n < len(mk.Pauses); n++ {
		switch p := mk.Pauses[n]; p.State {
		case Paused:
			taken = append(taken, p)
		case Free:
			open = append(open, p)
		}
	}
	if len(taken) > 0 {
		d.Link(from, to, max(normal, 0), longestPause(taken, normal)+b.job.Extra, w, b.when...)
		return
	}
	if len(open) == 0 {
		d.Link(from, to, 0, normal, w, b.when...)
		return
	}
	// Straight through all of them, or up to as long as one that is taken.
	all := append(plan.When{}, b.when...)
	for _, p := range open {
		all = append(all, plan.Choice{Branch: p.Branch, Option: int(Straight)})
		d.Link(from, to, max(normal, 0), longestPause(open, normal)+b.job.Extra, w, append(append(plan.When{}, b.when...), plan.Choice{Branch: p.Branch, Option: int(Paused)})...)
	}
	d.Link(from, to, 0, normal, w, all...)
}

func longestPause(ps []Pause, normal int) int {
	most := max(normal, 0)
	for _, p := range ps {
		most = max(most, timeline.Minutes(p.Model.UpTo))
	}
	return most
}

// mayPause tells whether a pause between two stages is or may be taken.
func (mk *Making) mayPause(from, to int) bool {
	for n := from; n < to && n < len(mk.Pauses); n++ {
		if mk.Pauses[n].State != Straight {
			return true
		}
	}
	return false
}

// Limit is how long what a step leaves may wait once it need not be left any
// longer, in minutes; -1: no end. What the writer says of it binds as written and
// takes the place of what is usual: `hold`, or the end of `rest 15 min, up to 30`.
func (d *Draft) Limit(j *Job) int {
	if n := d.written(j); n >= 0 || j.Open {
		return n
	}
	most := d.Kit.waitCold
	if j.Hot || j.resting {
		most = d.Kit.waitHot
	}
	return max(most, j.keeps()) + j.Extra
}

// written is the limit that a step itself sets on what it leaves; -1: none.
func (d *Draft) written(j *Job) int {
	if n, ok := j.Held(); ok {
		return longer(n, j.Extra, j.Open)
	}
	if j.upTo && !j.Open && j.keeps() == 0 {
		return j.Extra
	}
	return -1
}

// Held is how long a step lets what it made be held, in minutes.
func (j *Job) Held() (n int, ok bool) {
	h := j.Step.Step.Hold
	if h == nil || h.UpTo == nil {
		return 0, false
	}
	return timeline.Minutes(max(h.UpTo.High, h.UpTo.UpTo)), true
}

// keeps is how long something that a step makes keeps, with a name or without, in minutes; 0
// where nobody says.
func (j *Job) keeps() (most int) {
	if k := resolve.First[*resolve.Keeping](j.Step.Step.Margin); k != nil {
		most = timeline.Minutes(max(k.Keep.Time.High, k.Keep.Time.UpTo))
	}
	for _, p := range j.Step.Step.Makes {
		if p.Keeps != nil {
			most = max(most, timeline.Minutes(max(p.Keeps.Time.High, p.Keeps.Time.UpTo)))
		}
	}
	return most
}

// Warm tells whether a step finishes, or rests, what is still hot.
func (j *Job) Warm() bool { return j.warm || j.resting }

// ByHand tells whether somebody works at a job.
func (j *Job) ByHand() bool {
	return slices.ContainsFunc(j.Parts, func(p Part) bool { return p.Kind == resolve.Work })
}

// Stands tells whether somebody has said that what a step leaves may stand for so many
// minutes: it keeps, or its dish does, or may be served so long after.
func (j *Job) Stands(n int) bool {
	long := func(most time.Duration) bool { return timeline.Minutes(most) >= n }
	r := j.Mk.M.Recipe
	if j.Mk.Last(slices.Index(j.Mk.Steps, j)) {
		how := r.ServeHow
		return r.Keeps != nil && long(max(r.Keeps.Time.High, r.Keeps.Time.UpTo)) || how != nil && how.Within != nil && long(max(how.Within.High, how.Within.UpTo))
	}
	return j.keeps() >= n
}

// within is how long what a step leaves may wait where what it waits for says
// `within`; -1: no end. A step that holds less says the last word.
func (d *Draft) within(j *Job, most int) int {
	if n, ok := j.Held(); ok {
		most = min(most, n)
	}
	return longer(most, j.Extra, j.Open)
}

// forgive lengthens a limit where a step's own strand is longer than it: the
// waiting counts from the last thing that is waited for.
func (mk *Making) forgive(limit int, host, next *Job) int {
	if limit < 0 {
		return limit
	}
	strand, at := 0, -1
	for i, j := range mk.Steps {
		switch {
		case j == host:
			at = i
		case j == next && at >= 0:
			return limit + max(0, strand-host.Length)
		case at >= 0 && j.Step.Step.Meanwhile:
			strand += j.Length
		}
	}
	if next.Step == nil && at >= 0 { // the table
		return limit + max(0, strand-host.Length)
	}
	return limit
}

// HotWeight is what a minute of waiting counts after a step.
func HotWeight(j *Job, weight int) int {
	switch {
	case !j.Hot && !j.warm && !j.resting:
		return 0
	case j.Step.Step.Hold != nil:
		return waitHeld
	}
	return weight
}

// staysWarm is how long a step may leave food that is hot without its being
// cold afterwards, in minutes: common practice, no source.
const staysWarm = 20

// restsHot is how long hot food may rest and still be hot, in minutes: common
// practice, no source.
const restsHot = 60

// keepWarm marks the steps that only finish what is hot: a pilaf is no colder
// for the nuts that are forked in. The limits on waiting are the notation's
// and do not change; but such food should wait no longer than it must. A joint
// that rests is another matter: it waits from the oven on, and is hot food still.
func (mk *Making) keepWarm() {
	for i, j := range mk.Steps {
		j.resting = mk.restsHot(i)
		left := 0
		for _, p := range j.Parts {
			if p.Kind == resolve.Leave {
				left += p.Length()
			}
		}
		switch s := j.Step.Step; {
		case j.Hot, left > staysWarm, s.AnyTime, s.Place != "" && s.Place != "warm place" && s.Place != "room":
			continue
		}
		for _, b := range mk.plainBefore(i) {
			j.warm = j.warm || (b.job.Hot || b.job.warm || b.job.resting) && b.job.Step.Step.Pause == j.Step.Step.Pause
		}
	}
}

// restsHot tells whether the step at place i does nothing but let what is hot
// rest, for a dish that is not to be cold.
func (mk *Making) restsHot(i int) bool {
	j := mk.Steps[i]
	if p := j.Step.Step.Place; mk.cold() || j.Hot || j.Length > restsHot || p != "" && p != "room" && p != "warm place" {
		return false
	}
	for _, p := range j.Parts {
		if p.Kind != resolve.Leave || p.Place != "" && p.Place != "room" && p.Place != "warm place" {
			return false
		}
	}
	return slices.ContainsFunc(mk.plainBefore(i), func(b before) bool {
		return (b.job.Hot || b.job.resting) && b.job.Step.Step.Pause == j.Step.Step.Pause
	})
}

// takesProduct links a step to the maker of one of its own block's products.
func (d *Draft) takesProduct(mk *Making, b, j *Job, p *resolve.Product) {
	for _, l := range d.out[b] {
		if l.To.Job == j.First() && l.Why != strandOf {
			return // it waits for that step already
		}
	}
	b.followed(j, nil)
	most := KeepsDefault
	if p.Keeps != nil {
		most = timeline.Minutes(max(p.Keeps.Time.High, p.Keeps.Time.UpTo))
	}
	switch n := d.Limit(b); {
	case p.Keeps == nil && d.written(b) >= 0:
		most = n
	case n < 0 || most < n:
		most = n
	}
	if s := j.Step.Step; s.Within != nil && s.AnyTime {
		most = d.within(b, timeline.Minutes(*s.Within))
	}
	if j.Step.Step.Pause > b.Step.Step.Pause && mk.mayPause(b.Step.Step.Pause, j.Step.Step.Pause) {
		d.across(mk, before{b, nil}, j.Begin(), j.Step.Step.Pause, most, TakesFrom)
		return
	}
	d.Link(b.readyAt(p), j.Begin(), 0, most, TakesFrom).Product = p
	d.waiting(b, j, HotWeight(b, waitHotMid))
}

// readyAt is the moment a step gives a product: its end, or the moment in it
// at which the product is drawn off.
func (j *Job) readyAt(p *resolve.Product) Moment {
	if p.Moment != nil {
		return Moment{j, min(j.momentAt(p.Moment), j.Length)}
	}
	return j.End()
}
