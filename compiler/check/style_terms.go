package check

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// unexplained hints at words of the trade, in a book that wants them explained.
var unexplained = &Rule{
	Code: "E106", Title: "A word of the trade, not explained.", Family: Style, Severity: diag.Hint,
	What:    "The book has `style terms explained`, and a sentence uses a word that cooks at home do not know, with no bracket after it and no word of it in `about`.",
	Why:     "Who does not know what to deglaze means leaves out the best of the sauce.",
	Fix:     "Say it in plain words, or explain it in a bracket the first time.",
	Bad:     "book Ferry book\n  style terms explained\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    100 ml white wine\n  method\n    - Soften the leeks. | ring low | work 8 min\n    - Deglaze with the white wine. | ring high | work 2 min\n",
	At:      "11:7",
	Good:    "book Ferry book\n  style terms explained\n\ndish Leek pot\n  serves 4\n  gather\n    600 g leeks\n    100 ml white wine\n  method\n    - Soften the leeks. | ring low | work 8 min\n    - Pour in the white wine and scrape up what sticks to the pan. | ring high | work 2 min\n",
	Sources: []string{"a recipe editor's list of queries (seen as an excerpt)", "common practice, no source, for the words"},
	Check: func(p *Pass) {
		told := map[*resolve.Recipe]map[string]bool{}
		p.eachStep(func(r *resolve.Recipe, _ *resolve.Step, prose saying) {
			if !p.Model.House(r.Span).Terms {
				return
			}
			if told[r] == nil {
				told[r] = map[string]bool{}
			}
			for _, m := range tradeTerm.FindAllStringIndex(prose.text, -1) {
				word := strings.ToLower(prose.text[m[0]:m[1]])
				if told[r][word] || strings.Contains(strings.ToLower(aboutText(r)), word) {
					continue
				}
				told[r][word] = true
				if rest := strings.TrimLeft(prose.text[m[1]:], " "); strings.HasPrefix(rest, "(") || strings.HasPrefix(rest, ":") {
					continue
				}
				p.Report(prose.place(m[0], m[1]), "not every reader knows what %q means: %s", word, tradeMeaning(word)).
					WithHelp("say it in plain words, or explain it in a bracket")
			}
		})
	},
}

// tradeWords is what each word means, for the message.
var tradeWords = map[string]string{
	"bain-marie": "a bath of hot water", "beurre manié": "butter kneaded with flour", "brunoise": "very small dice", "chiffonade": "leaves cut in thin ribbons",
	"chinois": "a fine conical sieve", "concasse": "peeled, seeded and chopped", "confit": "cooked slowly in fat", "deglaze": "loosen what sticks to the pan with liquid",
	"julienne": "thin sticks", "macerate": "soften in sugar or liquid", "mandoline": "a fixed blade to slice over", "mirepoix": "diced onion, carrot and celery",
	"mount": "whisk in cold butter", "panade": "bread soaked for a mince", "quenelle": "an egg shape made with two spoons", "roux": "flour cooked in fat",
	"salamander": "a grill from above", "spatchcock": "cut out the backbone and flatten", "tamis": "a flat drum sieve", "temper": "bring slowly to the heat of the rest",
	"tourné": "turned into barrel shapes", "velouté": "a sauce of stock and roux",
}

var tradeTerm = func() *pattern {
	var words []string
	for _, w := range slices.Sorted(maps.Keys(tradeWords)) {
		words = append(words, regexp.QuoteMeta(w))
	}
	return mustCompile(`(?i)\b(?:` + strings.Join(words, "|") + `)\b`)
}()

func tradeMeaning(word string) string { return tradeWords[word] }
