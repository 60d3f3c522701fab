package build

import (
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// feastOf is what is made for the meal a series leads to and stands in none of its parts: what
// was shown and eaten before and is made again, what is on the menu alone, and the bases of
// these. It is bought for as a part is. nil: there is none.
func feastOf(s *demand.Series) *demand.Part {
	on, known := s.Eaten()
	if !known {
		return nil
	}
	shown := func(r *resolve.Recipe) bool {
		return slices.ContainsFunc(s.Of.Parts, func(p *resolve.Part) bool { return slices.Contains(p.Recipes(), r) })
	}
	in := map[*demand.Making]bool{}
	for _, m := range s.Meal.Makings {
		in[m] = m.Serving != nil && (s.Anew(m) || !shown(m.Recipe))
	}
	for range s.Meal.Makings { // a base of a base
		for _, of := range s.Meal.Supplies {
			for _, d := range of.Draws {
				in[of.Making] = in[of.Making] || of.Making.Recipe.Base && in[d.By.Making]
			}
		}
	}
	some := *s.Meal
	some.Makings = slices.DeleteFunc(slices.Clone(some.Makings), func(m *demand.Making) bool { return !in[m] })
	if len(some.Makings) == 0 {
		return nil
	}
	return &demand.Part{Of: &resolve.Part{Name: s.Meal.Menu.Name, Date: &on}, Meal: &some, Shown: some.Makings}
}

// occasions are the parts, and the meal for what is made for it besides.
func (h *handouts) occasions() []*demand.Part {
	if h.feast == nil {
		return h.series.Parts
	}
	return append(slices.Clone(h.series.Parts), h.feast)
}

// forFeast tells whether a base of a part is made, for all that draw on it, with what the meal
// has besides.
func (h *handouts) forFeast(p *demand.Part, m *demand.Making) bool {
	return h.feast != nil && p != h.feast && h.series.EatenWith(p.Of) && m.Recipe.Base &&
		slices.ContainsFunc(h.feast.Meal.Makings, func(o *demand.Making) bool { return o.Recipe == m.Recipe })
}
