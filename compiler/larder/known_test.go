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

// What a thing is for, where it lies and what it comes in pieces of hides nothing either;
// what it lies in is kept where that brings something.
func TestKnowPhrases(t *testing.T) {
	for written, want := range map[string]string{
		"butter at room temperature": "butter", "milk at blood heat": "milk", "eggs from the fridge": "egg", "nuts of your choice": "nuts", "cream to pour": "cream",
		"a block of tofu": "", "block of tofu": "tofu", "prawns in their shells": "prawn", "anchovy fillets in olive oil": "anchovy", "cod off the bone": "cod",
		"sesame seeds for sprinkling": "sesame seed", "mango chunks": "mango", "parmesan shavings": "parmesan", "juice of half a lemon": "lemon", "plus extra flour": "plain flour",
		"beef mince 5% fat": "minced beef", "herring in mustard sauce": "", "prawns in sesame oil": "", "tuna in mayonnaise": "", "block of grobbins": "", "bread in milk": "",
	} {
		k, ok := Builtin().Know(written)
		require.Equal(t, want != "", ok, written)
		if ok {
			require.Equal(t, want, k.Item.Name, written)
		}
	}
}

// What stands behind its kind, as on a label or in a ledger, is known; what "with" brings is
// left out only where it holds nothing. Common practice, no source.
func TestKnowTurnsALabelAbout(t *testing.T) {
	for name, is := range map[string]string{
		"mustard seeds black": "mustard seed", "sesame seeds black": "black sesame seed", "curry powder mild": "curry powder", "oil walnut": "walnut oil",
		"corned beef tin": "corned beef", "halloumi block": "halloumi", "tomatoes tin": "chopped tomatoes", "camembert wheel": "camembert",
		"gorgonzola dolce": "gorgonzola", "cottage cheese with chives": "cottage cheese", "chocolate milk": "chocolate milk",
		"stock pot vegetable": "vegetable stock pot", "pâté with pistachios": "", "sauce soy dark": "", "meat nut": "", "pie apple": "",
	} {
		k, ok := Builtin().Know(name)
		require.Equal(t, is != "", ok, name)
		if ok {
			require.Equal(t, is, k.Item.Name, name)
		}
	}
	pot, _ := Builtin().Know("vegetable stock pot")
	require.False(t, pot.Item.Has("beef"), "no beef in a pot of vegetable stock")
}
