package timeline

import (
	"cmp"
	"fmt"
	"slices"
)

// hold is a stretch of a resource that a block takes, in minutes. Its first
// job takes it and its last gives it up.
type hold struct {
	block    *block
	from, to Minute
	amount   int
	setting  int
	stated   bool
}

// handOvers are the arcs from each job to those that next take what it takes:
// who has a resource after whom stays as it is. Each unit of a resource is
// handed from hold to hold; so however jobs are pushed along these arcs, no
// more is held at once than there is (a partial order schedule: Policella,
// Cesta, Oddi & Smith 2007, from memory).
func (r *result) handOvers() (out []arc) {
	holds := r.holds()
	for res := range r.draft.p.Resources {
		hs := holds[res]
		slices.SortStableFunc(hs, func(a, b hold) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
		out = append(out, r.handed(res, hs)...)
		out = append(out, r.changes(res, hs)...)
	}
	return out
}

// holds lists what is held of each resource. Someone's being there is shared by
// all.
func (r *result) holds() map[int][]hold {
	d := r.draft
	out := map[int][]hold{}
	for _, b := range r.blocks() {
		task := r.solution.Tasks[b.act]
		for n, u := range d.p.Activities[b.act].Modes[task.Mode].Uses {
			if b.roles[n] == hereRole {
				continue
			}
			from, to := 0, task.End-task.Start
			if u.To > 0 {
				from, to = u.From, u.To
			}
			at := d.origin + task.Start*d.grid
			out[task.Members[n]] = append(out[task.Members[n]], hold{
				b, at + from*d.grid, min(at+to*d.grid, at+b.length), u.Amount, task.Settings[n], u.State != nil,
			})
		}
	}
	return out
}

// handed hands the units of a resource from hold to hold, in order of time. A
// hold takes first what its own dish had, then what nobody had, then what has
// been free the longest.
func (r *result) handed(res int, hs []hold) (out []arc) {
	units := make([]int, r.draft.p.Resources[res].Capacity) // 1 + the hold that had it last; 0: none
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
			case hs[last-1].block.jobs[0].mk == h.block.jobs[0].mk:
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
func (r *result) changes(res int, hs []hold) (out []arc) {
	rule := r.draft.p.Resources[res].State
	if rule == nil {
		return nil
	}
	for i, a := range hs {
		for _, b := range hs[i+1:] {
			if a.stated && b.stated && a.setting != b.setting && b.from >= a.to {
				out = append(out, r.handOver(res, a, b, rule.Gap(a.setting, b.setting)*r.draft.grid)...)
			}
		}
	}
	return out
}

// handOver is the arc from one hold to another, if they are of two blocks.
func (r *result) handOver(res int, a, b hold, gap int) []arc {
	if a.block == b.block {
		return nil
	}
	last, first := a.block.jobs[len(a.block.jobs)-1], b.block.jobs[0]
	what := r.draft.p.Resources[res].Name
	switch {
	case res == r.draft.kit.rings:
		what = "its ring"
	case a.stated || b.stated:
		what = "the " + ovenWords(what)
	}
	text := fmt.Sprintf("%s is wanted for %s at %s", what, first.of(), r.clockText(b.from))
	return []arc{{last, first, a.to - r.start(last), b.from - r.start(first), gap, text}}
}
