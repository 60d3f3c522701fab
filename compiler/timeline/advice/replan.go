package advice

import (
	"context"
	"fmt"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/attempt"
	"tamis/compiler/timeline/problem"
	"tamis/compiler/timeline/washing"
	"tamis/lang/diag"
)

// Replan plans a meal again from the moment at which a job of it should have
// ended, when it ends so many minutes later. All that has been started by then
// goes on. If everything can simply move along in its order without a course
// being late, it does; else the rest is planned anew. It returns nil when ctx
// is done, or the job is not one of the plan.
func Replan(ctx context.Context, t *timeline.Timeline, late *timeline.Job, by int) *timeline.Replanned {
	return replan(ctx, t, late, by, asked{why: true, odds: true})
}

// asked is what is wanted beside a new plan, and costs more than that: what makes the
// meal late, with cures that are tried, and how likely the new plan is to hold.
type asked struct{ why, odds bool }

// replan is Replan, with what is asked.
func replan(ctx context.Context, t *timeline.Timeline, late *timeline.Job, by int, want asked) *timeline.Replanned {
	old := answer.ResultOf(t)
	i := slices.IndexFunc(old.Draft.Jobs, func(j *problem.Job) bool { return old.On(j) && old.Job(j) == late })
	if i < 0 || by <= 0 {
		return nil
	}
	lateJob := old.Draft.Jobs[i]
	keep := old.Keeping(late.End())
	keep.Late, keep.By = lateJob.Key(), by+late.End()-old.Start(lateJob)-lateJob.Length
	found := &diag.List{}
	a := &attempt.Attempts{Ctx: ctx, Meal: t.Meal, Opt: old.Opt, Diags: found, Said: true}
	set := old.Set
	set.Keep, set.Figures = keep, nil // others may be asking about the same plan
	moved := pushed(old, set, lateJob)
	if a.Best = moved; a.Best == nil || !a.Best.OnTime() {
		again(a, set, want.why)
		if a.Best != nil && a.Best != moved { // what moves along stays with who has it; what is planned anew is dealt out as a plan is
			a.Best.Redeal()
		}
	}
	out := &timeline.Replanned{Now: late.End(), Job: late, By: by}
	switch {
	case ctx.Err() != nil:
		return nil
	case a.Best == nil || a.Best.Solution == nil:
		if a.Last != nil && want.why {
			ExplainConflict(a)
		}
	default:
		if !a.Best.OnTime() && want.why {
			ExplainLate(a)
		}
		compare(out, t, a.Best, want.odds)
	}
	out.Tried = triedWords(a.Tried)
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
// Why none is on time is looked for where that is asked, or where it is not known that none is.
func again(a *attempt.Attempts, set problem.Setup, why bool) {
	now, by := set.Keep.Now, set.Keep.By
	var sets []problem.Setup
	add := func(grid int, until timeline.Minute, loose bool) {
		s, k := set, *set.Keep
		k.Until, k.Loose = until, loose
		s.Grid, s.Keep, s.Wash.Later = grid, &k, loose
		sets = append(sets, s)
	}
	add(set.Grid, now+by+aWhile, false)
	add(set.Grid, (timeline.FloorDiv(now, timeline.Day)+1)*timeline.Day, false)
	add(set.Grid, problem.None, false)
	if set.Grid > 1 {
		add(1, (timeline.FloorDiv(now, timeline.Day)+1)*timeline.Day, false)
		add(1, problem.None, false)
	}
	if k := a.Meal.Kitchen; k != nil && len(k.WashUps) > 0 { // the sink can wait
		s := sets[len(sets)-1]
		s.Wash.Later = true
		sets = append(sets, s)
	}
	strict := len(sets)
	add(1, (timeline.FloorDiv(now, timeline.Day)+1)*timeline.Day, true)
	add(1, problem.None, true)
	for i, s := range sets {
		if i == strict && a.Best != nil && a.Best.Solution != nil {
			break
		}
		r := a.Try(s, i == len(sets)-1)
		if r == nil {
			if a.Ctx.Err() != nil {
				return
			}
			continue
		}
		a.Last = r
		if r.Better(a.Best) {
			a.Best = r
		}
		if a.Best.OnTime() {
			return
		}
	}
	if a.Best != nil && a.Best.Solution != nil && (why || a.Best.Solution.Bound == 0) {
		TryOnTime(a)
	}
}

// pushed is the plan with everything moved along in its order as far as the
// delay makes it; nil when that breaks a rule.
func pushed(r *answer.Result, set problem.Setup, late *problem.Job) *answer.Result {
	d := washing.Translate(r.Draft.Meal, set, nil)
	fell := len(r.Solution.Options) - len(d.P.Branches) // pauses are decided; the branches left come last
	if d.Coarse || fell < 0 {
		return nil
	}
	starts := pushAlong(r, late, set.Keep.By)
	out := &answer.Result{Set: set, Draft: d, Solution: &plan.Solution{
		Options: slices.Clone(r.Solution.Options[fell:]), Tasks: make([]plan.Task, len(d.P.Activities)),
	}}
	was := map[problem.Key]*problem.Job{}
	for _, j := range append(slices.Clone(r.Draft.Jobs), r.Draft.Courses...) {
		was[j.Key()] = j
	}
	for _, j := range append(slices.Clone(d.Jobs), d.Courses...) {
		o := was[j.Key()]
		if o == nil || !r.On(o) {
			return nil
		}
		if j.Block.Jobs[0] != j {
			continue
		}
		if at := r.Start(o); at < set.Keep.Now && starts[o.Block] != at {
			return nil // it has been started
		}
		mode := d.P.Activities[j.Block.Act].Modes[0]
		task := plan.Task{On: true, Start: (starts[o.Block] - d.Origin) / d.Grid}
		task.End = task.Start + mode.Duration
		had := r.Solution.Tasks[o.Block.Act]
		seen := map[problem.RoleKind]int{}
		for _, role := range j.Block.Roles {
			n := nth(o.Block.Roles, role, seen[role])
			if n < 0 {
				return nil
			}
			seen[role]++
			task.Members = append(task.Members, had.Members[n])
			task.Settings = append(task.Settings, had.Settings[n])
		}
		out.Solution.Tasks[j.Block.Act] = task
	}
	if out.Broken() {
		return nil
	}
	for i, c := range d.Courses {
		out.Solution.Score[plan.Lateness] += max(0, out.Start(c)-d.Courses[i].At) / d.Grid
	}
	return out
}

// nth is the place of a role the n-th time it comes, from 0, or the last time;
// -1 when it never does.
func nth(roles []problem.RoleKind, role problem.RoleKind, n int) int {
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
func pushAlong(r *answer.Result, late *problem.Job, by int) map[*problem.Block]timeline.Minute {
	starts := map[*problem.Block]timeline.Minute{}
	for _, b := range r.Blocks() {
		starts[b] = r.Start(b.Jobs[0])
	}
	for _, c := range r.Draft.Courses {
		starts[c.Block] = r.Start(c)
	}
	// A moment of a block, in minutes from its start, with the delay.
	moment := func(j *problem.Job, at int) int {
		at += j.Offset
		if j.Block == late.Block && at >= late.Offset+late.Length {
			at += by
		}
		return at
	}
	arcs := r.PushArcs()
	for range len(starts) + 1 {
		changed := false
		for _, a := range arcs {
			if a.From.Block == a.To.Block {
				continue
			}
			at := starts[a.From.Block] + moment(a.From, a.FromAt) + a.Gap - moment(a.To, a.ToAt)
			if at > starts[a.To.Block] {
				starts[a.To.Block], changed = r.Draft.Origin+timeline.CeilDiv(at-r.Draft.Origin, r.Draft.Grid)*r.Draft.Grid, true
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
func compare(out *timeline.Replanned, t *timeline.Timeline, r *answer.Result, odds bool) {
	old := answer.ResultOf(t)
	opt := old.Opt
	opt.NoOdds = !odds
	out.Timeline = r.Answer(opt, nil)
	was := map[problem.Key]timeline.Minute{}
	for _, j := range old.Draft.Jobs {
		if old.On(j) {
			was[j.Key()] = old.Start(j)
		}
	}
	for _, j := range r.Draft.Jobs {
		if j.Key() == r.Set.Keep.Late {
			out.Job = r.Job(j)
		}
		if at, ok := was[j.Key()]; ok && r.On(j) && at != r.Job(j).Start() {
			out.Moved = append(out.Moved, timeline.Move{Job: r.Job(j), Was: at})
		}
	}
	slices.SortStableFunc(out.Moved, func(a, b timeline.Move) int { return a.Job.Start() - b.Job.Start() })
	if r.Set.Wash.Later && slices.ContainsFunc(old.SinkJobs(), func(j *problem.Job) bool { return old.Start(j) >= r.Set.Keep.Now }) {
		out.Over = append(out.Over, "the washing up that is not begun by then is left until after")
	}
	if !r.Set.Keep.Loose {
		return
	}
	out.Over = append(append(out.Over, r.Over()...), pastHours(r, out.Now)...)
}

// pastHours says who stays longer than the menu's hours after a moment.
func pastHours(r *answer.Result, now timeline.Minute) (out []string) {
	d := *r.Draft
	d.Set.Keep = nil
	if !d.Clock {
		return nil
	}
	for _, c := range d.Kit.Cooks {
		hours := d.Windows(c.Key)
		until := now
		for _, j := range d.Jobs {
			if !r.On(j) || r.Job(j).Start() < now && r.Job(j).End() < now {
				continue
			}
			for _, p := range r.Job(j).Phases {
				in := slices.ContainsFunc(hours, func(w problem.Window) bool { return w.From <= p.Start && p.End <= w.To })
				if p.End > now && slices.Contains(p.Cooks, c.Name) && !in && (until == now || p.End-until < timeline.Day/2) {
					until = max(until, p.End)
				}
			}
		}
		if until > now {
			out = append(out, fmt.Sprintf("%s is at work until %s, past the hours of the menu", c.Name, d.ClockText(until)))
		}
	}
	return out
}
