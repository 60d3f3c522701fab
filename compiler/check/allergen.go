package check

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
)

// listOf is whose list of allergens holds; that of the United Kingdom, the same
// as that of the European Union, where nobody names a practice with one.
func listOf(c practice.Choice) string {
	if len(larder.Builtin().Groups(c.Written)) > 0 {
		return larder.Practice(c.Written)
	}
	return "UK"
}

// law names the list of allergens in a message.
func law(list string) string {
	switch list {
	case "US":
		return "FD&C Act 201(qq), as seen quoted"
	case "CA", "AU":
		return "the national list, from memory"
	}
	return "Regulation (EU) 1169/2011 Annex II, as seen reproduced"
}

// linesOf are the lines of a dish as a menu makes it, or with its own options.
func linesOf(m *demand.Making, r *resolve.Recipe) []*resolve.Line {
	if m != nil {
		return m.Reading.Lines
	}
	if r.Reading != nil {
		return r.Reading.Lines
	}
	return r.Lines
}

// sameSubstance tells whether one name covers another: nuts any nut, gluten any
// cereal with gluten.
func sameSubstance(said, known string) bool {
	if said == known {
		return true
	}
	if said != "nuts" && said != "gluten" {
		return false
	}
	a := larder.Builtin().Regulate("EU", []larder.Content{{Substance: said}})
	b := larder.Builtin().Regulate("EU", []larder.Content{{Substance: known}})
	return len(a) > 0 && len(b) > 0 && a[0].Number == b[0].Number
}

// list prints words as a sentence does: "milk, eggs and wheat".
func wordList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
