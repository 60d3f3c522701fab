package hazard_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/hazard"
)

// Jars that keep in the fridge are not for the shelf.
func TestJarsForTheFridgeAreNotForTheShelf(t *testing.T) {
	jarred := func(keeps string) bool {
		return trace(t, "base Curd\n  makes 1 kg\n"+keeps+"  gather\n    1 kg     cucumbers\n  method\n    - Fill the cucumbers into clean jars. | work 10 min\n").Facts(1, &hazard.Eaters{})["jar"]
	}
	require.False(t, jarred("  keeps 4 days, fridge\n"))
	require.True(t, jarred("  keeps 6 months, cupboard\n"))
}
