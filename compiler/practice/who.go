package practice

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/ast"
)

// OfMeal is the practice a meal is cooked by: that of the menu or its kitchen,
// else of its first recipe.
func OfMeal(m *resolve.Model, meal *demand.Meal) Choice {
	if meal.Menu != nil && meal.Menu.Practice != "" {
		return Choose(meal.Menu.Practice)
	}
	if meal.Kitchen != nil && meal.Kitchen.Practice != "" {
		return Choose(meal.Kitchen.Practice)
	}
	for _, mk := range meal.Makings {
		if c := OfRecipe(m, mk.Recipe); c.Written != "" {
			return c
		}
	}
	return Choice{}
}

// OfRecipe is the practice of a recipe that is looked at by itself: its own, else
// that of the only kitchen of its folder or of one above, else of the book. The
// model may be nil: then no book is asked.
func OfRecipe(m *resolve.Model, r *resolve.Recipe) Choice {
	for _, it := range r.AST.Items {
		if c, ok := it.(*ast.Common); ok && c.Key == "practice" {
			return Choose(c.Text.Text)
		}
	}
	for s := r.Scope; s != nil; s = s.Parent {
		if len(s.Kitchens) == 1 {
			for _, k := range s.Kitchens {
				if k.Practice != "" {
					return Choose(k.Practice)
				}
			}
		}
	}
	if m == nil {
		return Choice{}
	}
	for _, b := range m.Books {
		for _, it := range b.Items {
			if c, ok := it.(*ast.Common); ok && c.Key == "practice" {
				return Choose(c.Text.Text)
			}
		}
	}
	return Choice{}
}
