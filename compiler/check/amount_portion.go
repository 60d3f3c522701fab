package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// tooMuch asks about amounts that nobody eats.
var tooMuch = &Rule{
	Code: "D206", Title: "A great deal for one portion.", Family: Amounts, Severity: diag.Question,
	What:    "Divided by the portions, a dish has more than 15 g salt, 15 g of a ground spice, 10 g baking powder or dried yeast, 250 g sugar, 150 g butter or 1.2 kg meat or fish for each. What goes into brine, a cure, a crust, jam or a frying pan full of fat is let pass.",
	Why:     "A slip between spoons and grams, or between serves 4 and serves 40, spoils a whole pot.",
	Fix:     "Correct the amount or the portions; if it is meant so, `allow D206: ` and the reason.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    100 g fine salt\n  method\n    - Stew the leeks with the fine salt. | ring low | work 8 min\n",
	At:      "5:5",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    10 g fine salt\n  method\n    - Stew the leeks with the fine salt. | ring low | work 8 min\n",
	Sources: []string{"common practice, no source: the limits are generous"},
	Check: func(p *Pass) {
		p.eachLine(func(r *resolve.Recipe, l *resolve.Line) {
			if r.Base || r.Serves == nil || r.Serves.High.Sign() <= 0 || l.Quantity == nil || l.From != nil || l.Product != nil || l.Carried != "" {
				return
			}
			most, what, fine := portionLimit(l)
			if most == 0 {
				return
			}
			words := wordsAbout(r, l)
			if fine != nil && fine.MatchString(words) || fine == brined && inWater.MatchString(words) && speaks(r, poured) {
				return
			}
			low, ok := gramsAtLeast(l)
			if !ok {
				return
			}
			each := low.Div(r.Serves.High)
			if !quantity.Int(most).Less(each) || strings.HasSuffix(l.Key, "salt") && quantity.Int(saltCrust).Less(each) {
				return
			}
			p.Report(l.AmountAt, "%s of %s for each portion: more than %s is rarely meant", grams(r, each), l.Name, grams(r, quantity.Int(most))).
				Because("%s to a portion is usual at the most. %s", what, "A slip between spoons and grams, or between serves 4 and serves 40, spoils a whole pot").
				WithHelp("correct the amount, or `serves`")
		})
	},
}

// saltCrust is from how many grams of salt for each on nobody takes it for a
// seasoning. Common practice, no source.
const saltCrust = 100

var (
	brined  = mustCompile(`(?i)\b(brine|cure|cured|crust|pickle|bury|rinse|wash|weep|drain|jar|jars|preserve|bed)\b`)
	inWater = mustCompile(`(?i)\bwater\b`) // which is poured off, with most of its salt
	poured  = mustCompile(`(?i)\b(drain|strain|lift|scoop|discard|refresh|pour (off|away)|dry)`)
	jammed  = mustCompile(`(?i)\b(jam|jelly|marmalade|syrup|cordial|caramel|fudge|toffee|candy|jars?|preserve|chutney|sorbet|meringues?)\b`)
	deepFat = mustCompile(`(?i)\b(deep-fry|deep-fried|fry|confit|clarify|clarified|brioche)\b`)
	bony    = mustCompile(`(?i)\b(stock|broth|bones?|carcass|carcasses|shells?|head|whole)\b`)
)

// portionLimit is the most grams of a thing that one portion plausibly has, in
// words too, and what in its sentences makes any amount of it plausible (nil:
// nothing). Common practice, no source. 0: no limit is known.
func portionLimit(l *resolve.Line) (most int64, what string, fine *pattern) {
	it, part := itemOf(l)
	if it == nil || part != "" && part != "leaf" {
		return 0, "", nil
	}
	switch {
	case strings.HasSuffix(l.Key, "salt"):
		return 15, "A teaspoon or two", brined
	case it.Name == "baking powder" || it.Name == "bicarbonate of soda" || strings.Contains(it.Name, "yeast") && !strings.Contains(it.Name, "fresh"):
		return 10, "A teaspoon", nil
	case it.Counter == "spices" && l.Quantity.Dim != quantity.None && l.Quantity.Dim != quantity.Word:
		return 15, "A tablespoon", nil
	case strings.HasSuffix(it.Name, "sugar"):
		return 250, "A cupful", jammed
	case it.Name == "butter" || strings.HasSuffix(it.Name, " butter") && it.Has(larder.Dairy):
		return 150, "Half a block", deepFat
	case it.Counter == "butcher" || it.Counter == "fishmonger":
		return 1200, "A pound or two", bony
	}
	return 0, "", nil
}

// wordsAbout are the title, the line and every sentence that takes of it.
func wordsAbout(r *resolve.Recipe, l *resolve.Line) string {
	words := []string{r.Name, l.Name, l.Note.Text}
	for _, s := range r.Steps {
		words = append(words, s.Prose.Text)
	}
	if r.Reading == nil {
		return strings.Join(words, " ")
	}
	words = words[:3]
	for _, sr := range r.Reading.Steps {
		for _, t := range sr.Takes {
			if t.Line == l {
				words = append(words, sr.Step.Prose.Text)
				break
			}
		}
	}
	return strings.Join(words, " ")
}

// gramsAtLeast is the least that a line can weigh.
func gramsAtLeast(l *resolve.Line) (quantity.Number, bool) {
	n := l.Quantity.Value.Low
	switch l.Quantity.Dim {
	case quantity.Mass:
		return n, true
	case quantity.Volume:
		low, _, ok := densities(l)
		return n.Mul(low), ok
	case quantity.None:
		it, _ := itemOf(l)
		if it == nil {
			return n, false
		}
		p, ok := it.Piece("", l.Size, l.Recipe.Country())
		if !ok {
			return n, false
		}
		return n.Mul(p.Grams.Value), true
	}
	return n, false
}
