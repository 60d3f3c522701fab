package check

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// part is what the rules that are not Whole look at in one go: all menus, with
// what they make, or one recipe, with all its own rules one after another while
// its text is at hand.
type part struct {
	recipe    *resolve.Recipe // nil: the menus
	meals     []*demand.Meal
	timelines []*timeline.Timeline
	*findings
}

// findings are what the rules found in a part.
type findings struct {
	meal   *demand.Meal // of the recipe itself; nil where menus say what is made
	made   bool         // a menu makes it: the safety rules look at it there
	broken bool         // its block did not read
	stages Stage        // rules of so many stages have run, from Resolved
	notes  *notes
	list   []finding // by stage
}

type finding struct {
	rule int // in All
	diag.Diagnostic
}

// Memory is what a run found in each recipe, for the next run over the same
// book. A recipe that resolve takes over from the model before is the same
// *Recipe, and so is all it draws on: what was found in it then holds now.
type Memory struct {
	house string
	of    map[*resolve.Recipe]*findings
	slips *slips
	ran   int
}

// Ran is in how many recipes rules were run.
func (m *Memory) Ran() int { return m.ran }

// parts are the menus, and then each recipe asked for, with what is known of it
// from before.
func (p *Pass) parts() []*part {
	menus := &part{findings: &findings{}}
	own := map[*resolve.Recipe]*demand.Meal{}
	for i, meal := range p.Meals {
		if meal.Menu == nil {
			if n := len(meal.Makings); n > 0 { // the dish itself comes last
				own[meal.Makings[n-1].Recipe] = meal
			}
			continue
		}
		menus.meals = append(menus.meals, meal)
		if i < len(p.Timelines) {
			menus.timelines = append(menus.timelines, p.Timelines[i])
		}
	}
	before := p.Before
	if before != nil && before.house != p.house() {
		before = nil
	}
	out := []*part{menus}
	for _, r := range p.shared.recipes {
		x := &part{recipe: r, findings: &findings{meal: own[r], made: p.shared.made[r], broken: p.broken.hold(r.Span)}}
		if x.meal != nil {
			x.meals = []*demand.Meal{x.meal}
		}
		if before != nil {
			if f := before.of[r]; f != nil && f.meal == x.meal && f.made == x.made && f.broken == x.broken {
				x.findings = f
			}
		}
		out = append(out, x)
	}
	return out
}

// run runs the rules of a part that have not run.
func (x *part) run(p Pass, reached Stage, t *hazard.Tracer) {
	if x.stages > reached {
		return
	}
	one := &shared{made: p.shared.made}
	if x.recipe != nil {
		one.recipes = []*resolve.Recipe{x.recipe}
	}
	p.Meals, p.Timelines, p.shared, p.prose = x.meals, x.timelines, one, spokenIn(x.recipe)
	var plates []*plate
	p.plates = func() []*plate {
		if plates == nil {
			plates = p.followed(t)
		}
		return plates
	}
	unsure := sync.OnceValue(func() bool { return slices.ContainsFunc(p.plates(), func(l *plate) bool { return l.Unsure }) })
	sure := sync.OnceValue(func() *Pass { return p.confirmed(t) })
	var list diag.List
	p.diags = &list
	f := *x.findings
	if x.recipe != nil && f.notes == nil {
		f.notes = notesOf(x.recipe)
	}
	for i, r := range All {
		if r.Check == nil || r.Whole || r.After < f.stages || r.After > reached {
			continue
		}
		from := list.Len()
		p.rule = r
		r.Check(&p)
		if r.Family == Safety && unsure() { // what is only offered silences nothing
			x.sure(sure(), r, &list, from)
		}
		if list.Len() > from {
			for d := range list.From(from) {
				f.list = append(f.list, finding{i, d})
			}
		}
	}
	f.stages = reached + 1
	x.findings = &f
	if x.recipe != nil {
		t.Forget(x.recipe)
	}
}

// confirmed is a pass over the same part without all that is only offered, with findings
// of its own.
func (p Pass) confirmed(t *hazard.Tracer) *Pass {
	p.plates = sync.OnceValue(func() []*plate { return p.followed(t.Confirmed()) })
	p.diags = &diag.List{}
	return &p
}

// sure runs a safety rule once more on the confirmed pass, and adds to the findings what it
// then finds at places where it found nothing before. from is where the rule's findings
// begin.
func (x *part) sure(p *Pass, r *Rule, all *diag.List, from int) {
	p.rule = r
	before := p.diags.Len()
	r.Check(p)
	if p.diags.Len() == before {
		return
	}
	for d := range p.diags.From(before) {
		if !x.hasFinding(all, from, d) {
			all.Add(d)
		}
	}
}

// hasFinding tells whether a list has, from a place on, a finding of the same rule
// at the same place, or one that says the same of the same recipe.
func (x *part) hasFinding(l *diag.List, from int, d diag.Diagnostic) bool {
	for o := range l.From(from) {
		if o.Code == d.Code && (o.At.Span == d.At.Span || o.Message == d.Message && x.together(o.At.Span, d.At.Span)) {
			return true
		}
	}
	return false
}

// together tells whether two places lie in one recipe.
func (x *part) together(a, b source.Span) bool {
	if x.recipe != nil {
		return holds(x.recipe.Span, a) && holds(x.recipe.Span, b)
	}
	for _, meal := range x.meals {
		for _, m := range meal.Makings {
			if holds(m.Recipe.Span, a) && holds(m.Recipe.Span, b) {
				return true
			}
		}
	}
	return false
}

// join gives the findings of the parts by rule, part by part. With `as … but` two
// recipes have one text: what was found at a place of another recipe is left out
// where an earlier part found it too.
func join(parts []*part, reached Stage) [][]*diag.Diagnostic {
	type place struct {
		rule int
		at   source.Span
	}
	first := map[place]*part{} // of what was found outside a recipe, the first to find it
	outside := func(x *part, f *finding) bool {
		return x.recipe == nil || !mine(x.recipe, f.At.Span)
	}
	any := false
	out := make([][]*diag.Diagnostic, len(All))
	for _, x := range parts {
		any = any || slices.ContainsFunc(x.list, func(f finding) bool { return outside(x, &f) })
	}
	for _, x := range parts {
		for i := range x.list {
			f := &x.list[i]
			if All[f.rule].After > reached {
				continue
			}
			if any {
				k := place{f.rule, f.At.Span}
				if by := first[k]; by == nil {
					first[k] = x
				} else if by != x {
					continue
				}
			}
			out[f.rule] = append(out[f.rule], &f.Diagnostic)
		}
	}
	return out
}

// remember keeps what was found in the recipes.
func remember(p *Pass, parts []*part) *Memory {
	m := &Memory{house: p.house(), slips: p.shared.slips, of: make(map[*resolve.Recipe]*findings, len(parts))}
	for _, x := range parts[1:] {
		if x.stages > 0 {
			m.of[x.recipe] = x.findings
		}
		if p.Before == nil || p.Before.of[x.recipe] != x.findings {
			m.ran++
		}
	}
	return m
}

// house is what the rules for one recipe read of the book beside it and what it
// draws on: house styles, and whose rules hold.
func (p *Pass) house() string {
	var b strings.Builder
	for _, book := range p.Model.Books {
		fmt.Fprintf(&b, "%q %q %v", book.Span.File.Name, book.Practice.Text, book.Practice.Span.IsZero())
		for _, s := range book.Styles {
			fmt.Fprintf(&b, " %q", s.Text)
		}
	}
	for _, s := range p.Model.Scopes {
		for _, k := range s.Kitchens {
			if len(s.Kitchens) == 1 {
				fmt.Fprintf(&b, " %q %q", s.Dir, k.Practice)
			}
		}
	}
	return b.String()
}
