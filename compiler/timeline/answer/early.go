package answer

import (
	"regexp"
	"slices"

	"tamis/compiler/larder"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Cold work early. The engine begins everything as late as it may, so knife work and
// salads come together with the frying in the last hour. Where the menu says that the
// cooks are there before, what keeps is done before that hour; the rest of the plan
// stands (an improvement by moves).

const (
	// rushBefore is how long before the first serving cold work should be done, in
	// minutes; knife work is over a little sooner than the kitchen fills. Common practice,
	// no source.
	rushBefore = 60
	// lastBefore is how long before the first serving it should be done at least, where there
	// is no room sooner, in minutes. Common practice, no source.
	lastBefore = 30
	// mostEarly is how much earlier than the rush what is eaten may be begun, in minutes.
	mostEarly = 3 * 60
)

// Early moves cold work that keeps out of the hour before the first serving of a meal, else out of its last half, and what
// comes after, to when its cook or another has nothing to do, on a clock of so many
// minutes. Limits, hours and all that waits for hot food stay as they are.
func (r *Result) Early(grid int) {
	d := r.Draft
	if r.Solution == nil || !d.Clock || len(d.Meal.Menu.Hours) == 0 || d.Set.Keep != nil || !r.OnTime() {
		return
	}
	r.begins = r.firstHeld()
	over := 0 // when the meal before is
	for _, s := range d.Sittings() {
		r.earlyFor(s, over, grid)
		over = r.Solution.Tasks[s.Last.Block.Act].Start
	}
}

// earlyFor does it for one meal, not before another is over.
func (r *Result) earlyFor(s problem.Sitting, over, grid int) {
	d := r.Draft
	first := r.Solution.Tasks[s.First.Block.Act].Start
	rush := first - timeline.CeilDiv(rushBefore, d.Grid)
	last := first - timeline.CeilDiv(lastBefore, d.Grid)
	step := max(1, grid/d.Grid)
	than := r.tidiness()
	order := r.Blocks()
	slices.SortStableFunc(order, func(a, b *problem.Block) int {
		return r.Solution.Tasks[a.Act].Start - r.Solution.Tasks[b.Act].Start
	})
	soonest := max(over, rush-timeline.CeilDiv(mostEarly, d.Grid))
	var cold []*problem.Block // in order of time
	for _, b := range slices.Backward(order) {
		task := r.Solution.Tasks[b.Act]
		if d.SittingFor(r.wantedAt(b)).First != s.First {
			continue
		}
		leads := slices.ContainsFunc(cold, func(o *problem.Block) bool { return oneDish(o, b) })
		if (task.End > rush || leads && task.Start >= soonest) && r.coldKeeps(b) {
			cold = slices.Insert(cold, 0, b)
		}
	}
	length := func(b *problem.Block) int {
		return timeline.CeilDiv(r.Solution.Tasks[b.Act].End-r.Solution.Tasks[b.Act].Start, step) * step
	}
	for i, b := range cold {
		run, all := []*problem.Block{b}, length(b) // steps with the steps after them, for these may wait for one another
		for _, o := range cold[i+1:] {
			if !oneDish(o, b) {
				continue
			}
			if all += length(o); b.Jobs[0].Kind == timeline.StepJob {
				run = append(run, o)
			}
		}
		if r.Solution.Tasks[b.Act].End <= rush-all+length(b) {
			continue // it has moved along, or is early enough
		}
		try := func(run []*problem.Block, all, by, soonest int) bool {
			for at := first - timeline.CeilDiv(first-by+all, step)*step; at >= soonest; at -= step {
				starts := []int{at}
				for k, o := range run[:len(run)-1] {
					starts = append(starts, starts[k]+length(o))
				}
				if r.moved(run, starts, than) {
					return true
				}
			}
			return false
		}
		soonest := soonest
		if b.Jobs[0].Kind == timeline.TaskJob { // a table that is laid stands so all day
			soonest = max(over, -d.Origin/d.Grid)
		}
		for n := len(run); n > 0; n-- {
			if try(run[:n], all, rush, soonest) || r.Solution.Tasks[b.Act].End > last && try(run[:n], all, last, rush-all+1) {
				break
			}
			all -= length(run[n-1])
		}
		// Where there is no room for all of it out of the last half hour, as much as there is.
		if task := r.Solution.Tasks[b.Act]; task.End > last && task.Start < first {
			for at := max(rush, last-task.End+task.Start); at < task.Start && !r.moved([]*problem.Block{b}, []int{at}, than); at++ {
			}
		}
	}
}

// wantedAt is when what is done in a block is used, or its dish is served; for a task, when
// it is done.
func (r *Result) wantedAt(b *problem.Block) timeline.Minute {
	switch j := b.Jobs[0]; {
	case j.Line != nil:
		return r.usedAt(j)
	case j.Mk != nil:
		return r.Start(j.Mk.Course)
	default:
		return r.Start(j) + j.Length
	}
}

// oneDish tells whether two blocks are of one dish; tasks are of none.
func oneDish(a, b *problem.Block) bool {
	return a.Jobs[0].Mk != nil && a.Jobs[0].Mk == b.Jobs[0].Mk
}

// setsUp is a task that can be done as well an hour sooner: not what loads, carries or warms
// what is not ready yet, or is cold again by then. Common practice, no source.
var setsUp = regexp.MustCompile(`(?i)^(lay|set|fill|fold|polish|sharpen|put out|light .*\b(cupboard|fire|charcoal|coals|range|stove)|take \pL.* out$)\b`)

// moves is what a plan has that moves leave no worse.
type moves struct{ waited, changes, unbroken int }

func (r *Result) tidiness() *moves {
	_, _, changes := r.keepers()
	return &moves{r.waited(), len(changes), len(r.tooLong())}
}

// asTidy tells whether no hot food waits longer, no dish changes hands and nobody loses a
// break.
func (r *Result) asTidy(than *moves) bool {
	if r.waited() > than.waited {
		return false
	}
	now := r.tidiness()
	return now.changes <= than.changes && now.unbroken <= than.unbroken
}

// moved begins blocks at other times, where that breaks nothing, no hot food waits longer
// than it did, and nobody loses a break.
func (r *Result) moved(blocks []*problem.Block, starts []int, than *moves) bool {
	if starts[0] < 0 {
		return false
	}
	var was []plan.Task
	for i, b := range blocks {
		task := &r.Solution.Tasks[b.Act]
		keep := *task
		keep.Members = slices.Clone(task.Members)
		was = append(was, keep)
		task.Start, task.End = starts[i], starts[i]+task.End-task.Start
	}
	free := func(b *problem.Block) bool { return r.inOrder(b) && r.handedOut(b) && r.cleanHands(b) }
	if !slices.ContainsFunc(blocks, func(b *problem.Block) bool { return !free(b) }) && r.asTidy(than) && !r.Broken() {
		return true
	}
	for i, b := range blocks {
		r.Solution.Tasks[b.Act] = was[i]
	}
	return false
}

// coldKeeps tells whether all of a block is cold work that somebody has said keeps:
// preparation, for as long as prepared things may wait, but for what is cut fresh; a
// step whose product keeps, or whose dish may stand; and a task of the menu that sets up.
func (r *Result) coldKeeps(b *problem.Block) bool {
	return !slices.ContainsFunc(b.Jobs, func(j *problem.Job) bool {
		switch j.Kind {
		case timeline.PrepJob:
			return j.Hot || j.Fresh() || slices.ContainsFunc(j.Parts, func(p problem.Part) bool { return p.Kind != resolve.Work })
		case timeline.StepJob:
			return !j.ByHand() || j.Hot || j.Warm() || j.Step.Step.AnyTime || !j.Stands(rushBefore)
		case timeline.TaskJob:
			return !setsUp.MatchString(j.Title)
		}
		return true
	})
}

// inOrder tells whether a block is where what it waits for and what waits for it let
// it be.
func (r *Result) inOrder(b *problem.Block) bool {
	return !slices.ContainsFunc(r.Draft.Links, func(l *problem.Link) bool {
		if l.From.Job.Block != b && l.To.Job.Block != b || l.From.Job.Block == l.To.Job.Block || !r.Counts(l) {
			return false
		}
		wait := r.time(l.To) - r.time(l.From)
		return wait < l.Gap || l.Max >= 0 && wait > l.Max
	})
}

// handedOut gives a block that has moved to whoever is free for it: who had it, if that
// may be.
func (r *Result) handedOut(b *problem.Block) bool {
	d := r.Draft
	task := &r.Solution.Tasks[b.Act]
	uses := d.P.Activities[b.Act].Modes[task.Mode].Uses
	free := func(res, from, to int) bool {
		if !d.P.Resources[res].IsOpen(from, to) {
			return false
		}
		held := 0
		for _, o := range r.Blocks() {
			if o == b {
				continue
			}
			t := r.Solution.Tasks[o.Act]
			for n, u := range d.P.Activities[o.Act].Modes[t.Mode].Uses {
				if t.Members[n] == res && overlap(t, u, from, to) {
					held += u.Amount
				}
			}
		}
		return held == 0
	}
	taken := map[int]int{} // who has it now, by who had it
	for n, role := range b.Roles {
		if role != problem.CookRole && role != problem.HelpRole {
			continue
		}
		from, to := task.Start+uses[n].From, task.Start+uses[n].To
		if uses[n].To == 0 {
			from, to = task.Start, task.End
		}
		had := task.Members[n]
		if now, ok := taken[had]; ok {
			task.Members[n] = now
			continue
		}
		of := append([]int{had}, uses[n].Of...)
		i := slices.IndexFunc(of, func(res int) bool {
			return slices.Contains(uses[n].Of, res) && free(res, from, to)
		})
		if i < 0 {
			return false
		}
		taken[had], task.Members[n] = of[i], of[i]
	}
	return true
}

func overlap(t plan.Task, u plan.Use, from, to int) bool {
	a, z := t.Start, t.End
	if u.To > 0 {
		a, z = t.Start+u.From, t.Start+u.To
	}
	return a < to && from < z
}

// boardRest is how long after raw flesh nothing that is eaten raw comes to the same
// board, in minutes, unless it is washed: common practice, no source.
const boardRest = 5

// cleanHands tells whether no cook goes from raw flesh to what is eaten raw at once, now
// that a block has moved.
func (r *Result) cleanHands(b *problem.Block) bool {
	return !slices.ContainsFunc(r.Blocks(), func(o *problem.Block) bool {
		if o == b || !r.oneCook(o, b) {
			return false
		}
		return r.soils(o, b) || r.soils(b, o)
	})
}

// soils tells whether raw flesh is prepared in one block and what is eaten raw in another
// soon after, for another dish: what goes into one dish meets there anyhow.
func (r *Result) soils(a, b *problem.Block) bool {
	gap := r.Start(b.Jobs[0]) - r.Start(a.Jobs[0]) - a.Length
	return gap >= 0 && gap < boardRest && slices.ContainsFunc(a.Jobs, func(x *problem.Job) bool {
		return rawFlesh(x) && slices.ContainsFunc(b.Jobs, func(y *problem.Job) bool { return eatenRaw(y) && y.Mk != x.Mk })
	})
}

func rawFlesh(j *problem.Job) bool {
	if j.Line == nil {
		return false
	}
	it, ok := larder.Builtin().Find(j.Line.Line.Name)
	return ok && slices.ContainsFunc([]larder.Flag{"raw meat", "raw poultry", "raw pork", "raw mince", "raw fish", "raw shellfish", "liver"}, it.Has)
}

// eatenRaw tells whether a job prepares something for a dish that no step heats.
func eatenRaw(j *problem.Job) bool {
	return j.Line != nil && !rawFlesh(j) && !slices.ContainsFunc(j.Mk.Steps, func(s *problem.Job) bool { return s.Hot })
}

// mostAside is how many minutes earlier or later work is moved for the sake of clean hands.
const mostAside = 30

// CleanHands moves work by a few minutes where raw flesh and then what is eaten raw would
// come to one board at once, on a clock of so many minutes.
func (r *Result) CleanHands(grid int) {
	if r.Solution == nil || r.Set.Keep != nil {
		return
	}
	step, than := max(1, grid/r.Draft.Grid), r.tidiness()
	for _, a := range r.Blocks() {
		for _, b := range r.Blocks() {
			if a == b || !r.oneCook(a, b) || !r.soils(a, b) {
				continue
			}
			done := false
			for n := step; n*r.Draft.Grid <= mostAside && !done; n += step {
				at := func(b *problem.Block) int { return r.Solution.Tasks[b.Act].Start }
				done = r.moved([]*problem.Block{a}, []int{at(a) - n}, than) || r.moved([]*problem.Block{b}, []int{at(b) + n}, than)
			}
		}
	}
}

// oneCook tells whether some cook is at both of two blocks.
func (r *Result) oneCook(a, b *problem.Block) bool {
	return slices.ContainsFunc(r.Solution.Tasks[a.Act].Members, func(m int) bool {
		_, cook := r.Draft.Kit.CookOf(m)
		return cook && slices.Contains(r.Solution.Tasks[b.Act].Members, m)
	})
}
