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

// One thing that is made has a weight; only of several has each.
func TestOneLoafIsNotEach(t *testing.T) {
	of := func(makes string) string {
		text := "book House\n  chapter All\n    Leek pot\n    Loaf\n\n" + twoRecipes + "\nbase Loaf\n  makes " + makes + "\n  gather\n    500 g plain flour\n  method\n    - Knead the flour with water. | work 8 min\n"
		r := compileText(t, text, compiler.Options{Sheets: []sheets.Kind{sheets.Book}})
		require.Len(t, r.Documents, 1, "%v", r.Diags.Sorted())
		return sheetOf(t, r.Documents[0], sheets.Prep, "Loaf").Facts[0]
	}
	require.Equal(t, "makes 1 loaf, 740 g", of("1 loaf, 740 g each"))
	require.Equal(t, "makes 12 loaves, 60 g each", of("12 loaves, 60 g each"))
}

// What goes with what is said on both pages; what one draws on the other is said so, and no
// second time.
func TestABookSaysBothWaysWhatGoesWithWhat(t *testing.T) {
	text := "book House\n  chapter All\n    Leek pot\n    Gravy\n    Rolls\n\n" + twoRecipes + `
base Gravy
  makes 500 ml
  goes with Pie
  gather
    500 ml stock
  method
    - Boil the stock. | ring high | work 5 min

dish Pie
  serves 4
  goes with Gravy, Rolls, Green peas
  gather
    200 ml Gravy
    400 g  minced beef
  method
    - Brown the minced beef and stir in the Gravy. | ring medium | work 9 min

dish Rolls
  serves 4
  gather
    500 g plain flour
  method
    - Knead the flour with water. | work 8 min
`
	r := compileText(t, text, compiler.Options{Sheets: []sheets.Kind{sheets.Book}})
	require.Len(t, r.Documents, 1, "%v", r.Diags.Sorted())
	foot := func(name string) (out []string) {
		for _, b := range sheetOf(t, r.Documents[0], sheets.Prep, name).Blocks {
			if p, ok := b.(*sheets.Prose); ok && p.Small {
				for _, para := range p.Paras {
					out = append(out, sheets.Words(para.Runs))
				}
			}
		}
		return out
	}
	require.Equal(t, []string{"Goes with Rolls; Green peas.", "Uses Gravy."}, foot("Pie"))
	require.Equal(t, []string{"Goes with Pie."}, foot("Rolls"))
	require.Equal(t, []string{"Used in Pie."}, foot("Gravy"))
}

// A chapter of which only words are written yet keeps them; one of nothing is not there.
func TestAChapterWithWordsAlone(t *testing.T) {
	text := "book House\n  chapter Later\n    about\n      Nothing is in it yet.\n  chapter All\n    Leek pot\n\n" + twoRecipes
	r := compileText(t, text, compiler.Options{Sheets: []sheets.Kind{sheets.Book}})
	require.Len(t, r.Documents, 1, "%v", r.Diags.Sorted())
	s := sheetOf(t, r.Documents[0], sheets.Chapter, "Later")
	require.Len(t, s.Blocks, 1)
	require.Equal(t, "Nothing is in it yet.", sheets.Words(s.Blocks[0].(*sheets.Prose).Paras[0].Runs))
}
