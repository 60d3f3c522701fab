package compiler

import (
	"context"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/filming"
	"tamis/compiler/sheets"
	"tamis/compiler/sheets/build"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/lang/diag"
)

// ofSeries adds the paper of every series that was asked for: what those who watch are
// handed, after the whole, and the crew's.
func (r *Result) ofSeries(ctx context.Context, o Options, opt build.Options) {
	for _, s := range r.Series {
		of := build.Paper{Series: s, Books: r.Model.Books}
		if i := slices.Index(r.Meals, s.Meal); i >= 0 {
			of.Plan = r.events(i, opt)
		}
		var docs []*sheets.Document
		if opt.Wants(sheets.Series) || opt.Wants(sheets.Leaf) {
			of.Alone = alone(ctx, s.Home, o, opt)
		}
		if opt.Wants(sheets.Series) {
			docs = append(docs, build.Whole(of, opt))
		}
		if opt.Wants(sheets.Leaf) {
			docs = append(docs, build.Leaves(of, opt)...)
		}
		if opt.Wants(sheets.Crew) {
			of.Days = filmed(ctx, s, o, opt)
			docs = append(docs, build.Crew(of, opt))
		}
		build.Together(docs)
		r.Documents = append(r.Documents, docs...)
	}
}

// alone plans each thing of a series by itself, as it is made at home: by one cook, in a
// kitchen of which nothing is known. What is wrong with its times was said of the recipe.
func alone(ctx context.Context, s *demand.Series, o Options, opt build.Options) map[*demand.Making]*events.List {
	out := map[*demand.Making]*events.List{}
	if o.NoPlan {
		return out
	}
	for _, p := range s.Parts {
		for _, m := range p.Shown {
			meal := &demand.Meal{Title: m.Recipe.Name, Makings: append(demand.DrawnOn(m), m)}
			if t := planner.Plan(ctx, meal, timeline.Options{Grid: 1, Known: o.Plans}, &diag.List{}); t != nil {
				out[m] = events.Printed(t, figures.Options{Units: opt.Units, Dash: opt.Dash})
			}
		}
	}
	return out
}

// filmed are the days on which a series is shown, with the plan of the copies of each.
func filmed(ctx context.Context, s *demand.Series, o Options, opt build.Options) (out []*filming.Day) {
	by := alone(ctx, s, o, opt)
	for _, day := range s.Days() {
		d := filming.Of(day, by)
		var plan *events.List
		if meal := d.Meal(s); meal != nil && !o.NoPlan {
			if t := planner.Plan(ctx, meal, timeline.Options{Known: o.Plans}, &diag.List{}); t != nil {
				plan = events.Printed(t, figures.Options{Units: opt.Units, Dash: opt.Dash})
			}
		}
		d.Planned(plan, by)
		out = append(out, d)
	}
	return out
}
