package compiler

import (
	"context"
	"slices"

	"tamis/compiler/check"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Session compiles a book again and again while it is being written. What a pass
// made of a recipe is kept, and made again only where the recipe, or what it
// draws on, has changed. The result is the one that Compile gives.
//
//	tree, err := load.Path("book")
//	s := compiler.NewSession(compiler.Options{NoPages: true})
//	r := s.Compile(ctx, tree)
//	tree, err = tree.Change(ctx, map[string]*string{"soups/leek.tamis": &text})
//	r = s.Compile(ctx, tree) // the result before is used up
//
// A session is for one goroutine at a time.
type Session struct {
	opt   Options
	last  bool // it compiles once, and takes no notes for the next time
	model *resolve.Model
	meals *demand.Memory
	found *check.Memory
}

// NewSession begins a session in which every result is wanted with the same options.
// A meal whose work has not changed is not planned again.
func NewSession(opt Options) *Session {
	if opt.Plans == nil {
		opt.Plans = &plan.Memory{}
	}
	return newSession(opt)
}

func newSession(opt Options) *Session {
	opt.Demand.Findings = opt.NoPages
	return &Session{opt: opt}
}

// Work tells in how many recipes the last Compile gave names their meaning, and
// in how many it ran the rules that look at one recipe.
func (s *Session) Work() (resolved, checked int) { return len(s.model.Fresh()), s.found.Ran() }

// Compile runs all passes over a book as it is now, see Compile. What is the same
// *load.File as the last time was not changed, and tree.Change keeps those. The
// result of the call before is not to be used any more.
func (s *Session) Compile(ctx context.Context, tree *load.Tree) *Result {
	opt, all := s.opt, &diag.List{}
	all.AddAll(&tree.Diags)
	r := &Result{Tree: tree}
	if s.last {
		s.model = resolve.Build(tree, all)
	} else {
		s.model = resolve.Rebuild(s.model, tree, all)
	}
	r.Model = s.model
	if ctx.Err() != nil {
		return r.stopped(all)
	}
	r.Meals, s.meals = demand.MealsAgain(s.meals, r.Model, opt.Demand, all)
	r.Series = demand.SeriesOf(r.Model, r.Meals, opt.Demand, all)
	if ctx.Err() != nil {
		return r.stopped(all)
	}
	used := r.files()
	r.Pictures = tree.Pictures(func(f *source.File) bool { return used[f] }, all)
	r.Diags = only(all, used)
	r.Timelines = make([]*timeline.Timeline, len(r.Meals))
	stage := check.Resolved
	if !r.Diags.HasErrors() {
		stage = check.Demanded
		if !opt.NoPlan {
			stage = check.Planned
			r.plan(ctx, opt)
		}
	}
	pass := check.Pass{Tree: tree, Model: r.Model, Meals: r.Meals, Series: r.Series, Timelines: r.Timelines, Before: s.found}
	s.found = check.Run(ctx, pass, stage, r.Diags)
	if ctx.Err() != nil {
		return r.stopped(r.Diags)
	}
	if stage == check.Planned && slices.Contains(r.Timelines, nil) {
		stage = check.Demanded // a menu without a serving time is not planned
	}
	r.Diags = check.Silence(tree, r.Diags, stage)
	if !opt.NoPages {
		r.Revision = r.stamp(opt)
		if !r.Diags.HasErrors() {
			r.documents(ctx, opt)
		}
	}
	return r
}
