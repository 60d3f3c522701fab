package compiler_test

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// What a prep sheet says a dish contains is the union of what went in: walked here
// by the amounts that demand has drawn, from making to making, and not by the
// names that the sheets go by. What one line holds is the larder's to say. It holds for
// every book of the tests, which nobody could walk by hand; allergens_drawn_test.go has a
// walk and a table of its own, for how blocks hang together, and allergens_examples_test.go
// the names of real kitchens.

// wentIn are the lines bought for a making and for all it draws on.
func wentIn(m *demand.Making, seen map[*demand.Making]bool) (out []*resolve.Line) {
	if seen[m] {
		return nil
	}
	seen[m] = true
	for _, a := range m.Lines {
		if a.Source != nil && a.Source != m {
			out = append(out, wentIn(a.Source, seen)...)
			continue
		}
		if a.Line.Product != nil && a.Line.Product.Recipe == m.Recipe {
			continue
		}
		out = append(out, a.Line)
	}
	return out
}

func holds(lines []*resolve.Line, list string) (out []string) {
	for _, l := range lines {
		for _, c := range hazard.AllergensOf(list, hazard.Things([]*resolve.Line{l})).Contains {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	slices.Sort(out)
	return out
}

var listedHere = regexp.MustCompile(`Contains, by what is listed here: ([^.]*)\.`)

// sheetHolds is what a prep sheet says it contains.
func sheetHolds(s *sheets.Sheet) (out []string) {
	if m := listedHere.FindStringSubmatch(careOn(s)); m != nil {
		out = strings.Split(m[1], ", ")
	}
	slices.Sort(out)
	return out
}

func TestAllergensAreTheUnionOfWhatWentIn(t *testing.T) {
	dirs := textFolders(t)
	more, err := filepath.Glob("../examples/*/menu.tamis")
	require.NoError(t, err)
	for _, f := range more {
		dir := filepath.Dir(f)
		if !slices.ContainsFunc(walked, func(w walk) bool { return w.example == filepath.Base(dir) }) {
			dirs = append(dirs, dir)
		}
	}
	compared := 0
	for _, dir := range dirs {
		compared += sameAllergens(t, folder(t, dir, everySheet), dir)
	}
	require.Greater(t, compared, 40)
}

// sameAllergens compares the prep sheets and the grid of each meal with the walk,
// and returns how many makings it looked at.
func sameAllergens(t *testing.T, r *compiler.Result, where string) (compared int) {
	t.Helper()
	for i, meal := range r.Meals {
		if meal.Menu == nil || i >= len(r.Documents) {
			continue // a card by itself names every option
		}
		list := "UK"
		for _, s := range r.Documents[i].Sheets {
			if s.Kind == sheets.Allergens {
				_, _ = fmt.Sscanf(s.Facts[0], "by the %s list", &list)
			}
		}
		for _, m := range meal.Makings {
			want := holds(wentIn(m, map[*demand.Making]bool{}), list)
			for _, s := range r.Documents[i].Sheets {
				if s.Kind == sheets.Prep && s.Title == m.Recipe.Name && s.Letter == m.Letter {
					require.Equal(t, want, sheetHolds(&s), "%s: %s", where, m.Recipe.Name)
					compared++
				}
				if s.Kind != sheets.Allergens || m.Serving == nil {
					continue
				}
				for _, g := range table(t, &s, 0).Groups {
					for _, row := range g.Rows {
						if runText(row.Cells[0].Runs) == m.Letter {
							require.Equal(t, strings.Join(want, ", "), strings.Join(inGrid(row), ", "), "%s: %s in the grid", where, m.Recipe.Name)
						}
					}
				}
			}
		}
	}
	return compared
}

// inGrid are the allergens that a row of the grid names.
func inGrid(row sheets.Row) (out []string) {
	for _, c := range row.Cells[2:] {
		if text := runText(c.Runs); text != "" && !strings.HasSuffix(text, ": label") {
			out = append(out, text)
		}
	}
	return out
}
