package hazard

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// ThingsIn are all things that go into a making, through the bases and
// by-products it draws on as they are made for this meal: of a dish with the
// option that its menu chose.
func ThingsIn(m *demand.Making) []Thing {
	var w walker
	w.making(nil, nil, m, nil)
	return w.out
}

// making goes through what goes into a making, as far as the step of the by-product that is
// drawn; made nil: all of it.
func (w *walker) making(top *resolve.Line, made *resolve.Product, m *demand.Making, above []*demand.Making) {
	lines := linesTo(m.Reading, made)
	for _, a := range m.Lines {
		if made != nil && !slices.Contains(lines, a.Line) {
			continue
		}
		first := top
		if first == nil {
			first = a.Line
		}
		if s := a.Source; s != nil && s != m && len(s.Lines) > 0 && !slices.Contains(above, s) {
			if w.comesTo(s, a.Line.Product, first) {
				w.making(first, a.Line.Product, s, append(above, m))
			}
			continue
		}
		w.lines(top, nil, []*resolve.Line{a.Line})
	}
}
