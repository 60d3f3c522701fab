package build

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// cautions are the usual cautions for one making, or for the whole meal when m
// is nil: what the ingredients and the steps call for, and the allergens by
// what is listed. They are of the same facts and figures as the rules of
// `tamis check`. They never promise that anything is without risk, and end by
// deferring to those who know. In a pack they stand whole, with their sources, in one
// place; the sheet of a dish says them in few words.
func (b *builder) cautions(m *demand.Making) *sheets.Cautions {
	makings := b.meal.Makings
	if m != nil {
		makings = []*demand.Making{m}
	}
	choice := practice.OfMeal(b.books, b.meal)
	seen := b.newCares()
	seen.add(b.meal, makings)
	if m != nil && b.caresOnce {
		for _, s := range m.Reading.Steps { // what stands beside a step is whole in the pack, and not said again here
			for _, c := range b.beside(m, s.Step) {
				delete(seen.facts, c.Key)
			}
		}
	}
	if b.unmarked && holdsSaid(makings, choice) { // a leaf has one figure for it, beside its step
		delete(seen.facts, "hold")
	}
	out := b.cautionsInDegrees(seen.texts(choice))
	if text := b.allergens(makings, choice); text != "" {
		out = append(out, sheets.Caution{Text: text})
	}
	if len(out) == 0 {
		return nil
	}
	if m != nil && b.caresOnce {
		for i := range out {
			out[i].Source = ""
		}
		return &sheets.Cautions{Items: append(out, sheets.Caution{Text: "Local rules and makers’ instructions come first."})}
	}
	return &sheets.Cautions{Items: footnoted(append(out, seen.general(choice)))}
}

// footnoted puts who says so into one footnote under the last caution: each caution has the
// letter of its source, and one that is of nobody has none.
func footnoted(items []sheets.Caution) []sheets.Caution {
	var sources []string
	nobody := false
	for _, c := range items {
		if c.Source == nobodySays {
			nobody = true
		} else if c.Source != "" && !slices.Contains(sources, c.Source) {
			sources = append(sources, c.Source)
		}
	}
	notes := slices.Clone(sources)
	for i := range items {
		if n := slices.Index(sources, items[i].Source); n >= 0 {
			items[i].Text += " (" + letter(n) + ")"
		}
		items[i].Source = ""
	}
	for n := range notes {
		notes[n] = letter(n) + ": " + notes[n]
	}
	if nobody && len(sources) > 0 {
		notes = append(notes, "without a letter: "+nobodySays)
	} else if nobody {
		notes = append(notes, nobodySays)
	}
	items[len(items)-1].Source = strings.Join(notes, "; ")
	return items
}

// nobodySays stands where a caution has no source.
const nobodySays = "common practice, no source"

// letter is the mark of a source: a, b … z, a2, b2.
func letter(n int) string {
	text := string(rune('a' + n%26))
	if n >= 26 {
		text += strconv.Itoa(n/26 + 1)
	}
	return text
}

// holdsSaid tells whether each step that holds something hot says above how many degrees, and
// no fewer than the figure that holds.
func holdsSaid(makings []*demand.Making, choice practice.Choice) bool {
	limit := choice.Rule("hot hold", "any").Hottest()
	if limit == nil {
		return false
	}
	for _, m := range makings {
		for _, sr := range m.Reading.Steps {
			if state, _ := hazard.HoldsFor(sr.Step); state != "hot" {
				continue
			}
			said := false
			for _, c := range sr.Step.Margin {
				if h, ok := c.(*resolve.Hold); ok && h.Temp != nil && h.Bound == "above" {
					least := limit.C.From
					if h.Temp.Scale == quantity.Fahrenheit {
						least = limit.F.From
					}
					said = said || float64(h.Temp.Low) >= least
				}
			}
			if !said {
				return false
			}
		}
	}
	return true
}

// caresOf are the cautions of all recipes of a book, with their sources, each once; what a
// recipe contains stands on its own sheet. Nil where none is called for.
func (b *builder) caresOf(meals []*demand.Meal) *sheets.Cautions {
	if len(meals) == 0 {
		return nil
	}
	seen := b.newCares()
	for _, meal := range meals {
		seen.add(meal, meal.Makings)
	}
	choice := practice.OfMeal(b.books, meals[0])
	out := b.cautionsInDegrees(seen.texts(choice))
	if len(out) == 0 {
		return nil
	}
	return &sheets.Cautions{Items: footnoted(append(out, seen.general(choice)))}
}

// cares is what makings call for.
type cares struct {
	trace   func(*demand.Making) *hazard.Trace
	facts   map[string]bool
	kinds   []hazard.Kind
	poisons []*hazard.Poison
}

func (b *builder) newCares() *cares { return &cares{trace: b.trace, facts: map[string]bool{}} }

// add looks at makings of a meal.
func (c *cares) add(meal *demand.Meal, makings []*demand.Making) {
	for _, m := range makings {
		t := c.trace(m)
		for k, v := range t.Facts(m.Factor.Float(), hazard.EatersOf(t, m, meal)) {
			c.facts[k] = c.facts[k] || v
		}
		for _, p := range t.Poisons() {
			if !slices.Contains(c.poisons, p.Poison) {
				c.poisons = append(c.poisons, p.Poison)
			}
		}
		for _, k := range t.Raw() {
			if !slices.Contains(c.kinds, k) {
				c.kinds = append(c.kinds, k)
			}
		}
	}
}

// texts are the cautions with their sources.
func (c *cares) texts(choice practice.Choice) []sheets.Caution {
	out := limits(choice, c.facts, c.kinds)
	for _, h := range hazard.Cautions() {
		if c.facts[h.Key] {
			out = append(out, sheets.Caution{Text: h.Text, Source: h.Source})
		}
	}
	for _, p := range c.poisons {
		out = append(out, sheets.Caution{Text: larder.Capital(p.Text) + ".", Source: p.Source})
	}
	return out
}

// general is the last caution: who comes before all figures.
func (c *cares) general(choice practice.Choice) sheets.Caution {
	text := "General cautions: local rules, makers’ instructions and qualified people come first."
	if choice.Practice == nil && slices.ContainsFunc([]string{"cook", "cool", "reheat", "hold"}, func(k string) bool { return c.facts[k] }) {
		text = "No rules are named: the figures are the strictest seen. " + text
	}
	return sheets.Caution{Text: text}
}

// practice is what the text calls its practice; empty when nobody says.
func (b *builder) practice() string { return practice.OfMeal(b.books, b.meal).Written }

// limits are the cautions whose figures depend on the practice.
func limits(choice practice.Choice, facts map[string]bool, kinds []hazard.Kind) (out []sheets.Caution) {
	type group struct {
		limit *practice.Limit
		foods []string
	}
	var cooks []group
	for _, k := range kinds {
		l := choice.Rule("cook", string(k)).Hottest()
		if l == nil {
			continue
		}
		i := slices.IndexFunc(cooks, func(g group) bool { return g.limit.Core() == l.Core() })
		if i < 0 {
			cooks, i = append(cooks, group{limit: l}), len(cooks)
		}
		cooks[i].foods = append(cooks[i].foods, k.Printed())
	}
	for _, g := range cooks {
		out = append(out, sheets.Caution{Text: fmt.Sprintf("%s: %s in the middle, by a clean probe.", larder.Capital(strings.Join(g.foods, ", ")), g.limit.Core()), Source: g.limit.Credit()})
	}
	if facts["cool"] {
		cold := choice.Rule("cold hold", "any").Coldest()
		way, by := choice.Cooling()
		text, credit := "Cool cooked food fast: "+way, by[0].Credit()
		if cold != nil {
			text += "; keep it at " + cold.End() + " or below"
			credit = joined(credit, cold.Credit())
		}
		out = append(out, sheets.Caution{Text: text + ".", Source: credit})
	}
	if facts["reheat"] {
		if l := choice.Rule("reheat", "any", "held").Hottest(); l != nil {
			out = append(out, sheets.Caution{Text: "Bring food back once only, to " + l.Core() + " in the middle.", Source: l.Credit()})
		}
	}
	if facts["hold"] {
		if l := choice.Rule("hot hold", "any").Hottest(); l != nil {
			out = append(out, sheets.Caution{Text: "What is held hot is held at " + l.Degrees() + " or above.", Source: l.Credit()})
		}
	}
	return out
}

// joined joins two credits, once if they are the same.
func joined(a, b string) string {
	if a == b {
		return a
	}
	return a + "; " + b
}

// allergens says what makings contain, their bases included, by the list of the
// practice (the UK's when nobody names one); what only a label tells; and which
// things are not known.
func (b *builder) allergens(makings []*demand.Making, choice practice.Choice) string {
	var things []hazard.Thing
	for _, m := range makings {
		things = append(things, b.thingsOf(m)...)
	}
	a := hazard.AllergensOf(hazard.AllergenList(choice.Written), things)
	var parts []string
	if len(a.Contains) > 0 {
		parts = append(parts, "Contains, by what is listed here: "+strings.Join(a.Contains, ", ")+".")
	}
	if len(a.Labels) > 0 {
		parts = append(parts, "Only a label can tell: "+strings.Join(labelTexts(a.Labels), "; ")+".")
	}
	if len(a.Unknown) > 0 {
		parts = append(parts, "Not known to the larder: "+strings.Join(a.Unknown, "; ")+".")
	}
	for _, m := range makings {
		for _, s := range swapped(m, hazard.AllergenList(choice.Written), a) {
			if text := larder.Capital(s) + "."; !slices.Contains(parts, text) {
				parts = append(parts, text)
			}
		}
	}
	if len(things) == 0 {
		return ""
	}
	if len(parts) == 0 && !b.unmarked {
		return "" // the list of the meal, and its wall sheet, name what holds any
	}
	if len(parts) == 0 { // those who have the leaf alone would read silence as "nothing in it"
		parts = append(parts, "Of what is listed here the larder knows no allergen.")
	}
	if b.volume == nil { // a book says it once, at its head
		parts = append(parts, "Read every label for what makers add, and ask your guests.")
	}
	return strings.Join(parts, " ")
}

// swapped says what the things that a dish offers instead of its own would bring
// beside what it holds: "with fish sauce instead: fish".
func swapped(m *demand.Making, list string, held hazard.Allergens) (out []string) {
	for _, t := range hazard.Swaps(m) {
		a := hazard.AllergensOf(list, []hazard.Thing{t})
		brings := slices.DeleteFunc(slices.Clone(a.Contains), func(c string) bool { return slices.Contains(held.Contains, c) })
		for _, l := range a.Labels { // what only its label can tell, beside what the dish holds for certain
			may := slices.DeleteFunc(slices.Clone(l.May), func(c string) bool { return slices.Contains(held.Contains, c) })
			if len(may) > 0 {
				brings = append(brings, "by its label perhaps "+strings.Join(may, ", "))
			} else if len(l.May) == 0 {
				brings = append(brings, "read its label")
			}
		}
		if len(a.Unknown) > 0 {
			brings = append(brings, "not known to the larder")
		}
		if text := "with " + t.Name() + " instead: " + strings.Join(brings, ", "); len(brings) > 0 && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// thingsOf are the things in a making: as the menu has it, or, of a recipe by
// itself, with every option.
func (b *builder) thingsOf(m *demand.Making) []hazard.Thing {
	if b.meal.Menu == nil && m.Serving == nil && m.StandIn == nil {
		return hazard.AllThings(m.Reading)
	}
	return hazard.ThingsIn(m)
}

// labelTexts says of each thing what its label may name: "stock cube (celery, wheat)".
func labelTexts(labels []hazard.Label) (out []string) {
	for _, l := range labels {
		text := l.Thing
		if len(l.May) > 0 {
			text += " (" + strings.Join(l.May, ", ") + ")"
		}
		out = append(out, text)
	}
	return out
}

// beside are the cautions that stand in a short line beside a step.
func (b *builder) beside(m *demand.Making, s *resolve.Step) []*hazard.Caution {
	return b.trace(m).Beside(s, m.Factor.Float())
}

// trace is the way of the food of a making, followed once.
func (b *builder) trace(m *demand.Making) *hazard.Trace {
	if b.tracer == nil {
		b.tracer, b.traced = hazard.NewTracer(), map[*demand.Making]*hazard.Trace{}
	}
	if b.traced[m] == nil {
		b.traced[m] = b.tracer.Reading(m.Reading)
	}
	return b.traced[m]
}

// minds are those lines.
func (b *builder) minds(m *demand.Making, s *resolve.Step) (out []string) {
	for _, c := range b.beside(m, s) {
		out = append(out, "mind: "+c.Short)
	}
	return out
}
