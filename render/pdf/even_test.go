package pdf

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/render/draw"
)

// A row of a table is heard with a cell for every column, those without words too,
// so that each stands under its head; a title over a group says over how many.
func TestRowsAreOfAsManyCells(t *testing.T) {
	all := newTags(1)
	table := &draw.Tag{Role: "Table", Cols: 3}
	put := func(cells ...*draw.Tag) {
		for _, c := range cells {
			all.piece(0, all.of(c))
		}
	}
	head, group, row := table.Part("TR"), table.Part("TR"), table.Part("TR")
	put(head.Cell("TH", 2), head.Cell("TH", 3), group.Cell("TH", 0), row.Cell("TD", 3), row.Cell("TD", 1))
	all.sorted()
	rows := all.parts[table].kids
	cells := func(i int) (out []string) {
		for _, k := range rows[i].part.kids {
			said := k.part.role
			if len(k.part.kids) == 0 {
				said += " empty"
			}
			out = append(out, said+cellAttributes(k.part))
		}
		return out
	}
	require.Equal(t, []string{"TD empty", "TH", "TH"}, cells(0))
	require.Equal(t, []string{"TH/ColSpan 3"}, cells(1))
	require.Equal(t, []string{"TD", "TD empty", "TD"}, cells(2))
}
