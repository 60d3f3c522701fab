package practice

import (
	"tamis/compiler/demand"
	"tamis/compiler/resolve"
)

// OfMeal is the practice a meal is cooked by: that of the menu or its kitchen,
// else of its first recipe.
func OfMeal(books []*resolve.Book, meal *demand.Meal) Choice {
	if meal.Menu != nil && meal.Menu.Practice != "" {
		return Choose(meal.Menu.Practice)
	}
	if meal.Kitchen != nil && meal.Kitchen.Practice != "" {
		return Choose(meal.Kitchen.Practice)
	}
	for _, mk := range meal.Makings {
		if c := OfRecipe(books, mk.Recipe); c.Written != "" {
			return c
		}
	}
	return Choice{}
}

// OfRecipe is the practice of a recipe that is looked at by itself: its own, else
// that of the only kitchen of its folder or of one above, else of a
// book.
func OfRecipe(books []*resolve.Book, r *resolve.Recipe) Choice {
	if own := r.Own.Practice; !own.Span.IsZero() {
		return Choose(own.Text)
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
	for _, b := range books {
		if !b.Practice.Span.IsZero() {
			return Choose(b.Practice.Text)
		}
	}
	return Choice{}
}
