package desk

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// A row of the larder says what a thing holds and costs by its name alone. It goes with
// the thing to its new name; and where anything would lose what is known of it, nothing is
// renamed: an allergen that is on no sheet any more can harm a guest.

// larderRows are the edits that take the rows of the writer's larder along to a new name,
// with the `same as` that lead to them. A folder that has a row of the new name keeps both.
func (x *index) larderRows(of []target, to string) (list []diag.Edit) {
	met := map[source.Span]bool{}
	edit := func(at source.Span, old string) {
		at = unquoted(at)
		if text := asWritten(at.Text(), old, to); !at.IsZero() && !met[at] && text != at.Text() {
			met[at] = true
			list = append(list, diag.Edit{Span: at, Text: text})
		}
	}
	for _, t := range of {
		old := x.name(t)
		key := larder.Fold(old)
		for _, s := range x.scopesOf(t) {
			row := s.Entries[key]
			if other := s.Entries[larder.Fold(to)]; row == nil || other != nil && other != row {
				continue
			}
			edit(row.NameAt, old)
			for _, e := range x.model.Entries {
				if e.SameAs != nil && larder.Fold(e.SameAs.Text) == key {
					edit(e.SameAs.Span, old)
				}
			}
		}
	}
	slices.SortFunc(list, func(a, b diag.Edit) int {
		return cmp.Or(cmp.Compare(x.paths[a.Span.File], x.paths[b.Span.File]), cmp.Compare(a.Span.Start, b.Span.Start))
	})
	return list
}

// scopesOf are the folders whose larders speak of a thing, each once.
func (x *index) scopesOf(t target) (out []*resolve.Scope) {
	add := func(s *resolve.Scope) {
		for ; s != nil && !slices.Contains(out, s); s = s.Parent {
			out = append(out, s)
		}
	}
	if t.recipe != nil {
		add(t.recipe.Scope)
	}
	for _, r := range x.model.Recipes {
		for _, l := range r.Lines {
			if lineTarget(l) == t {
				add(r.Scope)
			}
		}
	}
	return out
}

// lost says which line would know less of what it names than before; "" when none does.
// Both models have the same recipes with the same lines.
func lost(was, now *resolve.Model) string {
	for i, r := range was.Recipes {
		for j, l := range r.Lines {
			after := now.Recipes[i].Lines[j]
			facts := saidLess(l, after)
			if l.From == nil && l.Product == nil { // what is made here has lines of its own
				facts = append(heldLess(hazard.Things([]*resolve.Line{l}), hazard.Things([]*resolve.Line{after})), facts...)
			}
			if len(facts) == 0 {
				continue
			}
			told := fmt.Sprintf("in %s, %q would lose what is known of it: %s", r.Name, l.Name, strings.Join(facts, ", "))
			if after.Key == l.Key {
				return told + "; the larder's row is needed under both names: rename it in every recipe, or first give the new name a row of its own in the larder"
			}
			return told + fmt.Sprintf("; first write in the larder what %q is, as `%[1]s | same as %s`, or with `contains`", after.Name, l.Name)
		}
	}
	return ""
}

// heldLess are the allergens that were known of some things, and are not any more. A name
// that is known by itself (lard, for butter) brings what it holds; what the writer has said
// of the old name, nothing takes away.
func heldLess(was, now []hazard.Thing) (out []string) {
	if len(was) != len(now) {
		return []string{"what it is made of"}
	}
	for i, t := range was {
		if now[i].Known && !written(t.Line) {
			continue
		}
		for _, c := range t.Contains {
			if !slices.ContainsFunc(now[i].Contains, func(o larder.Content) bool {
				return o.Substance == c.Substance && (!o.Depends || c.Depends)
			}) {
				out = append(out, "it contains "+c.Substance)
			}
		}
		if t.Known && !now[i].Known && len(out) == 0 {
			out = append(out, "which allergens it holds")
		}
	}
	return out
}

// written tells whether the writer's larder says what a line holds.
func written(l *resolve.Line) bool {
	of := func(key string) bool {
		e := l.Recipe.Scope.Entry(key)
		return e != nil && (e.Contains != nil || e.SameAs != nil)
	}
	return of(larder.Fold(path.Base(l.Name))) || l.Known != nil && of(larder.Fold(l.Known.Name))
}

// saidLess are the facts that the writer's larder has of a line, and has not any more.
func saidLess(was, now *resolve.Line) (out []string) {
	b, a := was.Recipe.Scope.Entry(was.Key), now.Recipe.Scope.Entry(now.Key)
	if b == nil {
		return nil
	}
	if a == nil {
		a = &resolve.Entry{}
	}
	for _, f := range []struct {
		what     string
		was, now bool
	}{
		{"its price", b.Price != nil, a.Price != nil},
		{"what one weighs", b.Piece != nil, a.Piece != nil},
		{"what a measure of it weighs", b.Weighs != nil, a.Weighs != nil},
		{"what is left of it after trimming", b.Yields != nil, a.Yields != nil},
		{"where it is bought", b.Buy != nil, a.Buy != nil},
		{"its packs", b.Packs != nil, a.Packs != nil},
		{"how long it keeps", b.Keeps != nil, a.Keeps != nil},
		{"what it gives", len(b.Gives) > 0, len(a.Gives) > 0},
	} {
		if f.was && !f.now {
			out = append(out, f.what)
		}
	}
	return out
}
