package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/timeline/problem"
)

// errand is a hold of a cook's in the engine's units.
type errand struct {
	act, use int
	of       []int
	from, to int
	amount   int
	dish     *problem.Making // nil for tasks and washing up
	touch    bool
}

// Redeal gives each job to the cook who has its dish, where that is as well: the times
// of the plan stay as they are. When it finds no way of dealing them all out so, they
// stay with those who have them.
func (r *Result) Redeal() {
	if r.Solution == nil || len(r.Draft.Hands(nil)) < 2 {
		return
	}
	all := r.errands()
	was := make([]plan.Task, len(r.Solution.Tasks))
	for i, t := range r.Solution.Tasks {
		was[i] = t
		r.Solution.Tasks[i].Members = slices.Clone(t.Members)
	}
	if !r.deal(all) || r.Broken() {
		copy(r.Solution.Tasks, was)
	}
}

func (r *Result) errands() (out []errand) {
	d := r.Draft
	add := func(j *problem.Job, dish *problem.Making) {
		task := r.Solution.Tasks[j.Block.Act]
		for n, u := range d.P.Activities[j.Block.Act].Modes[task.Mode].Uses {
			if role := j.Block.Roles[n]; role != problem.CookRole && role != problem.HelpRole {
				continue
			}
			from, to := 0, task.End-task.Start
			if u.To > 0 {
				from, to = u.From, u.To
			}
			out = append(out, errand{j.Block.Act, n, u.Of, task.Start + from, task.Start + to, u.Amount, dish, j.Kind != "" && j.Block.Touches(from, to, d.Grid)})
		}
	}
	for _, b := range r.Blocks() {
		add(b.Jobs[0], b.Jobs[0].Mk)
	}
	for _, c := range d.Courses {
		add(c, nil)
	}
	slices.SortStableFunc(out, func(a, b errand) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(b.amount, a.amount), cmp.Compare(len(a.of), len(b.of)))
	})
	return out
}

// deal hands errands out in order of time: to whoever began the job, else to whoever
// had the dish last, else to whoever had it in the engine's plan.
func (r *Result) deal(all []errand) bool {
	type span struct{ from, to, amount int }
	taken := map[int][]span{}
	first := map[int]int{}            // who has a job, by activity
	last := map[*problem.Making]int{} // who has a dish
	for _, e := range all {
		task := &r.Solution.Tasks[e.act]
		best, most := -1, 0
		for _, c := range e.of {
			held := e.amount
			for _, s := range taken[c] {
				if s.from < e.to && e.from < s.to {
					held += s.amount
				}
			}
			if held > r.Draft.P.Resources[c].Capacity || !r.Draft.P.Resources[c].IsOpen(e.from, e.to) {
				continue
			}
			score := 1
			if f, ok := first[e.act]; ok && f == c {
				score += 8
			}
			if l, ok := last[e.dish]; ok && e.dish != nil && l == c {
				score += 4
			}
			if task.Members[e.use] == c {
				score++
			}
			if score > most {
				best, most = c, score
			}
		}
		if best < 0 {
			return false
		}
		task.Members[e.use] = best
		taken[best] = append(taken[best], span{e.from, e.to, e.amount})
		if _, ok := first[e.act]; !ok {
			first[e.act] = best
		}
		if e.dish != nil && !e.touch {
			last[e.dish] = best
		}
	}
	return true
}
