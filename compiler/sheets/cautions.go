package sheets

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/lang/ast"
)

// cautions are the usual cautions for one making, or for the whole meal when m
// is nil: what the ingredients and the steps call for, and the allergens by
// what is listed. They never promise that anything is without risk, and end by
// deferring to those who know.
func (b *builder) cautions(m *demand.Making) *Cautions {
	makings := b.meal.Makings
	if m != nil {
		makings = []*demand.Making{m}
	}
	practice := b.practice()
	rules := cautionsOf(practice)
	var out []Caution
	for _, r := range rules {
		if slices.ContainsFunc(makings, func(m *demand.Making) bool { return r.when(b, m) }) {
			out = append(out, Caution{Text: r.text, Source: r.source})
		}
	}
	if text := b.allergens(makings, practice); text != "" {
		out = append(out, Caution{Text: text})
	}
	if len(out) == 0 {
		return nil
	}
	out = append(out, Caution{Text: "General cautions. Follow your local rules, the makers’ instructions and the advice of qualified people."})
	return &Cautions{Items: out}
}

// practice is whose rules the menu cooks by; empty when nobody says.
func (b *builder) practice() string {
	if menu := b.meal.Menu; menu != nil && menu.Practice != "" {
		return menu.Practice
	}
	for _, m := range b.meal.Makings {
		for _, it := range m.Recipe.AST.Items {
			if c, ok := it.(*ast.Common); ok && c.Key == "practice" {
				return c.Text.Text
			}
		}
	}
	return ""
}

type cautionRule struct {
	when   func(*builder, *demand.Making) bool
	text   string
	source string
}

func hasFlag(flags ...larder.Flag) func(*builder, *demand.Making) bool {
	return func(_ *builder, m *demand.Making) bool {
		for _, l := range m.Reading.Lines {
			it, ok := larder.Builtin().Find(l.Name)
			if ok && slices.ContainsFunc(flags, it.Has) {
				return true
			}
		}
		return false
	}
}

// paused: the plan, or the recipe where there is no plan, lets it wait cold.
func waitsCold(b *builder, m *demand.Making) bool {
	for _, p := range m.Recipe.Pauses {
		if taken, known := b.paused(m, p); (taken || !known) && (p.Place == "fridge" || p.Place == "freezer") && cooked(m) {
			return true
		}
	}
	return m.Recipe.Keeps != nil && m.Recipe.Keeps.Place == "fridge" && cooked(m)
}

func cooked(m *demand.Making) bool {
	for _, sr := range m.Reading.Steps {
		s := sr.Step
		if len(s.Heats) > 0 || s.Rings > 0 || s.Grill {
			return true
		}
	}
	return false
}

func usesTool(words ...string) func(*builder, *demand.Making) bool {
	return func(_ *builder, m *demand.Making) bool {
		for _, sr := range m.Reading.Steps {
			for _, t := range sr.Step.Tools {
				for _, w := range words {
					if strings.Contains(t, w) {
						return true
					}
				}
			}
		}
		return false
	}
}

func says(words ...string) func(*builder, *demand.Making) bool {
	return func(_ *builder, m *demand.Making) bool {
		for _, sr := range m.Reading.Steps {
			text := strings.ToLower(sr.Step.AST.Prose.Text)
			for _, w := range words {
				if strings.Contains(text, w) {
					return true
				}
			}
		}
		return false
	}
}

func blendsHot(b *builder, m *demand.Making) bool {
	return usesTool("blender")(b, m) && cooked(m)
}

// cautionsOf are the rules of a practice. Figures come from the source named
// beside them; what has no source is common practice. Where nobody names a
// practice, the strictest figure seen is printed, and it says so.
func cautionsOf(practice string) []cautionRule {
	var cook, cool, reheat cautionRule
	rice := cautionRule{text: "Cooked rice: cool it within the hour, keep it cold for no more than a day, and heat it right through, once.", source: "UK Food Standards Agency consumer advice, as seen quoted"}
	switch {
	case strings.EqualFold(practice, "Scotland"):
		cook = cautionRule{text: "Poultry, mince, pork and stuffing: cook until the middle has been at 70 °C for 2 minutes, or 75 °C for 30 seconds. Test with a clean probe.", source: "UK Food Standards Agency cooking guidance, as seen quoted"}
		cool = cautionRule{text: "Cool cooked food quickly and have it in the fridge within 90 minutes.", source: "UK local-authority guidance"}
		reheat = cautionRule{text: "Bring food back once only, to 82 °C in the middle.", source: "Food Hygiene (Scotland) Regulations 2006, Sch. 4"}
	case larder.Practice(practice) == "UK":
		cook = cautionRule{text: "Poultry, mince, pork and stuffing: cook until the middle has been at 70 °C for 2 minutes, or 75 °C for 30 seconds. Test with a clean probe.", source: "UK Food Standards Agency cooking guidance, as seen quoted"}
		cool = cautionRule{text: "Cool cooked food quickly and have it in the fridge within 90 minutes; keep it at 8 °C or below, better 5 °C.", source: "UK local-authority guidance; Food Safety and Hygiene (England) Regulations 2013, Sch. 4"}
		reheat = cautionRule{text: "Bring food back once only, piping hot right through: 75 °C in the middle for 30 seconds, or 70 °C for 2 minutes. Keep it at 63 °C or above until it is served.", source: "UK Food Standards Agency cooking guidance, as seen quoted; Food Safety and Hygiene (England) Regulations 2013, Sch. 4"}
	case larder.Practice(practice) == "US":
		cook = cautionRule{text: "Poultry and stuffing: 165 °F (74 °C) in the middle; mince: 160 °F (71 °C). Test with a clean probe.", source: "US food-safety charts for the home, as seen quoted"}
		cool = cautionRule{text: "Cool cooked food from 135 to 70 °F within 2 hours and to 41 °F within 6 hours in all (57, 21 and 5 °C).", source: "FDA Food Code 2022, 3-501.14(A), as adopted by states"}
		reheat = cautionRule{text: "Bring food back to 165 °F (74 °C) in the middle within 2 hours. Keep it at 135 °F (57 °C) or above until it is served.", source: "FDA Food Code 2022, 3-403.11 and 3-501.16, as adopted by states"}
	case larder.Practice(practice) == "AU":
		cook = cautionRule{text: "Poultry, mince and stuffing: cook until the middle is at 75 °C. Test with a clean probe.", source: "Victoria Department of Health, advice"}
		cool = cautionRule{text: "Cool cooked food from 60 to 21 °C within 2 hours and to 5 °C within 4 hours more.", source: "Food Standards Code, Standard 3.2.2, as seen quoted"}
		reheat = cautionRule{text: "Bring food back quickly and keep it at 60 °C or above until it is served.", source: "Food Standards Code, Standard 3.2.2"}
	default:
		cook = cautionRule{text: "Poultry, mince, pork and stuffing: cook until the middle is at 75 °C for 30 seconds. Test with a clean probe. (No `practice` is named: this is a strict figure.)", source: "UK Food Standards Agency cooking guidance, as seen quoted"}
		cool = cautionRule{text: "Cool cooked food quickly, have it in the fridge within 90 minutes and keep it at 5 °C or below. (No `practice` is named: these are strict figures.)", source: "UK local-authority guidance"}
		reheat = cautionRule{text: "Bring food back once only, to 82 °C in the middle. (No `practice` is named: this is the strictest figure seen.)", source: "Food Hygiene (Scotland) Regulations 2006, Sch. 4"}
	}
	cook.when = hasFlag(larder.RawPoultry, larder.RawMince, larder.RawPork)
	cool.when = waitsCold
	reheat.when = func(b *builder, m *demand.Making) bool {
		return len(m.Recipe.Pauses) > 0 && waitsCold(b, m)
	}
	rice.when = hasFlag(larder.Rice)
	return []cautionRule{
		cook,
		cool,
		reheat,
		rice,
		{when: hasFlag(larder.KidneyBean), text: "Dried kidney beans: soak for at least 5 hours, throw the water away, and boil hard for 30 minutes in fresh water. Never start them in a slow cooker.", source: "FDA advice, as seen quoted"},
		{when: hasFlag(larder.RawEgg), text: "Raw or lightly cooked egg is not for everyone: ask first, and use pasteurised egg where you are in doubt.", source: "common practice, no source"},
		{when: hasFlag(larder.RawShell, larder.Sprouts), text: "Shellfish and sprouted seeds: buy them from someone who can say where they come from, keep them cold, and cook them right through unless you know better.", source: "common practice, no source"},
		{when: hasFlag(larder.Honey), text: "No honey for children under 12 months, raw or cooked.", source: "Québec public health advice, as seen quoted"},
		{when: usesTool("mandoline", "slicer"), text: "Mandoline and slicer: guard on, hand protected, and stop before the stub.", source: "common practice, no source"},
		{when: blendsHot, text: "Hot liquid in a blender: no more than half full, lid vented and held down with a cloth.", source: "common practice, no source"},
		{when: says("deep-fry", "deep fry", "deep fat"), text: "Deep fat: dry food, pan no more than half full, never left alone. No water on burning oil: turn off the heat and smother it.", source: "common practice, no source"},
		{when: says("caramel"), text: "Hot sugar sticks and burns: long sleeves, and cold water within reach.", source: "common practice, no source"},
	}
}

// allergens says what the listed ingredients contain, by the list of the
// practice (the UK's when nobody names one), and which are not known.
func (b *builder) allergens(makings []*demand.Making, practice string) string {
	list := practice
	if len(larder.Builtin().Groups(list)) == 0 {
		list = "UK"
	}
	var names []string
	label := false
	for _, m := range makings {
		for _, l := range m.Reading.Lines {
			contents := contentsOf(l.Recipe.Scope.Entry(l.Key), l.Name)
			for _, a := range larder.Builtin().Regulate(list, contents) {
				if !slices.Contains(names, a.Named()) {
					names = append(names, a.Named())
				}
				label = label || a.Depends
			}
		}
	}
	if len(names) == 0 {
		return ""
	}
	slices.Sort(names)
	text := "By what is listed here this contains " + strings.Join(names, ", ") + "."
	return text + " What a maker adds is on its label: read every label, and ask your guests."
}

// contentsOf is what the writer's larder says an ingredient contains, else
// what the built-in one says.
func contentsOf(e *ast.Entry, name string) []larder.Content {
	if e != nil {
		for _, f := range e.Facts {
			if f.Key == "contains" {
				var out []larder.Content
				for _, n := range f.Names {
					if s, ok := larder.Builtin().Substance(n.Text); ok {
						out = append(out, larder.Content{Substance: s})
					}
				}
				return out
			}
		}
	}
	if it, ok := larder.Builtin().Find(name); ok {
		return it.Contains
	}
	return nil
}
