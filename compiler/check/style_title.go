package check

import (
	"iter"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// titlePromise asks about a title that names what the dish has not.
var titlePromise = &Rule{
	Code: "E105", Title: "The title promises what is not in it.", Family: Style, Severity: diag.Question,
	What:    "A word of the title is a fruit, a vegetable, a meat, a fish, a nut, a spice or the like, and neither the list, nor that of a base it draws on, nor a sentence has it. A hint where the list has a thing that the larder does not know.",
	Why:     "The guest who ordered lemon cake looks for the lemon.",
	Fix:     "Put it in, or change the title; if the dish is known by that name, `allow E105: ` and the reason.",
	Bad:     "dish Lemon cake\n  serves 8\n  gather\n    225 g plain flour\n    225 g butter\n  method\n    - Rub the butter into the plain flour. | work 8 min\n    - Bake. | oven 180 C | leave 40 min\n",
	At:      "1:6",
	Good:    "dish Lemon cake\n  serves 8\n  gather\n    225 g plain flour\n    225 g butter\n    1 lemon, zested\n  method\n    - Rub the butter and the lemon into the plain flour. | work 8 min\n    - Bake. | oven 180 C | leave 40 min\n",
	Sources: []string{"Associated Press, recipe guidelines of 2015 (seen as an excerpt)"},
	After:   Demanded,
	Check: func(p *Pass) {
		none := lacks{}
		for _, r := range p.Recipes() {
			if len(r.Lines) == 0 || mockTitle.MatchString(r.Name) {
				continue
			}
			if it, ok := larder.Builtin().Find(r.Name); ok && it != nil {
				continue // the whole title is the name of a thing
			}
			for _, w := range promises(r) {
				if none.of(r, w.item, w.words) {
					how := diag.Question
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

var mockTitle = mustCompile(`(?i)\b(mock|fake|style|without|no|not|vegan|vegetarian|poor man's)\b`)

// plainWords are words of titles that are names of ingredients and mean a form
// or a colour.
var plainWords = wordSet("butter cream milk sugar flour salt pepper bread toast stock broth water yeast custard noodle gelatine ice spice herb " +
	"oil dough pastry pudding sauce mash wheat rye corn rose cake turkey hare rabbit snapper bass skate pollock char date swede peach melon olive plum cherry sole port mint " +
	"rice treacle pasta bean lentil nut berry mushroom cabbage lettuce onion chilli squash pumpkin sausage ham bacon steak sprout salad seed grain")

func wordSet(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

// plainCounters are those whose goods a title names by themselves; of the
// shelves of baking and dry goods only plainGoods, for the rest are dishes too.
var (
	plainCounters = []string{"greengrocer", "butcher", "fishmonger", "spices"}
	plainGoods    = wordSet("vanilla chocolate honey almond hazelnut walnut pecan cashew pistachio peanut raisin sultana prune barley oats polenta quinoa coffee marzipan tapioca semolina")
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
	for at, word := range titleWords(raw) {
		before := strings.ToLower(strings.TrimSpace(raw[:at]))
		if strings.HasSuffix(before, " for") || plainWords[larder.Fold(word)] {
			continue
		}
		it, ok := larder.Builtin().Decoy(word)
		if !ok || it.Has(larder.Generic) || !slices.Contains(plainCounters, it.Counter) && !plainGoods[larder.Fold(word)] {
			continue
		}
		out = append(out, promise{word, it, title.File.Span(title.Start+at, title.Start+at+len(word))})
	}
	return out
}

// kinds are the flags by which one food stands for another: shin is beef.
var kinds = []larder.Flag{larder.Beef, larder.Lamb, larder.Pork, larder.Poultry, larder.Game, larder.Fish, larder.Shellfish}

// lacks remembers which recipes have not a thing, nor what they draw on: many
// draw on the same bases.
type lacks map[lack]bool

type lack struct {
	recipe *resolve.Recipe
	item   *larder.Item
	word   string
}

// of tells whether neither a recipe nor what it draws on has a thing.
func (n lacks) of(r *resolve.Recipe, it *larder.Item, word string) bool {
	seen := map[*resolve.Recipe]bool{}
	if n.hasIt(r, it, word, seen) {
		return false
	}
	for r := range seen { // all that can be reached from any of them was looked at
		n[lack{r, it, word}] = true
	}
	return true
}

// hasIt tells whether a recipe, or what it draws on, has a thing.
func (n lacks) hasIt(r *resolve.Recipe, it *larder.Item, word string, seen map[*resolve.Recipe]bool) bool {
	if seen[r] || n[lack{r, it, word}] {
		return false
	}
	seen[r] = true
	stem := larder.Fold(word)
	for _, l := range r.Lines {
		if containsWord(l.Name, stem) || containsWord(l.Note.Text, stem) || containsWord(l.Brackets.Text, stem) {
			return true
		}
		if have, _ := itemOf(l); have != nil && (alike(have, it) || containsWord(have.Name, stem) || slices.ContainsFunc(have.Other, func(name string) bool { return containsWord(name, stem) })) {
			return true
		}
		if l.From != nil && n.hasIt(l.From, it, word, seen) || l.Product != nil && n.hasIt(l.Product.Recipe, it, word, seen) {
			return true
		}
	}
	return slices.ContainsFunc(r.Steps, func(s *resolve.Step) bool { return containsWord(s.Prose.Text, stem) })
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

// mayBegin tells whether a part of a word has the first letter of a stem: making
// it singular changes none of them.
func mayBegin(word, stem string) bool {
	if stem == "" || stem[0] >= 0x80 {
		return true
	}
	for i := 0; i < len(word); i++ {
		if (i == 0 || word[i-1] == '-') && (word[i] >= 0x80 || lowByte(word[i]) == stem[0]) {
			return true
		}
	}
	return false
}

// wordMayBegin tells whether a word of a text may have the first letter of a stem.
func wordMayBegin(text, stem string) bool {
	if stem == "" || stem[0] >= 0x80 {
		return true
	}
	letter := false // the byte before is one
	for i := 0; i < len(text); i++ {
		c := lowByte(text[i])
		if c >= 0x80 || c == stem[0] && !letter {
			return true
		}
		letter = 'a' <= c && c <= 'z'
	}
	return false
}

// titleWords are the runs of letters of a text, with hyphens and apostrophes
// between letters, and where they begin.
func titleWords(text string) iter.Seq2[int, string] {
	return func(yield func(int, string) bool) {
		from := -1 // of the word
		for i, c := range text {
			switch {
			case unicode.IsLetter(c):
				if from < 0 {
					from = i
				}
				continue
			case from < 0:
				continue
			case c == '-' || c == '\'' || c == '’':
				if next, _ := utf8.DecodeRuneInString(text[i+utf8.RuneLen(c):]); unicode.IsLetter(next) {
					continue
				}
			}
			if !yield(from, text[from:i]) {
				return
			}
			from = -1
		}
		if from >= 0 {
			yield(from, text[from:])
		}
	}
}

// containsWord tells whether a text has a word that begins with a stem: "corn"
// is in cornmeal.
func containsWord(text, stem string) bool {
	if !wordMayBegin(text, stem) {
		return false
	}
	for _, w := range titleWords(text) {
		if !mayBegin(w, stem) {
			continue
		}
		for _, part := range strings.Split(larder.Fold(w), "-") {
			if strings.HasPrefix(larder.Fold(part), stem) || len(stem) > 4 && strings.HasPrefix(stem, larder.Fold(part)) && len(part) > 3 {
				return true
			}
		}
	}
	return false
}
