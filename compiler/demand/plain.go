package demand

import "tamis/compiler/resolve"

// plainOnes are the recipes asked for that draw amounts only, on bases that
// were asked for too and draw amounts only. In a folder without a menu every
// recipe has a meal of its own; where it is plain, nothing that happens further
// down changes an amount of it, and whatever is wrong there is found in the
// meals of its bases. So its meal stops at the bases it draws on itself, and a
// chain of a thousand bases is a thousand short meals, not half a million
// makings. Pages want all of them: a label tells what is in a base.
func plainOnes(m *resolve.Model) map[*resolve.Recipe]bool {
	plain, seen := map[*resolve.Recipe]bool{}, map[*resolve.Recipe]bool{}
	var look func(r *resolve.Recipe) bool
	look = func(r *resolve.Recipe) bool {
		if seen[r] {
			return plain[r] // false while it is looked at: a circle
		}
		seen[r] = true
		ok := r.Asked
		for _, l := range r.Lines {
			if l.Share != nil || l.Product != nil {
				ok = false
			}
			if l.From != nil && !look(l.From) {
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
