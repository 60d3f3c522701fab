package problem

import (
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
	for _, o := range d.ovensFor(s.Oven) {
		if o.Shelves >= shelves {
			set, fit = append(set, o.Res), append(fit, o)
		}
	}
	tie := 0
	if len(s.Heats) > 1 {
		d.ties++
		tie = d.ties
	}
	for i, part := range j.HeatParts(d.Grid, units) {
		h := s.Heats[part.Heat]
		use := plan.Use{Of: set, Amount: shelves, From: part.From, To: part.To, State: &plan.Range{Lo: min(h.Low, h.High), Hi: max(h.Low, h.High)}, Tie: tie}
		if i > 0 {
			before, n := s.Heats[part.Heat-1], 0
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
	most := d.mostShelves(s.Oven)
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
