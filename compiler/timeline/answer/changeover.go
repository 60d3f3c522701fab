package answer

import "slices"

const (
	// mostChanges is how many changes of hands are looked at for each errand of a plan.
	mostChanges = 40
	// mostDisplaced is how many errands one change may move.
	mostDisplaced = 12
)

// better changes hands over as long as that mends something: an errand, or a dish from
// one errand to another, goes to another cook, and what that cook has at the time to
// whoever gave it up.
func (d *dealing) better() {
	d.tries, d.score = mostChanges*len(d.all), d.amiss()
	cooks := d.r.Draft.Hands(nil)
	for changed := true; changed && d.tries > 0 && d.score > 0; {
		changed = false
		for i := range d.all {
			for _, run := range d.runs(i) {
				for _, c := range cooks {
					if c != d.who[i] && d.tries > 0 && d.change(run, c) {
						changed = true
					}
				}
			}
		}
	}
}

// runs are what may go from one cook to another with an errand: the errand, all of its
// job, and what the same cook has of the dish from there on.
func (d *dealing) runs(i int) (out [][]int) {
	out = append(out, []int{i})
	e := d.all[i]
	if e.dish == nil {
		return out
	}
	for _, all := range d.dishes {
		at := slices.Index(all, i)
		if at < 0 {
			continue
		}
		run := []int{i}
		for _, k := range all[at+1:] {
			if d.who[k] != d.who[i] {
				break
			}
			if run = append(run, k); len(run) > mostDisplaced {
				break
			}
			out = append(out, slices.Clone(run))
		}
		break
	}
	return out
}

// change gives errands to a cook and takes it back where that is no better.
func (d *dealing) change(run []int, to int) bool {
	d.tries--
	moved := map[int]int{} // who had what has moved
	give := func(i, c int) bool {
		if _, ok := moved[i]; ok || !slices.Contains(d.all[i].of, c) || !d.r.Draft.P.Resources[c].IsOpen(d.all[i].from, d.all[i].to) {
			return false
		}
		moved[i], d.who[i] = d.who[i], c
		return true
	}
	undo := func() {
		for i, c := range moved {
			d.who[i] = c
		}
	}
	var queue []int
	from := d.who[run[0]]
	for _, i := range run {
		if d.who[i] == to {
			continue
		}
		if !give(i, to) {
			undo()
			return false
		}
		queue = append(queue, i)
	}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		e, c := d.all[i], d.who[i]
		if d.held(c, e.from, e.to) <= d.r.Draft.P.Resources[c].Capacity {
			continue
		}
		other := from
		if c == from {
			other = to
		}
		for k, o := range d.all {
			if _, ok := moved[k]; ok || d.who[k] != c || o.from >= e.to || e.from >= o.to {
				continue
			}
			if len(moved) >= mostDisplaced || !give(k, other) {
				undo()
				return false
			}
			queue = append(queue, k)
		}
	}
	for i := range moved {
		if e := d.all[i]; d.held(d.who[i], e.from, e.to) > d.r.Draft.P.Resources[d.who[i]].Capacity {
			undo()
			return false
		}
	}
	now := d.amiss()
	if now < d.score {
		d.score = now
		return true
	}
	undo()
	return false
}

// held is how many hands of a cook are at work at most at one time of a span.
func (d *dealing) held(c, from, to int) (most int) {
	var all []errand
	for k, o := range d.all {
		if d.who[k] == c && o.from < to && from < o.to {
			all = append(all, o)
		}
	}
	for _, at := range all {
		n := 0
		for _, o := range all {
			if o.from <= max(at.from, from) && max(at.from, from) < o.to {
				n += o.amount
			}
		}
		most = max(most, n)
	}
	return most
}
