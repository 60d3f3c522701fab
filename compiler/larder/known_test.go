package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A word of state, size, origin or cut hides nothing.
func TestKnow(t *testing.T) {
	for written, want := range map[string]string{
		"soft butter": "butter", "butter melted": "butter", "best unsalted butter": "unsalted butter", "roughly chopped peanuts": "peanut", "peeled and chopped carrots": "carrot",
		"large organic eggs": "egg", "eggs beaten": "egg", "fresh full-fat milk": "milk", "ripe Brie": "brie", "finely grated Parmesan": "parmesan",
		"crushed garlic cloves": "garlic", "zest of a large unwaxed lemon": "lemon", "Spanish onions": "onion", "frozen chopped spinach": "frozen spinach",
		"hard-boiled eggs": "egg", "roasted hazelnuts": "hazelnut", "smoked haddock": "smoked haddock", "peppers": "sweet pepper", "diced peppers": "sweet pepper", "pepper": "black pepper",
	} {
		k, ok := Builtin().Know(written)
		require.True(t, ok, written)
		require.Equal(t, want, k.Item.Name, written)
		if k.Name != Fold(written) && k.Part == "" {
			require.Equal(t, len(strings.Fields(written)), len(strings.Fields(k.Name))+len(k.Left), "%s: %v and %s", written, k.Left, k.Name)
		}
	}
	for _, unknown := range []string{"", "soft", "and butter", "roughly chopped", "grobbins", "butter and eggs", "swan yoghurt", "dried asparagus", "ground swan"} {
		_, ok := Builtin().Know(unknown)
		require.False(t, ok, unknown)
	}
	rapid.Check(t, func(t *rapid.T) {
		name := strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"soft", "and", "butter", "of", "chopped", "sprigs", "zest", "ripe", "peppers", "cooked", "a"}), 0, 7).Draw(t, "words"), " ")
		k, ok := Builtin().Know(name)
		if it, found := Builtin().Find(name); found {
			require.Equal(t, it, k.Item, name)
		}
		require.Equal(t, ok, k.Item != nil, name)
	})
}

// What is cooked, soaked or frozen is known by what is in it, and is not weighed
// or called raw as the plain thing is.
func TestChangedThings(t *testing.T) {
	for written, changed := range map[string]bool{"roasted turnips": true, "minced garlic": true, "boiled eggs": true, "cooked quinoa": true, "chopped celery": false, "soft butter": false, "cold milk": false} {
		k, ok := Builtin().Know(written)
		require.True(t, ok, written)
		require.Equal(t, changed, k.Changed, written)
		_, _, weighed := Builtin().FindPart(written)
		require.Equal(t, !changed, weighed, written)
	}
}

// What nobody knows is read by its words, for cautions only.
func TestWithin(t *testing.T) {
	for written, want := range map[string]string{
		"hazelnut crumble": "hazelnut", "bay cream": "cream", "egg tagliatelle": "egg tagliatelle", "peanut butter cups": "peanut butter",
		"nut-free pesto": "", "vegan cream": "", "non-dairy milk": "", "grobbins": "", "biscuits without egg": "",
	} {
		var got []string
		for _, it := range Builtin().Within(written) {
			got = append(got, it.Name)
		}
		require.Equal(t, want, strings.Join(got, " "), written)
	}
}
