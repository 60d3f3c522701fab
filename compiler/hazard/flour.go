package hazard

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
)

// RawFlour are the things of raw flour that a finished dish brings to the table unheated:
// not what is dusted, toasted or scalded.
func (t *Trace) RawFlour() (out []*Item) {
	r := t.Reading.Recipe
	if r.Base || !t.finished() || r.ServeHow == nil {
		return nil // unless it says how it is served it may not be finished
	}
	for _, i := range t.End.Items {
		note := strings.ToLower(i.Line.Note.Text)
		if i.Has(larder.RawFlour) && !i.Heated && !i.Leftover && !i.Line.Serving && !strings.Contains(note, "dust") && !strings.Contains(note, "toast") && !t.HotPoured(i) {
			out = append(out, i)
		}
	}
	return out
}

// finished tells whether the last step of the recipe is made: a copy for a later lesson
// may stop before it. Steps of options that were not chosen are not missed.
func (t *Trace) finished() bool {
	if len(t.Stages) == 0 {
		return false
	}
	last := t.Stages[len(t.Stages)-1].Step.Index
	return !slices.ContainsFunc(t.Reading.Recipe.Steps, func(s *resolve.Step) bool { return s.Index > last && len(s.If) == 0 })
}

// HotPoured tells whether a step pours something boiling over or into the rest:
// then it is for the cook to say what is raw.
func (t *Trace) HotPoured(i *Item) bool {
	for _, st := range t.Stages {
		syrup := st.Says("syrup") && (st.Heats || st.Says("hot") || st.Opens("pour") || st.Before.Warmth == Hot || st.saysDegrees(100, 150) || t.cooksSugar(st.N))
		if (syrup || st.Says("boiling", "scald")) && !i.Is(Fish) && i.In(st) {
			return true
		}
	}
	return false
}

// cooksSugar tells whether a step before one of a number boils sugar: a syrup comes hot.
func (t *Trace) cooksSugar(n int) bool {
	return slices.ContainsFunc(t.Stages[:n], func(st *Stage) bool { return st.Heats && st.After.Totals.Sugar > 0 })
}
