package check

import (
	"regexp"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// What a recipe takes for granted and a plan does not: that the butter is soft, and
// the kettle on.

// notCold offers the standing of what is wanted soft, or as warm as the room.
var notCold = &Rule{
	Code: "P307", Title: "Something that should not be cold, and nobody takes it out.", Family: Plan, Severity: diag.Hint,
	What:    "On a menu by the clock, a dish wants something soft or at room temperature, and no step takes it out of the fridge.",
	Why:     "It takes an hour or so, and the plan does not know of it.",
	Fix:     "Write the step; `tamis check --fix --offered` writes it, its time with a `?`.",
	Bad:     tea("100 g butter, softened", ""),
	At:      "10:11",
	Good:    tea("100 g butter, softened", "    - Take the butter out of the fridge. | uses nothing | work 1 min | stand 1 h, up to 2 h, room\n"),
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		p.beforehand(func(r *resolve.Recipe, l *resolve.Line) (string, string) {
			if l.From != nil || l.Product != nil || l.Water || saysAny(r, "room temperature", "out of the fridge", "from the fridge", "soften the "+l.Name, "is soft", "are soft") {
				return "", ""
			}
			words := strings.ToLower(l.Name + ", " + l.Brackets.Text + ", " + l.Note.Text)
			soft := l.Known != nil && l.Known.Item.Counter == "dairy" && (strings.Contains(words, "softened") || strings.Contains(words, ", soft"))
			if !soft && !strings.Contains(words, "room temperature") {
				return "", ""
			}
			return "nobody takes the " + l.Name + " out of the fridge", "Take the " + l.Name + " out of the fridge.\n  | uses nothing | work 1 min ? | stand 1 h, up to 2 h, room ?"
		})
	},
}

// wantedBoiling is water from the kettle: boiled water that has cooled is another thing.
var wantedBoiling = regexp.MustCompile(`\b(boiling|(just|freshly|newly)[ -]boiled)\b`)

// kettle offers the boiling of water that is wanted boiling.
var kettle = &Rule{
	Code: "P308", Title: "Boiling water that nobody boils.", Family: Plan, Severity: diag.Hint,
	What:    "On a menu by the clock, a dish takes boiling water, and no step of it boils any.",
	Why:     "A kettle or a pot takes some minutes and perhaps a ring, and the plan does not know of it.",
	Fix:     "Write the step; `tamis check --fix --offered` writes it, its time with a `?`.",
	Bad:     tea("100 ml boiling water", ""),
	At:      "10:12",
	Good:    tea("100 ml boiling water", "    - Put the kettle on. | uses nothing | work 1 min | leave 5 min\n"),
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		p.beforehand(func(r *resolve.Recipe, l *resolve.Line) (string, string) {
			words := strings.ToLower(l.Name + ", " + l.Brackets.Text + ", " + l.Note.Text)
			if !wantedBoiling.MatchString(words) || !l.Water && !strings.HasSuffix(strings.ToLower(l.Name), "water") || saysAny(r, "kettle", "boil the water", "bring the water") {
				return "", ""
			}
			return "nobody boils the water", "Put the kettle on.\n  | uses nothing | work 1 min ? | leave 5 min ?"
		})
	},
}

// beforehand looks at each line of what a menu by the clock has made: missing says what
// nobody does for it, and the step that does; empty: nothing is wanting. The step is offered
// before the first that takes the thing.
func (p *Pass) beforehand(missing func(*resolve.Recipe, *resolve.Line) (what, step string)) {
	seen := map[*resolve.Line]bool{}
	for _, meal := range p.Meals {
		if m := meal.Menu; m == nil || !m.Asked || m.Serve == nil {
			continue
		}
		for _, m := range meal.Makings {
			for _, a := range m.Lines {
				l := a.Line
				if seen[l] || !mine(m.Recipe, l.NameAt) {
					continue
				}
				seen[l] = true
				what, step := missing(m.Recipe, l)
				at := firstTaker(m, l)
				if what == "" || at == nil || at.Span.File == nil {
					continue
				}
				d := p.Report(l.NameAt, "%s", what).See(at.Prose.Span, "it is wanted here")
				place := at.Span
				place.End = place.Start
				indent := place.File.Text[lineBegin(place):place.Start]
				if strings.TrimSpace(indent) == "" {
					text := "- " + strings.ReplaceAll(step, "\n", "\n"+indent) + "\n" + indent
					d.WithHelp("write a step before it")
					d.Fixes = append(d.Fixes, diag.Fix{Title: "write the step, its time with a `?`", Offered: true, Edits: []diag.Edit{{Span: place, Text: text}}})
				}
			}
		}
	}
}

// lineBegin is where the line of a place begins.
func lineBegin(at source.Span) int {
	return strings.LastIndexByte(at.File.Text[:at.Start], '\n') + 1
}

// firstTaker is the first step that takes of a line; nil: none does.
func firstTaker(m *demand.Making, l *resolve.Line) *resolve.Step {
	for _, sr := range m.Reading.Steps {
		for _, t := range sr.Takes {
			if t.Line == l && !t.Refers {
				return sr.Step
			}
		}
	}
	return nil
}

// saysAny tells whether a step of a recipe says one of some words.
func saysAny(r *resolve.Recipe, words ...string) bool {
	for _, s := range r.Steps {
		text := strings.ToLower(s.Prose.Text)
		for _, w := range words {
			if strings.Contains(text, strings.ToLower(w)) {
				return true
			}
		}
	}
	return false
}

// tea is a menu with a dish that takes one line, and has a step before.
func tea(line, before string) string {
	return "menu Tea\n  covers 4\n  on the table 2027-05-02 16:00\n  course Tea\n    Shortcakes\n\ndish Shortcakes\n  serves 4\n  gather\n    " + line +
		"\n    200 g flour\n  method\n" + before + "    - Work the " + thingOf(line) + " into the flour. | work 10 min\n    - Bake. | oven 180 C | leave 20 min\n"
}

func thingOf(line string) string {
	if strings.Contains(line, "water") {
		return "boiling water"
	}
	return "butter"
}
