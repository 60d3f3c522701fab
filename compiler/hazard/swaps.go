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
			out = append(out, SwapsOf([]*resolve.Line{a.Line})...)
			if a.Source != nil {
				walk(a.Source)
			}
		}
	}
	walk(m)
	return out
}

// SwapsOf are the things that some lines offer in place of theirs.
func SwapsOf(lines []*resolve.Line) (out []Thing) {
	for _, l := range lines {
		for _, in := range l.Instead {
			s := &resolve.Line{Wording: in.Wording, Name: in.Name, Key: larder.Fold(in.Name), Recipe: l.Recipe}
			out = append(out, thing(l, s, nil))
		}
	}
	return out
}
