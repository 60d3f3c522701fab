package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Who has what. The engine gives each job to anyone who is free; a kitchen wants a dish to
// stay with its cook, a pot with its watcher, and clean hands. The times of the plan stay
// as they are: jobs are dealt out in order of time, and then hands are changed over as long
// as that mends something.

// errand is a hold of a cook's in the engine's units.
type errand struct {
	act, use int
	of       []int
	from, to int
	amount   int
	dish     *problem.Making // nil for tasks, washing up and what is cut for several
	step     bool            // work on a step of its method
	touch    bool
	main     bool // of whoever has the job, not of who helps
	soils    bool // raw flesh is cut
	raw      bool // what is eaten raw is cut
	washes   bool
	starts   timeline.Minute // of its job
	ends     timeline.Minute
}

// What is amiss in a deal, and how bad it is.
const (
	amissSoiled = 40 // raw flesh, then what is eaten raw, at one board
	amissSplit  = 12 // one job in two hands
	amissTouch  = 3  // a pot that is watched by two
	amissDish   = 6  // a dish that changes hands while it is being made
	amissLater  = 1  // one that does an hour later or more, or between the board and the stove
)

// Redeal gives each job to the cook who has its dish, where that is as well: the times
// of the plan stay as they are. When it finds no way of dealing them all out so, they
// stay with those who have them.
func (r *Result) Redeal() {
	if r.Solution == nil || len(r.Draft.Hands(nil)) < 2 {
		return
	}
	was := make([]plan.Task, len(r.Solution.Tasks))
	for i, t := range r.Solution.Tasks {
		was[i] = t
		r.Solution.Tasks[i].Members = slices.Clone(t.Members)
	}
	d := &dealing{r: r, all: r.errands()}
	d.index()
	d.better() // from who has it now
	had, score := slices.Clone(d.who), d.score
	if d.deal() {
		d.better() // and from the beginning
	}
	if d.score >= score {
		d.who = had
	}
	for i, e := range d.all {
		r.Solution.Tasks[e.act].Members[e.use] = d.who[i]
	}
	if r.Broken() {
		copy(r.Solution.Tasks, was)
	}
}

// Keepers is who has each dish for longest, by key, and which dishes change hands while
// they are made.
func (r *Result) Keepers() (who map[*demand.Making]string, change []*demand.Making) {
	who, change, _ = r.keepers()
	return who, change
}

// HandOvers is how often a dish goes from one cook to another while it is made.
func (r *Result) HandOvers() int {
	_, _, where := r.keepers()
	return len(where)
}

func (r *Result) keepers() (who map[*demand.Making]string, change []*demand.Making, where []string) {
	d := &dealing{r: r, all: r.errands()}
	d.index()
	who = map[*demand.Making]string{}
	for _, dish := range d.dishes {
		minutes := map[int]int{}
		was, changes, best := -1, false, -1
		for _, i := range dish {
			e := &d.all[i]
			if !e.main || !e.step {
				continue
			}
			if was >= 0 && d.all[was].act != e.act && d.who[was] != d.who[i] && e.starts-d.all[was].ends < breakMinutes {
				changes = true
				where = append(where, r.named(e.dish.M.Recipe.Name, e.starts))
			}
			if was < 0 || d.all[was].act != e.act { // it is with whoever begins it
				was = i
			}
			if minutes[d.who[i]] += e.to - e.from; best < 0 || minutes[d.who[i]] > minutes[best] {
				best = d.who[i]
			}
		}
		if changes {
			change = append(change, d.all[dish[0]].dish.M)
		}
		if c, ok := r.Draft.Kit.CookOf(best); ok {
			who[d.all[dish[0]].dish.M] = c.Key
		}
	}
	return who, change, where
}

// errands are the holds of cooks, in order of time.
func (r *Result) errands() (out []errand) {
	d := r.Draft
	add := func(j *problem.Job, is errand) {
		task := r.Solution.Tasks[j.Block.Act]
		for n, u := range d.P.Activities[j.Block.Act].Modes[task.Mode].Uses {
			if role := j.Block.Roles[n]; role != problem.CookRole && role != problem.HelpRole {
				continue
			}
			from, to := 0, task.End-task.Start
			if u.To > 0 {
				from, to = u.From, u.To
			}
			e := is
			e.act, e.use, e.of, e.from, e.to, e.amount = j.Block.Act, n, u.Of, task.Start+from, task.Start+to, u.Amount
			e.main = j.Block.Roles[n] == problem.CookRole
			e.touch = j.Kind != "" && j.Block.Touches(from, to, d.Grid)
			out = append(out, e)
		}
	}
	for _, b := range r.Blocks() {
		j := b.Jobs[0]
		is := errand{dish: j.Mk, step: j.Kind == timeline.StepJob && !j.Step.Step.Meanwhile, washes: j.Kind == timeline.WashJob}
		for _, o := range b.Jobs {
			is.soils, is.raw = is.soils || rawFlesh(o), is.raw || eatenRaw(o)
			is.starts, is.ends = r.Start(j), r.Start(j)+b.Length
			if o.Mk != j.Mk {
				is.dish = nil
			}
		}
		add(j, is)
	}
	for _, c := range d.Courses {
		add(c, errand{})
	}
	slices.SortStableFunc(out, func(a, b errand) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(b.amount, a.amount), cmp.Compare(len(a.of), len(b.of)))
	})
	return out
}

// dealing is who has each errand.
type dealing struct {
	r      *Result
	all    []errand
	who    []int
	dishes [][]int // the errands of each dish, in order of time
	acts   [][]int // those of each job
	boards []int   // those in which raw flesh is cut, what is eaten raw, or washed up
	score  int     // how much is amiss
	tries  int     // changes that may still be looked at
}

// amiss adds up what is amiss.
func (d *dealing) amiss() (sum int) {
	for _, act := range d.acts {
		has, sees := -1, -1
		for _, i := range act {
			e := &d.all[i]
			to, bad := &has, amissSplit
			if e.touch {
				to, bad = &sees, amissTouch
			}
			if !e.main {
				continue
			}
			if *to >= 0 && *to != d.who[i] {
				sum += bad
			}
			*to = d.who[i]
		}
	}
	for _, dish := range d.dishes {
		was, step := -1, -1
		for _, i := range dish {
			e := &d.all[i]
			if !e.main || was >= 0 && d.all[was].act == e.act {
				continue // what is only left is with whoever puts it in
			}
			switch {
			case was < 0:
			case e.step && step >= 0 && d.who[step] != d.who[i] && e.starts-d.all[step].ends < breakMinutes:
				sum += amissDish
			case d.who[was] != d.who[i]:
				sum += amissLater
			}
			if was = i; e.step {
				step = i
			}
		}
	}
	for n, i := range d.boards {
		if !d.all[i].soils {
			continue
		}
		for _, k := range d.boards[n+1:] {
			if d.who[k] == d.who[i] && d.all[k].starts >= d.all[i].ends {
				if d.all[k].raw && d.all[k].starts-d.all[i].ends < boardRest {
					sum += amissSoiled
				}
				break
			}
		}
	}
	return sum
}

func (d *dealing) index() {
	dishes, acts := map[*problem.Making]int{}, map[int]int{}
	put := func(to *[][]int, at map[int]int, key, i int) {
		n, ok := at[key]
		if !ok {
			n = len(*to)
			at[key], *to = n, append(*to, nil)
		}
		(*to)[n] = append((*to)[n], i)
	}
	byDish := map[int]int{}
	for i, e := range d.all {
		put(&d.acts, acts, e.act, i)
		if e.dish != nil {
			if _, ok := dishes[e.dish]; !ok {
				dishes[e.dish] = len(dishes)
			}
			put(&d.dishes, byDish, dishes[e.dish], i)
		}
		if e.soils || e.raw || e.washes {
			d.boards = append(d.boards, i)
		}
	}
	d.who = make([]int, len(d.all))
	d.asPlanned()
}

// asPlanned leaves everything with whom the engine gave it.
func (d *dealing) asPlanned() {
	for i, e := range d.all {
		d.who[i] = d.r.Solution.Tasks[e.act].Members[e.use]
	}
}

// may tells whether a cook is there for an errand and has a hand free, beside those they
// have among some.
func (d *dealing) may(c, i int, among func(int) bool) bool {
	e := d.all[i]
	res := d.r.Draft.P.Resources[c]
	if !slices.Contains(e.of, c) || !res.IsOpen(e.from, e.to) {
		return false
	}
	held := e.amount
	for k, o := range d.all {
		if k != i && d.who[k] == c && among(k) && o.from < e.to && e.from < o.to {
			held += o.amount
		}
	}
	return held <= res.Capacity
}

// deal hands errands out in order of time: to whoever began the job, else to whoever
// had the dish last, else to whoever had it in the engine's plan.
func (d *dealing) deal() bool {
	first := map[int]int{}            // who has a job, by activity
	last := map[*problem.Making]int{} // who has a dish
	for i, e := range d.all {
		best, most := -1, 0
		for _, c := range e.of {
			if !d.may(c, i, func(k int) bool { return k < i }) {
				continue
			}
			score := 1
			if f, ok := first[e.act]; ok && f == c {
				score += 8
			}
			if l, ok := last[e.dish]; ok && e.dish != nil && l == c {
				score += 4
			}
			if d.who[i] == c {
				score++
			}
			if score > most {
				best, most = c, score
			}
		}
		if best < 0 {
			return false
		}
		d.who[i] = best
		if _, ok := first[e.act]; !ok {
			first[e.act] = best
		}
		if e.dish != nil && !e.touch {
			last[e.dish] = best
		}
	}
	return true
}
