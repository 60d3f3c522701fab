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
	w.making(nil, m, nil)
	return w.out
}

func (w *walker) making(top *resolve.Line, m *demand.Making, above []*demand.Making) {
	for _, a := range m.Lines {
		first := top
		if first == nil {
			first = a.Line
		}
		if s := a.Source; s != nil && s != m && len(s.Lines) > 0 && !slices.Contains(above, s) {
			if w.comesTo(s, first) {
				w.making(first, s, append(above, m))
			}
			continue
		}
		w.lines(top, nil, []*resolve.Line{a.Line})
	}
}
