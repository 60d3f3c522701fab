package check

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/lang/ast"
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

// leaf is one thing in a dish: a line of its own list, and the thing itself,
// which a base may bring.
type leaf struct {
	line *resolve.Line // of the dish
	own  *resolve.Line // of the list that the thing stands in
	it   *larder.Item  // nil: not known
}

// contains is what a thing contains: what the writer's larder says, else what
// the built-in one says.
func (l leaf) contains() []larder.Content {
	if f := factOf(l.own.Recipe, l.own.Key, "contains"); f != nil {
		return contentsSaid(f)
	}
	if l.it == nil {
		return nil
	}
	return l.it.Contains
}

// contentsSaid is what a `contains` names.
func contentsSaid(f *ast.Fact) (out []larder.Content) {
	for _, n := range f.Names {
		if s, ok := larder.Builtin().Substance(n.Text); ok {
			out = append(out, larder.Content{Substance: s})
		}
	}
	return out
}

// leaves are all things in some lines, through bases and by-products.
func leaves(lines []*resolve.Line) (out []leaf) {
	var walk func(top *resolve.Line, ls []*resolve.Line, above []*resolve.Recipe)
	walk = func(top *resolve.Line, ls []*resolve.Line, above []*resolve.Recipe) {
		for _, l := range ls {
			t := top
			if t == nil {
				t = l
			}
			from := l.From
			if l.Product != nil && l.Product.Recipe != l.Recipe {
				from = l.Product.Recipe
			}
			if from != nil && from.Reading != nil && !slices.Contains(above, from) {
				walk(t, from.Reading.Lines, append(slices.Clone(above), from))
				continue
			}
			it, _ := itemOf(l)
			out = append(out, leaf{t, l, it})
		}
	}
	walk(nil, lines, nil)
	return out
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
