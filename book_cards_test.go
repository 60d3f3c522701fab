package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/page"
)

// A box of cards: a divider before each chapter with its name on a tab, tabs that follow
// each other at other places, and on every card where it is filed, as the index and the other
// cards say it.
func TestABookAsABoxOfCards(t *testing.T) {
	tree, err := load.Path("examples/family-notebook")
	require.NoError(t, err)
	doc := compiled(tree, compiler.Options{Card: true, Sheets: []sheets.Kind{sheets.Prep, sheets.Book}}).Documents[0]
	require.True(t, doc.Bound)
	filed := map[string]string{}
	chapters, n := []string{}, 0
	for _, s := range doc.Sheets {
		switch s.Kind {
		case sheets.Chapter:
			chapters, n = append(chapters, s.Title), 0
		case sheets.Prep:
			n++
			require.Equal(t, fmt.Sprintf("%s %d", chapters[len(chapters)-1], n), s.Filed, s.Title)
			filed[s.Title] = s.Filed
		}
	}
	for _, paper := range []page.Paper{page.Card6x4, page.Card5x3} {
		b := asPrinted(page.Lay(doc, page.Options{Paper: paper}))
		last := -1.0
		index := ""
		cards := map[string]string{}
		for k, p := range b.Pages {
			s := doc.Sheets[p.Sheet]
			switch s.Kind {
			case sheets.Index:
				index += strings.Join(b.paras[k], "\n") + "\n"
			case sheets.Prep:
				require.Contains(t, b.words[k], s.Filed, "%s: %s", paper.Name, s.Title)
				cards[s.Title] += strings.Join(b.paras[k], "\n") + "\n"
			case sheets.Chapter:
				if !b.divides(k) {
					continue // its second card
				}
				var tab *draw.Rect
				white := ""
				for _, o := range p.Ops {
					if r, ok := o.(*draw.Rect); ok && r.Fill && r.H > 15 {
						tab = r
					}
					if x, ok := o.(*draw.Text); ok && x.White {
						white += x.Str
						require.True(t, x.X > tab.X && x.X+x.W < tab.X+tab.W, "%s: the name of %s lies on its tab", paper.Name, s.Title)
					}
				}
				require.Equal(t, s.Title, white)
				require.NotEqual(t, last, tab.X, "the tab of %s stands where the one before does", s.Title)
				last = tab.X
			}
		}
		for name, at := range filed {
			require.Contains(t, index, "\n"+name+" "+at+"\n", paper.Name)
		}
		for _, s := range doc.Sheets {
			for _, r := range notesOf(s) {
				if r.Page != "" {
					to := doc.Sheets[slices.IndexFunc(doc.Sheets, func(x sheets.Sheet) bool { return "#"+x.ID == r.Link })]
					require.Contains(t, strings.ReplaceAll(cards[s.Title], "\u00a0", " "), ", "+to.Filed, "%s: %s speaks of %s", paper.Name, s.Title, to.Title)
				}
			}
		}
	}
}

// divides tells whether page k begins its sheet.
func (b *printedBook) divides(k int) bool {
	return slices.ContainsFunc(b.Sheets, func(s page.Start) bool { return s.Page == k })
}

// notesOf are the runs of a recipe's small notes that are never left out.
func notesOf(s sheets.Sheet) (out []sheets.Run) {
	for _, b := range s.Blocks {
		if p, ok := b.(*sheets.Prose); ok && s.Kind == sheets.Prep && !p.Spare {
			for _, q := range p.Paras {
				out = append(out, q.Runs...)
			}
		}
	}
	return out
}

// No card is there for a story: with the stories left out there are as many.
func TestAStoryCostsNoCard(t *testing.T) {
	tree, err := load.FS(bigBook(30), ".", "", "long")
	require.NoError(t, err)
	full := compiled(tree, compiler.Options{Card: true, Sheets: []sheets.Kind{sheets.Prep, sheets.Book}}).Documents[0]
	lean := *full
	lean.Sheets = slices.Clone(full.Sheets)
	dropped := 0
	for i, s := range lean.Sheets {
		lean.Sheets[i].Blocks = slices.DeleteFunc(slices.Clone(s.Blocks), func(b sheets.Block) bool {
			p, ok := b.(*sheets.Prose)
			if ok && p.Spare {
				dropped++
			}
			return ok && p.Spare
		})
	}
	require.Greater(t, dropped, 10)
	with, without := page.Lay(full, page.Options{Paper: page.Card6x4}), page.Lay(&lean, page.Options{Paper: page.Card6x4})
	require.Len(t, with.Pages, len(without.Pages))
}

// A line or two are no reason for another card: they go on the one before, in smaller letters.
// A recipe stands on both sides of one card of 6x4, and a long title is small enough for its card.
func TestNoCardForALineOrTwo(t *testing.T) {
	tree, err := load.Path("examples/family-notebook")
	require.NoError(t, err)
	doc := compiled(tree, compiler.Options{Card: true, Sheets: []sheets.Kind{sheets.Prep, sheets.Book}}).Documents[0]
	doc.Sheets[0].Title = "The collected and at last corrected dishes of a house on a hill above the harbour, with notes"
	for _, paper := range []page.Paper{page.Card6x4, page.Card5x3} {
		b := page.Lay(doc, page.Options{Paper: paper})
		sides := map[int]int{}
		for k, p := range b.Pages {
			sides[p.Sheet]++
			s := doc.Sheets[p.Sheet]
			if s.Kind != sheets.Prep || sides[p.Sheet] == 1 || k+1 < len(b.Pages) && b.Pages[k+1].Sheet == p.Sheet {
				continue
			}
			lines := map[int]bool{}
			for _, o := range p.Ops {
				if x, ok := o.(*draw.Text); ok {
					lines[int(x.Y)] = true
				}
			}
			least := 6 // the running lines among them
			if paper.Name == page.Card5x3.Name {
				least = 4
			}
			require.GreaterOrEqual(t, len(lines), least, "%s: %s", paper.Name, s.Title)
		}
		require.Equal(t, 1, sides[0], "%s: the title", paper.Name)
		for i, n := range sides {
			if paper.Name == page.Card6x4.Name && doc.Sheets[i].Kind == sheets.Prep {
				require.LessOrEqual(t, n, 2, "%s: on both sides of one card", doc.Sheets[i].Title)
			}
		}
	}
}
