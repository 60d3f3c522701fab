package timeline

import (
	"fmt"
	"slices"
)

// slack works out how much later each job could start without making any
// serving later, if what comes after it moved along in the order it has; and
// notes what keeps it from being later still. What it waits for stays where it
// is.
func (r *result) slack() {
	arcs := r.arcs()
	late, why := map[*job]int{}, map[*job][]string{}
	for _, j := range r.draft.jobs {
		late[j] = r.room(j, nil)
	}
	room := func(a arc) int { return max(0, r.spare(a)+late[a.to]) } // late of a course is 0
	for range len(r.draft.jobs) + 1 {
		changed := false
		for _, a := range arcs {
			if n := room(a); n < late[a.from] {
				late[a.from], changed = n, true
			}
		}
		if !changed {
			break
		}
	}
	say := func(j *job, text string) {
		if text != "" && !slices.Contains(why[j], text) {
			why[j] = append(why[j], text)
		}
	}
	type pair struct{ from, to *job }
	said := map[pair]bool{}
	for _, a := range arcs { // what binds; a hand-over to what waits for it anyway says no more
		if room(a) <= late[a.from] && !said[pair{a.from, a.to}] {
			said[pair{a.from, a.to}] = true
			say(a.from, a.text)
		}
	}
	for _, j := range r.draft.jobs {
		if !r.on(j) {
			continue
		}
		r.room(j, func(n int, text string) {
			if n <= late[j] && late[j] < day {
				say(j, text)
			}
		})
		r.job(j).Slack = late[j]
	}
	for _, j := range r.draft.jobs {
		if r.on(j) {
			r.job(j).Holds = why[j]
		}
	}
}

// arc says that one job cannot be pushed later than another allows: the moment
// toAt of the one begins at least gap after the moment fromAt of the other, in
// minutes from their starts.
type arc struct {
	from, to     *job
	fromAt, toAt int
	gap          int
	text         string // why, for the cook; may be empty
}

// least is how long after the start of from the start of to must be.
func (a arc) least() int { return a.fromAt + a.gap - a.toAt }

// spare is how much later from could start if to stayed where it is.
func (r *result) spare(a arc) int { return r.start(a.to) - r.start(a.from) - a.least() }

// arcs lists what keeps jobs from being later: what waits for them, what is
// done in one go with them, and whoever and whatever is wanted elsewhere next.
func (r *result) arcs() (out []arc) {
	for _, l := range r.draft.links {
		if washedBy := l.why == washed && l.to.job.Kind == ""; l.why == washRound || washedBy {
			continue // no course waits for the sink
		}
		if r.counts(l) && l.from.job.Kind != "" && l.from.job.block != l.to.job.block {
			out = append(out, arc{l.from.job, l.to.job, l.from.at, l.to.at, l.gap, r.linkReason(l)})
		}
	}
	for _, b := range r.blocks() {
		for i := 1; i < len(b.jobs); i++ {
			j := b.jobs[i]
			out = append(out, arc{b.jobs[i-1], j, b.jobs[i-1].length, 0, 0, fmt.Sprintf("%s is done in one go with it, at %s", j.of(), r.clockText(r.start(j)))})
		}
	}
	return append(out, r.handOvers()...)
}

// courseArcs lists which course waits for which: nothing that keeps a job from
// being later, but what a late course does to those after it.
func (r *result) courseArcs() (out []arc) {
	for _, l := range r.draft.links {
		if l.why == courseAfter {
			out = append(out, arc{from: l.from.job, to: l.to.job, gap: l.gap})
		}
	}
	return out
}

// room is how much later a job may start, up to a day, for what it waits for,
// for its deadline and for the hours of those it needs. Each limit is said to
// say, which may be nil.
func (r *result) room(j *job, say func(room int, why string)) int {
	if !r.on(j) {
		return 0
	}
	room := day
	limit := func(n int, text string) {
		n = max(0, n)
		room = min(room, n)
		if say != nil {
			say(n, text)
		}
	}
	d := r.draft
	for _, l := range d.links {
		if l.to.job == j && l.max >= 0 && r.counts(l) {
			limit(r.time(l.from)+l.max-r.time(l.to), fmt.Sprintf("it must come within %s of %s", spanWords(l.max), l.from.job.of()))
		}
	}
	for _, l := range d.links {
		if l.from.job == j && l.to.job.Kind == "" && l.why == washed && r.counts(l) {
			limit(r.time(l.to)-r.time(l.from), r.linkReason(l))
		}
	}
	task, act := r.solution.Tasks[j.block.act], d.p.Activities[j.block.act]
	if act.Deadline > 0 {
		limit((act.Deadline-task.End)*d.grid, "it is to be done the day before")
	}
	for n, use := range act.Modes[task.Mode].Uses {
		res := d.p.Resources[task.Members[n]]
		to := task.End
		if use.To > 0 {
			to = task.Start + use.To
		}
		for _, s := range res.Calendar {
			if to <= s.To {
				name := "someone"
				if _, ok := d.kit.cookOf(task.Members[n]); ok {
					name = res.Name
				}
				limit((s.To-to)*d.grid, fmt.Sprintf("%s is there until %s", name, r.clockText(d.origin+s.To*d.grid)))
				break
			}
		}
	}
	return room
}

// linkReason says in a cook's words what a link holds a job for.
func (r *result) linkReason(l *link) string {
	at := r.clockText(r.time(l.to))
	switch {
	case l.to.job.Kind == "":
		if l.to.job.course == "" {
			return "it is served at " + at
		}
		return fmt.Sprintf("%s is served at %s", l.to.job.course, at)
	case l.why == vesselFree:
		return fmt.Sprintf("its vessel is wanted for %s at %s", l.to.job.of(), at)
	}
	return fmt.Sprintf("%s begins at %s", l.to.job.of(), at)
}

// blocks lists the engine's activities that take place, in order of jobs.
func (r *result) blocks() (out []*block) {
	seen := map[*block]bool{}
	for _, j := range r.draft.jobs {
		if r.on(j) && !seen[j.block] {
			seen[j.block] = true
			out = append(out, j.block)
		}
	}
	return out
}
