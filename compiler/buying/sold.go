package buying

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
)

// sold is what the shop has for a name: the whole name, else without the words of what the
// cook does to it. What is cooked, frozen or tinned lies elsewhere in the shop.
func sold(name string) (*larder.Item, bool) {
	if it, ok := larder.Builtin().Find(name); ok {
		return it, true
	}
	if k := larder.Builtin().Named(name); k != nil && k.Part == "" && !k.Changed {
		return k.Item, true
	}
	return nil, false
}

// atHome are words of what is done to a thing once it is at home: cold butter, soft butter
// and butter are one block.
var atHome = strings.Fields(`soft softened melted beaten whisked crumbled torn chopped sliced diced cubed grated shredded crushed cold warm hot chilled cooled
	lukewarm tepid ice-cold refrigerated room-temperature roughly finely coarsely thinly thickly lightly freshly well very gently trimmed halved quartered
	picked snipped hand-torn deseeded seeded peeled packed firmly`)

// bare is a name without words of what is done at home; itself where it has others too, or
// where nobody knows what is left.
func bare(name string) string {
	k := larder.Builtin().Named(name)
	if k == nil || k.Part != "" || k.Changed || len(k.Left) == 0 {
		return name
	}
	if _, whole := larder.Builtin().Find(name); whole {
		return name
	}
	words := strings.Fields(name)
	for _, left := range k.Left {
		i := slices.IndexFunc(words, func(w string) bool { return larder.Fold(w) == left })
		if i < 0 || !slices.Contains(atHome, left) {
			return name
		}
		words = slices.Delete(words, i, i+1)
	}
	if len(words) == 0 {
		return name
	}
	return strings.Join(words, " ")
}
