package answer

import (
	"fmt"
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// slack works out how much later each job could start without making any
// serving later, if what comes after it moved along in the order it has; and
// notes what keeps it from being later still. What it waits for stays where it
// is.
func (r *Result) slack() {
	arcs := r.Arcs()
	late, why := map[*problem.Job]int{}, map[*problem.Job][]string{}
	for _, j := range r.Draft.Jobs {
		late[j] = r.room(j, nil)
	}
	room := func(a arc) int { return max(0, r.spare(a)+late[a.To]) } // late of a course is 0
	for range len(r.Draft.Jobs) + 1 {
		changed := false
		for _, a := range arcs {
			if n := room(a); n < late[a.From] {
				late[a.From], changed = n, true
			}
		}
		if !changed {
			break
		}
	}
	say := func(j *problem.Job, text string) {
		if text != "" && !slices.Contains(why[j], text) {
			why[j] = append(why[j], text)
		}
	}
	type pair struct{ from, to *problem.Job }
	said := map[pair]bool{}
	for _, a := range arcs { // what binds; a hand-over to what waits for it anyway says no more
		if room(a) <= late[a.From] && !said[pair{a.From, a.To}] {
			said[pair{a.From, a.To}] = true
			say(a.From, a.text())
		}
	}
	for _, j := range r.Draft.Jobs {
		if !r.On(j) {
			continue
		}
		r.room(j, func(n int, text string) {
			if n <= late[j] && late[j] < timeline.Day {
				say(j, text)
			}
		})
		r.Job(j).Slack = late[j]
	}
	for _, j := range r.Draft.Jobs {
		if r.On(j) {
			r.Job(j).Holds = why[j]
		}
	}
}

// arc says that one job cannot be pushed later than another allows: the moment
// toAt of the one begins at least gap after the moment fromAt of the other, in
// minutes from their starts.
type arc struct {
	From, To     *problem.Job
	FromAt, ToAt int
	Gap          int
	why          func() string // for the cook, when it is asked; may be nil
	touch        bool          // hands go from or to what is only seen to: it waits a minute, and nothing with it
}

// text is why, for the cook; it may be empty.
func (a arc) text() string {
	if a.why == nil {
		return ""
	}
	return a.why()
}

// least is how long after the start of from the start of to must be.
func (a arc) least() int { return a.FromAt + a.Gap - a.ToAt }

// spare is how much later from could start if to stayed where it is.
func (r *Result) spare(a arc) int { return r.Start(a.To) - r.Start(a.From) - a.least() }

// Arcs lists what keeps jobs from being later: what waits for them, what is
// done in one go with them, and whoever and whatever is wanted elsewhere next.
func (r *Result) Arcs() (out []arc) {
	for _, l := range r.Draft.Links {
		if washedBy := l.Why == problem.Washed && l.To.Job.Kind == ""; l.Why == problem.WashRound || washedBy {
			continue // no course waits for the sink
		}
		if l.Why == problem.BoardsClear {
			continue // a habit: no course waits for it
		}
		if r.Counts(l) && l.From.Job.Kind != "" && l.From.Job.Block != l.To.Job.Block {
			out = append(out, arc{l.From.Job, l.To.Job, l.From.At, l.To.At, l.Gap, func() string { return r.linkReason(l) }, false})
		}
	}
	for _, b := range r.Blocks() {
		for i := 1; i < len(b.Jobs); i++ {
			j := b.Jobs[i]
			out = append(out, arc{b.Jobs[i-1], j, b.Jobs[i-1].Length, 0, 0, func() string {
				return fmt.Sprintf("%s is done in one go with it, at %s", j.Of(), r.clockText(r.moment(problem.Moment{Job: j})))
			}, false})
		}
	}
	return append(out, r.handOvers()...)
}

// PushArcs are the arcs along which a delay goes: what is only seen to now and then
// does not wait as a whole for a hand that comes a minute later.
func (r *Result) PushArcs() []arc {
	return slices.DeleteFunc(append(r.Arcs(), r.CourseArcs()...), func(a arc) bool { return a.touch })
}

// CourseArcs lists which course waits for which: nothing that keeps a job from
// being later, but what a late course does to those after it.
func (r *Result) CourseArcs() (out []arc) {
	for _, l := range r.Draft.Links {
		if l.Why == problem.CourseAfter {
			out = append(out, arc{From: l.From.Job, To: l.To.Job, Gap: l.Gap})
		}
	}
	return out
}

// room is how much later a job may start, up to a day, for what it waits for,
// for its deadline and for the hours of those it needs. Each limit is said to
// say, which may be nil.
func (r *Result) room(j *problem.Job, say func(room int, why string)) int {
	if !r.On(j) {
		return 0
	}
	room := timeline.Day
	limit := func(n int, text string) {
		n = max(0, n)
		room = min(room, n)
		if say != nil {
			say(n, text)
		}
	}
	d := r.Draft
	for _, l := range d.Links {
		if l.To.Job == j && l.Max >= 0 && r.Counts(l) {
			limit(r.time(l.From)+l.Max-r.time(l.To), fmt.Sprintf("it must come within %s of %s", timeline.SpanWords(l.Max), l.From.Job.Of()))
		}
	}
	for _, l := range d.Links {
		if l.From.Job == j && l.To.Job.Kind == "" && l.Why == problem.Washed && r.Counts(l) {
			limit(r.time(l.To)-r.time(l.From), r.linkReason(l))
		}
	}
	task, act := r.Solution.Tasks[j.Block.Act], d.P.Activities[j.Block.Act]
	if act.Deadline > 0 {
		limit((act.Deadline-task.End)*d.Grid, "it is to be done the day before")
	}
	for n, use := range act.Modes[task.Mode].Uses {
		res := d.P.Resources[task.Members[n]]
		to := task.End
		if use.To > 0 {
			to = task.Start + use.To
		}
		for _, s := range res.Calendar {
			if to <= s.To {
				name := "someone"
				if _, ok := d.Kit.CookOf(task.Members[n]); ok {
					name = res.Name
				}
				ends := d.Origin + s.To*d.Grid
				text := fmt.Sprintf("%s is there until %s", name, r.clockText(ends))
				if spare := d.SpareAfter(ends); spare > 0 {
					text = fmt.Sprintf("the work of %s ends at %s, %s before the hours do", name, r.clockText(ends), timeline.SpanWords(spare))
				}
				limit((s.To-to)*d.Grid, text)
				break
			}
		}
	}
	return room
}

// linkReason says in a cook's words what a link holds a job for.
func (r *Result) linkReason(l *problem.Link) string {
	at := r.clockText(r.moment(l.To))
	switch {
	case l.To.Job.Kind == "":
		if l.To.Job.Course == "" {
			return "it is served at " + at
		}
		return fmt.Sprintf("%s is served at %s", l.To.Job.Course, at)
	case l.Why == problem.VesselFree:
		return fmt.Sprintf("its vessel is wanted for %s at %s", l.To.Job.Of(), at)
	}
	return fmt.Sprintf("%s begins at %s", l.To.Job.Of(), at)
}

// Blocks lists the engine's activities that take place, in order of jobs.
func (r *Result) Blocks() (out []*problem.Block) {
	seen := map[*problem.Block]bool{}
	for _, j := range r.Draft.Jobs {
		if r.On(j) && !seen[j.Block] {
			seen[j.Block] = true
			out = append(out, j.Block)
		}
	}
	return out
}

// Starts is when each activity of the engine begins, -1 for those that are not in the plan.
func (r *Result) Starts() []int {
	starts := make([]int, len(r.Solution.Tasks))
	for i, t := range r.Solution.Tasks {
		if starts[i] = -1; t.On {
			starts[i] = t.Start
		}
	}
	return starts
}
