package resolve

import "slices"

// Confirmed is a step as its writer has confirmed it: without any clause that is
// only offered. It is the step itself where there is none. Whoever asks whether
// something is hot enough, or cold enough, asks it of this one too: a guess
// reassures nobody.
func (s *Step) Confirmed() *Step {
	if !s.unsure() {
		return s
	}
	c := *s
	c.Margin = slices.DeleteFunc(slices.Clone(s.Margin), offered)
	c.Phases = slices.DeleteFunc(slices.Clone(s.Phases), func(sp Spell) bool { return sp.Offered })
	if First[*InOven](c.Margin) == nil {
		c.Heats, c.Oven, c.Shelf, c.Shelves = nil, "", "", 0
	}
	ring, grill := First[*OnRing](c.Margin), First[*UnderGrill](c.Margin)
	if ring == nil {
		c.Rings = 0
	}
	c.Grill = grill != nil
	if ring == nil && grill == nil {
		c.Level = ""
	}
	c.Place = ""
	if p := First[*InPlace](c.Margin); p != nil {
		c.Place = string(p.Word)
	}
	for _, sp := range c.Phases {
		if c.Place == "" {
			c.Place = sp.Place
		}
	}
	if c.Core != nil && c.Core.Offered {
		c.Core = nil
	}
	if c.Reach != nil && c.Reach.Offered {
		c.Reach = nil
	}
	if c.Hold != nil && c.Hold.Offered {
		c.Hold = nil
	}
	c.Moments = slices.Clone(s.Moments)
	for i, m := range c.Moments {
		if m.unsure() {
			copied := *m
			copied.Margin = slices.DeleteFunc(slices.Clone(m.Margin), offered)
			c.Moments[i] = &copied
		}
	}
	return &c
}

// FireOffered tells whether the oven, ring or grill of a step is only offered.
func (s *Step) FireOffered() bool {
	c := FirstOf(s.Margin, WordOven, WordRing, WordGrill)
	return c != nil && c.head().Offered
}

func offered(c Clause) bool { return c.head().Offered }

func (s *Step) unsure() bool {
	return slices.ContainsFunc(s.Margin, offered) || slices.ContainsFunc(s.Moments, (*Moment).unsure)
}

func (m *Moment) unsure() bool { return slices.ContainsFunc(m.Margin, offered) }

// Unsure tells whether a clause of the steps of a reading is only offered.
func (rd *Reading) Unsure() bool {
	return slices.ContainsFunc(rd.Steps, func(sr *StepReading) bool { return sr.Step.unsure() })
}

// Same tells whether two are one step of one recipe, confirmed or not.
func (s *Step) Same(o *Step) bool {
	return s == o || s != nil && o != nil && s.Recipe == o.Recipe && s.Index == o.Index
}

// Confirmed is a reading of the confirmed steps: the reading itself where nothing
// is only offered.
func (rd *Reading) Confirmed() *Reading {
	if !rd.Unsure() {
		return rd
	}
	out := *rd
	out.Steps = make([]*StepReading, len(rd.Steps))
	for i, sr := range rd.Steps {
		copied := *sr
		copied.Step = sr.Step.Confirmed()
		out.Steps[i] = &copied
	}
	return &out
}
