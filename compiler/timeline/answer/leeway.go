package answer

import (
	"fmt"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// morePlates is how many guests more a plan is tried with.
const morePlates = 2

// leeway says what two guests more would cost, if all of it is kept to as it is: each job
// takes as long as it then does, and what has to wait begins as soon as it can. Empty where
// no covers are written, or the plan is late as it is.
func (r *Result) leeway() string {
	d := r.Draft
	menu := d.Meal.Menu
	if !d.Clock || menu.Covers == 0 || d.Set.Keep != nil || !r.OnTime() {
		return ""
	}
	fits, full := &diag.List{}, &diag.List{}
	now, more := r.lengths(d.Meal, fits), r.lengths(withMore(d.Meal, menu.Covers), full)
	for _, f := range full.Sorted() {
		if f.Code == "P104" && !fits.Has(f.Code, f.At.Span) {
			return "Two more plates do not fit: " + f.Message + "."
		}
	}
	if len(now) != len(more) {
		return "Two more plates want one more load: " + timeline.Listed(moreLoads(now, more)) + "."
	}
	planned := map[problem.Key]*problem.Job{}
	for _, j := range d.Jobs {
		if r.On(j) {
			planned[j.Key()] = j
		}
	}
	var doubts []Doubt
	var off []float64
	for i, a := range now {
		j := planned[a.Key()]
		if j == nil || len(a.Parts) != len(more[i].Parts) || len(j.Parts) != len(a.Parts) {
			continue
		}
		for k, p := range more[i].Parts {
			if n := p.Length() - a.Parts[k].Length(); n > 0 {
				doubts, off = append(doubts, Doubt{Job: j, end: int(j.Parts[k].To), Planned: j.Parts[k].Length()}), append(off, float64(n))
			}
		}
	}
	sim := newSimulation(r, doubts)
	worst, _ := sim.run(off)
	if worst < 1 {
		return "Two more plates make nothing late."
	}
	var late []string
	for i, c := range d.Courses {
		if sim.late(i) >= 1 && c.Course != "" {
			late = append(late, c.Course)
		}
	}
	text := "Two more plates cost " + timeline.SpanWords(int(worst+0.5))
	if len(late) > 0 {
		text += fmt.Sprintf(": %s would be late by that much at most", timeline.Listed(late))
	}
	return text + "."
}

// moreLoads names what is done once more among some jobs than among others.
func moreLoads(now, more []*problem.Job) (out []string) {
	times := map[string]int{}
	title := func(j *problem.Job) string {
		what, _, _ := strings.Cut(j.Title, ", load ")
		return what
	}
	for _, j := range now {
		times[title(j)]++
	}
	for _, j := range more {
		if times[title(j)]--; times[title(j)] == -1 {
			out = append(out, title(j))
		}
	}
	return out
}

// lengths are the jobs of a meal of the plan's setup, to see how long each takes.
func (r *Result) lengths(meal *demand.Meal, diags *diag.List) []*problem.Job {
	set := r.Set
	set.Wash, set.Habits = problem.WashSet{None: true}, problem.Habits{}
	for _, ahead := range r.Set.Habits.Ahead {
		for i, m := range r.Draft.Meal.Makings {
			if m == ahead {
				set.Habits.Ahead = append(set.Habits.Ahead, meal.Makings[i])
			}
		}
	}
	return problem.Begin(meal, set, diags).Jobs
}

// withMore is a meal for more guests.
func withMore(meal *demand.Meal, covers int) *demand.Meal {
	grows := quantity.Int(int64(covers + morePlates)).Div(quantity.Int(int64(covers)))
	out := *meal
	out.Makings = nil
	copies := map[*demand.Making]*demand.Making{}
	for _, m := range meal.Makings {
		c := *m
		c.Factor, c.Portions, c.Lines = m.Factor.Mul(grows), m.Portions.Mul(grows), nil
		if m.Serving != nil {
			s := *m.Serving
			s.Covers += morePlates
			c.Serving = &s
		}
		copies[m] = &c
		out.Makings = append(out.Makings, &c)
	}
	for i, m := range meal.Makings {
		for _, a := range m.Lines {
			line := *a
			line.Making, line.Source = out.Makings[i], copies[a.Source]
			if q := a.Quantity; q != nil {
				line.Quantity = &quantity.Quantity{}
				*line.Quantity = *q
				line.Quantity.Value = q.Value.Mul(grows)
			}
			out.Makings[i].Lines = append(out.Makings[i].Lines, &line)
		}
	}
	return &out
}
