package check

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// titlePromise asks about a title that names what the dish has not.
var titlePromise = &Rule{
	Code: "E105", Title: "the title promises what is not in it", Family: Style, Severity: diag.Query,
	What:    "A word of the title is a fruit, a vegetable, a meat, a fish, a nut, a spice or the like, and neither the list, nor that of a base it draws on, nor a sentence has it. A hint where the list has a thing that the larder does not know.",
	Why:     "The guest who ordered lemon cake looks for the lemon.",
	Fix:     "Put it in, or change the title; if the dish is known by that name, `allow E105: ` and the reason.",
	Bad:     "dish Lemon cake\n  serves 8\n  gather\n    225 g plain flour\n    225 g butter\n  method\n    - Rub the butter into the plain flour. | work 8 min\n    - Bake. | oven 180 C | leave 40 min\n",
	At:      "1:6",
	Good:    "dish Lemon cake\n  serves 8\n  gather\n    225 g plain flour\n    225 g butter\n    1 lemon, zested\n  method\n    - Rub the butter and the lemon into the plain flour. | work 8 min\n    - Bake. | oven 180 C | leave 40 min\n",
	Sources: []string{"Associated Press, recipe guidelines of 2015 (seen as an excerpt)"},
	After:   Demanded,
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			if len(r.Lines) == 0 || mockTitle.MatchString(r.Name) {
				continue
			}
			if it, ok := larder.Builtin().Find(r.Name); ok && it != nil {
				continue // the whole title is the name of a thing
			}
			for _, w := range promises(r) {
				if !hasIt(r, w.item, w.words, map[*resolve.Recipe]bool{}) {
					how := diag.Query
					if !allKnown(r) {
						how = diag.Hint
					}
					p.ReportAs(how, w.at, "%s names %s, and there is none in it", r.Name, strings.ToLower(w.words)).
						WithHelp("put it in, or change the title")
				}
			}
		}
	},
}

var (
	mockTitle = mustCompile(`(?i)\b(mock|fake|style|without|no|not|vegan|vegetarian|poor man's)\b`)
	titleWord = mustCompile(`[\p{L}]+(?:['’-][\p{L}]+)*`)
)

// plainWords are words of titles that are names of ingredients and mean a form
// or a colour.
var plainWords = strings.Fields("butter cream milk sugar flour salt pepper bread toast stock broth water yeast custard noodle gelatine ice spice herb " +
	"oil dough pastry pudding sauce mash wheat rye corn rose cake turkey hare rabbit snapper bass skate pollock char date swede peach melon olive plum cherry sole port mint " +
	"rice treacle pasta bean lentil nut berry mushroom cabbage lettuce onion chilli squash pumpkin sausage ham bacon steak sprout salad seed grain")

// plainCounters are those whose goods a title names by themselves; of the
// shelves of baking and dry goods only plainGoods, for the rest are dishes too.
var (
	plainCounters = []string{"greengrocer", "butcher", "fishmonger", "spices"}
	plainGoods    = strings.Fields("vanilla chocolate honey almond hazelnut walnut pecan cashew pistachio peanut raisin sultana prune barley oats polenta quinoa coffee marzipan tapioca semolina")
)

type promise struct {
	words string
	item  *larder.Item
	at    source.Span
}

// promises are the words of a title that name something to eat.
func promises(r *resolve.Recipe) (out []promise) {
	title := r.NameAt
	raw := title.Text()
	for _, m := range titleWord.FindAllStringIndex(raw, -1) {
		word := raw[m[0]:m[1]]
		before := strings.ToLower(strings.TrimSpace(raw[:m[0]]))
		if strings.HasSuffix(before, " for") || slices.Contains(plainWords, larder.Fold(word)) {
			continue
		}
		it, ok := larder.Builtin().Decoy(word)
		if !ok || it.Has(larder.Generic) || !slices.Contains(plainCounters, it.Counter) && !slices.Contains(plainGoods, larder.Fold(word)) {
			continue
		}
		out = append(out, promise{word, it, title.File.Span(title.Start+m[0], title.Start+m[1])})
	}
	return out
}

// kinds are the flags by which one food stands for another: shin is beef.
var kinds = []larder.Flag{larder.Beef, larder.Lamb, larder.Pork, larder.Poultry, larder.Game, larder.Fish, larder.Shellfish}

// hasIt tells whether a recipe, or what it draws on, has a thing.
func hasIt(r *resolve.Recipe, it *larder.Item, word string, seen map[*resolve.Recipe]bool) bool {
	if seen[r] {
		return false
	}
	seen[r] = true
	stem := larder.Fold(word)
	for _, l := range r.Lines {
		if containsWord(l.Name, stem) || containsWord(l.Note.Text, stem) || containsWord(l.Brackets.Text, stem) {
			return true
		}
		if have, _ := itemOf(l); have != nil && (alike(have, it) || containsWord(have.Name+" "+strings.Join(have.Other, " "), stem)) {
			return true
		}
		if l.From != nil && hasIt(l.From, it, word, seen) || l.Product != nil && hasIt(l.Product.Recipe, it, word, seen) {
			return true
		}
	}
	return containsWord(allProse(r), stem)
}

// allKnown tells whether the larder knows every line; what it does not know
// may be the thing under another name.
func allKnown(r *resolve.Recipe) bool {
	for _, l := range r.Lines {
		if it, _ := itemOf(l); it == nil && l.From == nil && l.Product == nil {
			return false
		}
	}
	return true
}

func alike(have, it *larder.Item) bool {
	if have == it {
		return true
	}
	for _, k := range kinds {
		if have.Has(k) && it.Has(k) {
			return true
		}
	}
	for _, c := range have.Contains {
		if larder.Fold(c.Substance) == larder.Fold(it.Name) {
			return true
		}
	}
	return slices.Contains(larder.Builtin().Givers(have), it)
}

// containsWord tells whether a text has a word that begins with a stem: "corn"
// is in cornmeal.
func containsWord(text, stem string) bool {
	for _, w := range titleWord.FindAllString(text, -1) {
		for _, part := range strings.Split(larder.Fold(w), "-") {
			if strings.HasPrefix(larder.Fold(part), stem) || len(stem) > 4 && strings.HasPrefix(stem, larder.Fold(part)) && len(part) > 3 {
				return true
			}
		}
	}
	return false
}
