package problem

import (
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// setClock fixes the engine's time: where it begins and ends, when cooks are
// there, when courses are due.
func (d *Draft) setClock() {
	at := d.FirstCourse().At
	from := at - d.LongestChain()
	if d.Clock {
		if len(d.Meal.Menu.Hours) == 0 {
			d.needDays = d.needsDays(from)
		}
		d.Open = nil
		for _, c := range d.Kit.Cooks {
			if !c.away {
				d.Open = append(d.Open, d.Windows(c.Key)...)
			}
		}
		d.Open = joined(sortWindows(d.Open))
		if len(d.Open) > 0 {
			from = d.Open[0].From
		}
	} else {
		from = at - d.wholeWork()
	}
	// Time 0 lies on the grid of the first serving.
	d.Origin = at - timeline.CeilDiv(max(at-from, d.Grid), d.Grid)*d.Grid
	for _, c := range d.Courses { // one that is served off the grid needs a finer one
		if (c.At-at)%d.Grid != 0 {
			d.Coarse = true
		}
	}
	d.calendars()
	for _, c := range d.Courses {
		d.P.Dues = append(d.P.Dues, plan.Due{Of: plan.StartOf(c.Block.Act), At: max(0, timeline.FloorDiv(c.At-d.Origin, d.Grid)), Weight: 1, Exact: true})
	}
	d.P.Horizon = timeline.CeilDiv(d.lastAt()+lateness-d.Origin, d.Grid)
	d.overnight()
}

// calendars tells the engine when cooks are there.
func (d *Draft) calendars() {
	if !d.Clock {
		return
	}
	for _, c := range d.Kit.Cooks {
		if !c.away && c.res >= 0 {
			d.P.Resources[c.res].Calendar = d.spells(d.workable(d.Windows(c.Key)))
		}
	}
	open := d.spells(d.Open)
	d.P.Resources[d.Kit.Here].Calendar = open
	// Ovens are turned on by someone. Where something bakes for longer than
	// any spell of hours, the oven may be on when nobody is there.
	longest, most := 0, 0
	for _, j := range d.Jobs {
		if j.Step != nil && len(j.Step.Step.Heats) > 0 {
			longest = max(longest, j.Length)
		}
	}
	for _, w := range d.Open {
		most = max(most, w.To-w.From)
	}
	for _, o := range d.Kit.Ovens {
		if longest+o.Preheat+2*d.Grid <= most {
			d.P.Resources[o.Res].Calendar = open
		}
	}
}

// overnight puts what is made ahead on a day before, where there are hours on
// one and the pause is long enough to reach over the night.
func (d *Draft) overnight() {
	if !d.Clock || d.Set.SameDay {
		return
	}
	shut, opens, ok := d.Night()
	if !ok {
		return
	}
	dayBefore := func(j *Job) {
		if j.Parts[0].Kind != resolve.Leave {
			end := timeline.FloorDiv(shut-d.Origin, d.Grid) + timeline.CeilDiv(j.Length, d.Grid)
			d.P.Activities[j.Block.Act].Deadline = max(1, end)
		}
	}
	for _, mk := range d.Makings {
		for n, p := range mk.Pauses {
			if p.State != Paused || timeline.Minutes(p.Model.UpTo) < opens-shut {
				continue
			}
			for _, j := range mk.Steps {
				if j.Step.Step.Pause <= n {
					dayBefore(j)
				}
			}
		}
		if len(mk.Pauses) > 0 || !slices.Contains(d.Set.Habits.Ahead, mk.M) {
			continue
		}
		for i, last := 0, d.standsOver(mk, opens-shut); i <= last; i++ {
			dayBefore(mk.Steps[i])
		}
	}
}

// standsOver is the place of the last step of a dish after which it may stand for so many
// minutes, by what is written where it keeps, or how long it may be left; -1: none. Nobody
// needs a pause for that.
func (d *Draft) standsOver(mk *Making, minutes int) int {
	for i, j := range slices.Backward(mk.Steps) {
		if j.Step.Step.Meanwhile || j.Step.Step.AnyTime || len(j.When) > 0 {
			continue
		}
		stands := false
		for _, l := range d.out[j] {
			if l.Why != nextStep && l.Why != toTable && l.Why != TakesFrom && l.Why != InAll || l.To.Job.Mk != mk && l.To.Job != mk.Course {
				continue
			}
			most := l.Max
			if most < 0 { // the step below waits for something else too
				most = d.Limit(j)
			}
			if stands = most >= minutes; !stands {
				break
			}
		}
		if stands {
			return i
		}
	}
	return -1
}

// needsDays is how many days before the serving day must count for the longest
// chain of steps, and for what is made ahead, when the menu gives no hours.
func (d *Draft) needsDays(from timeline.Minute) (n int) {
	for from < DayOpens-n*timeline.Day {
		n++
	}
	for _, mk := range d.Makings {
		for _, p := range mk.Pauses {
			if p.State == Paused && timeline.Minutes(p.Model.UpTo) >= timeline.Day-BeforeShuts+DayOpens {
				n = max(n, 1)
			}
		}
	}
	return n
}

// wholeWork is more than the time everything takes when nothing overlaps.
func (d *Draft) wholeWork() int {
	sum, change := 2*60, d.longestChange()
	for _, j := range d.Jobs {
		sum += timeline.CeilDiv(j.Length, d.Grid)*d.Grid + change
	}
	for _, l := range d.Links {
		sum += max(0, l.Gap)
	}
	for _, o := range d.Kit.Ovens {
		sum += o.Preheat
	}
	return sum
}

// LongestChain is the longest time from the beginning of any job to the first
// serving, along what waits for what.
func (d *Draft) LongestChain() int {
	_, most := d.ChainHead()
	return most
}

// ChainHead is the job with which the longest chain begins, and its length: what
// the meal takes at least, whatever is chosen where there is a choice. Links that
// are only there in one way of doing it, such as the one or the other dish having
// the mixer first, count when they are there in every way: of each choice the
// option with the shortest chain is taken, the other choices being left out. That
// is never more than the meal takes.
func (d *Draft) ChainHead() (head *Job, most int) {
	head, most = d.chainWith(nil)
	for b, branch := range d.P.Branches {
		var least *Job
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
func (d *Draft) chainWith(chosen *plan.Choice) (head *Job, most int) {
	tail := d.tails(chosen, 0)
	if tail == nil {
		return nil, 0
	}
	for _, j := range d.Jobs {
		if n := tail[j.Block]; chosenThere(j.When, chosen) && (n > most || head == nil) {
			head, most = j, n
		}
	}
	return head, most
}

// chosenThere tells whether a condition holds whatever is chosen, but for one option.
func chosenThere(when plan.When, chosen *plan.Choice) bool {
	return !slices.ContainsFunc(when, func(c plan.Choice) bool { return chosen == nil || c != *chosen })
}

// tails is how long before the first serving each block begins at the latest, by the
// links that are always there and those of an option, and least if nothing waits for it; nil
// for a ring.
func (d *Draft) tails(chosen *plan.Choice, least int) map[*Block]int {
	var links []*Link
	for _, l := range d.Links {
		if l.From.Job.Block != l.To.Job.Block && chosenThere(l.When, chosen) && chosenThere(l.From.Job.When, chosen) && chosenThere(l.To.Job.When, chosen) {
			links = append(links, l)
		}
	}
	tail := map[*Block]int{}
	for _, j := range d.Jobs {
		tail[j.Block] = least
	}
	first := d.FirstCourse()
	changed := true
	for n := 0; changed; n++ { // links run forward; a few rounds settle it
		if n > len(d.Jobs)+len(d.Courses) {
			return nil
		}
		changed = false
		for _, l := range links {
			to := tail[l.To.Job.Block]
			if l.To.Job.Kind == "" { // a course
				to = first.At - l.To.Job.At // a later course gives more time
			}
			n := l.From.Job.Offset + l.From.At + l.Gap + to - l.To.Job.Offset - l.To.At
			if n > tail[l.From.Job.Block] {
				tail[l.From.Job.Block], changed = n, true
			}
		}
	}
	return tail
}
