package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPluralAndBack(t *testing.T) {
	for _, w := range [][2]string{
		{"onion", "onions"},
		{"potato", "potatoes"},
		{"tomato", "tomatoes"},
		{"mango", "mangoes"},
		{"avocado", "avocados"},
		{"espresso", "espressos"},
		{"leaf", "leaves"},
		{"loaf", "loaves"},
		{"meatloaf", "meatloaves"},
		{"knife", "knives"},
		{"half", "halves"},
		{"calf", "calves"},
		{"berry", "berries"},
		{"strawberry", "strawberries"},
		{"cherry", "cherries"},
		{"anchovy", "anchovies"},
		{"turkey", "turkeys"},
		{"kidney", "kidneys"},
		{"radish", "radishes"},
		{"peach", "peaches"},
		{"dish", "dishes"},
		{"box", "boxes"},
		{"glass", "glasses"},
		{"mousse", "mousses"},
		{"quiche", "quiches"},
		{"brioche", "brioches"},
		{"olive", "olives"},
		{"chive", "chives"},
		{"clove", "cloves"},
		{"endive", "endives"},
		{"sieve", "sieves"},
		{"cookie", "cookies"},
		{"brownie", "brownies"},
		{"pie", "pies"},
		{"chilli", "chillies"},
		{"chili", "chilies"},
		{"kiwi", "kiwis"},
		{"zucchini", "zucchinis"},
		{"octopus", "octopuses"},
		{"citrus", "citruses"},
		{"menu", "menus"},
		{"yuzu", "yuzus"},
		{"gateau", "gateaux"},
		{"cheese", "cheeses"},
		{"rose", "roses"},
		{"sauce", "sauces"},
		{"lettuce", "lettuces"},
		{"goose", "geese"},
		{"foot", "feet"},
		{"roe", "roes"},
		{"sloe", "sloes"},
		{"pâté", "pâtés"},
		{"purée", "purées"},
		{"bus", "buses"},
		{"bay-leaf", "bay-leaves"},
		{"Leaf", "Leaves"},
		{"TOMATO", "TOMATOES"},
		{"KNIFE", "KNIVES"},
		{"Berry", "Berries"},
		{"lens", "lenses"},
		{"blintz", "blintzes"},
		{"swede", "swedes"},
		{"pea", "peas"},
		{"tea", "teas"},
		{"roof", "roofs"},
		{"chef", "chefs"},
		{"stomach", "stomachs"},
		{"wrasse", "wrasses"},
		{"tranche", "tranches"},
		{"egg", "eggs"},
		{"date", "dates"},
		{"walnut", "walnuts"},
		{"fig", "figs"},
		{"haggis", "haggises"},
	} {
		require.Equal(t, w[1], Plural(w[0]))
		require.Equal(t, w[0], Singular(w[1]))
		require.Equal(t, w[0], Singular(w[0]), "already one")
		require.Equal(t, w[1], Plural(w[1]), "already many")
	}
	for _, w := range strings.Fields("couscous asparagus hummus molasses cos jus watercress bass sheep salmon coulis clafoutis roux pois frais shepherd's 80s") {
		require.Equal(t, w, Singular(w))
		require.Equal(t, w, Plural(w))
	}
	require.Equal(t, "potatos", Singular("potatos"), "a misspelling is not mended")
	require.NotEqual(t, Fold("potatoes"), Fold("potatos"))
	require.Equal(t, "broccoli", PluralName("broccoli")) // two of it, and no broccolis
	require.Equal(t, "legs of lamb", PluralName("leg of lamb"))
	require.Equal(t, "bay leaves", PluralName("bay leaf"))
}

func TestPluralTablesComeBack(t *testing.T) {
	words := map[string]bool{}
	for _, table := range []map[string]bool{keepsE, takesOes, hardCh, endsInS, unchanging} {
		for w := range table {
			words[w] = true
		}
	}
	for _, w := range irregular {
		words[w.one] = true
	}
	for _, w := range fToVes {
		words[w] = true
	}
	for w := range words {
		require.Equal(t, w, Singular(w))
		require.Equal(t, w, Singular(Plural(w)))
		require.Equal(t, Plural(w), Plural(Plural(w)))
	}
}

func TestFoldMakesNamesOne(t *testing.T) {
	for _, same := range [][]string{
		{"Bay leaf", "bay  LEAVES", "bay\u00A0leaves", "bay\tleaf", " bay leaf", "bay leaf\n"},
		{"crème fraîche", "Cre\u0300me frai\u0302che"},
		{"shepherd's purse", "Shepherd’s purse"},
		{"potato", "potatoes"},
		{"red chilli", "red chillies"},
		{"knife", "knives"},
		{"loaf", "Loaves"},
	} {
		for _, s := range same[1:] {
			require.Equal(t, Fold(same[0]), Fold(s), s)
		}
	}
	for _, differ := range [][2]string{
		{"pâte", "pâté"},
		{"coriander", "coriander seed"},
		{"leaves of lime", "leaf of lime"},
		{"bass", "bas"},
		{"cos", "co"},
		{"onion", "scallion"},
	} {
		require.NotEqual(t, Fold(differ[0]), Fold(differ[1]))
	}
	require.Empty(t, Fold(" \t"))
}

func TestFoldAndPluralsAreStable(t *testing.T) {
	endings := rapid.SampledFrom(strings.Fields("s es ies ses sses ves oes us uses eaux is ches shes xes zzes y f fe o 's - ſ İ ŉ ß µ"))
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.String().Draw(t, "x") + endings.Draw(t, "end") + rapid.SampledFrom([]string{"", "s", " "}).Draw(t, "tail")
		require.Equal(t, Fold(x), Fold(Fold(x)))
		require.Equal(t, Singular(x), Singular(Singular(x)))
		require.Equal(t, Plural(x), Plural(Plural(x)))
	})
	rapid.Check(t, func(t *rapid.T) {
		x := "zq" + rapid.StringMatching(`[a-z]{1,8}`).Draw(t, "x") + rapid.SampledFrom(strings.Fields("a te ce ri o y t n r ch sh f ss")).Draw(t, "end")
		require.Equal(t, Singular(x), Singular(Plural(x)))
	})
}

func FuzzFold(f *testing.F) {
	f.Add("Bay leaves")
	f.Add("\xff’s")
	f.Fuzz(func(t *testing.T, x string) {
		require.Equal(t, Fold(x), Fold(Fold(x)))
		_ = PluralName(x)
	})
}
