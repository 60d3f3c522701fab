package timeline

import (
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// setClock fixes the engine's time: where it begins and ends, when cooks are
// there, when courses are due.
func (d *draft) setClock() {
	at := d.firstCourse().at
	from := at - d.longestChain()
	if d.clock {
		if len(d.meal.Menu.Hours) == 0 {
			d.needDays = d.needsDays(from)
		}
		d.open = nil
		for _, c := range d.kit.cooks {
			if !c.away {
				d.open = append(d.open, d.windows(c.key)...)
			}
		}
		d.open = joined(sortWindows(d.open))
		if len(d.open) > 0 {
			from = d.open[0].from
		}
	} else {
		from = at - d.wholeWork()
	}
	// Time 0 lies on the grid of the first serving.
	d.origin = at - ceilDiv(max(at-from, d.grid), d.grid)*d.grid
	for _, c := range d.courses { // one that is served off the grid needs a finer one
		if (c.at-at)%d.grid != 0 {
			d.coarse = true
		}
	}
	d.calendars()
	for _, c := range d.courses {
		d.p.Dues = append(d.p.Dues, plan.Due{Of: plan.StartOf(c.block.act), At: max(0, floorDiv(c.at-d.origin, d.grid)), Weight: 1, Exact: true})
	}
	d.p.Horizon = ceilDiv(d.lastAt()+lateness-d.origin, d.grid)
	d.overnight()
}

// calendars tells the engine when cooks are there.
func (d *draft) calendars() {
	if !d.clock {
		return
	}
	for _, c := range d.kit.cooks {
		if !c.away && c.res >= 0 {
			d.p.Resources[c.res].Calendar = d.spells(d.windows(c.key))
		}
	}
	open := d.spells(d.open)
	d.p.Resources[d.kit.here].Calendar = open
	// Ovens are turned on by someone. Where something bakes for longer than
	// any spell of hours, the oven may be on when nobody is there.
	longest, most := 0, 0
	for _, j := range d.jobs {
		if j.Step != nil && len(j.Step.Step.Heats) > 0 {
			longest = max(longest, j.length)
		}
	}
	for _, w := range d.open {
		most = max(most, w.to-w.from)
	}
	for _, o := range d.kit.ovens {
		if longest+o.preheat+2*d.grid <= most {
			d.p.Resources[o.res].Calendar = open
		}
	}
}

// overnight puts what is made ahead on a day before, where there are hours on
// one and the pause is long enough to reach over the night.
func (d *draft) overnight() {
	if !d.clock || d.set.sameDay {
		return
	}
	shut, opens, ok := d.night()
	if !ok {
		return
	}
	for _, mk := range d.makings {
		for n, p := range mk.pauses {
			if p.state != paused || minutes(p.model.UpTo) < opens-shut {
				continue
			}
			for _, j := range mk.steps {
				if j.Step.Step.Pause <= n && j.parts[0].kind != resolve.Leave {
					end := floorDiv(shut-d.origin, d.grid) + ceilDiv(j.length, d.grid)
					d.p.Activities[j.block.act].Deadline = max(1, end)
				}
			}
		}
	}
}

// needsDays is how many days before the serving day must count for the longest
// chain of steps, and for what is made ahead, when the menu gives no hours.
func (d *draft) needsDays(from Minute) (n int) {
	for from < dayOpens-n*day {
		n++
	}
	for _, mk := range d.makings {
		for _, p := range mk.pauses {
			if p.state == paused && minutes(p.model.UpTo) >= day-beforeShuts+dayOpens {
				n = max(n, 1)
			}
		}
	}
	return n
}

// wholeWork is more than the time everything takes when nothing overlaps.
func (d *draft) wholeWork() int {
	sum, change := 2*60, d.longestChange()
	for _, j := range d.jobs {
		sum += ceilDiv(j.length, d.grid)*d.grid + change
	}
	for _, l := range d.links {
		sum += max(0, l.gap)
	}
	for _, o := range d.kit.ovens {
		sum += o.preheat
	}
	return sum
}

// longestChain is the longest time from the beginning of any job to the first
// serving, along what waits for what.
func (d *draft) longestChain() int {
	_, most := d.chainHead()
	return most
}

// chainHead is the job with which the longest chain begins, and its length: what
// the meal takes at least, whatever is chosen where there is a choice. Links that
// are only there in one way of doing it, such as the one or the other dish having
// the mixer first, count when they are there in every way: of each choice the
// option with the shortest chain is taken, the other choices being left out. That
// is never more than the meal takes.
func (d *draft) chainHead() (head *job, most int) {
	head, most = d.chainWith(nil)
	for b, branch := range d.p.Branches {
		var least *job
		length := 0
		for o := range branch.Options {
			h, n := d.chainWith(&plan.Choice{Branch: b, Option: o})
			if least == nil || n < length {
				least, length = h, n
			}
		}
		if least != nil && length > most {
			head, most = least, length
		}
	}
	return head, most
}

// chainWith is the longest chain of the links that are always there, and of
// those that an option of one branch adds. What goes round in a ring has no
// length and counts as none: the engine finds it.
func (d *draft) chainWith(chosen *plan.Choice) (head *job, most int) {
	there := func(when plan.When) bool {
		return !slices.ContainsFunc(when, func(c plan.Choice) bool { return chosen == nil || c != *chosen })
	}
	var links []*link
	for _, l := range d.links {
		if l.from.job.block != l.to.job.block && there(l.when) && there(l.from.job.when) && there(l.to.job.when) {
			links = append(links, l)
		}
	}
	tail := map[*block]int{}
	first := d.firstCourse()
	changed := true
	for n := 0; changed; n++ { // links run forward; a few rounds settle it
		if n > len(d.jobs)+len(d.courses) {
			return nil, 0
		}
		changed = false
		for _, l := range links {
			to := tail[l.to.job.block]
			if l.to.job.Kind == "" { // a course
				to = min(0, first.at-l.to.job.at) // a later course gives more time
			}
			n := l.from.job.offset + l.from.at + l.gap + to - l.to.job.offset - l.to.at
			if n > tail[l.from.job.block] {
				tail[l.from.job.block], changed = n, true
			}
		}
	}
	for _, j := range d.jobs {
		if n := tail[j.block]; there(j.when) && (n > most || head == nil) {
			head, most = j, n
		}
	}
	return head, most
}
