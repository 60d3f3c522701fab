package check

import (
	"cmp"
	"maps"
	"slices"
)

// sortedKeys are the keys of a map in order, so that findings are the same
// every time.
func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
