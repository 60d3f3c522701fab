package build

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/sheets"
)

// A card is for every day, so it says each option of a choice: what is made, and
// below it what is gathered and done instead.

// others are the options of a card that were not chosen.
func (b *builder) others(m *demand.Making) (out []sheets.Block) {
	for _, o := range m.Others {
		t := b.listOf(optionLines(o))
		steps := &sheets.Steps{}
		number := 0
		for _, sr := range o.Making.Reading.Steps {
			number++
			if m.Reading.Of(sr.Step) == nil {
				steps.Items = append(steps.Items, b.step(o.Making, sr, number))
			}
		}
		out = append(out, &sheets.Heading{Text: "Or " + o.Option.Label, Note: b.optionHolds(o)})
		if t != nil {
			out = append(out, t)
		}
		if len(steps.Items) > 0 {
			out = append(out, steps)
		}
	}
	return out
}

// chosenOf says which options a card begins with, where others follow.
func chosenOf(m *demand.Making) string {
	var out []string
	for _, c := range m.Recipe.Choices {
		for _, o := range c.Options {
			if len(m.Others) > 0 && m.Reading.Has(o) {
				out = append(out, o.Label)
			}
		}
	}
	return strings.Join(out, ", ")
}

func optionLines(o *demand.Other) (out []*demand.Amount) {
	for _, a := range o.Making.Lines {
		if a.Line.Option == o.Option {
			out = append(out, a)
		}
	}
	return out
}

// optionHolds says what a recipe contains with an option, by what is listed.
func (b *builder) optionHolds(o *demand.Other) string {
	a := hazard.AllergensOf(hazard.AllergenList(b.practice()), hazard.ThingsIn(o.Making))
	return sideBySide(prefixed("contains, by what is listed: ", strings.Join(a.Contains, ", ")), notListed(a))
}

// notListed says what only a label or the maker can tell.
func notListed(a hazard.Allergens) string {
	return sideBySide(prefixed("read the label of: ", strings.Join(a.LabelNames(), ", ")), prefixed("not known: ", strings.Join(a.Unknown, "; ")))
}
