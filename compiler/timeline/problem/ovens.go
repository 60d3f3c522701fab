package problem

import (
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// ovenUses are the holds of a step on an oven: from the end of its work, one
// for each setting, until units. While the oven goes from one setting to the next the food
// stays in, in no particular state.
func (d *Draft) ovenUses(mk *Making, j *Job, units int) (uses []plan.Use) {
	s := j.Step.Step
	if len(s.Heats) == 0 || len(d.Kit.Ovens) == 0 {
		return nil
	}
	shelves := d.shelvesWanted(mk, j)
	j.Shelves = shelves
	var set []int
	var fit []Oven
	for _, o := range d.ovensFor(ovenOf(mk, s)) {
		if o.Shelves >= shelves {
			set, fit = append(set, o.Res), append(fit, o)
		}
	}
	was := mk.inOven(j)
	switch {
	case was != nil && was.tie > 0:
		j.tie = was.tie
	case len(s.Heats) > 1 || was != nil || mk.staysIn(j):
		d.ties++
		j.tie = d.ties
	}
	tie := j.tie
	for i, part := range j.HeatParts(d.Grid, units) {
		h := s.Heats[part.Heat]
		use := plan.Use{Of: set, Amount: shelves, From: part.From, To: part.To, State: &plan.Range{Lo: min(h.Low, h.High), Hi: max(h.Low, h.High)}, Tie: tie}
		if i > 0 || was != nil && farFrom(*use.State, was.lastHeat()) {
			before, n := was.lastHeat(), 0
			if i > 0 {
				before = s.Heats[part.Heat-1]
			}
			for _, o := range fit {
				n = max(n, d.changes(o, plan.Range{Lo: min(before.Low, before.High), Hi: max(before.Low, before.High)}, *use.State))
			}
			settle := min(use.From+n/d.Grid, use.To)
			if settle > use.From {
				uses = append(uses, plan.Use{Of: set, Amount: shelves, From: use.From, To: settle, Tie: tie})
			}
			if settle == use.To {
				continue
			}
			use.From = settle
		}
		uses = append(uses, use)
	}
	return uses
}

// ovenOf is which oven a step wants: as the menu pins it, else as it says itself.
func ovenOf(mk *Making, s *resolve.Step) string {
	if p := mk.M.Serving.Pin(s); p != nil && p.Oven != "" {
		return p.Oven
	}
	return s.Oven
}

// heatPart is the time an oven is at one setting of a step, in units from the
// step's start.
type heatPart struct{ Heat, From, To int }

// HeatParts cuts the time a step is in the oven at its settings.
func (j *Job) HeatParts(grid, units int) (parts []heatPart) {
	heats := j.Step.Step.Heats
	begin := j.WorkEnd
	if begin == j.Length { // worked all the time: it is in the oven while it is worked
		begin = 0
	}
	from, at := begin/grid, begin
	for i, h := range heats {
		to := units
		if i < len(heats)-1 && h.For > 0 {
			at += timeline.Minutes(h.For)
			to = min(timeline.CeilDiv(at, grid), units)
		}
		if to > from {
			parts = append(parts, heatPart{i, from, to})
		}
		from = to
	}
	return parts
}

// shelvesWanted is how many shelves a step takes: as written, times the
// scaling when the writer gave a number, all of them when it goes in loads.
func (d *Draft) shelvesWanted(mk *Making, j *Job) int {
	s := j.Step.Step
	most := d.mostShelves(ovenOf(mk, s))
	want := max(1, s.Shelves)
	if c := resolve.First[*resolve.InOven](s.Margin); c != nil && c.Shelves > 0 || s.Shelves > 1 {
		want = wholeMinutes(quantity.Int(int64(want)).Mul(mk.M.Factor))
	}
	if j.Loads > 1 {
		return min(max(want, 1), most)
	}
	if want > most {
		d.tooFew(j, "shelves", want, most)
		want = most
	}
	return max(1, want)
}

// oneStay tells whether a step goes on with what the step before left in the oven:
// nobody takes it out in between, whatever heat it goes on at.
func oneStay(s, n *resolve.Step) bool {
	if len(s.Phases) == 0 || len(n.Phases) == 0 || slices.ContainsFunc(slices.Concat(s.Phases, n.Phases), func(sp resolve.Spell) bool { return sp.Each.Load }) {
		return false
	}
	first := n.Phases[0]
	for _, sp := range n.Phases { // repeated attention is no work before it
		if sp.Every == nil || len(n.Phases) == 1 {
			first = sp
			break
		}
	}
	return len(s.Heats) > 0 && len(n.Heats) > 0 && s.Pause == n.Pause && s.Vessel == n.Vessel && s.Oven == n.Oven &&
		s.Phases[len(s.Phases)-1].Kind != resolve.Work && first.Kind != resolve.Work &&
		!n.Meanwhile && !s.Meanwhile && !n.AnyTime && len(n.After) == 0
}

func (d *Draft) oneStay(mk *Making, b before, j *Job) bool {
	return len(d.Kit.Ovens) > 0 && mk.inOven(j) == b.job
}

// inOven is the step whose food a step goes on with in the oven; nil for none.
func (mk *Making) inOven(j *Job) *Job {
	at := slices.Index(mk.Steps, j)
	if at < 0 { // it is being made
		at = len(mk.Steps)
	}
	if before := mk.plainBefore(at); len(before) == 1 && len(before[0].when) == 0 && len(j.When) == 0 && oneStay(before[0].job.Step.Step, j.Step.Step) {
		return before[0].job
	}
	return nil
}

// staysIn tells whether a step's food may stay in the oven for the next step, which
// is not made yet.
func (mk *Making) staysIn(j *Job) bool {
	all := mk.M.Reading.Steps
	i := slices.Index(all, j.Step)
	return i >= 0 && i+1 < len(all) && len(all[i+1].Step.Heats) > 0
}

// lastHeat is what an oven is at when a step ends.
func (j *Job) lastHeat() resolve.Heat {
	if j == nil {
		return resolve.Heat{}
	}
	return j.Step.Step.Heats[len(j.Step.Step.Heats)-1]
}

// farFrom tells whether two heats have no degree in common.
func farFrom(r plan.Range, h resolve.Heat) bool {
	return r.Hi < min(h.Low, h.High) || max(h.Low, h.High) < r.Lo
}
