package plan

import "slices"

// Resources in the engine: a profile for each, a wider one for each set of interchangeable
// ones, an order for each pair that cannot run at once, and settings for states.

// claim is a use that may fall on a given resource.
type claim struct {
	hold
	activity int
	mode     int
	setting  variable // 0: no state asked
	states   Range
}

// claims lists the uses that may fall on resource r and take something of it: a hold of no
// length does not, except of what is used up.
func (c *encoding) claims(r int) []claim {
	var list []claim
	for i, a := range c.p.Activities {
		for k, m := range a.Modes {
			for n, u := range m.Uses {
				at := slices.Index(u.Of, r)
				if at < 0 || u.Amount == 0 {
					continue
				}
				from, to := u.window(m.Duration)
				if from >= to && !c.p.Resources[r].Stock {
					continue
				}
				cl := claim{activity: i, mode: k}
				cl.hold = hold{c.start[i], int32(from), int32(to), int32(u.Amount), c.member[i][k][n][at]}
				if u.State != nil {
					cl.setting, cl.states = c.settingAt(i, k, n), *u.State
				}
				list = append(list, cl)
			}
		}
	}
	return list
}

func (c *encoding) encodeResources() {
	pairs := pairBudget
	for r := range c.p.Resources {
		res := &c.p.Resources[r]
		g := c.guard(ruleResource, r)
		if c.pool[r] != nil {
			continue // see encodeSets
		}
		claims := c.claims(r)
		for i := range claims {
			claims[i].on = c.all(claims[i].on, g)
		}
		if res.Stock {
			c.stock(res.Capacity, claims)
			continue
		}
		holds := make([]hold, len(claims))
		for i := range claims {
			holds[i] = claims[i].hold
		}
		c.e.cumulate(int32(res.Capacity), c.closures(res, 0), holds)
		c.exclude(int32(res.Capacity), claims, &pairs)
		if res.State != nil {
			c.states(res, claims)
		}
	}
	c.encodeSets()
}

// stock limits the sum of all claims.
func (c *encoding) stock(capacity int, claims []claim) {
	var terms []term
	limit := int64(capacity)
	for _, cl := range claims {
		t, add := count(cl.on, cl.amount)
		limit -= add
		if t.factor > 0 {
			terms = append(terms, t)
		}
	}
	c.e.sum(terms, limit, always)
}

// count is the number 1 if l holds and else 0, times factor, as a term and a constant.
func count(l lit, factor int32) (term, int64) {
	if l == always || factor == 0 {
		return term{}, int64(factor)
	}
	if l.max < 0 { // x >= 1: the value of x
		return term{l.side ^ 1, factor}, 0
	}
	return term{l.side ^ 1, factor}, int64(factor) // x <= 0: 1 - x
}

// closures is the capacity the calendar takes away; lead closes that much more at the start
// of each spell.
func (c *encoding) closures(res *Resource, lead int) []block {
	spells := res.Calendar
	if len(spells) == 0 {
		if lead == 0 {
			return nil
		}
		spells = []Span{{0, c.p.Horizon + c.loose()}}
	}
	var shut []block
	at := int32(0)
	for k := 0; k < len(spells); k++ {
		from, to := spells[k].From, spells[k].To
		for k+1 < len(spells) && spells[k+1].From == to {
			k++
			to = spells[k].To
		}
		if open := int32(min(from+lead, to)); open > at {
			shut = append(shut, block{at, open, int32(res.Capacity)})
		}
		at = int32(to)
	}
	if end := int32(c.p.Horizon+c.loose()) + 1; at < end {
		shut = append(shut, block{at, end, int32(res.Capacity)})
	}
	return shut
}

// pairBudget limits the choices made for pairs that exclude each other, of which large
// projects have more than they are worth.
const pairBudget = 2500

// exclude gives each pair of claims too large for the resource together an order to choose.
func (c *encoding) exclude(capacity int32, claims []claim, budget *int) {
	for i := range claims {
		for j := range i {
			a, b := &claims[i], &claims[j]
			if a.activity == b.activity || a.on != always || b.on != always || a.amount+b.amount <= capacity || a.amount > capacity || b.amount > capacity {
				continue
			}
			if *budget--; *budget < 0 {
				return
			}
			c.apart(a, b, 0, nil)
		}
	}
}

// apart keeps two claims at least gap apart, in either order, if both are on; or else lets
// one of the other statements hold.
func (c *encoding) apart(a, b *claim, gap int32, or []lit) {
	if c.ordered(&a.hold, &b.hold, gap) || c.ordered(&b.hold, &a.hold, gap) {
		return
	}
	first, second := c.eitherFirst(a, b, or)
	c.e.after(b.start, a.start, a.to+gap-b.from, first)
	c.e.after(a.start, b.start, b.to+gap-a.from, second)
}

// eitherFirst makes the choice of which of two claims comes first, if both are on, unless one
// of the other statements holds.
func (c *encoding) eitherFirst(a, b *claim, or []lit) (first, second lit) {
	first = c.e.newChoice()
	second = first.not()
	if a.on != always || b.on != always || len(or) > 0 {
		second = c.e.newChoice()
		c.e.addClause(append([]lit{a.on.not(), b.on.not(), first, second}, or...)...)
	}
	return first, second
}

// ordered says whether bounds alone put b at least gap after a.
func (c *encoding) ordered(a, b *hold, gap int32) bool {
	return c.e.lo(b.start)+b.from >= c.e.hi(a.start)+a.to+gap
}

// states gives the settings of every two claims on the resource: equal, or far enough apart.
func (c *encoding) states(res *Resource, claims []claim) {
	var with []claim
	for _, cl := range claims {
		if cl.setting != 0 {
			with = append(with, cl)
		}
	}
	if res.State.First > 0 {
		shut := c.closures(res, res.State.First)
		for _, cl := range with {
			one := cl.hold
			one.amount = 1
			for k := range shut {
				shut[k].amount = 1
			}
			c.e.cumulate(1, shut, []hold{one})
		}
	}
	for i := range with {
		for j := range i {
			a, b := &with[i], &with[j]
			if a.activity == b.activity && a.mode != b.mode {
				continue
			}
			var or []lit
			if max(a.states.Lo, b.states.Lo) <= min(a.states.Hi, b.states.Hi) {
				if a.states.Lo == a.states.Hi && a.states == b.states {
					continue
				}
				same := c.e.newChoice()
				c.e.after(a.setting, b.setting, 0, same)
				c.e.after(b.setting, a.setting, 0, same)
				or = []lit{same}
			}
			if a.activity != b.activity {
				c.changed(a, b, res.State, or)
			} else {
				c.within(a, b, res.State, or)
			}
		}
	}
}

// changed keeps two claims as far apart as going from the value of the one to that of the
// other takes, in either order, unless one of the other statements holds.
func (c *encoding) changed(a, b *claim, rule *State, or []lit) {
	shortAB, longAB := rule.extremes(a.states, b.states)
	shortBA, longBA := rule.extremes(b.states, a.states)
	if c.ordered(&a.hold, &b.hold, int32(longAB)) || c.ordered(&b.hold, &a.hold, int32(longBA)) {
		return
	}
	first, second := c.eitherFirst(a, b, or)
	c.follow(a, b, rule, shortAB, first)
	c.follow(b, a, rule, shortBA, second)
}

// follow puts b after a, if first holds: by the shortest gap there can be between them, and by
// each longer one or else with values that are near enough for the one before.
func (c *encoding) follow(a, b *claim, rule *State, shortest int, first lit) {
	c.e.after(b.start, a.start, a.to+int32(shortest)-b.from, first)
	for _, dir := range []struct {
		low, high   variable
		speed, most int
	}{
		{a.setting, b.setting, rule.Up, b.states.Hi - a.states.Lo},
		{b.setting, a.setting, rule.Down, a.states.Hi - b.states.Lo},
	} {
		if dir.speed == 0 {
			continue // a gap of Change, whatever the way
		}
		step := max(1, rule.Step)
		for way := shortest / step * dir.speed; way < dir.most; way += dir.speed {
			gap := (way/dir.speed + 1) * step
			long, near := c.e.newChoice(), c.e.newChoice()
			c.e.addClause(first.not(), long, near)
			c.e.after(b.start, a.start, a.to+int32(gap)-b.from, long)
			c.e.after(dir.low, dir.high, int32(-way), near)
		}
	}
}

// within limits the values of two claims of one activity, whose places are fixed to each other,
// to those between which there is time to change, unless one of the other statements holds.
func (c *encoding) within(a, b *claim, rule *State, or []lit) {
	if b.to <= a.from {
		a, b = b, a
	}
	time := int(b.from - a.to) // negative: they overlap, and may not differ
	off := []lit{a.on.not(), b.on.not()}
	if shortest, longest := rule.extremes(a.states, b.states); time < shortest {
		c.e.addClause(append(off, or...)...)
		return
	} else if time >= longest {
		return
	}
	fits := c.e.newChoice()
	c.e.addClause(append(append(off, fits), or...)...)
	reach := time / max(1, rule.Step)
	if rule.Up > 0 {
		c.e.after(a.setting, b.setting, int32(-reach*rule.Up), fits)
	}
	if rule.Down > 0 {
		c.e.after(b.setting, a.setting, int32(-reach*rule.Down), fits)
	}
}

// encodeSets adds, for each set of interchangeable resources, the rule that uses which can
// only be served from the set do not outnumber it. It follows from the rules of the members,
// but is seen long before the members are chosen.
func (c *encoding) encodeSets() {
	var sets [][]int
	for _, a := range c.p.Activities {
		for _, m := range a.Modes {
			for _, u := range m.Uses {
				if len(u.Of) < 2 {
					continue
				}
				set := slices.Sorted(slices.Values(u.Of))
				if !slices.ContainsFunc(sets, func(s []int) bool { return slices.Equal(s, set) }) {
					sets = append(sets, set)
				}
			}
		}
	}
	for _, set := range sets {
		c.encodeSet(set)
	}
}

func (c *encoding) encodeSet(set []int) {
	capacity := 0
	var shut []block
	var guards []lit
	for _, r := range set {
		guards = append(guards, c.guard(ruleResource, r))
		res := &c.p.Resources[r]
		if res.Stock {
			return
		}
		capacity += res.Capacity
		shut = append(shut, c.closures(res, 0)...)
	}
	var holds []hold
	for i, a := range c.p.Activities {
		for k, m := range a.Modes {
			for _, u := range m.Uses {
				if slices.ContainsFunc(u.Of, func(r int) bool { return !slices.Contains(set, r) }) {
					continue
				}
				from, to := u.window(m.Duration)
				on := c.all(append([]lit{c.mode[i][k]}, guards...)...)
				holds = append(holds, hold{c.start[i], int32(from), int32(to), int32(u.Amount), on})
			}
		}
	}
	c.e.cumulate(int32(capacity), shut, holds)
}
