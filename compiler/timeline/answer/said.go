package answer

import (
	"fmt"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/source"
)

// sayKeeps hints at things that waited long on nobody's word.
func (r *Result) sayKeeps() {
	if r.diags == nil {
		return
	}
	said := map[string]bool{}
	for _, l := range r.Draft.Links {
		if l.Why != problem.TakesFrom || l.Max < problem.KeepsDefault || !r.Counts(l) {
			continue
		}
		rec, p := l.From.Job.Mk.M.Recipe, l.Product
		var name string
		var at source.Span
		switch {
		case p != nil && p.Keeps == nil && (rec.Keeps == nil || l.To.Job.Mk == l.From.Job.Mk):
			name, at = p.Name, l.From.Job.Place
			if p.Made != nil {
				at = p.Made.Span
			}
		case p == nil && rec.Keeps == nil:
			name, at = rec.Name, rec.NameAt
		default:
			continue
		}
		waited := r.time(l.To) - r.time(l.From)
		if waited < 60 || said[larder.Fold(name)] {
			continue
		}
		said[larder.Fold(name)] = true
		r.diags.Hintf("P103", at, "%s waits %s, and nobody has said how long it keeps", name, timeline.SpanWords(waited)).
			Because("without `keeps`, 2 hours are allowed").
			WithHelp("write `keeps 2 days, fridge` where it is made, with your own figures")
	}
}

// sayLoads hints at hot food whose first load waits for the last longer than
// such food may wait. The plan has them as near each other as it can.
func (r *Result) sayLoads() {
	if r.diags == nil {
		return
	}
	said := map[*resolve.Step]bool{}
	for _, mk := range r.Draft.Makings {
		for i, last := range mk.Steps {
			first, s := last.First(), last.Step.Step
			_, held := last.Held()
			if first == last || !r.On(first) || !last.Hot || said[s] || !held && !mk.ServedHot() {
				continue
			}
			most := r.Draft.Limit(last)
			if !held && mk.Last(i) {
				most = max(most, r.Draft.TableLimit(mk, last))
			}
			if most < 0 || r.Job(first).Waits <= most {
				continue
			}
			said[s] = true
			if held {
				r.diags.Askf("P110", last.Place, "the first of %d loads is held %s, and `hold` allows %s", first.Loads, timeline.SpanWords(r.Job(first).Waits), timeline.SpanWords(most)).
					Because("they go in one after the other, as near together as the plan can bring them, and all of them are wanted at once").
					WithHelp("cook more at a time: more tins, more shelves, a larger vessel").
					WithHelp("or hold it as long as that takes, if it bears it: `| hold hot up to %s, above 63 C`", timeline.SpanWords(timeline.CeilDiv(r.Job(first).Waits, 15)*15))
				continue
			}
			r.diags.Hintf("P110", last.Place, "the first of %d loads waits %s, and %s are allowed", first.Loads, timeline.SpanWords(r.Job(first).Waits), timeline.SpanWords(most)).
				Because("they go in one after the other, as near together as the plan can bring them").
				WithHelp("say how it is kept meanwhile: `| hold hot up to %s, above 63 C`", timeline.SpanWords(timeline.CeilDiv(r.Job(first).Waits, 15)*15)).
				WithHelp("or cook more at a time: more tins, more shelves, a larger vessel")
		}
	}
}

// sayLeft hints at the washing up that hot food would have waited for.
func (r *Result) sayLeft() {
	names := r.washedAfter()
	if r.diags == nil || len(names) == 0 {
		return
	}
	for _, w := range r.Draft.Meal.Kitchen.WashUps {
		left := r.Set.Wash.None || slices.Contains(r.Set.Wash.Off, w.When) ||
			slices.ContainsFunc(r.Set.Wash.Left, func(k problem.Key) bool { return k.Title == string(w.When) })
		if !left {
			continue
		}
		r.diags.Hintf("P109", w.Span, "%s is left until after serving", timeline.Listed(names)).
			Because("hot food would wait for it").
			WithHelp("give it to one more cook, or make it shorter")
		return
	}
}

// washedAfter lists the washing up that is left until after serving for the sake
// of hot food.
func (r *Result) washedAfter() (names []string) {
	if r.Set.Wash.None {
		return []string{"all the washing up"}
	}
	for _, k := range r.Set.Wash.Left {
		name := "the washing up before serving"
		if k.Making != nil {
			name = "the washing up after " + k.Making.Recipe.Name
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if slices.Contains(r.Set.Wash.Off, resolve.WashEvery) {
		names = append(names, "the washing up every so often")
	}
	return names
}

// Over says what waits longer than it may, of some dishes; of all for none.
func (r *Result) Over(among ...*demand.Making) (out []string) {
	for _, l := range r.Draft.Links {
		if len(among) > 0 && (l.From.Job.Mk == nil || !slices.Contains(among, l.From.Job.Mk.M)) {
			continue
		}
		if l.Why == problem.InAll && len(out) > 0 {
			continue // said already, one by one
		}
		if l.Max < 0 || !r.Counts(l) || l.Why == problem.Near || l.Why == problem.Washed || l.Why == problem.WashRound {
			continue
		}
		if wait := r.time(l.To) - r.time(l.From); wait > l.Max {
			to := "the table"
			if l.To.Job.Kind != "" {
				to = l.To.Job.Of()
			}
			out = append(out, fmt.Sprintf("%s waits %s for %s, where %s are allowed", l.From.Job.Of(), timeline.SpanWords(wait), to, timeline.SpanWords(l.Max)))
		}
	}
	return out
}
