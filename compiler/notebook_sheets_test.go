package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

const twoRecipes = "dish Leek pot\n  serves 4\n  gather\n    500 g leeks, sliced\n    40 g butter\n  method\n    - Melt the butter, add the leeks and cook them until soft. | ring low | watch 12 min\n\n" +
	"base White sauce\n  makes 600 ml\n  gather\n    600 ml whole milk\n    40 g plain flour\n  method\n    - Whisk the flour into the milk and boil. | ring low | work 8 min\n"

func kindsOf(d *sheets.Document) (out []sheets.Kind) {
	for _, s := range d.Sheets {
		out = append(out, s.Kind)
	}
	return out
}

// A book is a list of its recipes and the recipes; what is asked for is what is printed.
func TestABookPrintsWhatIsAskedFor(t *testing.T) {
	of := func(kinds ...sheets.Kind) []sheets.Kind {
		return kindsOf(pages(t, twoRecipes, compiler.Options{Sheets: kinds}))
	}
	require.Equal(t, []sheets.Kind{sheets.Overview, sheets.Prep, sheets.Prep}, of())
	require.Equal(t, []sheets.Kind{sheets.Shopping}, of(sheets.Shopping))
	require.Equal(t, []sheets.Kind{sheets.Overview, sheets.Prep, sheets.Prep, sheets.Shopping}, of(sheets.Prep, sheets.Shopping))
	require.Equal(t, []sheets.Kind{sheets.Overview}, of(sheets.Overview, sheets.CostCard))
}

// What a recipe gathers stands once: in the list above its steps.
func TestABookSaysWhatIsGatheredOnce(t *testing.T) {
	d := pages(t, twoRecipes, compiler.Options{})
	s := sheetOf(t, d, sheets.Prep, "Leek pot")
	require.Equal(t, []string{"500 g | leeks, sliced", "40 g | butter"}, rows(s))
	require.Empty(t, steps(s)[0].Takes)
	for i := range d.Sheets {
		if d.Sheets[i].Kind != sheets.Prep {
			continue
		}
		for _, c := range cautionsOn(&d.Sheets[i]) {
			require.Empty(t, c.Source, "the sources stand once, with the list of recipes")
		}
	}
}

// A book says whom a dish serves; what a recipe makes stays as it is written.
func TestABookSaysWhomADishServes(t *testing.T) {
	text := "book House\n  chapter All\n    Leek pot\n    Rolls\n\n" + twoRecipes + "\ndish Rolls\n  makes 24 rolls for sharing\n  gather\n    500 g plain flour\n  method\n    - Knead the flour with water. | work 8 min\n"
	r := compileText(t, text, compiler.Options{Sheets: []sheets.Kind{sheets.Book}})
	require.Len(t, r.Documents, 1, "%v", r.Diags.Sorted())
	require.Equal(t, "serves 4", sheetOf(t, r.Documents[0], sheets.Prep, "Leek pot").Facts[0])
	require.Equal(t, "makes 24 rolls for sharing", sheetOf(t, r.Documents[0], sheets.Prep, "Rolls").Facts[0])
}
