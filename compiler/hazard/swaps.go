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
			out = append(out, SwapOf(l, in)...)
		}
	}
	return out
}

// SwapOf are the things of one swap: of a base all that it is made of.
func SwapOf(l *resolve.Line, in *resolve.Instead) []Thing {
	s := &resolve.Line{Wording: in.Wording, Name: in.Name, Key: larder.Fold(in.Name), Recipe: l.Recipe}
	if in.From == nil || in.From.Reading == nil {
		return []Thing{thing(l, s, nil)}
	}
	w := walker{above: []*resolve.Recipe{l.Recipe, in.From}}
	w.lines(s, nil, in.From.Reading.Lines)
	return w.out
}
