package changes

import (
	"cmp"
	"path"
	"slices"

	"tamis/compiler/resolve"
)

// pair is a recipe as it was and as it is; one of them may be nil.
type pair struct{ was, now *resolve.Recipe }

// alike is how much two recipes must have in common, of the names they gather and the
// sentences they say, to be one under two names.
const alike = 0.6

// alikeInPlace is how much is enough where both stand in the file of one name: who changes
// a dish and its name at once seldom moves it too.
const alikeInPlace = 0.3

// recipes pairs those that were asked for: by folder and name, else by name, else by
// what they gather and say.
func recipes(was, now *resolve.Model) (out []pair) {
	before, after := asked(was), asked(now)
	old := map[*resolve.Recipe]*resolve.Recipe{} // of each as it is, what it was
	used := map[*resolve.Recipe]bool{}
	take := func(fits func(b, a *resolve.Recipe) bool) {
		for _, a := range after {
			if old[a] != nil {
				continue
			}
			if i := slices.IndexFunc(before, func(b *resolve.Recipe) bool { return !used[b] && fits(b, a) }); i >= 0 {
				old[a], used[before[i]] = before[i], true
			}
		}
	}
	take(func(b, a *resolve.Recipe) bool { return b.Key == a.Key && b.Scope.Dir == a.Scope.Dir })
	take(func(b, a *resolve.Recipe) bool { return b.Key == a.Key })
	type match struct {
		b, a *resolve.Recipe
		much float64
	}
	var near []match
	for _, a := range after {
		for _, b := range before {
			if old[a] == nil && !used[b] {
				if m := inCommon(words(b), words(a)); m >= alike || m >= alikeInPlace && samePlace(b, a) {
					near = append(near, match{b, a, m})
				}
			}
		}
	}
	slices.SortStableFunc(near, func(x, y match) int { return cmp.Compare(y.much, x.much) })
	for _, m := range near {
		if old[m.a] == nil && !used[m.b] {
			old[m.a], used[m.b] = m.b, true
		}
	}
	for _, a := range after {
		out = append(out, pair{old[a], a})
	}
	for _, b := range before {
		if !used[b] {
			out = append(out, pair{b, nil})
		}
	}
	return out
}

func samePlace(b, a *resolve.Recipe) bool {
	return b.Scope.Dir == a.Scope.Dir && path.Base(b.Span.File.Name) == path.Base(a.Span.File.Name)
}

func asked(m *resolve.Model) (out []*resolve.Recipe) {
	for _, r := range m.Recipes {
		if r.Asked {
			out = append(out, r)
		}
	}
	return out
}

// words are what tells a recipe from another whatever it is called.
func words(r *resolve.Recipe) (out []string) {
	for _, l := range r.Lines {
		out = append(out, l.Key)
	}
	for _, s := range r.Steps {
		out = append(out, s.Prose.Text)
	}
	return out
}

// inCommon is the share of the things of two lists that stand in both: 1 when they are
// the same, 0 when they have nothing in common, or nothing at all.
func inCommon(a, b []string) float64 {
	if len(a)+len(b) == 0 {
		return 0
	}
	left, both := map[string]int{}, 0
	for _, w := range a {
		left[w]++
	}
	for _, w := range b {
		if left[w] > 0 {
			left[w]--
			both++
		}
	}
	return 2 * float64(both) / float64(len(a)+len(b))
}
