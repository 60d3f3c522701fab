package plan

import (
	"context"
	"slices"
)

// Why there is no plan: a small set of rules that cannot all be kept.
//
// The problem is encoded once more, each rule with a guard that switches it on. Assuming all
// guards, the search fails, and the choices its failure rests on are a first, already small
// set (an unsatisfiable core). Then each rule of the set is left out in turn: if the rest
// still fails, it was not needed (deletion filtering: Chinneck & Dravnieks 1991).

// explain finds a conflict. sure says that it is proven that no plan exists.
func explain(ctx context.Context, p *Problem, sure bool, limit int) (*Conflict, int) {
	c := encode(p, true)
	g := newGuide(c, p.Goal == Kitchen)
	used := 0
	all := c.guardOrder()
	// What bounds the times comes first: pushing anything about without them takes for ever.
	kinds := c.kinds()
	order := slices.Clone(all)
	slices.SortStableFunc(order, func(a, b lit) int { return early[kinds[a]] - early[kinds[b]] })
	test := func(rules []lit, most int) (verdict, []lit) {
		before := c.e.conflicts
		var on, off []lit
		for _, l := range order {
			if slices.Contains(rules, l) {
				on = append(on, l)
			} else {
				off = append(off, l.not()) // or the search might switch it on by itself
			}
		}
		v, blamed := c.e.search(ctx, off, on, g, most)
		c.e.backTo(0)
		used += c.e.conflicts - before + 1
		return v, blamed
	}
	core := all
	v, blamed := test(core, limit)
	if v == found { // a plan after all: nothing to blame
		return &Conflict{}, used
	}
	proven := v == refuted
	if proven {
		core = keep(core, blamed)
	}
	each := max(100, limit/10)
	if proven { // what takes few choices to see takes few with less
		each = min(each, 20+4*used)
	}
	most := limit
	if proven {
		most *= 2 // it is worth more
	}
	out := func() bool { return used > most || ctx.Err() != nil }
	if !proven {
		core = c.halve(core, out, func(rest []lit) bool { v, _ := test(rest, 100); return v != found })
	}
	for size := len(core) / 4; proven && size >= 8; size /= 2 { // by the handful first
		for i := 0; i+size <= len(core) && !out(); {
			rest := slices.Delete(slices.Clone(core), i, i+size)
			if v, blamed := test(rest, each); v == refuted {
				core = keep(rest, blamed)
			} else {
				i += size
			}
		}
	}
	for i := 0; i < len(core) && !out(); {
		rest := slices.Delete(slices.Clone(core), i, i+1)
		v, blamed := test(rest, each)
		switch {
		case v == refuted:
			core = keep(rest, blamed)
			i = min(i, len(core))
		case v == unknown && !proven:
			core = rest
		default:
			i++
		}
	}
	return c.blame(core, proven), used
}

// halve is for when the search only gave up. It leaves out whole kinds of rules, then halves of
// what is left, then quarters and so on, as long as no plan is found without them (after
// Zeller & Hildebrandt's delta debugging, 2002).
func (c *encoding) halve(core []lit, out func() bool, fails func([]lit) bool) []lit {
	kinds := c.kinds()
	for _, kind := range []ruleKind{ruleBranch, ruleLag, ruleDue, ruleHorizon} {
		rest := slices.DeleteFunc(slices.Clone(core), func(l lit) bool { return kinds[l] == kind })
		if len(rest) < len(core) && !out() && fails(rest) {
			core = rest
		}
	}
	for size := len(core) / 2; size > 1; size /= 2 {
		for i := 0; i+size <= len(core) && !out(); {
			if rest := slices.Delete(slices.Clone(core), i, i+size); fails(rest) {
				core = rest
			} else {
				i += size
			}
		}
	}
	return core
}

// keep is the part of rules that is blamed, in the order of rules.
func keep(rules, blamed []lit) []lit {
	var out []lit
	for _, l := range rules {
		if slices.Contains(blamed, l) {
			out = append(out, l)
		}
	}
	return out
}

// early says which kinds of rules are assumed before others.
var early = map[ruleKind]int{ruleHorizon: 0, ruleDue: 1, ruleBranch: 2, ruleActivity: 3, ruleLag: 4, ruleResource: 5}

// kinds is the kind of rule of each guard.
func (c *encoding) kinds() map[lit]ruleKind {
	kinds := make(map[lit]ruleKind, len(c.guards))
	for r, l := range c.guards {
		kinds[l] = r.kind
	}
	return kinds
}

// guardOrder lists the guards; those to be got rid of first come first.
func (c *encoding) guardOrder() []lit {
	rules := make([]rule, 0, len(c.guards))
	for r := range c.guards {
		rules = append(rules, r)
	}
	rank := map[ruleKind]int{ruleBranch: 0, ruleDue: 1, ruleLag: 2, ruleActivity: 3, ruleResource: 4, ruleHorizon: 5}
	slices.SortFunc(rules, func(a, b rule) int {
		if a.kind != b.kind {
			return rank[a.kind] - rank[b.kind]
		}
		return a.n - b.n
	})
	lits := make([]lit, len(rules))
	for i, r := range rules {
		lits[i] = c.guards[r]
	}
	return lits
}

// blame turns guards back into the rules they stand for.
func (c *encoding) blame(core []lit, proven bool) *Conflict {
	out := &Conflict{Proven: proven}
	for r, l := range c.guards {
		if !slices.Contains(core, l) {
			continue
		}
		switch r.kind {
		case ruleLag:
			out.Lags = append(out.Lags, r.n)
		case ruleResource:
			out.Resources = append(out.Resources, r.n)
		case ruleActivity:
			out.Activities = append(out.Activities, r.n)
		case ruleDue:
			out.Dues = append(out.Dues, r.n)
		case ruleBranch:
			out.Branches = append(out.Branches, r.n)
		case ruleHorizon:
			out.Horizon = true
		}
	}
	for _, list := range [][]int{out.Lags, out.Resources, out.Activities, out.Dues, out.Branches} {
		slices.Sort(list)
	}
	return out
}
