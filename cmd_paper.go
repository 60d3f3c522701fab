package main

import (
	"fmt"
	"slices"

	"tamis/compiler/sheets"
	"tamis/render/page"
)

// cardSheets are what a card holds well: what one person carries about.
var cardSheets = []sheets.Kind{sheets.Prep, sheets.Mise, sheets.Shopping, sheets.DateLabels}

// fitting is the sheets that go on the paper of o, of those asked for: none
// said is the usual pack. note says what was left out, and why; it may be empty.
func (o buildOptions) fitting(asked []sheets.Kind) (kinds []sheets.Kind, note string, err error) {
	paper, _ := page.PaperNamed(o.paper)
	said := len(asked) > 0 && len(asked) < len(sheets.Kinds()) // not all, and not the usual pack
	switch {
	case paper.Card && said && slices.Contains(asked, sheets.Timeline):
		return nil, "", fmt.Errorf("the timeline does not go on a card of %s inches: take a4, letter or a5, or the run sheet, which says the same", paper.Name)
	case paper.Card && said && slices.Contains(asked, sheets.Wall):
		return nil, "", fmt.Errorf("the wall sheet does not go on a card of %s inches: take a4 or letter, or the run sheet, which says the same", paper.Name)
	case paper.Card && len(asked) == 0:
		return []sheets.Kind{sheets.Prep, sheets.Book}, "", nil // a book, where there is one
	case paper.Card && !said:
		return cardSheets, "cards carry recipes, mise-en-place, shopping list and labels; the other sheets want a4, letter or a5, or to be named in --sheets", nil
	case o.booklet && said && slices.Contains(asked, sheets.DateLabels):
		return nil, "", fmt.Errorf("labels are cut out of a whole sheet of paper: print them without --booklet")
	case o.booklet && len(asked) > 0 && !said:
		for _, k := range asked {
			if k != sheets.DateLabels {
				kinds = append(kinds, k)
			}
		}
		return kinds, "labels are cut out, so the booklet has none: print them by themselves, with --sheets labels", nil
	}
	return asked, "", nil
}

// thick is how many sheets are still folded and stapled well (common practice,
// no source).
const thick = 20

// howToFold is what is said of a booklet of n sheets of paper.
func howToFold(title string, n int, paper string) string {
	count := fmt.Sprintf("%d sheets of %s", n, paper)
	if n == 1 {
		count = "one sheet of " + paper
	}
	s := fmt.Sprintf("%s: a booklet of %s; print on both sides, turned on the short edge, at full size, then fold and staple", title, count)
	if n > thick {
		s += fmt.Sprintf(" (more than %d sheets fold badly: choose fewer with --sheets)", thick)
	}
	return s
}
