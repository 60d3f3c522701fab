package hazard

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
)

// Swaps are the things that lists offer in place of theirs, in a making and in all it
// draws on: who makes the swap brings what they hold.
func Swaps(m *demand.Making) []Thing { return swaps(m, nil) }

func swaps(m *demand.Making, above []*demand.Making) (out []Thing) {
	for _, a := range m.Lines {
		for _, in := range a.Line.Instead {
			l := &resolve.Line{Wording: in.Wording, Name: in.Name, Key: larder.Fold(in.Name), Recipe: a.Line.Recipe}
			out = append(out, thing(a.Line, l, nil))
		}
		if s := a.Source; s != nil && s != m && !slices.Contains(above, s) {
			out = append(out, swaps(s, append(above, m))...)
		}
	}
	return out
}
