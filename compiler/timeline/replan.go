package timeline

import (
	"context"
	"fmt"
	"slices"

	"tamis/compiler/plan"
	"tamis/lang/diag"
)

// Replanned is the rest of a plan, made again after a step has taken longer.
type Replanned struct {
	*Timeline          // the whole meal: what was begun as it was, the rest from Now on; nil when there is no plan
	Now       Minute   // when the late job should have ended
	Job       *Job     // the late job, as it is now
	By        int      // minutes it ends later
	Moved     []Move   // in order of time
	Over      []string // what waits longer than it may
	Why       string   // what makes the meal late, or leaves no plan
	Cures     []string // what would bring it back, each tried
	Tried     []string // what would not, with what came of it
}

// Move is a job that begins at another time than it did.
type Move struct {
	Job *Job
	Was Minute
}

// Replan plans a meal again from the moment at which a job of it should have
// ended, when it ends so many minutes later. All that has been started by then
// goes on. If everything can simply move along in its order without a course
// being late, it does; else the rest is planned anew. It returns nil when ctx
// is done, or the job is not one of the plan.
func (t *Timeline) Replan(ctx context.Context, late *Job, by int) *Replanned {
	old := t.from
	i := slices.IndexFunc(old.draft.jobs, func(j *job) bool { return old.on(j) && old.job(j) == late })
	if i < 0 || by <= 0 {
		return nil
	}
	lateJob := old.draft.jobs[i]
	keep := old.keeping(late.End())
	keep.late, keep.by = lateJob.key(), by+late.End()-late.Start()-lateJob.length
	found := &diag.List{}
	a := &attempts{ctx: ctx, meal: t.Meal, opt: t.opt, diags: found, said: true}
	set := old.set
	set.keep = keep
	a.best = old.pushed(set, lateJob)
	if a.best == nil || !a.best.onTime() {
		a.again(set)
	}
	out := &Replanned{Now: late.End(), Job: late, By: by}
	switch {
	case ctx.Err() != nil:
		return nil
	case a.best == nil || a.best.solution == nil:
		if a.last != nil {
			a.explainConflict()
		}
	default:
		if !a.best.onTime() {
			a.explainLate()
		}
		out.compare(t, a.best)
	}
	out.Tried = triedWords(a.tried)
	for _, d := range found.Sorted() {
		if out.Why == "" {
			out.Why = d.Why
		}
		for _, h := range d.Help {
			if !slices.Contains(out.Cures, h) {
				out.Cures = append(out.Cures, h)
			}
		}
	}
	return out
}

// aWhile is how much of what comes next may be planned anew before more is, in
// minutes: a cook would rather keep to the sheet.
const aWhile = 2 * 60

// again plans the rest anew, changing no more than it has to: what comes next,
// then the day, then all; by the clock of the plan, then by the minute; and if
// there is no such plan, without the limits on waiting.
func (a *attempts) again(set setup) {
	now, by := set.keep.now, set.keep.by
	var sets []setup
	add := func(grid int, until Minute, loose bool) {
		s, k := set, *set.keep
		k.until, k.loose = until, loose
		s.grid, s.keep, s.wash.later = grid, &k, loose
		sets = append(sets, s)
	}
	add(set.grid, now+by+aWhile, false)
	add(set.grid, (floorDiv(now, day)+1)*day, false)
	add(set.grid, none, false)
	if set.grid > 1 {
		add(1, (floorDiv(now, day)+1)*day, false)
		add(1, none, false)
	}
	if k := a.meal.Kitchen; k != nil && len(k.WashUps) > 0 { // the sink can wait
		s := sets[len(sets)-1]
		s.wash.later = true
		sets = append(sets, s)
	}
	strict := len(sets)
	add(1, (floorDiv(now, day)+1)*day, true)
	add(1, none, true)
	for i, s := range sets {
		if i == strict && a.best != nil && a.best.solution != nil {
			break
		}
		r := a.try(s, i == len(sets)-1)
		if r == nil {
			if a.ctx.Err() != nil {
				return
			}
			continue
		}
		a.last = r
		if r.better(a.best) {
			a.best = r
		}
		if a.best.onTime() {
			return
		}
	}
	if a.best != nil && a.best.solution != nil {
		a.tryOnTime()
	}
}

// pushed is the plan with everything moved along in its order as far as the
// delay makes it; nil when that breaks a rule.
func (r *result) pushed(set setup, late *job) *result {
	d := translate(r.draft.meal, set, nil)
	fell := len(r.solution.Options) - len(d.p.Branches) // pauses are decided; the branches left come last
	if d.coarse || fell < 0 {
		return nil
	}
	starts := r.pushAlong(late, set.keep.by)
	out := &result{set: set, draft: d, solution: &plan.Solution{
		Options: slices.Clone(r.solution.Options[fell:]), Tasks: make([]plan.Task, len(d.p.Activities)),
	}}
	was := map[key]*job{}
	for _, j := range append(slices.Clone(r.draft.jobs), r.draft.courses...) {
		was[j.key()] = j
	}
	for _, j := range append(slices.Clone(d.jobs), d.courses...) {
		o := was[j.key()]
		if o == nil || !r.on(o) {
			return nil
		}
		if j.block.jobs[0] != j {
			continue
		}
		if at := r.start(o); at < set.keep.now && starts[o.block] != at {
			return nil // it has been started
		}
		mode := d.p.Activities[j.block.act].Modes[0]
		task := plan.Task{On: true, Start: (starts[o.block] - d.origin) / d.grid}
		task.End = task.Start + mode.Duration
		had := r.solution.Tasks[o.block.act]
		seen := map[roleKind]int{}
		for _, role := range j.block.roles {
			n := nth(o.block.roles, role, seen[role])
			if n < 0 {
				return nil
			}
			seen[role]++
			task.Members = append(task.Members, had.Members[n])
			task.Settings = append(task.Settings, had.Settings[n])
		}
		out.solution.Tasks[j.block.act] = task
	}
	if out.broken() {
		return nil
	}
	for i, c := range d.courses {
		out.solution.Score[plan.Lateness] += max(0, out.start(c)-d.courses[i].at) / d.grid
	}
	return out
}

// nth is the place of a role the n-th time it comes, from 0, or the last time;
// -1 when it never does.
func nth(roles []roleKind, role roleKind, n int) int {
	at := -1
	for i, r := range roles {
		if r == role {
			if at = i; n == 0 {
				break
			}
			n--
		}
	}
	return at
}

// pushAlong is when each block begins if one job takes longer and all that has
// to moves along.
func (r *result) pushAlong(late *job, by int) map[*block]Minute {
	starts := map[*block]Minute{}
	for _, b := range r.blocks() {
		starts[b] = r.start(b.jobs[0])
	}
	for _, c := range r.draft.courses {
		starts[c.block] = r.start(c)
	}
	// A moment of a block, in minutes from its start, with the delay.
	moment := func(j *job, at int) int {
		at += j.offset
		if j.block == late.block && at >= late.offset+late.length {
			at += by
		}
		return at
	}
	arcs := append(r.arcs(), r.courseArcs()...)
	for range len(starts) + 1 {
		changed := false
		for _, a := range arcs {
			if a.from.block == a.to.block {
				continue
			}
			at := starts[a.from.block] + moment(a.from, a.fromAt) + a.gap - moment(a.to, a.toAt)
			if at > starts[a.to.block] {
				starts[a.to.block], changed = r.draft.origin+ceilDiv(at-r.draft.origin, r.draft.grid)*r.draft.grid, true
			}
		}
		if !changed {
			break
		}
	}
	return starts
}

// compare puts a new plan beside the old: what moves and what waits longer than
// it may.
func (out *Replanned) compare(t *Timeline, r *result) {
	out.Timeline = r.answer(t.opt, nil)
	was := map[key]Minute{}
	for _, j := range t.from.draft.jobs {
		if t.from.on(j) {
			was[j.key()] = t.from.start(j)
		}
	}
	for _, j := range r.draft.jobs {
		if j.key() == r.set.keep.late {
			out.Job = r.job(j)
		}
		if at, ok := was[j.key()]; ok && r.on(j) && at != r.job(j).Start() {
			out.Moved = append(out.Moved, Move{r.job(j), at})
		}
	}
	slices.SortStableFunc(out.Moved, func(a, b Move) int { return a.Job.Start() - b.Job.Start() })
	if r.set.wash.later && slices.ContainsFunc(t.from.sinkJobs(), func(j *job) bool { return t.from.start(j) >= r.set.keep.now }) {
		out.Over = append(out.Over, "the washing up that is not begun by then is left until after")
	}
	if !r.set.keep.loose {
		return
	}
	out.Over = append(append(out.Over, r.over()...), r.pastHours(out.Now)...)
}

// over says what waits longer than it may.
func (r *result) over() (out []string) {
	for _, l := range r.draft.links {
		if l.max < 0 || !r.counts(l) || l.why == near || l.why == washed || l.why == washRound {
			continue
		}
		if wait := r.time(l.to) - r.time(l.from); wait > l.max {
			to := "the table"
			if l.to.job.Kind != "" {
				to = l.to.job.of()
			}
			out = append(out, fmt.Sprintf("%s waits %s for %s, where %s are allowed", l.from.job.of(), spanWords(wait), to, spanWords(l.max)))
		}
	}
	return out
}

// pastHours says who stays longer than the menu's hours after a moment.
func (r *result) pastHours(now Minute) (out []string) {
	d := *r.draft
	d.set.keep = nil
	if !d.clock {
		return nil
	}
	for _, c := range d.kit.cooks {
		hours := d.windows(c.key)
		until := now
		for _, j := range d.jobs {
			if !r.on(j) || r.job(j).Start() < now && r.job(j).End() < now {
				continue
			}
			for _, p := range r.job(j).Phases {
				in := slices.ContainsFunc(hours, func(w window) bool { return w.from <= p.Start && p.End <= w.to })
				if p.End > now && slices.Contains(p.Cooks, c.name) && !in && (until == now || p.End-until < day/2) {
					until = max(until, p.End)
				}
			}
		}
		if until > now {
			out = append(out, fmt.Sprintf("%s is at work until %s, past the hours of the menu", c.name, d.clockText(until)))
		}
	}
	return out
}
