package check_test

import (
	"context"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
)

// A cook with cups and ounces is told of cups and ounces, in every finding.
func TestFindingsAreInTheWritersUnits(t *testing.T) {
	text := `kitchen Porch
  rules US
  cooks Ada
  oven main, 2 shelves
  rings 2
  vessel skillet, holds 2 quarts
menu Supper
  covers 40
  course Main
    Stew
    Broth bowls
    Roast
    Pancakes
dish Stew
  serves 4
  gather
    2 lb     boneless chicken thighs
    6 cups   water
    1/2 cup (3 lb) plain flour
    4 lb     fine salt
  method
    - Brown the chicken, pour in the water with the flour and all but 1 cup of the salt. | ring medium | in skillet | watch 10 min
    - Strain. | work 2 min | makes 1 pint broth
base Crumbs
  makes 3 lb
  keeps 2 days, fridge
  gather
    1 lb plain flour
  method
    - Bake the flour. | oven 350 F | leave 20 min
base Sauce
  makes nearly 1 quart
  gather
    1 cup milk
  method
    - Boil the milk. | ring low | watch 5 min
dish Broth bowls
  serves 4
  gather
    3 quarts broth
    2 lb crumbs
    1 quart sauce
  method
    - Pour the broth and the sauce over the crumbs. | work 5 min
dish Roast
  serves 4
  gather
    4 lb lamb leg
  method
    - Roast the lamb leg. | oven 350 F | leave 2 h | core 145 F
dish Pancakes
  serves 4
  gather
    2 cups plain flour
    3 cups milk
    2 eggs
  method
    - Whisk half the milk with the flour and the eggs. | work 5 min
    - Fry. | ring medium | watch 10 min
`
	mended := strings.NewReplacer("3 quarts broth", "1/2 cup broth", "makes 3 lb", "makes 12 oz", "4 lb     fine salt", "4 lb     sugar", "of the salt", "of the sugar").Replace(text)
	metric := regexp.MustCompile(`\d ?(g|kg|ml|cl|dl|litres?)\b`)
	for _, c := range []struct {
		text  string
		codes []string
	}{
		{text, []string{"D107", "D112", "D205", "D208", "U202"}},
		{mended, []string{"H113", "H141", "D206"}},
	} {
		tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(c.text)}}, ".", "", "")
		require.NoError(t, err)
		r := compiler.Compile(context.Background(), tree, compiler.Options{NoPages: true, PlanAll: true})
		codes := map[string]bool{}
		for _, d := range r.Diags.Sorted() {
			codes[d.Code] = true
			require.False(t, metric.MatchString(d.Message), "%s %s", d.Code, d.Message)
			for _, other := range d.Related {
				require.False(t, metric.MatchString(other.Text), "%s %s", d.Code, other.Text)
			}
		}
		for _, code := range c.codes {
			require.True(t, codes[code], "%s is not among %v", code, codes)
		}
	}
}
