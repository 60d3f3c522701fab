package format_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/source"
)

// Lines that name a part before the whole, several things at once, or two of
// which one is wanted, are laid out one thing a line; each comment stays, once.
func TestLinesOfSeveralThings(t *testing.T) {
	text := "dish A\n  gather\n    1 tsp vanilla, or\n    # a mild one\n    10 ml lemon juice | from the shop\n    2 tbsp each oil and vinegar\n    3 eggs plus 1 yolk\n" +
		"    whites of 2 eggs\n    the juice of 2 lemons, strained\n    1 lb ham\n    or bacon\n"
	want := "dish A\n  gather\n    # a mild one\n    1 tsp    vanilla\n      instead 10 ml lemon juice                | from the shop\n    2 tbsp   oil\n    2 tbsp   vinegar\n    3        eggs\n" +
		"    1        egg yolk\n    2        egg whites\n    2        lemons, juice, strained\n    1 lb     ham\n      instead bacon\n"
	out, found := format.Source(source.New("x.tamis", text))
	for _, d := range found {
		require.Less(t, d.Severity, diag.Error, d.Message)
	}
	require.Equal(t, want, string(out))
	again, _ := format.Source(source.New("x.tamis", want))
	require.Equal(t, want, string(again))
}
