package demand

import (
	"slices"

	"tamis/compiler/resolve"
)

// plainOnes are the recipes asked for that draw amounts only, or shares of what
// nobody else draws on, on bases that were asked for too and do likewise. In a
// folder without a menu every recipe has a meal of its own; where it is plain,
// nothing that happens further down changes an amount of it, and whatever is
// wrong there is found in the meals of its bases. So its meal stops at the bases
// it draws on itself, and a chain of a thousand bases is a thousand short meals,
// not half a million makings. A circle is found by the lines that resolve has
// marked. Pages want all of them: a label tells what is in a base.
func plainOnes(m *resolve.Model) map[*resolve.Recipe]bool {
	users := map[*resolve.Recipe]int{} // how many recipes draw on it
	for _, r := range m.Recipes {
		for i, l := range r.Lines {
			if l.From != nil && !slices.ContainsFunc(r.Lines[:i], func(o *resolve.Line) bool { return o.From == l.From }) {
				users[l.From]++
			}
			if l.Product != nil {
				users[l.Product.Recipe] += 2
			}
		}
	}
	plain, seen := map[*resolve.Recipe]bool{}, map[*resolve.Recipe]bool{}
	var look func(r *resolve.Recipe) bool
	look = func(r *resolve.Recipe) bool {
		if seen[r] {
			return plain[r] // false while it is looked at: a circle by another option
		}
		seen[r] = true
		ok := r.Asked
		for _, l := range r.Lines {
			if l.Product != nil || l.Share != nil && (l.From == nil || users[l.From] > 1) {
				ok = false
			}
			if l.From != nil && !l.Circle && !look(l.From) {
				ok = false
			}
		}
		plain[r] = ok
		return ok
	}
	for _, r := range m.Recipes {
		if r.Asked {
			look(r)
		}
	}
	return plain
}

// circle reports the circles that a plain recipe is part of, unless another of
// their blocks has.
func (w *work) circle(r *resolve.Recipe) {
	if !slices.ContainsFunc(r.Lines, func(l *resolve.Line) bool { return l.Circle }) {
		return
	}
	w.circles.met++
	w.path = []*resolve.Recipe{r}
	w.around(r)
	w.path = nil
}

// around goes on from the last of a path by the lines of circles.
func (w *work) around(r *resolve.Recipe) {
	if w.circles.seen[r] {
		return
	}
	w.circles.seen[r] = true
	for _, l := range r.Lines {
		if !l.Circle || l.From == nil {
			continue
		}
		if i := slices.Index(w.path, l.From); i >= 0 {
			w.cycle(l, w.path[i:])
			continue
		}
		w.path = append(w.path, l.From)
		w.around(l.From)
		w.path = w.path[:len(w.path)-1]
	}
}
