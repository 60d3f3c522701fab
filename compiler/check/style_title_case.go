package check

import (
	"unicode"
	"unicode/utf8"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// fewTitles is from how many titles on a house has a habit. Common practice,
// no source.
const fewTitles = 4

// titleCase hints at the one title that is set with capitals.
var titleCase = &Rule{
	Code: "E101", Title: "A title with other capitals than the rest.", Family: Style, Severity: diag.Hint,
	What:    "Of five titles or more, four in five begin with one capital, and this one has a capital on every long word; or the other way about. Titles of one or two words are not counted.",
	Why:     "Side by side in a list of contents one of them looks like a brand.",
	Fix:     "Write all titles in one way.",
	Bad:     titles("Leek And Potato Soup"),
	At:      "13:6",
	Good:    titles("Leek and potato soup"),
	Sources: []string{"Associated Press, recipe guidelines of 2015 (seen as an excerpt)"},
	Whole:   true,
	Check: func(p *Pass) {
		var plain, capital []*resolve.Recipe
		for i, r := range p.Recipes() {
			switch p.noted()[i].title {
			case 'a':
				plain = append(plain, r)
			case 'A':
				capital = append(capital, r)
			}
		}
		odd, rest := capital, plain
		if len(plain) < len(capital) {
			odd, rest = plain, capital
		}
		if len(rest) < fewTitles || len(odd)*fewTitles > len(rest) {
			return
		}
		for _, r := range odd {
			p.Report(r.NameAt, "the other titles have other capitals than %s", r.Name).
				See(rest[0].NameAt, "such as this").WithHelp("write all titles in one way")
		}
	},
}

// caseOf is 'A' for a title with a capital on every word of four letters or
// more, 'a' for one with small letters on all of them but the first, and 0 for
// what is neither, or too short to tell.
func caseOf(title string) rune {
	capitals, small, words := 0, 0, 0
	for _, w := range titleWords(title) {
		if words++; words == 1 || utf8.RuneCountInString(w) < 4 {
			continue
		}
		if c, _ := utf8.DecodeRuneInString(w); unicode.IsUpper(c) {
			capitals++
		} else {
			small++
		}
	}
	switch {
	case words < 3:
	case small == 0 && capitals > 0:
		return 'A'
	case capitals == 0 && small > 0:
		return 'a'
	}
	return 0
}

func titles(last string) string {
	text := ""
	for _, t := range []string{"Turnips in broth", "Carrots with cumin", "Beans and barley", "Peas with mint", last} {
		text += "dish " + t + "\n  serves 4\n\n"
	}
	return text[:len(text)-1]
}
