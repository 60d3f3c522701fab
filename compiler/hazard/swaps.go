package hazard

import (
	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
)

// Swaps are the things that lists offer in place of theirs, in a making and in all it
// draws on, each making once: who makes the swap brings what they hold.
func Swaps(m *demand.Making) (out []Thing) {
	seen := map[*demand.Making]bool{}
	var walk func(*demand.Making)
	walk = func(m *demand.Making) {
		if seen[m] {
			return
		}
		seen[m] = true
		for _, a := range m.Lines {
			for _, in := range a.Line.Instead {
				l := &resolve.Line{Wording: in.Wording, Name: in.Name, Key: larder.Fold(in.Name), Recipe: a.Line.Recipe}
				out = append(out, thing(a.Line, l, nil))
			}
			if a.Source != nil {
				walk(a.Source)
			}
		}
	}
	walk(m)
	return out
}
