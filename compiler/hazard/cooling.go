package hazard

// Cooling tells whether a step cools, and does not heat as well, what was cooked and is
// still hot and what germs grow in: bread and cake come to no harm on a rack.
func (st *Stage) Cooling() bool {
	p := &st.Before
	return st.Cools && !st.Heats && p.Warmth == Hot && p.Cooked && p.Grows() && !p.Baked()
}

// GoesCold tells whether what a step of the trace leaves is put away cold after it: by a
// step, at a pause, or because the recipe keeps so. What cools on its way to the table does not.
func (t *Trace) GoesCold(st *Stage) bool {
	if k := t.Reading.Recipe.Keeps; k != nil && (k.Place == "fridge" || k.Place == "freezer") {
		return true
	}
	for _, b := range t.Breaks {
		if b.N >= st.N && (b.Pause.Place == "fridge" || b.Pause.Place == "freezer") {
			return true
		}
	}
	for _, o := range t.Stages[st.N:] {
		if o.Chills || o.N > st.N && o.Before.Warmth >= Chilled {
			return true
		}
	}
	return false
}
