package timeline

import (
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// Weights of a minute of waiting: what waits to be served counts most.
const (
	waitHotMid   = 2
	waitHotTable = 4
	waitHeld     = 1 // held hot on purpose
	waitOver     = 8 // past what is allowed, where a late meal leaves no other way
)

// keepsDefault is how long what is made may wait when nobody says how long it
// keeps, in minutes: common practice, no source.
const keepsDefault = 2 * 60

// before is something a step waits for, and the condition under which it does.
type before struct {
	job  *job
	when plan.When
}

// plainBefore finds the nearest present plain steps before place i of the
// making's steps: several when some are only there in one way of cooking.
func (mk *making) plainBefore(i int) (out []before) {
	var absent plan.When
	for k := i - 1; k >= 0; k-- {
		j := mk.steps[k]
		if j.Step.Step.Meanwhile {
			continue
		}
		out = append(out, before{j, absent})
		if len(j.when) == 0 {
			return out
		}
		absent = append(absent[:len(absent):len(absent)], not(j.when)...)
	}
	return out
}

// strandBefore finds the steps of the strand that ends just before place i,
// nearest first.
func (mk *making) strandBefore(i int) (out []*job) {
	for k := i - 1; k >= 0; k-- {
		j := mk.steps[k]
		if j.Step.Step.Meanwhile {
			out = append(out, j)
		} else if len(j.when) == 0 {
			return out
		}
	}
	return out
}

// order links the steps of a making to one another.
func (d *draft) order(mk *making) {
	byStep := map[*resolve.Step]*job{}
	for _, j := range mk.steps {
		byStep[j.Step.Step] = j
	}
	for i, j := range mk.steps {
		s := j.Step.Step
		switch {
		case s.Meanwhile:
			d.meanwhile(mk, i)
		case len(s.After) > 0:
		case s.AfterStart:
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
				d.link(m.end(), j.begin(), 0, most, strandOf)
				d.waiting(m, j, hotWeight(m, waitHotMid))
			}
		}
		for _, maker := range s.After {
			if b := byStep[maker]; b != nil && b != j {
				d.follows(mk, before{b, nil}, j, afterMade)
			}
		}
		for _, t := range j.Step.Takes {
			if t.Product == nil || t.Refers || t.Product.Recipe != mk.m.Recipe {
				continue
			}
			if b := byStep[t.Product.Step]; b != nil && b != j {
				d.takesProduct(mk, b, j, t.Product)
			}
		}
	}
}

// meanwhile links the step at place i to the step it runs beside and to those
// of its strand before it.
func (d *draft) meanwhile(mk *making, i int) {
	j := mk.steps[i]
	var absent plan.When
	for k := i - 1; k >= 0; k-- {
		b := mk.steps[k]
		from := b.begin()
		if b.Step.Step.Meanwhile {
			from = b.end()
			b.followed(j, absent)
		}
		most := -1
		if b.Step.Step.Meanwhile {
			if most = d.written(b); j.Step.Step.Within != nil {
				most = d.within(b, minutes(*j.Step.Step.Within))
			}
		}
		d.link(from, j.begin(), 0, most, strandOf, absent...)
		if len(b.when) == 0 {
			return
		}
		absent = append(absent[:len(absent):len(absent)], not(b.when)...)
	}
}

// follows links a step to one it waits for, with the limit on the waiting.
func (d *draft) follows(mk *making, b before, j *job, w why) {
	b.job.followed(j, b.when)
	normal := d.limit(b.job)
	if t := j.Step.Step.Within; t != nil {
		normal = d.within(b.job, minutes(*t))
	}
	normal = mk.forgive(normal, b.job, j)
	d.across(mk, b, j.begin(), j.Step.Step.Pause, normal, w)
	if !mk.mayPause(b.job.Step.Step.Pause, j.Step.Step.Pause) {
		d.waiting(b.job, j, hotWeight(b.job, waitHotMid))
	}
}

// across links to a moment after any pauses between: either it comes within
// the normal limit, or a pause is taken and it comes within the pause's.
func (d *draft) across(mk *making, b before, to moment, pausesBefore, normal int, w why) {
	from := b.job.end()
	var taken, open []pause
	for n := b.job.Step.Step.Pause; n < pausesBefore && n < len(mk.pauses); n++ {
		switch p := mk.pauses[n]; p.state {
		case paused:
			taken = append(taken, p)
		case free:
			open = append(open, p)
		}
	}
	if len(taken) > 0 {
		d.link(from, to, max(normal, 0), longestPause(taken, normal)+b.job.extra, w, b.when...)
		return
	}
	if len(open) == 0 {
		d.link(from, to, 0, normal, w, b.when...)
		return
	}
	// Straight through all of them, or up to as long as one that is taken.
	all := append(plan.When{}, b.when...)
	for _, p := range open {
		all = append(all, plan.Choice{Branch: p.branch, Option: int(straight)})
		d.link(from, to, max(normal, 0), longestPause(open, normal)+b.job.extra, w, append(append(plan.When{}, b.when...), plan.Choice{Branch: p.branch, Option: int(paused)})...)
	}
	d.link(from, to, 0, normal, w, all...)
}

func longestPause(ps []pause, normal int) int {
	most := max(normal, 0)
	for _, p := range ps {
		most = max(most, minutes(p.model.UpTo))
	}
	return most
}

// mayPause tells whether a pause between two stages is or may be taken.
func (mk *making) mayPause(from, to int) bool {
	for n := from; n < to && n < len(mk.pauses); n++ {
		if mk.pauses[n].state != straight {
			return true
		}
	}
	return false
}

// limit is how long what a step leaves may wait once it need not be left any
// longer, in minutes; -1: no end. What the writer says of it binds as written and
// takes the place of what is usual: `hold`, or the end of `rest 15 min, up to 30`.
func (d *draft) limit(j *job) int {
	if n := d.written(j); n >= 0 || j.open {
		return n
	}
	most := d.kit.waitCold
	if j.hot || j.resting {
		most = d.kit.waitHot
	}
	for _, p := range j.Step.Step.Makes {
		if p.Keeps != nil {
			most = max(most, minutes(max(p.Keeps.Time.High, p.Keeps.Time.UpTo)))
		}
	}
	return most + j.extra
}

// written is the limit that a step itself sets on what it leaves; -1: none.
func (d *draft) written(j *job) int {
	if n, ok := j.held(); ok {
		return longer(n, j.extra, j.open)
	}
	if j.upTo && !j.open && !j.keeps() {
		return j.extra
	}
	return -1
}

// held is how long a step lets what it made be held, in minutes.
func (j *job) held() (n int, ok bool) {
	h := j.Step.Step.Hold
	if h == nil || h.UpTo == nil {
		return 0, false
	}
	return minutes(max(h.UpTo.High, h.UpTo.UpTo)), true
}

// keeps tells whether something that a step makes keeps.
func (j *job) keeps() bool {
	return slices.ContainsFunc(j.Step.Step.Makes, func(p *resolve.Product) bool { return p.Keeps != nil })
}

// within is how long what a step leaves may wait where what it waits for says
// `within`; -1: no end. A step that holds less says the last word.
func (d *draft) within(j *job, most int) int {
	if n, ok := j.held(); ok {
		most = min(most, n)
	}
	return longer(most, j.extra, j.open)
}

// forgive lengthens a limit where a step's own strand is longer than it: the
// waiting counts from the last thing that is waited for.
func (mk *making) forgive(limit int, host, next *job) int {
	if limit < 0 {
		return limit
	}
	strand, at := 0, -1
	for i, j := range mk.steps {
		switch {
		case j == host:
			at = i
		case j == next && at >= 0:
			return limit + max(0, strand-host.length)
		case at >= 0 && j.Step.Step.Meanwhile:
			strand += j.length
		}
	}
	if next.Step == nil && at >= 0 { // the table
		return limit + max(0, strand-host.length)
	}
	return limit
}

// hotWeight is what a minute of waiting counts after a step.
func hotWeight(j *job, weight int) int {
	switch {
	case !j.hot && !j.warm && !j.resting:
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
func (mk *making) keepWarm() {
	for i, j := range mk.steps {
		j.resting = mk.restsHot(i)
		left := 0
		for _, p := range j.parts {
			if p.kind == resolve.Leave {
				left += p.length()
			}
		}
		switch s := j.Step.Step; {
		case j.hot, left > staysWarm, s.AfterStart, s.Place != "" && s.Place != "warm place" && s.Place != "room":
			continue
		}
		for _, b := range mk.plainBefore(i) {
			j.warm = j.warm || (b.job.hot || b.job.warm || b.job.resting) && b.job.Step.Step.Pause == j.Step.Step.Pause
		}
	}
}

// restsHot tells whether the step at place i does nothing but let what is hot
// rest, for a dish that is not to be cold.
func (mk *making) restsHot(i int) bool {
	j := mk.steps[i]
	if p := j.Step.Step.Place; mk.cold() || j.hot || j.length > restsHot || p != "" && p != "room" && p != "warm place" {
		return false
	}
	for _, p := range j.parts {
		if p.kind != resolve.Leave || p.place != "" && p.place != "room" && p.place != "warm place" {
			return false
		}
	}
	return slices.ContainsFunc(mk.plainBefore(i), func(b before) bool {
		return (b.job.hot || b.job.resting) && b.job.Step.Step.Pause == j.Step.Step.Pause
	})
}

// takesProduct links a step to the maker of one of its own block's products.
func (d *draft) takesProduct(mk *making, b, j *job, p *resolve.Product) {
	for _, l := range d.links {
		if l.from.job == b && l.to.job == j.first() && l.why != strandOf {
			return // it waits for that step already
		}
	}
	b.followed(j, nil)
	most := keepsDefault
	if p.Keeps != nil {
		most = minutes(max(p.Keeps.Time.High, p.Keeps.Time.UpTo))
	}
	switch n := d.limit(b); {
	case p.Keeps == nil && d.written(b) >= 0:
		most = n
	case n < 0 || most < n:
		most = n
	}
	if s := j.Step.Step; s.Within != nil && s.AfterStart {
		most = d.within(b, minutes(*s.Within))
	}
	if j.Step.Step.Pause > b.Step.Step.Pause && mk.mayPause(b.Step.Step.Pause, j.Step.Step.Pause) {
		d.across(mk, before{b, nil}, j.begin(), j.Step.Step.Pause, most, takesFrom)
		return
	}
	d.link(b.readyAt(p), j.begin(), 0, most, takesFrom).product = p
	d.waiting(b, j, hotWeight(b, waitHotMid))
}

// readyAt is the moment a step gives a product: its end, or the moment in it
// at which the product is drawn off.
func (j *job) readyAt(p *resolve.Product) moment {
	if p.Moment != nil {
		return moment{j, min(j.momentAt(p.Moment), j.length)}
	}
	return j.end()
}
