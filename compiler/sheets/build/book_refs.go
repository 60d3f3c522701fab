package build

import (
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// references are which recipes of a book speak of which: both ways, in the order of the
// book, each once.
type references struct {
	uses, usedIn map[*resolve.Recipe][]*resolve.Recipe          // draws on
	like, alike  map[*resolve.Recipe][]*resolve.Recipe          // `as White sauce, but`
	with         map[*resolve.Recipe]map[string]*resolve.Recipe // by the name it goes with
	wanted       map[*resolve.Recipe][]*resolve.Recipe          // recipes that say they go with it
}

// refer finds out what speaks of what in a book.
func refer(v *volume) *references {
	type both = map[*resolve.Recipe][]*resolve.Recipe
	out := &references{uses: both{}, usedIn: both{}, like: both{}, alike: both{}, with: map[*resolve.Recipe]map[string]*resolve.Recipe{}, wanted: both{}}
	var all []*resolve.Recipe
	for _, c := range v.chapters {
		all = append(all, c.recipes...)
	}
	placed := v.book.Placed(all)
	named := func(of *resolve.Recipe, name resolve.Text) *resolve.Recipe {
		found := placed(name)
		if i := slices.IndexFunc(found, func(r *resolve.Recipe) bool { return r.Scope == of.Scope }); i >= 0 {
			return found[i]
		}
		if len(found) == 1 {
			return found[0]
		}
		return nil
	}
	add := func(to, from both, a, b *resolve.Recipe) {
		if b == nil || a == b || v.ids[b] == "" || slices.Contains(to[a], b) {
			return
		}
		to[a], from[b] = append(to[a], b), append(from[b], a)
	}
	for _, r := range all {
		for _, l := range r.Lines {
			switch {
			case l.From != nil:
				add(out.uses, out.usedIn, r, l.From)
			case l.Product != nil && l.Product.Recipe != nil:
				add(out.uses, out.usedIn, r, l.Product.Recipe)
			}
		}
		if !r.Own.Like.IsZero() {
			add(out.like, out.alike, r, named(r, r.Own.Like))
		}
		for _, n := range r.Own.Notes.GoesWith {
			if to := named(r, n); to != nil && to != r {
				if out.with[r] == nil {
					out.with[r] = map[string]*resolve.Recipe{}
				}
				out.with[r][n.Text] = to
				if v.ids[to] != "" && !slices.Contains(out.wanted[to], r) {
					out.wanted[to] = append(out.wanted[to], r)
				}
			}
		}
	}
	return out
}

// companions are what a recipe goes with: what it says itself, and what says so of it, each
// once, but not what it draws on or is drawn on by, for that is said with it. What is not
// in the book has its name alone.
func (r *references) companions(of *resolve.Recipe) (names []string, to []*resolve.Recipe) {
	told := slices.Concat(r.uses[of], r.usedIn[of])
	add := func(name string, other *resolve.Recipe) {
		if other != nil {
			if slices.Contains(told, other) {
				return
			}
			told = append(told, other)
		}
		names, to = append(names, name), append(to, other)
	}
	for _, n := range of.Own.Notes.GoesWith {
		add(n.Text, r.with[of][n.Text])
	}
	for _, other := range r.wanted[of] {
		add(other.Name, other)
	}
	return names, to
}

// toPage is a recipe by its name, with its page on paper.
func (b *builder) toPage(r *resolve.Recipe) []sheets.Run {
	link := "#" + b.pages[r]
	return []sheets.Run{{Text: r.Name, Link: link}, {Link: link, Page: ", p. #"}}
}

// pagesOf is several recipes, with their pages.
func (b *builder) pagesOf(head string, list []*resolve.Recipe) []sheets.Run {
	runs := []sheets.Run{{Text: head + " "}}
	for i, r := range list {
		if i > 0 {
			runs = append(runs, sheets.Run{Text: "; "})
		}
		runs = append(runs, b.toPage(r)...)
	}
	return append(runs, sheets.Run{Text: "."})
}
