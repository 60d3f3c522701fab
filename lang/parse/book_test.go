package parse_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// A chapter may have a preface; a dish that is called About loses nothing by it.
func TestAboutInAChapter(t *testing.T) {
	read := func(text string) (*ast.Book, diag.List) {
		var found diag.List
		f := parse.File(source.New("a.tamis", text), &found)
		return f.Blocks[0].(*ast.Book), found
	}
	b, found := read("book House book\n  for Bea, who asked\n  about\n    We ate it all.\n  chapter Soups\n    about\n      First of all, *soup*.\n\n      Two paragraphs: of it.\n    Leek pot\n    About\n  chapter Sweets\n    about\n    Jam\n")
	require.Zero(t, found.Len())
	require.Equal(t, "for Bea, who asked", "for "+b.Items[0].(*ast.For).Text.Text)
	require.Equal(t, "We ate it all.", b.Items[1].(*ast.About).Text.Text)
	soups, sweets := b.Items[2].(*ast.Chapter), b.Items[3].(*ast.Chapter)
	require.Equal(t, "First of all, *soup*.\n\nTwo paragraphs: of it.", soups.About.Text.Text)
	names := func(c *ast.Chapter) (out []string) {
		for _, r := range c.Refs {
			out = append(out, r.Ref.Text)
		}
		return out
	}
	require.Equal(t, []string{"Leek pot", "About"}, names(soups))
	require.Nil(t, sweets.About)
	require.Equal(t, []string{"about", "Jam"}, names(sweets))

	_, found = read("book A\n  chapter B\n    about\n      One.\n    about\n      Two.\n    Jam\n")
	require.Equal(t, 1, found.Len(), "prose twice")
}
