package hazard_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// A by-product holds what went in by its step, and what no step is read to take; not the
// mustard of the sauce that is spooned on later, nor what is only on the table. The whole
// dish, drawn beside it, still holds all.
func TestAByProductHoldsWhatWentInByItsStep(t *testing.T) {
	text := `menu Lunch
  covers 4
  course One
    Soup
dish Soup
  serves 4
  gather
    500 ml   bird broth
    100 g    carrots
  method
    - Simmer the carrots in the bird broth. | ring low | leave 10 min
dish Pie
  serves 4
  gather
    500 ml   bird broth
    300 g    cold bird
  method
    - Heat the cold bird in the bird broth. | ring low | leave 10 min
base Cold bird
  makes 900 g
  gather
    1        chicken
    100 g    celery
    2 litres water
    50 g     mustard
    60 g     pecans
    for serving
      40 g     sesame seeds
  method
    - Poach the chicken with the celery in the water. | ring low | leave 1 h | core 75 C
    - Strain. | work 5 min | makes 1 litre bird broth
    - Carve the chicken and spoon on the mustard. | work 5 min
`
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	m := resolve.Build(tree, diags)
	holds := func(things []hazard.Thing) (out []string) {
		return hazard.AllergensOf("UK", things).Contains
	}
	for _, r := range m.Recipes {
		switch r.Name {
		case "Soup":
			require.Equal(t, []string{"celery", "pecan"}, holds(hazard.AllThings(r.Reading)))
		case "Pie":
			require.Equal(t, []string{"celery", "mustard", "pecan", "sesame"}, holds(hazard.AllThings(r.Reading)))
		}
	}
	for _, meal := range demand.Meals(m, demand.Options{}, diags) {
		for _, mk := range meal.Makings {
			if mk.Serving != nil {
				require.Equal(t, []string{"celery", "pecan"}, holds(hazard.ThingsIn(mk)))
			}
		}
	}
}
