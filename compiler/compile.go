// Package compiler runs the passes in order: what load has read is resolved,
// its amounts are worked out, it is planned, and pages are made of it.
//
//	load → resolve → demand → timeline → check → events → figures, buying → sheets
//
// Each pass takes the one before as a value and returns a new one. What is
// wrong with the text travels beside them as diagnostics; only the caller
// decides whether to stop.
package compiler

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"maps"
	"path"
	"slices"
	"strings"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/load"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/sheets/build"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Options are what a caller may ask for.
type Options struct {
	Demand demand.Options  // other covers, portions, what is on hand
	Have   []buying.Have   // what is in the house and need not be bought
	Sheets []sheets.Kind   // the sheets to make; empty: the kitchen's pack
	Card   bool            // they go on file cards
	Cook   string          // whose work alone is printed; empty: everybody's
	Charge quantity.Number // what a cover is charged, for the cost card
	Units  quantity.System // the system amounts are printed in; empty: as written
	// PlanAll plans menus without a serving time too, on a relative clock.
	PlanAll bool
	// NoPlan leaves planning out.
	NoPlan bool
	// NoPages leaves the documents out: checking needs none.
	NoPages bool
	// Grid is the step of the printed clock in minutes: 1, 5, 10 or 15. 0 is 5.
	Grid int
	// Revision names what was read, on all that is printed of it, by the slash paths of its
	// pictures below its root; where it is nil or says nothing, a sum of the text does.
	Revision func(tree *load.Tree, pictures []string) string
	// Plans is what came of meals that were planned before, so that a meal that is printed
	// in another way is not planned again; nil: nothing is known.
	Plans *plan.Memory
}

// Result is everything the passes found.
type Result struct {
	Tree      *load.Tree
	Model     *resolve.Model
	Meals     []*demand.Meal
	Series    []*demand.Series
	Timelines []*timeline.Timeline // one for each meal; nil where there is no plan
	Pictures  map[source.Span]*load.Picture
	Documents []*sheets.Document
	Revision  string // of the text, or its name in a history, for what is printed of it; empty with NoPages
	Diags     *diag.List
}

// Compile runs all passes over what was read. It always returns a result: with
// errors among its diagnostics, documents are missing. When ctx ends, no further
// pass begins, and the result is not to be used.
func Compile(ctx context.Context, tree *load.Tree, opt Options) *Result {
	s := newSession(opt)
	s.last = true
	return s.Compile(ctx, tree)
}

// stopped is a result that nobody waits for any more.
func (r *Result) stopped(diags *diag.List) *Result {
	r.Timelines, r.Diags = make([]*timeline.Timeline, len(r.Meals)), diags
	return r
}

// plan plans every menu: those with a serving time, or all.
func (r *Result) plan(ctx context.Context, opt Options) {
	for i, meal := range r.Meals {
		if meal.Menu == nil || meal.Menu.Serve == nil && !opt.PlanAll {
			continue
		}
		r.Timelines[i] = planner.Plan(ctx, meal, timeline.Options{Grid: opt.Grid, Known: opt.Plans}, r.Diags)
	}
}

func (r *Result) documents(ctx context.Context, o Options) {
	opt := build.Options{Revision: r.Revision, Have: o.Have, Units: o.Units, Charge: o.Charge, Kinds: o.Sheets, Cook: o.Cook, Card: o.Card, Dash: r.dash(), Pictures: r.pictures()}
	defer r.ofSeries(ctx, o, opt)
	if len(opt.Kinds) > 0 && !slices.ContainsFunc(opt.Kinds, func(k sheets.Kind) bool { return !slices.Contains(sheets.SeriesKinds(), k) }) {
		return // of a series only
	}
	bound := r.bound(opt)
	if slices.Equal(opt.Kinds, []sheets.Kind{sheets.Book}) && !bound {
		return // there is none
	}
	if bound {
		r.Documents = []*sheets.Document{build.Book(r.recipes(o), r.Model.Books, opt)}
		return
	}
	if len(r.Meals) > 1 && r.Meals[0].Menu == nil {
		r.Documents = []*sheets.Document{build.Notebook(r.title(), r.Meals, r.Model.Books, opt)}
		return
	}
	for i, meal := range r.Meals {
		if ctx.Err() != nil {
			return
		}
		plan := r.events(i, opt)
		if plan != nil && opt.Wants(sheets.Wall) { // they hang at its foot
			for _, slip := range planner.Slips(ctx, r.Timelines[i], false) {
				if slip.Brief != "" {
					plan.Slips = append(plan.Slips, slip.Brief)
				}
			}
		}
		r.Documents = append(r.Documents, build.Meal(meal, plan, opt))
	}
}

// bound tells whether what is printed is a book: one was asked for by name, or lies in the
// folder, no menu does, and it was not left out by asking for something else.
func (r *Result) bound(opt build.Options) bool {
	if !slices.ContainsFunc(r.Model.Books, func(b *resolve.Book) bool { return b.Asked }) || !slices.ContainsFunc(r.Model.Recipes, func(x *resolve.Recipe) bool { return x.Asked }) {
		return false
	}
	if slices.Equal(opt.Kinds, []sheets.Kind{sheets.Book}) {
		return true
	}
	return (len(opt.Kinds) == 0 || slices.Contains(opt.Kinds, sheets.Book)) && len(r.Meals) > 0 && r.Meals[0].Menu == nil
}

// recipes is a meal for each recipe that was asked for; beside a menu they have none yet.
func (r *Result) recipes(o Options) []*demand.Meal {
	if len(r.Meals) > 0 && r.Meals[0].Menu == nil {
		return r.Meals
	}
	return demand.OfRecipes(r.Model, o.Demand, &diag.List{})
}

// events are what happens by the plan of a meal; nil where there is none.
func (r *Result) events(i int, opt build.Options) *events.List {
	if r.Timelines[i] == nil {
		return nil
	}
	return events.Printed(r.Timelines[i], figures.Options{Units: opt.Units, Dash: opt.Dash})
}

// pictures are what the sheets may show.
func (r *Result) pictures() map[source.Span]*sheets.Picture {
	out := map[source.Span]*sheets.Picture{}
	for c, p := range r.Pictures {
		out[c] = &sheets.Picture{Name: path.Base(p.Path), Words: p.Words, Type: p.Type, Data: p.Data, Width: p.Width, Height: p.Height}
	}
	return out
}

// dash tells whether the house style of what was asked for writes ranges with
// a dash.
func (r *Result) dash() bool {
	for _, f := range r.Tree.Files {
		if r.Tree.Asked(f) {
			return r.Model.House(f.Source.Span(0, 0)).Range == "dash"
		}
	}
	return false
}

// title names a folder without a menu: its book's title, else its own name.
func (r *Result) title() string {
	for _, b := range r.Model.Books {
		if b.Asked {
			return b.Name
		}
	}
	dir := path.Base(path.Join(r.Tree.Root, r.Tree.Dir))
	if dir == "." || dir == "/" {
		return "Recipes"
	}
	return dir
}

// files are the files that matter to what was asked for: those asked for, and
// those whose blocks the meals use.
func (r *Result) files() map[*source.File]bool {
	used := map[*source.File]bool{}
	dirs := map[string]bool{".": true}
	for _, f := range r.Tree.Files {
		if r.Tree.Asked(f) {
			used[f.Source] = true
			for d := f.Dir; d != "."; d = path.Dir(d) {
				dirs[d] = true
			}
		}
	}
	for _, meal := range r.Meals {
		for _, m := range meal.Makings {
			used[m.Recipe.Span.File] = true
		}
		if meal.Kitchen != nil {
			used[meal.Kitchen.Span.File] = true
		}
	}
	for _, s := range r.Model.Scopes { // larders that hold for the folders asked for
		if dirs[s.Dir] {
			for _, at := range s.Larders {
				used[at.File] = true
			}
		}
	}
	return used
}

// only keeps the findings of the files that matter.
func only(all *diag.List, files map[*source.File]bool) *diag.List {
	out, sorted := &diag.List{}, all.Sorted()
	out.Grow(len(sorted))
	for _, d := range sorted {
		if d.At.Span.File == nil || files[d.At.Span.File] {
			out.Add(d)
		}
	}
	return out
}

// stamp names what was read.
func (r *Result) stamp(opt Options) string {
	if opt.Revision != nil {
		seen := map[string]bool{}
		for _, p := range r.Pictures {
			seen[p.Path] = true
		}
		if name := opt.Revision(r.Tree, slices.Sorted(maps.Keys(seen))); name != "" {
			return name
		}
	}
	return revision(r.Tree, r.Pictures)
}

// revision is a short hash of everything that was read, so that two sheets
// with the same stamp came from the same text.
func revision(tree *load.Tree, pictures map[source.Span]*load.Picture) string {
	h := sha256.New()
	for _, f := range tree.Files {
		h.Write([]byte(f.Path + "\x00" + f.Source.Text + "\x00"))
	}
	seen := map[string][]byte{}
	for _, p := range pictures {
		seen[p.Path] = p.Data
	}
	for _, name := range slices.Sorted(maps.Keys(seen)) {
		h.Write([]byte(name + "\x00"))
		h.Write(seen[name])
	}
	return hex.EncodeToString(h.Sum(nil))[:6]
}

// Cooks tells whether a plan has work for somebody of that name.
func (r *Result) Cooks(name string) bool {
	return slices.ContainsFunc(r.Timelines, func(t *timeline.Timeline) bool {
		return t != nil && slices.ContainsFunc(t.Jobs, func(j *timeline.Job) bool {
			return slices.ContainsFunc(j.Cooks, func(c string) bool { return strings.EqualFold(c, name) })
		})
	})
}
