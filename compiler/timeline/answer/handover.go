package answer

import (
	"cmp"
	"fmt"
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// hold is a stretch of a resource that a block takes, in minutes. Its first
// job takes it and its last gives it up.
type hold struct {
	block    *problem.Block
	from, to timeline.Minute
	amount   int
	setting  int
	stated   bool
	touch    bool // a minute in which somebody sees to what is left
}

// handOvers are the arcs from each job to those that next take what it takes:
// who has a resource after whom stays as it is. Each unit of a resource is
// handed from hold to hold; so however jobs are pushed along these arcs, no
// more is held at once than there is (a partial order schedule: Policella,
// Cesta, Oddi & Smith 2007, from memory).
func (r *Result) handOvers() (out []arc) {
	holds := r.Holds()
	for res := range r.Draft.P.Resources {
		hs := holds[res]
		slices.SortStableFunc(hs, func(a, b hold) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
		out = append(out, r.handed(res, hs)...)
		out = append(out, r.changes(res, hs)...)
	}
	return out
}

// Holds lists what is held of each resource. Someone's being there is shared by
// all.
func (r *Result) Holds() map[int][]hold {
	d := r.Draft
	out := map[int][]hold{}
	blocks := r.Blocks()
	for _, c := range d.Courses {
		blocks = append(blocks, c.Block)
	}
	for _, b := range blocks {
		task := r.Solution.Tasks[b.Act]
		for n, u := range d.P.Activities[b.Act].Modes[task.Mode].Uses {
			if b.Roles[n] == problem.HereRole {
				continue
			}
			from, to := 0, task.End-task.Start
			if u.To > 0 {
				from, to = u.From, u.To
			}
			at := d.Origin + task.Start*d.Grid
			if b.Roles[n] == problem.CookRole && u.Amount < d.Grid { // a minute within the unit
				if x, ok := b.TouchIn(u.From, d.Grid); ok {
					out[task.Members[n]] = append(out[task.Members[n]], hold{b, at + int(x.From), at + int(x.To), u.Amount, 0, false, true})
					continue
				}
			}
			out[task.Members[n]] = append(out[task.Members[n]], hold{
				b, at + from*d.Grid, min(at+to*d.Grid, at+max(1, b.Length)), u.Amount, task.Settings[n], u.State != nil,
				b.Roles[n] == problem.CookRole && b.Touches(from, to, d.Grid),
			})
		}
	}
	return out
}

// handed hands the units of a resource from hold to hold, in order of time. A
// hold takes first what its own dish had, then what nobody had, then what has
// been free the longest.
func (r *Result) handed(res int, hs []hold) (out []arc) {
	units := make([]int, r.Draft.P.Resources[res].Capacity) // 1 + the hold that had it last; 0: none
	for i, h := range hs {
		free := make([]int, 0, len(units))
		for u, last := range units {
			if last == 0 || hs[last-1].to <= h.from {
				free = append(free, u)
			}
		}
		rank := func(u int) int {
			switch last := units[u]; {
			case last == 0:
				return 1
			case hs[last-1].block.Jobs[0].Mk == h.block.Jobs[0].Mk:
				return 0
			}
			return 2
		}
		slices.SortStableFunc(free, func(u, v int) int {
			if c := cmp.Compare(rank(u), rank(v)); c != 0 || units[u] == 0 || units[v] == 0 {
				return c
			}
			return cmp.Compare(hs[units[u]-1].to, hs[units[v]-1].to)
		})
		from := map[int]bool{}
		for _, u := range free[:min(h.amount, len(free))] {
			if last := units[u]; last > 0 && !from[last] {
				from[last] = true
				out = append(out, r.handOver(res, hs[last-1], h, 0)...)
			}
			units[u] = i + 1
		}
	}
	return out
}

// changes keeps uses of an oven at different heats apart.
func (r *Result) changes(res int, hs []hold) (out []arc) {
	rule := r.Draft.P.Resources[res].State
	if rule == nil {
		return nil
	}
	for i, a := range hs {
		for _, b := range hs[i+1:] {
			if a.stated && b.stated && a.setting != b.setting && b.from >= a.to {
				out = append(out, r.handOver(res, a, b, rule.Gap(a.setting, b.setting)*r.Draft.Grid)...)
			}
		}
	}
	return out
}

// handOver is the arc from one hold to another, if they are of two blocks.
func (r *Result) handOver(res int, a, b hold, gap int) []arc {
	if a.block == b.block {
		return nil
	}
	last, first := a.block.Jobs[len(a.block.Jobs)-1], b.block.Jobs[0]
	why := func() string {
		what := r.Draft.P.Resources[res].Name
		switch {
		case res == r.Draft.Kit.Rings:
			what = "its ring"
		case a.stated || b.stated:
			what = "the " + timeline.OvenWords(what)
		}
		return fmt.Sprintf("%s is wanted for %s at %s", what, first.Of(), r.clockText(r.moment(problem.Moment{Job: first, At: b.from - r.Start(first)})))
	}
	return []arc{{last, first, a.to - r.Start(last), b.from - r.Start(first), gap, why, a.touch || b.touch}}
}
