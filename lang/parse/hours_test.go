package parse_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
)

// A chutney is made days before the meal: the figure is not a broken date.
func TestHoursDaysBefore(t *testing.T) {
	f := tree(t, "menu A\n  hours 4 days before, 18:00 to 21:00, Asha\n")
	h := first[*ast.Hours](t, f)
	require.Equal(t, 4, h.DaysBefore)
	require.True(t, h.Date.IsZero())
	require.Equal(t, ast.Clock{Hour: 18}, h.From)
	require.Equal(t, ast.Clock{Hour: 21}, h.To)
	require.Equal(t, "Asha", h.Cooks[0].Text)
}
