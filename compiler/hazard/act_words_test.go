package hazard

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// "for" does not end in the word "or": what is cut for toast is not toasted.
func TestOpenersAreWholeWords(t *testing.T) {
	require.False(t, opens("beat the eggs with the cream as for toast", []string{"toast"}))
	require.False(t, opens("slice the thighs into strips for fry", []string{"fry"}))
	require.True(t, opens("grill or fry the thighs", []string{"fry"}))
	require.True(t, opens("turn them and fry them", []string{"fry"}))
	require.True(t, opens("next day fry the rice", []string{"fry"}))
}
